package table

import (
	"strings"
	"testing"
)

// TestLists reads surveys that are no table of stations with both girths in a
// row: a row for each number, lists, answers to questions, forms side by side.
func TestLists(t *testing.T) {
	const rows = " 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63"
	const none = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	const boat = "in loa=88 bow=17 stern=- carry=- greatest=-,-,-,-"
	const lengths = "Length overall (in) | 88\nBow height (in) | 17\n"
	for _, c := range []struct{ name, grid, want, problems string }{
		{"feet and inches are no stations", "Item | Feet | Inches | Total (in)\nLength overall | 7 | 4 | 88\nBow height | 1 | 8 | 20", "in loa=88 bow=20 stern=- carry=- greatest=-,-,-,-", ""},
		{"two numbers in a row of one", "measure | distance (in) | first | second\nhull girth | 12 | 30 | 31\nfull girth | 12 | 40.5 | 40\nhull girth | 24 | 36 | 36\nfull girth | 24 | 52 | 52", "", "unplaced-number"},
		{"a row for each number", "measure | distance_from_bow_in | value_in | by | date\nlength overall | | 88 | WT | 2026-05-30\nbow height | | 17 | WT | 2026-05-30\nhull girth | 12 | 30 | HQ | 2026-05-31\nfull girth | 12 | 40.5 | HQ | 2026-05-31\nhull girth | 24 | 36 | HQ | 2026-05-31\nfull girth | 24 | 52 | HQ | 2026-05-31\nhull girth | 36 | 40 | HQ | 2026-05-31\nfull girth | 36 | 60.5 | HQ | 2026-05-31\nhull girth | 48 | 41.5 | HQ | 2026-05-31\nfull girth | 48 | 63 | HQ | 2026-05-31", boat + rows, ""},
		{"one number among pairs", "Station | Hull / full girth (in)\n1 ft | 30 / 40.5\n2 ft | 52\n3 ft | 40 / 60.5\n4 ft | 41.5 / 63\n5 ft | 40 / 61", none + " 12:30,40.5 24:?,- 36:40,60.5 48:41.5,63 60:40,61", "columns-unclear"},
		{"ranges are no pairs", "Station | Hull girth (in)\n1 ft | 30 - 40.5\n2 ft | 36 - 52\n3 ft | 40 - 60.5\n4 ft | 41.5 - 63", none + " 12:?,- 24:?,- 36:?,- 48:?,-", "range range range range"},
		{"two tries are no pairs", "Station | Girths (in)\n1 ft | 30 / 30.5\n2 ft | 36 / 36\n3 ft | 40 / 41\n4 ft | 41.5 / 41", none + " 12:?,- 24:?,- 36:?,- 48:?,-", "unclear-fraction unclear-fraction unclear-fraction unclear-fraction"},
		{"pairs in an order of their own", "Station | Girths (in)\n1 ft | 30 & 40.5\n2 ft | 36/52\n3 ft | 40, 60.5\n4 ft | 41.5 and 63", none + rows, ""},
		{"pairs with words, swapped", "Station | Girths\n1 ft | full 40 1/2\", hull 30\"\n2 ft | hull 36\" full 52\"\n3 ft | 40\" hull 60 1/2\" full\n4 ft | 41.5\" (hull) / 63\" (full)", none + rows, ""},
		{"pairs on their side", "Station | 1 ft | 2 ft | 3 ft | 4 ft\nHull / full (in) | 30 / 40.5 | 36 / 52 | 40 / 60.5 | 41.5 / 63", none + rows, ""},
		{"both girths in a cell", "Station | Full / hull girth (in)\n1 ft | 40 1/2 / 30\n2 ft | 52 / 36\n3 ft | 60.5 / 40\n4 ft | 63 / 41.5", none + rows, ""},
		{"units in a column", "what | station | value | unit\nhull girth | 1 ft | 30 | in\nfull girth | 1 ft | 40.5 | in\nhull girth | 2 ft | 36 | in\nfull girth | 2 ft | 52 | in\nhull girth | greatest | 42 | in\nfull girth | greatest | 64 | in", "in loa=- bow=- stern=- carry=- greatest=-,42,64,- 12:30,40.5 24:36,52", ""},
		{"lists below each other", lengths + "\nHULL GIRTH\nStation | Hull girth (in)\n1 ft | 30\n2 ft | 36\n3 ft | 40\n4 ft | 41.5\n\nFULL GIRTH\nStation | Full girth (in)\n1 ft | 40.5\n2 ft | 52\n3 ft | 60.5\n4 ft | 63", boat + rows, ""},
		{"lists side by side", lengths + "\nStation | Hull girth (in) | | Station | Full girth (in)\n1 ft | 30 | | 1 ft | 40.5\n2 ft | 36 | | 2 ft | 52\n3 ft | 40 | | 3 ft | 60.5\n4 ft | 41.5 | | 4 ft | 63", boat + rows, ""},
		{"questions with an underscore", "length_overall_in | hull_girth [1 ft] (in) | full_girth [1 ft] (in)\n88 | 30 | 40.5", "in loa=88 bow=- stern=- carry=- greatest=-,-,-,- 12:30,40.5", ""},
		{"questions with a colon", "1 ft: hull girth (in) | 1 ft: full girth (in) | 2 ft: hull girth (in) | 2 ft: full girth (in)\n30 | 40.5 | 36 | 52", none + " 12:30,40.5 24:36,52", ""},
		{"questions with a dash", "Station 1 ft - hull girth (in) | Station 1 ft - full girth (in)\n30 | 40.5", none + " 12:30,40.5", ""},
		{"a line for each station", "At 1 ft: hull girth 30\", full girth 40 1/2\"\nAt 2 ft: hull girth 36\" | full girth 52\"", none + " 12:30,40.5 24:36,52", ""},
		{"two measures with a dash", "Hauteur de l'étrave : 57 cm – hauteur de la poupe : 53 cm", "cm loa=- bow=57 stern=53 carry=- greatest=-,-,-,-", ""},
		{"girths under their stations", "Station | 1 ft | | 2 ft | | 3 ft |\nGirth (in) | hull | full | hull | full | hull | full\n | 30 | 40.5 | 36 | 52 | 40 | 60.5\nagain | 30 | 40.5 | 36 | 52.5 | 40 | 60.5", none + " 12:30,40.5 24:36,? 36:40,60.5", "second-try"},
		{"girths beside their stations", "1 ft | hull girth | 30 in\n | full girth | 40.5 in\n2 ft | hull girth | 36 in\n | full girth | 52 in", none + " 12:30,40.5 24:36,52", ""},
		{"a station with one girth twice", "Station | 1 ft | | 2 ft |\nGirth (in) | hull | hull | hull | full\n | 30 | 40.5 | 36 | 52", "", "unplaced-number"},
		{"a boat beside its stations", "BOAT | | | | Station | Hull girth | Full girth\nGreatest girth: where | | 50 | | 1 ft | 30 | 40.5\nGreatest girth: hull girth | | 42 | | 2 ft | 36 | 52\nGreatest girth: full girth | | 64 | | 3 ft | 40 | 60.5\nGreatest girth: opening | | 22 | | 4 ft | 41.5 | 63", "in loa=- bow=- stern=- carry=- greatest=50,42,64,22" + rows, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("m.xlsx", []Grid{grid(c.grid)})
			got := ""
			for _, s := range doc.Surveys {
				got += brief(s)
			}
			if got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
			var codes []string
			for _, p := range doc.Problems {
				if p.Code != "unit-guessed" {
					codes = append(codes, string(p.Code))
				}
			}
			if got := strings.Join(codes, " "); got != c.problems {
				t.Errorf("\n got problems %s\n want        %s", got, c.problems)
			}
		})
	}
}
