package sheet_test

import (
	"testing"

	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/parse/sheet"
)

// Lines of a text in one column, a note in one field and sentences in a cell are
// read as what they are.
func TestTextInCells(t *testing.T) {
	told := func(file, text string) parse.Document { return prose.Printed(file, text) }
	rows := "\"1,35.5,42\"\n\"2,40,55\"\n\"3,44,66\"\n\"4,45,68\"\n"
	for _, c := range []struct {
		name, text   string
		overall, bow float64
	}{
		{"a line in each field", "\"length overall,75 in\"\n\"bow height,18.5 in\"\n\"station (ft),hull girth (in),full girth (in)\"\n" + rows, 75, 18.5},
		{"a note", "\"Title\",\"Text\"\n\"Canoe\",\"Canoe\nLOA 6' 3\"\"\nbow height 18½ in\n\nstation: hull girth / full girth (in)\n1 ft: 35½ / 42\n2 ft: 40 / 55\n3 ft: 44 / 66\n4 ft: 45 / 68\"\n", 75, 18.5},
		{"a sentence", "\"Hello, here is my canoe. She is 6' 3\"\" overall, the bow height is 18 1/2\"\", and that is all for now.\",,\nstation (ft),hull girth (in),full girth (in)\n1,35.5,42\n2,40,55\n3,44,66\n4,45,68\n", 75, 18.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc, err := sheet.CSV("note.csv", []byte(c.text), told)
			if err != nil || len(doc.Surveys) != 1 {
				t.Fatalf("got %d surveys (%v), want 1: %v", len(doc.Surveys), err, doc.Problems)
			}
			s := doc.Surveys[0]
			if s.LengthOverall.Value != parse.Inches(c.overall) || s.BowHeight.Value != parse.Inches(c.bow) {
				t.Errorf("length overall %v, bow height %v; want %g and %g in", s.LengthOverall.Value.In(parse.Inch), s.BowHeight.Value.In(parse.Inch), c.overall, c.bow)
			}
			if len(s.Stations) != 4 || s.Stations[0].HullGirth.Value != parse.Inches(35.5) || s.Stations[3].FullGirth.Value != parse.Inches(68) {
				t.Errorf("stations %+v", s.Stations)
			}
		})
	}
}
