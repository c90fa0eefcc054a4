package photo

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// Where a column of no measure holds more than the full girths, nobody can tell
// which columns are the girths.
func TestColumnsTold(t *testing.T) {
	for name, test := range map[string]struct {
		third []string // of each row, "" for none
		want  bool
	}{
		"a breadth beside":     {[]string{"25", "31", "33"}, true},
		"one misread":          {[]string{"25", "310", "33"}, true},
		"the full girths":      {[]string{"", "110", "115"}, false},
		"nothing else written": {[]string{"", "", ""}, true},
	} {
		s := parse.Survey{Unit: parse.Inch}
		at := map[string]*freeCell{}
		var problems []parse.Problem
		for i, text := range test.third {
			y := float64(40 * i)
			place := "full " + text + string(rune('a'+i))
			at[place] = &freeCell{text: "60", bounds: box{100, y, 130, y + 20}}
			s.Stations = append(s.Stations, parse.Station{Pair: parse.Pair{FullGirth: parse.Reading{Value: parse.Inches(60), Known: true, Confidence: 1, Source: parse.Source{Place: place}}}})
			if text != "" {
				other := "other " + text
				at[other] = &freeCell{text: text, bounds: box{200, y + 2, 230, y + 22}}
				problems = append(problems, parse.Problem{Code: parse.CodeUnplaced, Source: parse.Source{Place: other}})
			}
		}
		if got := columnsTold(&s, problems, at); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// Half girths beside breadths are no girths of a boat; hull and full girths are,
// of canoes and of what is wider.
func TestRoundHulls(t *testing.T) {
	for name, c := range map[string]struct {
		hull, full []float64 // inches
		want       bool
	}{
		"a canoe":               {[]float64{30, 41.5, 44, 38}, []float64{40, 66, 72, 56}, true},
		"half girths, breadths": {[]float64{15, 21, 22, 19}, []float64{18.5, 31.5, 33.5, 26}, false},
		"openings, hull girths": {[]float64{18.5, 29, 31, 30, 19.5}, []float64{32, 40.5, 43, 42, 32.5}, false},
		"those of a skiff":      {[]float64{26, 33, 35, 31}, []float64{30, 45, 48, 41}, false},
	} {
		s := parse.Survey{Unit: parse.Inch}
		for i := range c.hull {
			known := func(v float64) parse.Reading {
				return parse.Reading{Value: parse.Inches(v), Known: true, Confidence: 1}
			}
			s.Stations = append(s.Stations, parse.Station{Pair: parse.Pair{HullGirth: known(c.hull[i]), FullGirth: known(c.full[i])}})
		}
		if got := roundHulls(&s); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Stations by the foot or halves beside counted ones tell inches; whole numbers
// beside counted stations may be centimetres.
func TestInInches(t *testing.T) {
	for name, c := range map[string]struct {
		stations, girths []string
		want             bool
	}{
		"by the foot, in inches": {[]string{"12", "24", "36"}, []string{"41", "44", "38"}, true},
		"counted, with halves":   {[]string{"1", "2", "3"}, []string{"41", "44 1/2", "38"}, true},
		"counted, whole":         {[]string{"1", "2", "3"}, []string{"91", "99", "85"}, false},
		"by 30 cm":               {[]string{"30", "60", "90"}, []string{"56.5", "60", "51.5"}, false},
		"by 50 cm":               {[]string{"50", "100", "150"}, []string{"56.5", "60", "51.5"}, false},
	} {
		var table freeTable
		for i := range c.stations {
			table.cells = append(table.cells, []freeCell{{text: c.stations[i], sure: 1}, {text: c.girths[i], sure: 1}})
		}
		if got := table.inInches(); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// A first station at the bow itself is no step of the stations.
func TestLead(t *testing.T) {
	for _, first := range []int{0, 1, 2} {
		var table freeTable
		for i := range 5 {
			row := []freeCell{{text: fmt.Sprint(30 * (first + i)), sure: 1}, {text: "41", sure: 1}, {text: "66", sure: 1}}
			if first+i == 0 {
				row[1], row[2] = freeCell{}, freeCell{}
			}
			table.cells = append(table.cells, row)
		}
		if want := float64(max(first, 1) - 1); table.lead() != want {
			t.Errorf("from %d: %v before, want %v", first, table.lead(), want)
		}
	}
}
