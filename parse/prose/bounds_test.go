package prose

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
)

// A text with more numbers than any survey has is one problem, and takes no
// time; one with many quoted surveys is still read.
func TestTooManyNumbers(t *testing.T) {
	survey := "Length 15 ft 9 in, bow 18, stern 17, carry point 19 in.\n1 ft 35 42\n2 ft 38 52\n3 ft 40 58\n4 ft 41 61\n"
	m := Read("x.txt", strings.Repeat("6.0.12 and 4.2.0\n", mostNumbers/6+1), "")
	if len(m.Document.Surveys) != 0 || len(m.Document.Problems) != 1 || m.Document.Problems[0].Code != CodeTooMany {
		t.Errorf("%d surveys, problems %v", len(m.Document.Surveys), m.Document.Problems)
	}
	m = Read("x.txt", survey+strings.Repeat("> 1 ft 35 42\n", mostNumbers/3-20), "")
	if len(m.Document.Surveys) != 1 || len(m.Document.Surveys[0].Stations) != 4 {
		t.Errorf("a long conversation is not read: %+v", m.Document)
	}
}

// What stands beyond the lines or the bytes that are read is never dropped
// without a word.
func TestBeyondWhatIsRead(t *testing.T) {
	survey := "Length 15 ft 9 in, bow 18, stern 17, carry point 19 in.\n1 ft 35 42\n2 ft 38 52\n3 ft 40 58\n4 ft 41 61\n"
	for name, c := range map[string]struct {
		text    string
		tooMany bool
	}{
		"numbers at the end of a long line":     {survey + strings.Repeat("and so on ", lineBytes/10) + "5 ft 42 63\n", true},
		"a program's own writing, all one line": {survey + strings.Repeat("iVBORw0KGgo12AAAAN", lineBytes/10) + "\n", false},
		"numbers after thousands of lines":      {strings.Repeat("well\n", linesMost) + survey, true},
		"hundreds of lines as long as pages":    {survey + strings.Repeat(strings.Repeat("and so on ", lineBytes/20)+"\n", 2*linesMost*lineUsual/lineBytes), true},
	} {
		m := Read("x.txt", c.text, "")
		got := slices.ContainsFunc(m.Document.Problems, func(p parse.Problem) bool { return p.Code == CodeTooMany })
		if got != c.tooMany || got == (len(m.Document.Surveys) > 0) {
			t.Errorf("%s: too many: %t, %d surveys", name, got, len(m.Document.Surveys))
		}
	}
}

// Of two numbers of which one is meant, or one that is only near, none is sure.
func TestEitherNumber(t *testing.T) {
	for _, tt := range []struct{ said, raw string }{
		{"83 or 84, the wind kept taking the tape", "83 or 84"},
		{"83, or maybe 84", "83, or maybe 84"},
		{"somewhere near 83", "somewhere near 83"},
		{"83 ou plutôt 84", "83 ou plutôt 84"},
		{"not far off 83", "not far off 83"},
	} {
		m := Read("x.txt", "Girths in inches:\n6 ft: hull girth 48, full girth 82 1/2\n7 ft: hull girth 48 1/2, full girth "+tt.said+"\n8 ft: hull girth 48, full girth 82\n", "")
		for _, st := range m.Document.Surveys[0].Stations {
			if st.At == parse.Inches(84) && st.FullGirth.Certain() {
				t.Errorf("%q is read as %+v", tt.said, st.FullGirth)
			}
		}
		if !slices.ContainsFunc(m.Document.Problems, func(p parse.Problem) bool { return p.Source.Raw == tt.raw }) {
			t.Errorf("%q is in no problem: %+v", tt.said, m.Document.Problems)
		}
	}
}

// BenchmarkReadOther reads what programs write, just within the bounds.
func BenchmarkReadOther(b *testing.B) {
	var text strings.Builder
	for i := range mostNumbers / 2 {
		fmt.Fprintf(&text, "        \"maximum\": %d, \"description\": \"The length of the list, at most %d.\",\n", i%97, i%50)
	}
	for b.Loop() {
		Read("x.json", text.String(), "")
	}
}

// The time that a line takes grows with the square of its numbers.
func TestTooManyInOneLine(t *testing.T) {
	for name, one := range map[string]string{"fractions": "1/", "stations": "1 ft 35 42 ", "ticks": `1'2" `} {
		m := Read("mail", strings.Repeat(one, 1000), "")
		if len(m.Document.Surveys) != 0 || len(m.Document.Problems) != 1 || m.Document.Problems[0].Code != CodeTooMany {
			t.Errorf("%s: %+v", name, m.Document.Problems)
		}
	}
	whole := "hull girth: " // a long boat, in one line
	for at := range 40 {
		whole += fmt.Sprintf(`%d' 6": %d 11/16, `, at, 30+at)
	}
	for _, p := range Read("mail", whole, "").Document.Problems {
		if p.Code == CodeTooMany {
			t.Errorf("a survey in one line: %s", p.Message)
		}
	}
}
