package slip

import (
	"math"
	"testing"

	"fairtape/parse"
)

func TestCandidates(t *testing.T) {
	for _, test := range []struct {
		written float64
		unit    parse.Unit
		meant   float64
		want    Kind // None: not a candidate
	}{
		{44, parse.Inch, 44.5, None}, // within the tolerance of the trade
		{44, parse.Inch, 45, None},
		{44, parse.Inch, 44, None},
		{5, parse.Inch, -5, None},
		{41, parse.Inch, 51, OffByTen},
		{51, parse.Inch, 41, OffByTen},
		{53, parse.Inch, 35, Transposed},
		{12, parse.Inch, 21, Transposed},
		{39, parse.Inch, 51, OffByFoot},
		{48, parse.Inch, 43, Digit},
		{48.5, parse.Inch, 43.5, Digit},
		{129.5, parse.Inch, 51, MetricEdge},
		{515, parse.Inch, 51.5, DecimalLost},
		{311, parse.Inch, 47, FeetInchesJoined},
		{46.5, parse.Inch, 54.5, FeetInchesJoined},
		{23, parse.Inch, 83, TapeLength},
		{39, parse.Centimetre, 51, None}, // no foot marks on a metric tape
		{119, parse.Centimetre, 129, OffByTen},
		{311, parse.Centimetre, 47, None},
		{61, parse.Centimetre, 211, TapeLength},
		{51, parse.Centimetre, 128, None}, // reads 50 on the other edge
		{51, parse.Centimetre, 129, MetricEdge},
		{51, parse.Centimetre, 130, MetricEdge},
	} {
		got := None
		for _, c := range candidates(test.written, test.unit) {
			if math.Abs(c.value-test.meant) < 0.1 {
				got = c.kind
				break
			}
		}
		if got != test.want {
			t.Errorf("%v for %v %s: %q, want %q", test.written, test.meant, test.unit, got, test.want)
		}
	}
}

// TestCandidatesStandOnce holds that no value is weighed twice and that every
// one has a chance.
func TestCandidatesStandOnce(t *testing.T) {
	for written := 1.0; written < 400; written += 0.5 {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			seen := map[float64]bool{}
			for _, c := range candidates(written, unit) {
				if seen[c.value] || c.value <= 0 || c.log >= 0 || math.IsInf(c.log, 0) || math.IsNaN(c.log) {
					t.Errorf("%v %s: %q %v with log chance %v", written, unit, c.kind, c.value, c.log)
				}
				seen[c.value] = true
			}
		}
	}
}
