package slip

import (
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

// TestSkippedMovesMoreThanTheLastRow holds that a wrong last row is never told
// from a station passed over just before it: nothing but that row would say so.
func TestSkippedMovesMoreThanTheLastRow(t *testing.T) {
	s := known.Wigley().Exact(parse.Inch) // of 16 ft, with 15 stations
	s.Stations = s.Stations[:14]
	all := skipped(s)
	if len(all) != 13 {
		t.Fatalf("%d places, want 13", len(all))
	}
	for _, a := range all {
		if len(a.rows) < 2 {
			t.Errorf("moves %v alone", a.rows)
		}
	}
}
