package slip

import (
	"math"
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

// TestSkippedPlaceIsTheLikeliestToBeNear holds that places which a search never
// looked into count: along a parallel middle each is a little less likely than
// the first row, and together they are likelier.
func TestSkippedPlaceIsTheLikeliestToBeNear(t *testing.T) {
	const rows = 12
	s := known.Wigley().Exact(parse.Inch)
	s.Stations = s.Stations[:rows]
	at := func(row int, weight float64) reading {
		r := reading{arrangement: arrangement{kind: RowSkipped}, weight: weight}
		for i := row; i < rows; i++ {
			r.rows = append(r.rows, i)
		}
		return r
	}
	for _, test := range []struct {
		name  string
		all   []reading
		first int // row, from 0
		p     float64
		every bool
	}{
		{"one place", []reading{at(3, 0)}, 3, 1, false},
		{"the first row alone", []reading{at(0, 0), at(6, -9)}, 0, 1, true},
		{"many a little less likely", []reading{at(0, math.Log(.3)), at(5, math.Log(.2)), at(6, math.Log(.25)), at(7, math.Log(.25))}, 6, .7, false},
		{"the likelier of two that are near each other", []reading{at(4, math.Log(.8)), at(5, math.Log(.2))}, 4, 1, false},
	} {
		got := rowSuspicions(s, test.all, 0)
		if len(got) != 1 || got[0].Rows[0] != s.Stations[test.first].At || math.Abs(got[0].Probability-test.p) > 1e-3 || got[0].Every != test.every {
			t.Errorf("%s: %+v, want row %d at %g, every row %v", test.name, got, test.first, test.p, test.every)
		}
	}
}
