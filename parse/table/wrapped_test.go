package table

import "testing"

func TestUnwrapped(t *testing.T) {
	cell := func(text string) []Cell { return []Cell{{Text: text}} }
	for _, test := range []struct{ name, above, below, wantAbove, wantBelow string }{
		{"a fraction on the next line", "The greatest girth is 11 ft aft: full girth 97", `1/2", opening 40".`, `The greatest girth is 11 ft aft: full girth 97 1/2",`, `opening 40".`},
		{"the end of the text", "we found the full girth to be 97", "1/2", "we found the full girth to be 97 1/2", ""},
		{"a row under a label", "Station 3", "1/2", "Station 3", "1/2"},
		{"a row of numbers", "96", "1/2 ft", "96", "1/2 ft"},
		{"no number before it", "the sum of the girths at the bow", "1/2 in", "the sum of the girths at the bow", "1/2 in"},
		{"a date", "measured by my son and me on the 7", "11/2026", "measured by my son and me on the 7", "11/2026"},
	} {
		got := unwrapped(Grid{Rows: [][]Cell{cell(test.above), cell(test.below)}})
		if above, below := got.Rows[0][0].Text, got.Rows[1][0].Text; above != test.wantAbove || below != test.wantBelow {
			t.Errorf("%s: %q over %q", test.name, above, below)
		}
	}
}
