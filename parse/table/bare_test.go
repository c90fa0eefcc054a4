package table

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// Of a table without headings the column of the differences tells which are hull
// and full girths, though one number in eight was misread; where two columns may
// be full girths nobody can tell.
func TestBareBesideOpenings(t *testing.T) {
	rows := [][3]float64{
		{41.5, 56.5, 15}, {44, 68.5, 24.5}, {47.5, 79, 31.5}, {50, 86, 36}, {51.5, 90, 38.5}, {52.5, 92.5, 40}, {52.5, 92.5, 40},
		{52.5, 92.5, 40}, {52, 91.5, 39.5}, {50.5, 88.5, 38}, {48.5, 83.5, 35}, {45.5, 75.5, 30}, {42, 66, 24}, {39, 54, 15},
	}
	read := func(third func(row int, v float64) float64) parse.Document {
		var grid Grid
		for i, r := range rows {
			cells := []Cell{{Text: fmt.Sprint(i + 1)}, {Text: fmt.Sprint(r[0])}, {Text: fmt.Sprint(r[1])}, {Text: fmt.Sprint(third(i, r[2]))}}
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
	again := func(row int, _ float64) float64 { return rows[row][1] + float64(row%3)/2 }
	if doc := read(again); len(doc.Surveys) != 0 {
		t.Errorf("two columns that may be full girths: %+v", doc.Surveys[0].Stations)
	}
}

// Openings and hull girths without the full girths are no pair of girths: they
// lie nearest to each other where the boat is widest, though a row at an end,
// which tells most, was not read.
func TestBareOpeningsAndHulls(t *testing.T) {
	var grid Grid
	for i, r := range [][2]string{{"26.5", ""}, {"32", "18.5"}, {"36", "23"}, {"39", "26"}, {"40.5", "29"}, {"42", "30"}, {"43", "31"}, {"43", "31"},
		{"43", "30.5"}, {"42", "30"}, {"41", "28.5"}, {"39", "26.5"}, {"36.5", "23.5"}, {"32.5", "19.5"}, {"28", "14"}} {
		grid.Rows = append(grid.Rows, []Cell{{Text: fmt.Sprint(i + 1)}, {Text: r[0]}, {Text: r[1]}})
	}
	if doc := Read("table", []Grid{grid}); len(doc.Surveys) != 0 {
		t.Errorf("read as %+v", doc.Surveys[0].Stations)
	}
}
