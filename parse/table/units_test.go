package table

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// Girths between what is plainly inches and plainly centimetres need more than
// their size.
func TestBySize(t *testing.T) {
	whole := []float64{41, 52, 50, 78, 59, 99, 65, 112, 66, 120, 65, 111}
	halves := []float64{41.5, 52, 50.5, 78, 59.5, 99, 65.5, 112, 66.5, 120, 65.5, 111}
	tenths := []float64{41.5, 52, 50.5, 78, 59.5, 99, 65.2, 112, 66.5, 120, 65.5, 111}
	few := []float64{41.5, 52, 50, 78, 59, 99, 65, 112, 66, 120, 65, 111}
	for name, c := range map[string]struct {
		girths   []float64
		stations parse.Scale
		want     parse.Scale
		unclear  bool
	}{
		"whole":               {whole, parse.Bare, parse.ScaleInch, true},
		"halves":              {halves, parse.Bare, parse.ScaleInch, false},
		"halves, stations cm": {halves, parse.ScaleCM, parse.ScaleCM, false},
		"tenths":              {tenths, parse.Bare, parse.ScaleInch, true},
		"one half":            {few, parse.Bare, parse.ScaleInch, true},
		"larger":              {append(halves[:len(halves):len(halves)], 150), parse.Bare, parse.ScaleInch, true},
	} {
		if got := bySize(c.girths, 0, c.stations, false); got.scale != c.want || got.unclear != c.unclear {
			t.Errorf("%s: %+v, want %v, unclear %v", name, got, c.want, c.unclear)
		}
	}
}

// Bare stations of 30, 60, 90 are centimetres, and so are girths that their size
// leaves open.
func TestStepsTellUnit(t *testing.T) {
	for first, want := range map[string]string{"30": "cm", "1": "in"} {
		step := map[string]int{"30": 30, "1": 1}[first]
		var rows [][]Cell
		for i, pair := range [][2]string{{"65", "87"}, {"70", "107"}, {"77", "127"}, {"83", "142"}, {"87", "151"}, {"81", "136"}} {
			rows = append(rows, []Cell{{Text: fmt.Sprint(step * (i + 1))}, {Text: pair[0]}, {Text: pair[1]}})
		}
		doc := Read("f", []Grid{{Rows: rows}})
		if len(doc.Surveys) != 1 {
			t.Fatalf("%s: %d surveys", first, len(doc.Surveys))
		}
		s := doc.Surveys[0]
		if sure := s.Stations[0].HullGirth.Certain(); string(s.Unit) != want || sure != (want == "cm") {
			t.Errorf("stations from %s: %s, sure %v", first, s.Unit, sure)
		}
	}
}
