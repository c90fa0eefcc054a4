package table

import (
	"testing"

	"fairtape/parse"
)

// A hidden column is not read where another in sight has the same girth, and is
// one problem; where none has, its numbers are not sure.
func TestHiddenColumns(t *testing.T) {
	const ends = " loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	for _, c := range []struct {
		name, text, want string
		hidden           []int // columns
		problems         int
	}{
		{"first tries", `
Station (ft)|Hull girth first (in)|Full girth first (in)|Hull girth (in)|Full girth (in)
1|36|43|35|42
2|41|56|40|55
3|45|67|44|66
4|46|69|45|68`, "in" + ends + " 12:35,42 24:40,55 36:44,66 48:45,68", []int{1, 2}, 1},
		{"the only girths", `
Station (ft)|Hull girth (in)|Full girth (in)
1|35|42
2|40|55
3|44|66
4|45|68`, "in" + ends + " 12:35,? 24:40,? 36:44,? 48:45,?", []int{2}, 4},
		{"notes", `
Station (ft)|Hull girth (in)|Full girth (in)|Old
1|35|42|41
2|40|55|50
3|44|66|60
4|45|68|61`, "in" + ends + " 12:35,42 24:40,55 36:44,66 48:45,68", []int{3}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := grid(c.text)
			for _, row := range g.Rows[1:] {
				for _, col := range c.hidden {
					row[col].Code = parse.CodeHidden
				}
			}
			doc := Read("x", []Grid{g})
			if got := brief(doc.Surveys[0]); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
			if len(doc.Problems) != c.problems {
				t.Errorf("%d problems, want %d: %v", len(doc.Problems), c.problems, doc.Problems)
			}
		})
	}
}

// The number that is said to count is read, and another is said to be left out
// only where it is no try around it.
func TestKept(t *testing.T) {
	const ends = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	const want = ends + " 12:35,42 24:40,55 36:44,66 48:45,68"
	for _, c := range []struct {
		name, text, want string
		problems         int
	}{
		{"not kept", `
Station (ft)|Hull girth (in)|Hull girth, not kept (in)|Full girth (in)
1|35|36|42
2|40|41|55
3|44|45|66
4|45|46|68`, ends + " 12:?,42 24:?,55 36:?,66 48:?,68", 4},
		{"two that are kept", `
Station (ft)|Hull girth final (in)|Hull girth kept (in)|Full girth (in)
1|35|36|42
2|40|40|55
3|44|44|66
4|45|45|68`, ends + " 12:?,42 24:40,55 36:44,66 48:45,68", 1},
		{"a mean that is none", `
Station (ft)|Hull 1st (in)|Hull 2nd (in)|Average|Full girth (in)
1|35|35|35|42
2|40|40|40|55
3|44|46|39|66
4|45|45|45|68`, ends + " 12:35,42 24:40,55 36:?,66 48:45,68", 2},
		{"kept far from the tries", `
Station (ft)|Hull 1st (in)|Hull 2nd (in)|Hull kept (in)|Full girth (in)
1|35|35|35|42
2|40|40|40|55
3|43|43|44|66
4|45|45|45|68`, want, 2},
		{"kept, one left empty", `
Station (ft)|Hull 1st (in)|Hull 2nd (in)|Hull kept (in)|Full girth (in)
1|35|35||42
2|40|40||55
3|43|45|44|66
4|45|45||68`, want, 0},
		{"the mean of tries", `
Station (ft)|Hull 1st (in)|Hull 2nd (in)|Average|Full 1st (in)|Full 2nd (in)|Average
1|35|35|35|41|43|42
2|39|41|40|55|55|55
3|44|44|44|66|66|66
4|45|45|45|68|68|68`, want, 0},
		{"the sides and their sum", `
Station (ft)|Hull left half|Hull right half|Hull girth (in)|Full girth (in)
1|17.5|17.5|35|42
2|20|20|40|55
3|22|22|44|66
4|22.5|22.5|45|68`, want, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("x", []Grid{grid(c.text)})
			if got := brief(doc.Surveys[0]); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
			if len(doc.Problems) != c.problems {
				t.Errorf("%d problems, want %d: %v", len(doc.Problems), c.problems, doc.Problems)
			}
		})
	}
}
