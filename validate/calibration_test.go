package validate

import (
	"math"
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

// TestCalibration holds that of the findings at a probability as many are
// right: over surveys of which a third has no slip, the findings' mean distance
// from that is at most 0.05.
func TestCalibration(t *testing.T) {
	const surveys = 480
	type bin struct{ n, p, wrong float64 }
	var bins [10]bin
	var total float64
	slips := append(known.SingleSlips(), known.Digit, known.Tape4to6, known.Tape2to3)
	classes := append(known.OddClasses(), known.Ordinary, known.Ordinary)
	for k := range surveys {
		rng := rand.New(rand.NewPCG(40, uint64(k)))
		sheet := known.Draw(rng, classes[rng.IntN(len(classes))], known.HomeTape(parse.Inch))
		survey, done := sheet.Survey, known.Done{}
		if k%3 > 0 {
			if s, d, ok := sheet.Spoil(rng, slips[rng.IntN(len(slips))]); ok {
				survey, done = s, d
			}
		}
		for _, f := range asked(Check(survey, nil, usual)) {
			b := &bins[min(int(f.Probability*10), 9)]
			b.n, b.p, total = b.n+1, b.p+f.Probability, total+1
			for _, w := range done.Wrong {
				if f.about(w.Cell) {
					b.wrong++
					break
				}
			}
		}
	}
	if total < surveys/3 {
		t.Fatalf("only %v findings", total)
	}
	var off float64
	for _, b := range bins {
		off += math.Abs(b.p-b.wrong) / total
	}
	if off > 0.05 {
		t.Errorf("calibration is off by %.3f: %+v", off, bins)
	}
}
