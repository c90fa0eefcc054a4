package table

import (
	"strings"
	"testing"
)

// TestImplausible doubts tables whose columns were taken for others, and leaves
// the slips of a person in one or two rows alone.
func TestImplausible(t *testing.T) {
	const head = "Station (in) | Hull girth (in) | Full girth (in)\n"
	for _, c := range []struct {
		name, rows string
		doubt      bool
	}{
		{"girths for stations", "36 | 50 | 52\n37 | 55 | 60\n39 | 60 | 66\n40 | 63 | 70", true},
		{"no usual step", "12 | 30 | 40\n31 | 36 | 52\n47 | 40 | 60\n73 | 41 | 63\n84 | 36 | 52", true},
		{"two rows an inch apart", "50 | 30 | 40\n51 | 36 | 52", true},
		{"ratios in place of girths", "12 | 0.3 | 0.4\n24 | 0.3 | 0.5\n36 | 0.4 | 0.6", true},
		{"one girth many times the other", "12 | 3 | 40\n24 | 3 | 52\n36 | 4 | 60", true},
		{"areas in place of girths", "12 | 300 | 400\n24 | 320 | 500\n36 | 400 | 600", true},
		{"one step slipped", "12 | 30 | 40.5\n24 | 36 | 52\n25 | 40 | 60.5\n36 | 41 | 62\n48 | 41 | 63", false},
		{"a decimal lost", "12 | 30 | 405\n24 | 36 | 52\n36 | 40 | 60.5", false},
		{"a swapped pair", "12 | 30 | 40.5\n24 | 52 | 36\n36 | 40 | 60.5", false},
		{"half girths", "12 | 15 | 40.5\n24 | 18 | 52\n36 | 20 | 60.5", false},
		{"finer towards the ends", "6 | 28 | 35\n12 | 30 | 40.5\n24 | 36 | 52\n36 | 40 | 60.5\n42 | 38 | 55\n48 | 36 | 50", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("m.xlsx", []Grid{grid(head + c.rows)})
			if len(doc.Surveys) != 1 {
				t.Fatalf("%d surveys, want 1", len(doc.Surveys))
			}
			got := brief(doc.Surveys[0])
			if doubt := strings.Contains(got, "?"); doubt != c.doubt {
				t.Errorf("%s: doubted %v, want %v", got, doubt, c.doubt)
			}
		})
	}
}
