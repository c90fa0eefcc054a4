package table

import (
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
