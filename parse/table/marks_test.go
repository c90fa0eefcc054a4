package table

import (
	"strings"
	"testing"
)

// A mark that points to a note is no part of the number before it; the note may
// say that the number is not sure.
func TestMarks(t *testing.T) {
	const table = "Station (ft)|Hull girth (in)|Full girth (in)\n1|35.5|42\n2|40 [1]|55*\n3|44|66\n4|45|68\n"
	const head = "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:"
	for _, c := range []struct{ notes, second, problems string }{
		{"", "?,?", "not-a-length several-numbers"},
		{"1 over the front deck\n* under the yoke pad", "40,55", ""},
		{"[1] over the front deck\n* not sure of this one", "40,?", "not-a-length"},
		{"1 over the front deck\n1 not sure of this one", "?,?", "not-a-length several-numbers"},
	} {
		doc := Read("x", []Grid{grid(table + c.notes)})
		got := brief(doc.Surveys[0])
		if want := head + c.second + " 36:44,66 48:45,68"; got != want {
			t.Errorf("%q\ngot  %s\nwant %s", c.notes, got, want)
		}
		if codes := sortedCodes(doc.Problems); codes != sortWords(strings.Fields(c.problems)) {
			t.Errorf("%q: problems %s, want %s", c.notes, codes, c.problems)
		}
	}
}
