package table

import (
	"strings"
	"testing"
)

// sheetCase is a sheet with the survey in it and the codes of its problems.
type sheetCase struct{ name, grid, want, problems string }

// sheetCases are sheets in layouts that people make up.
func sheetCases() []sheetCase {
	const rows = " 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63 60:40,61 72:36.5,54 84:31,42"
	const head = "in loa=88 bow=17 stern=15.5 carry=14 greatest=-,-,-,-"
	const table = "Station (ft) | Hull girth (in) | Full girth (in)\n1 | 30 | 40.5\n2 | 36 | 52\n3 | 40 | 60.5\n4 | 41.5 | 63\n5 | 40 | 61\n6 | 36.5 | 54\n7 | 31 | 42\n"
	const labels = "Length overall | 7' 4\"\nBow height | 17\nStern height | 15.5\nCarry point | 14\n"
	return []sheetCase{
		{"rough label", "Bow height about 17 | \nLength overall | 7' 4\"\n" + table, "in loa=88 bow=? stern=- carry=- greatest=-,-,-,-" + rows, "approximate"},
		{"an end that is no height", "Length overall | 7' 4\"\nBow | 3\nStern | 60\n" + table, "in loa=88 bow=3? stern=60? carry=- greatest=-,-,-,-" + rows, "unplaced-number unplaced-number"},
		{"two numbers for a half", labels + "\n" + strings.Replace(table, "2 | 36 | 52", "2 | 36/37 | 52", 1), head + strings.Replace(rows, "24:36,52", "24:?,52", 1), "unclear-fraction"},
		{"plain", labels + "\n" + table, head + rows, ""},
		{"a note of a thwart", labels + "\nStation (ft) | Hull girth (in) | Full girth (in) | Notes\n1 | 30 | 40.5 | bow deck ends about here\n2 | 36 | 52 | tape over the thwart, about 1 in higher?\n3 | 40 | 60.5\n4 | 41.5 | 63 | carry thwart in the way\n5 | 40 | 61\n6 | 36.5 | 54 | stern seat\n7 | 31 | 42", head + rows, "unplaced-number"},
		{"labels with units in them", "Length overall (ft) | 7.5\nBow height (in) | 17\nStern height (in) | 15.5\nCarry point (in) | 14\n" + table, "in loa=90 bow=17 stern=15.5 carry=14 greatest=-,-,-,-" + rows, ""},
		{"ends alone", "LOA | 7' 4\"\nBow | 17\nStern | 15.5\nCarry | 14\n\n" + table, head + rows, ""},
		{"greatest below", labels + "\n" + table + "\nGreatest girth at | 4' 2\"\nhull there | 41.5\nfull there | 63.5\nopening there | 22", strings.Replace(head, "greatest=-,-,-,-", "greatest=50,41.5,63.5,22", 1) + rows, ""},
		{"greatest as a block", labels + "\n" + table + "\nAt the greatest girth | \ndistance from bow | 4' 2\"\nhull girth | 41.5\nfull girth | 63.5\nopening | 22", strings.Replace(head, "greatest=-,-,-,-", "greatest=50,41.5,63.5,22", 1) + rows, ""},
		{"opening at the greatest girth", labels + "\n" + table + "\nGreatest girth at | 4' 2\"\nHull girth at greatest girth | 41.5\nFull girth at greatest girth | 63.5\nOpening at greatest girth | 22", strings.Replace(head, "greatest=-,-,-,-", "greatest=50,41.5,63.5,22", 1) + rows, ""},
		{"cells of label and value", "LOA 7' 4\" | Bow height 17 | Stern height 15.5 | Carry point 14\nStation 1 ft | hull 30 | full 40.5\nStation 2 ft | hull 36 | full 52\nStation 3 ft | hull 40 | full 60.5\nStation 4 ft | hull 41.5 | full 63\nStation 5 ft | hull 40 | full 61\nStation 6 ft | hull 36.5 | full 54\nStation 7 ft | hull 31 | full 42", head + rows, "unit-guessed"},
		{"cells of label and value with signs", labels + "1 ft: | hull: 30 | full: 40.5\n2 ft: | hull: 36 | full: 52\n3 ft: | hull: 40 | full: 60.5", "in loa=88 bow=17 stern=15.5 carry=14 greatest=-,-,-,- 12:30,40.5 24:36,52 36:40,60.5", "unit-guessed"},
		{"on its side", labels + "\nStation (ft) | 1 | 2 | 3 | 4 | 5 | 6 | 7\nHull girth (in) | 30 | 36 | 40 | 41.5 | 40 | 36.5 | 31\nFull girth (in) | 40.5 | 52 | 60.5 | 63 | 61 | 54 | 42", head + rows, ""},
		{"two halves side by side", labels + "\nFt | Hull (in) | Full (in) | | Ft | Hull (in) | Full (in)\n1 | 30 | 40.5 | | 5 | 40 | 61\n2 | 36 | 52 | | 6 | 36.5 | 54\n3 | 40 | 60.5 | | 7 | 31 | 42\n4 | 41.5 | 63", head + rows, ""},
		{"labels at the foot", table + "\n\n" + labels, head + rows, ""},
		{"labels above their numbers", "Length overall | Bow height | Stern height | Carry point\n7' 4\" | 17 | 15.5 | 14\n\n" + table, head + rows, ""},
		{"units beside", "Length overall | 88 | in\nBow height | 17 | in\nStern height | 15.5 | in\nCarry point | 14 | in\n" + table, head + rows, ""},
		{"feet and inches apart", "| ft | in\nLength overall | 7 | 4\nBow height | 1 | 5\nStern height | 1 | 3.5\nCarry point | 1 | 2\n\n" + table, head + rows, ""},
		{"averages at the foot", labels + table + "Average | 36.4 | 53.3\nMax | 41.5 | 63", head + rows, "unplaced-number unplaced-number unplaced-number unplaced-number"},
		{"opening beside", labels + "Ft | Hull girth (in) | Full girth (in) | Opening (in)\n1 | 30 | 40.5 | 10.5\n2 | 36 | 52 | 16\n3 | 40 | 60.5 | 20.5\n4 | 41.5 | 63 | 21.5", "in loa=88 bow=17 stern=15.5 carry=14 greatest=-,-,-,- 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63", ""},
		{"French", "Longueur hors tout | 7 pi 4 po\nHauteur de l'étrave | 17 po\nHauteur de la poupe | 15 1/2 po\nPoint de portage | 14 po\n\nRepère (pi) | Tour de coque (po) | Tour complet (po)\n1 | 30 | 40,5\n2 | 36 | 52\n3 | 40 | 60,5\n4 | 41,5 | 63\n5 | 40 | 61\n6 | 36,5 | 54\n7 | 31 | 42", head + rows, ""},
		{"a row of words in between", labels + "\nStation (ft) | Hull girth (in) | Full girth (in)\n1 | 30 | 40.5\n2 | 36 | 52\n3 | 40 | 60.5\nhere we had lunch | |\n4 | 41.5 | 63\n5 | 40 | 61\n6 | 36.5 | 54\n7 | 31 | 42", head + rows, ""},
		{"a running number", labels + "\nNo. | Distance (ft) | Hull (in) | Full (in)\n1 | 1 | 30 | 40.5\n2 | 2 | 36 | 52\n3 | 3 | 40 | 60.5\n4 | 4 | 41.5 | 63\n5 | 5 | 40 | 61\n6 | 6 | 36.5 | 54\n7 | 7 | 31 | 42", head + rows, ""},
		{"bare 1, 2, 3 in centimetres", "Length overall | 224 cm\nStation | Hull girth (cm) | Full girth (cm)\n1 | 76 | 103\n2 | 91 | 132\n3 | 102 | 154\n4 | 105 | 160", "cm loa=224 bow=- stern=- carry=- greatest=-,-,-,- 30.48:76?,103? 60.96:91?,132? 91.44:102?,154? 121.92:105?,160?", "station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear"},
		{"stations in centimetres and girths that look like inches", "Station | Hull girth | Full girth\n30 cm | 30 | 40.5\n60 cm | 36 | 52\n90 cm | 40 | 60.5", "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 11.811023622:30?,40.5? 23.622047244:36?,52? 35.433070866:40?,60.5?", "unit-unclear unit-unclear unit-unclear unit-unclear unit-unclear unit-unclear"},
	}
}

func TestSheets(t *testing.T) {
	for _, c := range sheetCases() {
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
				codes = append(codes, string(p.Code))
			}
			if got := strings.Join(codes, " "); got != c.problems {
				t.Errorf("\n got problems %s\n want        %s", got, c.problems)
			}
		})
	}
}
