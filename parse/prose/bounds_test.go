package prose

import (
	"strings"
	"testing"
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
