package curves

import (
	"math"
	"math/rand/v2"
	"slices"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// The natural mix: how often surveys of first-time users carry slips. Studies
// of raw measured data count 0.4 to 2.4 % of values and 4 to 15 % of records in
// error (medRxiv 2020.11.19.20234872); untrained people at home lie at the
// upper end and over. Three boats in ten are odd. Common practice, no source.
const (
	mixSpoiled = 0.25 // surveys with one slip
	mixTwo     = 0.03 // surveys with two
	mixOdd     = 0.3
	mixSurveys = 4 // times the surveys of a line: most have nothing to say
)

// mixSlips lists the slips by how often they happen: digits as Verhoeff (1969)
// counted them, the tape beside them.
var mixSlips = []struct {
	slip   known.Slip
	weight float64
}{
	{known.Digit, 28}, {known.Tape2to3, 15}, {known.Tape4to6, 10}, {known.HalfLost, 10},
	{known.Ten, 9}, {known.Transposed, 6}, {known.Foot, 5}, {known.RowRepeated, 4},
	{known.RowSkipped, 4}, {known.Swapped, 3}, {known.MetricEdge, 2}, {known.DecimalLost, 2},
	{known.Joined, 1}, {known.OpeningForFull, 1}, {known.TapeShort, 1},
}

// bins is how many bins of equal width the probabilities fall into.
const bins = 10

// bin is the findings whose probability lies in one range.
type bin struct{ findings, stated, right float64 }

// printCalibration writes whether of the findings at 0.9 nine in ten are right:
// the expected calibration error, each bin weighed by its findings.
func printCalibration(p *printer, b bench) {
	n := mixSurveys * b.count
	all := make([][bins]bin, n)
	each(n, func(i int) {
		t := b.natural(b.source("natural mix", i))
		for _, f := range ours(t.survey) {
			if f.Kind == validate.Missing || f.Probability <= 0 {
				continue
			}
			to := &all[i][min(int(f.Probability*bins), bins-1)]
			to.findings++
			to.stated += f.Probability
			to.right += float64(one(t.right(f)))
		}
	})
	var sum [bins]bin
	total := 0.0
	for _, survey := range all {
		for k, of := range survey {
			sum[k].findings += of.findings
			sum[k].stated += of.stated
			sum[k].right += of.right
			total += of.findings
		}
	}
	p.printf("\nProbabilities, on %d surveys of a natural mix: stated, right, findings\n", n)
	off := 0.0
	for _, of := range sum {
		if of.findings == 0 {
			continue
		}
		off += math.Abs(of.stated-of.right) / max(total, 1)
		p.printf("  %.3f  %.3f  %4.0f\n", of.stated/of.findings, of.right/of.findings, of.findings)
	}
	p.printf("calibration error %s\n", p.few(off, calibrationError))
}

// natural draws one survey of the natural mix.
func (b bench) natural(rng *rand.Rand) trial {
	class := known.Ordinary
	if odd := known.OddClasses(); rng.Float64() < mixOdd {
		class = odd[rng.IntN(len(odd))]
	}
	luck := rng.Float64()
	for {
		sheet := b.boat(rng, class)
		slip := drawSlip(rng)
		switch {
		case luck >= mixSpoiled+mixTwo:
			return trial{sheet: sheet, survey: sheet.Survey}
		case luck >= mixSpoiled:
			slip = known.TwoSlips
		}
		if survey, done, ok := sheet.Spoil(rng, slip); ok {
			return trial{sheet, survey, done}
		}
	}
}

// drawSlip draws a slip by its weight.
func drawSlip(rng *rand.Rand) known.Slip {
	sum := 0.0
	for _, m := range mixSlips {
		sum += m.weight
	}
	at := sum * rng.Float64()
	for _, m := range mixSlips {
		if at -= m.weight; at < 0 {
			return m.slip
		}
	}
	return mixSlips[0].slip
}

// right reports a finding that speaks of a number that is wrong by more than
// the half inch that nobody minds.
func (t trial) right(f validate.Finding) bool {
	if t.done.Slip == known.HalfLost {
		return false
	}
	return slices.ContainsFunc(cells(f), func(c parse.Cell) bool { return t.wrong(c) })
}
