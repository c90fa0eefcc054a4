package form

import (
	"errors"
	"testing"

	"fairtape/parse"
)

func TestParseGridRefuses(t *testing.T) {
	for _, text := range []string{"", "FT1/G/", "FT1/G/XX", "FT1/G/LIX", "FT1/F2/LI/15/14", "hello"} {
		if _, err := ParseGrid(text); !errors.Is(err, ErrNotOurs) {
			t.Errorf("%q: %v, want ErrNotOurs", text, err)
		}
	}
	if _, err := ParseGrid("FT7/G/LI"); !errors.Is(err, ErrVersion) {
		t.Errorf("another version: %v", err)
	}
	if _, err := ParseCode("FT1/G/LI"); !errors.Is(err, ErrNotOurs) {
		t.Errorf("a tracing sheet was taken for a form: %v", err)
	}
}

// Nothing printed overlaps, all of it lies within what printers reach, and the
// code says which sheet it is.
func TestGrid(t *testing.T) {
	const reach = 6.4 // that printers at home leave bare
	for _, paper := range []Paper{Letter, A4} {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			g, err := NewGrid(paper, unit)
			if err != nil {
				t.Fatal(err)
			}
			if back, err := ParseGrid(g.CodeText); err != nil || back.Paper != paper || back.Unit != unit {
				t.Errorf("%s gives %+v, %v", g.CodeText, back, err)
			}
			printed := g.Printed()
			for i, a := range printed {
				if a.X0 < reach || a.Y0 < reach || a.X1 > g.Width-reach || a.Y1 > g.Height-reach {
					t.Errorf("%s: %v lies outside of what is printed", g.CodeText, a)
				}
				for _, b := range printed[:i] {
					if a.Overlaps(b) {
						t.Errorf("%s: %v and %v overlap", g.CodeText, a, b)
					}
				}
			}
			if n := len(g.Marks); n < 15 {
				t.Errorf("%s: %d marks", g.CodeText, n)
			}
		}
	}
}
