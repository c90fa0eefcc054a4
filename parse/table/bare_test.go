package table

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// Of a table without headings, hull girths and openings beside each other look
// like hull and full girths where the ends cannot be read; the column of the
// differences tells them apart, though one number in eight was misread.
func TestBareBesideOpenings(t *testing.T) {
	rows := [][3]float64{
		{41.5, 56.5, 15}, {44, 68.5, 24.5}, {47.5, 79, 31.5}, {50, 86, 36}, {51.5, 90, 38.5}, {52.5, 92.5, 40}, {52.5, 92.5, 40},
		{52.5, 92.5, 40}, {52, 91.5, 39.5}, {50.5, 88.5, 38}, {48.5, 83.5, 35}, {45.5, 75.5, 30}, {42, 66, 24}, {39, 54, 15},
	}
	read := func(opening func(row int, v float64) float64) parse.Document {
		var grid Grid
		for i, r := range rows {
			cells := []Cell{{Text: fmt.Sprint(i + 1)}, {Text: fmt.Sprint(r[0])}, {Text: fmt.Sprint(r[1])}, {Text: fmt.Sprint(opening(i, r[2]))}}
			if i == len(rows)-1 {
				cells[3].Code = parse.CodeDoubtful
			}
			grid.Rows = append(grid.Rows, cells)
		}
		return Read("table", []Grid{grid})
	}
	doc := read(func(row int, v float64) float64 {
		if row == 5 {
			return 46 // misread
		}
		return v
	})
	if len(doc.Surveys) != 1 {
		t.Fatalf("%d surveys: %v", len(doc.Surveys), doc.Problems)
	}
	for i, st := range doc.Surveys[0].Stations {
		if hull, full := st.HullGirth.Value.In(parse.Inch), st.FullGirth.Value.In(parse.Inch); hull != rows[i][0] || full != rows[i][1] {
			t.Errorf("station %d: %v and %v, want %v", i+1, hull, full, rows[i])
		}
	}
	other := func(row int, v float64) float64 { return v + float64(row%3) }
	if doc := read(other); len(doc.Surveys) != 0 {
		t.Errorf("a column that is no difference: %+v", doc.Surveys)
	}
}
