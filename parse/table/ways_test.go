package table

import (
	"strings"
	"testing"
)

// What a person makes of a layout that nobody has explained.
func TestWays(t *testing.T) {
	const table = "Station|Hull girth (in)|Full girth (in)\n1 ft|35.5|42\n2 ft|40|55\n3 ft|44|66\n4 ft|45|68\n5 ft|42.5|61\n6 ft|37|45\n"
	for _, c := range []struct{ name, grid, want, problems string }{
		{"an outline", `
1. The boat
1.1 Length overall: 6 ft 3 in
2. Girths
2.1 Station 1 ft
2.1.1 Hull girth: 35 1/2 in
2.1.2 Full girth: 42 in
2.2 Station 2 ft
2.2.1 Hull girth: 40 in
2.2.2 Full girth: 55 in
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
		{"numbers before their words are no outline", `
LOA|6 ft 3 in
42.5 hull girth at 1 ft
44.5 hull girth at 2 ft
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,-", "unplaced-number unplaced-number"},
		{"somebody called Max", `
time|who|station|hull girth (in)|full girth (in)
10:20|Win|1 ft|35.5|42
10:22|Max|2 ft|40|55
10:24|Win|3 ft|44|66
10:26|Max|4 ft|45|68
10:28|both|length overall|6' 3"
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", ""},
		{"names as programs write them", `
field|value|unit|comment
length_overall|75|in|tip to tip
hull_girth_at_1_ft|35.5|in|
full_girth_at_1_ft|42|in|2nd try
hull_girth_at_2_ft|40|in|
full_girth_at_2_ft|55|in|
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
		{"a transom named in a column of places", `
Length overall|75 in
Inches from bow|Hull girth (in)|Full girth (in)|Place
12|35.5|42|
24|40|55|seat
36|44|66|
48|45|68|
60|42.5|61|
75|40|58|transom
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- transom=40,58 square 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61", ""},
		{"a transom called by its distance", `
Length overall|75 in
Inches from bow|Hull girth (in)|Full girth (in)
12|35.5|42
24|40|55
36|44|66
48|45|68
60|42.5|61
75|40|58
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- transom=40,58 square 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61", ""},
		{"a narrow row at the length overall", `
Length overall|6 ft
Feet from bow|Hull girth (in)|Full girth (in)
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
`, "in loa=72 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61 72:37?,45?", "station-unclear station-unclear"},
		{"places from the bow", "Carry point|bow + 19 1/2 in\nGreatest girth at: at 3 ft 9 in from the bow\n" + table,
			"in loa=- bow=- stern=- carry=19.5 greatest=45,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61 72:37,45", ""},
		{"a transom with its words", "Transom|hull 40 in|full 58 in\n\n" + table,
			"in loa=- bow=- stern=- carry=- greatest=-,-,-,- transom=40,58 square 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61 72:37,45", ""},
		{"a heading that says how its numbers are made", `
Station (ft)|Hull girth (in)|Full girth (in)|Opening = full - hull
1|35.5|42|6.5
2|40|55|15
3|44|66|22
4|45|68|23
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", ""},
		{"a name far above the title of a block", `
Boat|canoe with cut-down ends
Length overall|6 ft 3 in
Bow height|18 1/2 in
Hull girth (inches)
1|35 1/2
2|40
3|44
4|45
5|42 1/2
6|37
Full girth (inches)
1|42
2|55
3|66
4|68
5|61
6|45
`, "in loa=75 bow=18.5 stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61 72:37,45", ""},
		{"questions for both girths", `
Where is the carry point?
at 19 1/2 in from the bow
Hull girth and full girth at 1 ft?
35 1/2 in and 42 in
Hull girth and full girth at 2 ft? 40 in and 55 in
`, "in loa=- bow=- stern=- carry=19.5 greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
		{"a line of stations that is one cell short", `
Station (ft)|1|2|3|5|6
Hull girth (in)|35.5|40|44|45|42.5|37
Full girth (in)|42|55|66|68|61|45
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5?,42? 24:40?,55? 36:44?,66? 60:45?,68? 72:42.5?,61?",
			"station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear station-unclear"},
		{"names of a letter and a number", `
H3 is the hull girth at 3 ft from the bow, F3 the full girth at 3 ft, and so on. All in inches.
H1|35.5||F1|42
H2|40||F2|55
H3|44||F3|66
H4|45||F4|68
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", "unit-guessed unplaced-number unplaced-number"},
		{"a column of lines", `
Station|Hull girth (in)|Full girth (in)
1 ft+2 ft+3 ft+4 ft|35.5+40+44+45|42+55+66+68
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", ""},
		{"a number that is not sure is no question", `
LOA|6 ft 3 in
Hull girth at 1 ft|44? 45
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:?,-", "several-numbers"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := grid(c.grid)
			for _, row := range g.Rows {
				for i := range row {
					if strings.Count(row[i].Text, "+") > 2 { // lines of one cell
						row[i].Text = strings.ReplaceAll(row[i].Text, "+", "\n")
					}
				}
			}
			doc := Read("ways", []Grid{g})
			got := ""
			for _, s := range doc.Surveys {
				got += brief(s)
			}
			if got != c.want {
				t.Errorf("\ngot  %s\nwant %s", got, c.want)
			}
			if got := sortedCodes(doc.Problems); got != c.problems {
				t.Errorf("problems %s, want %s", got, c.problems)
			}
		})
	}
}

// A sheet that says that it is not meant is left out, and that is said.
func TestSetAside(t *testing.T) {
	const rows = "Station (ft)|Hull girth (in)|Full girth (in)\n1|35.5|42\n2|40|55\n3|44|66\n4|45|68\n"
	other := "Station (ft)|Hull girth (in)|Full girth (in)\n1|45.5|52\n2|50|65\n3|54|76\n4|55|78\n"
	for _, c := range []struct{ title, problems string }{
		{"SOLD in May - not this one, please ignore.", "unplaced-number"},
		{"The column of notes can be ignored", "two-boats"},
	} {
		doc := Read("two.xlsx", []Grid{grid(rows), grid(c.title + "\n\n" + other)})
		if got := sortedCodes(doc.Problems); got != c.problems {
			t.Errorf("%s: problems %s, want %s", c.title, got, c.problems)
		}
	}
}
