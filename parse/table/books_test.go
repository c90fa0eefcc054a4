package table

import (
	"strings"
	"testing"
)

// What belongs to one sheet of a file may be said on another.
func TestSheetsOfOneFile(t *testing.T) {
	const head = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	const rows = " 12:35.5,42 24:40,55 36:44,66 48:45,68"
	const table = "Station (ft)|Hull girth (in)|Full girth (in)\n1|35.5|42\n2|40|55\n3|44|66\n4|45|68"
	for _, c := range []struct {
		name   string
		sheets []string // the first line is the name
		want   string
		codes  string
	}{
		{"an example alone", []string{"Form\nExample only, not our boat\n" + table}, "none", "unplaced-number"},
		{"an example, and an empty form", []string{"EXAMPLE\nNot your boat\n" + table, "My boat\nStation (ft)|Hull girth (in)|Full girth (in)"}, "none", "unplaced-number"},
		{"an example before the boat", []string{"Example\n" + strings.ReplaceAll(table, "35.5", "36"), "Mine\n" + table}, head + rows, "unplaced-number"},
		{"a key with two meanings", []string{"Key\nS|Station, feet\nE|Hull girth\nE|Full girth\nF|Full girth", "Numbers\n" + "S|E|F\n1|50|42\n2|40|55\n3|44|66\n4|45|68"}, head + " 12:-,42 24:-,55 36:-,66 48:-,68", "unplaced-number unit-guessed"},
		{"a key on its own sheet", []string{"Numbers\nB|17|in\nS|E|F\n1|35.5|42\n2|40|55\n3|44|66\n4|45|68", "Key\nB|Bow height\nS|Station, feet from bow\nE|Hull girth, inches\nF|Full girth, inches"},
			strings.Replace(head, "bow=-", "bow=17", 1) + rows, ""},
		{"a key beside units", []string{"Data\nSymbol|What|Value\nGh|Hull girth, gunwale to gunwale under the hull|below\nGf|Full girth|below\nx|Station, from bow|below\n\nn|x [ft]|Gh [in]|Gf [in]\n1|1|35.5|42\n2|2|40|55\n3|3|44|66\n4|4|45|68"},
			head + rows, "unplaced-number"},
		{"one sheet for each girth", []string{"Hull girth\nStation (ft)|inches\n1|35.5\n2|40\n3|44\n4|45", "Full girth\nStation (ft)|inches\n1|42\n2|55\n3|66\n4|68"}, head + rows, ""},
		{"another thing on the sheet of a girth", []string{"Hull girth\nStation (ft)|weight\n1|35.5\n2|40\n3|44\n4|45"}, "none", "unplaced-number"},
		{"a corrected column", []string{"x\nStation (ft)|Hull girth (in)|Full girth (in)|Hull girth corrected (in)\n1|39|42|35.5\n2|40|55|\n3|44|66|\n4|45|68|"}, head + rows, "second-try"},
		{"a correction that cannot be read", []string{"x\nStation (ft)|Hull girth (in)|Full girth (in)|Hull girth corrected (in)\n1|39|42|3?\n2|40|55|\n3|44|66|\n4|45|68|"}, head + strings.Replace(rows, "35.5", "?", 1), "approximate second-try"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var grids []Grid
			for _, s := range c.sheets {
				name, text, _ := strings.Cut(s, "\n")
				g := grid(text)
				g.Name = name
				for _, row := range g.Rows {
					for i := range row {
						row[i].Place = name + "!" + row[i].Place
					}
				}
				grids = append(grids, g)
			}
			doc := Read("x.xlsx", grids)
			got := "none"
			if len(doc.Surveys) == 1 {
				got = brief(doc.Surveys[0])
			}
			if got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
			var codes []string
			for _, p := range doc.Problems {
				codes = append(codes, string(p.Code))
			}
			if got := strings.Join(codes, " "); got != c.codes {
				t.Errorf("\n got problems %s\n want        %s", got, c.codes)
			}
		})
	}
}
