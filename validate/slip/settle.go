package slip

import (
	"cmp"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// How the curve and a reader of handwriting weigh against each other. A part
// of the belief always stays flat over all values, so that a number that the
// customer really wrote is not read away because the boat speaks against it:
// with 7 % flat, reading two-digit cells with the curve left 0.013 % silent
// errors against 0.060 % without (own experiment on 15,000 cells).
const (
	flatShare   = 0.07
	flatRange   = 60.0 // inches over which the flat part lies
	readSpread  = 0.5  // inches added to the curve's own spread: it was laid through doubtful numbers
	leastRead   = 0.1  // what the reader held for less likely never becomes sure by the curve
	mostSettled = 4    // rounds in which settled numbers help the others
)

// Settle weighs what a reader made of each number against the rest of the boat
// and returns the survey with the most probable values, their confidences and
// alternatives. Readings without alternatives, such as typed ones, are as they
// were, and so are those whose sources disagree: that is for a person.
func Settle(s parse.Survey) parse.Survey {
	given := s
	end := lastKnown(s)
	s = clone(s)
	for range mostSettled {
		curve, err := settledCurve(s)
		if err != nil {
			return s
		}
		changed := false
		from := cells(&given)
		for k, c := range cells(&s) {
			r := from[k].reading
			if !r.Known || len(r.Alternatives) == 0 || !curve.covers(c) || c.x >= end {
				continue
			}
			was := *c.reading
			*c.reading = weighReading(*r, curve.expect(c), step(s.Unit))
			changed = changed || was.Certain() != c.reading.Certain() || was.Value != c.reading.Value
		}
		if !changed {
			break
		}
	}
	return s
}

// lastKnown is how far from the bow the curve is held by numbers on both sides,
// inches: to the end of the boat, or only to the last station where nobody knows
// how long it is.
func lastKnown(s parse.Survey) float64 {
	if s.LengthOverall.Certain() || len(s.Stations) == 0 {
		return math.Inf(1)
	}
	return inches(s.Stations[len(s.Stations)-1].At)
}

// spot is a girth of a survey with where it lies.
type spot struct {
	reading       *parse.Reading
	x             float64 // inches
	hull, opening float64
}

// cells returns every girth of the survey, always in the same order.
func cells(s *parse.Survey) []spot {
	var all []spot
	pair := func(p *parse.Pair, x float64) {
		all = append(all, spot{&p.HullGirth, x, 1, 0}, spot{&p.FullGirth, x, 1, 1})
	}
	// The stations must be the survey's own: the caller changes them.
	for i := range s.Stations {
		pair(&s.Stations[i].Pair, inches(s.Stations[i].At))
	}
	at := math.NaN()
	if s.Greatest.At.Certain() {
		at = inches(s.Greatest.At.Value)
	}
	pair(&s.Greatest.Pair, at)
	all = append(all, spot{&s.Greatest.Opening, at, 0, 1})
	pair(&s.Transom, inches(s.LengthOverall.Value))
	return all
}

// curveOf is what the certain numbers of a survey say of every other.
type curveOf struct {
	sheet  sheet
	best   state
	edited map[int]bool
	curve  fair.Curve
}

func settledCurve(s parse.Survey) (curveOf, error) {
	s = measured(s)
	sh, f, err := whole(s).lay(s)
	if err != nil {
		return curveOf{}, err
	}
	shapes, _ := f.Shapes(mostShapes)
	se := newSearch(sh)
	best := se.run(f, shapes, math.Inf(-1))
	c := curveOf{sheet: sh, best: best, edited: map[int]bool{}, curve: fair.Blend(best.worlds)}
	for _, id := range best.edits {
		for _, i := range se.edits[id-1].cells {
			c.edited[i] = true
		}
	}
	return c, nil
}

// covers reports a place inside the boat.
func (c curveOf) covers(p spot) bool {
	from, to := c.curve.Span()
	return p.x >= from && p.x <= to
}

// expect is what a number should read by all others. A number that the curve
// was laid through is left out for that.
func (c curveOf) expect(p spot) fair.Estimate {
	for i, d := range c.sheet.data[:len(c.sheet.numbers)] {
		if !c.edited[i] && p.reading.Certain() && d.X == p.x && d.Hull == p.hull && d.Opening == p.opening {
			return leftOut(c.best.worlds, i)
		}
	}
	hull, full := c.curve.At(p.x)
	var e fair.Estimate
	switch {
	case p.hull == 0:
		e = fair.Estimate{Mean: full.Mean - hull.Mean, SD: full.SD}
	case p.opening == 0:
		e = hull
	default:
		e = full
	}
	return fair.Estimate{Mean: e.Mean, SD: math.Hypot(e.SD, tapeSD)}
}

// weighReading multiplies a reader's distribution with the curve's. What the
// reader left over belongs to values that it did not name.
func weighReading(r parse.Reading, e fair.Estimate, grain float64) parse.Reading {
	all := append([]parse.Candidate{{Value: r.Value, Probability: r.Confidence}}, r.Alternatives...)
	rest := 1.0
	sd := math.Hypot(e.SD, readSpread)
	total := 0.0
	for i := range all {
		rest -= all[i].Probability
		z := (inches(all[i].Value) - e.Mean) / sd
		near := math.Exp(-z*z/2) / (sd * math.Sqrt(2*math.Pi))
		all[i].Probability *= grain * ((1-flatShare)*near + flatShare/flatRange)
		total += all[i].Probability
	}
	total += math.Max(rest, 0) * grain / flatRange
	if total <= 0 {
		return r
	}
	for i := range all {
		all[i].Probability /= total
	}
	slices.SortStableFunc(all, func(a, b parse.Candidate) int { return cmp.Compare(b.Probability, a.Probability) })
	best := all[0]
	if best.Probability >= parse.Sure && chance(r, best.Value) < leastRead {
		best.Probability = math.Nextafter(parse.Sure, 0)
	}
	r.Value, r.Confidence, r.Alternatives = best.Value, best.Probability, all[1:]
	return r
}

// chance is what the reader gave a value.
func chance(r parse.Reading, value parse.Length) float64 {
	if r.Value == value {
		return r.Confidence
	}
	for _, a := range r.Alternatives {
		if a.Value == value {
			return a.Probability
		}
	}
	return 0
}
