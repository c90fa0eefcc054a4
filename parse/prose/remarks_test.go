package prose

import (
	"fmt"
	"testing"

	"fairtape/parse"
	"fairtape/parse/table"
)

// TestRemarksInTables has a sheet whose owner tells in a cell, away from the
// number, that it is not sure.
func TestRemarksInTables(t *testing.T) {
	rows := [][]string{
		{"Length overall", "7 ft 4 in"}, {"Station", "Hull girth", "Full girth"},
		{"1 ft", "30", "40 1/2"}, {"2 ft", "36", "52"}, {"3 ft", "40", "60 1/2"}, {"4 ft", "41 1/2", "63"}, {"5 ft", "40", "61"}, {"6 ft", "36 1/2", "54"},
	}
	for _, tt := range []struct{ remark, doubtful string }{
		{"Not sure of the full girth at 5 ft, it may be 2 inches off.", "60 full_girth"},
		{"Pas sûr de la coque à 3 pi, le ruban a glissé.", "36 hull_girth"},
		{"The old cover was made of green canvas by my uncle.", ""},
		{"We measured on the lawn with two people and one tape.", ""},
	} {
		grid := table.Grid{Name: "Sheet"}
		for i, row := range append(append([][]string{}, rows...), []string{"Remarks", tt.remark}) {
			var cells []table.Cell
			for j, text := range row {
				cells = append(cells, table.Cell{Text: text, Place: "Sheet!" + string(rune('A'+j)) + string(rune('1'+i))})
			}
			grid.Rows = append(grid.Rows, cells)
		}
		doc := table.Read("x.csv", []table.Grid{grid})
		HeedRemarks(&doc)
		if len(doc.Surveys) != 1 {
			t.Fatalf("%q: %d surveys", tt.remark, len(doc.Surveys))
		}
		got := ""
		for _, s := range doc.Surveys[0].Stations {
			for name, r := range map[string]parse.Reading{"hull_girth": s.HullGirth, "full_girth": s.FullGirth} {
				if r.Doubtful() {
					got += fmt.Sprintf("%v %s", s.At.In(parse.Inch), name)
				}
			}
		}
		if got != tt.doubtful {
			t.Errorf("%q: in doubt is %q, want %q", tt.remark, got, tt.doubtful)
		}
	}
}
