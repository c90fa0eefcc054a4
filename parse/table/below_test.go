package table

import (
	"testing"

	"fairtape/parse"
)

// Measures that stand below the stations, one a line, are read by their labels
// and not by the column that they happen to stand in.
func TestMeasuresBelowStations(t *testing.T) {
	rows := [][]string{
		{"station", "hull girth", "full girth"},
		{"1 ft", "38 1/2", "45 1/2"}, {"2 ft", "38", "51 1/2"}, {"3 ft", "39 1/2", "59"}, {"4 ft", "42 1/2", "67 1/2"}, {"5 ft", "46", "76"},
		{""},
		{"greatest girth at", "8 ft 8 in"},
		{"greatest hull girth", "53"},
		{"greatest full girth", "92"},
	}
	var grid Grid
	for _, row := range rows {
		var cells []Cell
		for _, text := range row {
			cells = append(cells, Cell{Text: text})
		}
		grid.Rows = append(grid.Rows, cells)
	}
	doc := Read("below.csv", []Grid{grid})
	if len(doc.Surveys) != 1 {
		t.Fatalf("%d surveys, want 1", len(doc.Surveys))
	}
	g := doc.Surveys[0].Greatest
	for _, tt := range []struct {
		name string
		got  parse.Reading
		want float64
	}{{"place", g.At, 104}, {"hull girth", g.HullGirth, 53}, {"full girth", g.FullGirth, 92}} {
		if !tt.got.Known || tt.got.Value != parse.Inches(tt.want) {
			t.Errorf("%s: got %v (known: %v), want %v in", tt.name, tt.got.Value.In(parse.Inch), tt.got.Known, tt.want)
		}
	}
}
