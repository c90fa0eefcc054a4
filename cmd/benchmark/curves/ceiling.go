package curves

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"fairtape/parse"
	"fairtape/validate/known"
)

// The ceiling: what somebody who knows the boat's true girths everywhere, and
// how the tape errs, but not what was done to the survey, could find while
// asking for no more sound numbers than is allowed on clean boats.

// allowedNeedless is how many sound numbers may be asked for per clean survey.
const allowedNeedless = 0.03

// ceiling returns the share of trials in which all that is wrong stands out.
func (b bench) ceiling(trials []trial) float64 {
	found := make([]int, len(trials))
	each(len(trials), func(i int) { found[i] = one(b.standsOut(trials[i])) })
	sum := 0
	for _, f := range found {
		sum += f
	}
	return float64(sum) / float64(max(len(trials), 1))
}

// standsOut reports whether all that is wrong in a survey lies outside what the
// tape explains.
func (b bench) standsOut(t trial) bool {
	limit := b.limit(t)
	out := func(w known.Wrong) bool { return math.Abs(b.deviation(t, w.Cell)) > limit }
	switch t.done.Slip {
	case known.RowSkipped:
		return b.placeKnown(t)
	case known.RowRepeated, known.Swapped: // one girth of the pair betrays both
		return slices.ContainsFunc(t.done.Wrong, out)
	}
	for _, w := range t.done.Wrong {
		if !out(w) {
			return false
		}
	}
	return true
}

// limit is how many standard deviations off a number must lie to be asked for.
func (b bench) limit(t trial) float64 {
	numbers := float64(2 * len(t.survey.Stations))
	return distuv.UnitNormal.Quantile(1 - allowedNeedless/numbers/2)
}

// deviation returns how many standard deviations a girth lies off the true one.
func (b bench) deviation(t trial, c parse.Cell) float64 {
	switch g := t.survey.Greatest; c.Measure {
	case parse.GreatestHullGirth, parse.GreatestFullGirth:
		hull, full := b.apart(t, g.Pair, g.At.Value.In(parse.Inch))
		return either(c.Measure == parse.GreatestHullGirth, hull, full)
	case parse.TransomHullGirth, parse.TransomFullGirth:
		hull, full := b.apart(t, t.survey.Transom, t.sheet.Boat.Length)
		return either(c.Measure == parse.TransomHullGirth, hull, full)
	}
	i := slices.IndexFunc(t.survey.Stations, func(row parse.Station) bool { return row.At == c.At })
	hull, full := b.apart(t, t.survey.Stations[i].Pair, c.At.In(parse.Inch))
	return either(c.Measure == parse.HullGirth, hull, full)
}

func either(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}

// apart returns how many standard deviations the girths of a pair lie off the
// true ones at x.
func (b bench) apart(t trial, p parse.Pair, x float64) (hull, full float64) {
	trueHull, trueFull := t.sheet.Boat.Girths(min(x, t.sheet.Boat.Length))
	nearHull, nearFull := t.sheet.Boat.Girths(max(x-1, 0))
	hull = (p.HullGirth.Value.In(parse.Inch) - trueHull) / b.spread(trueHull-nearHull)
	full = (p.FullGirth.Value.In(parse.Inch) - trueFull) / b.spread(trueFull-nearFull)
	return hull, full
}

// spread returns the standard deviation of a girth in inches, from tape, slack,
// rounding and the place of the loop on a girth of the given slope.
func (b bench) spread(slope float64) float64 {
	grid := 0.5
	if b.tape.Unit == parse.Centimetre {
		grid = parse.Centimetres(1).In(parse.Inch)
	}
	place := b.tape.Place * slope
	return math.Sqrt(b.tape.Noise*b.tape.Noise + b.tape.Slack*b.tape.Slack + grid*grid/12 + place*place)
}

// placeKnown reports whether the most likely place of a skipped station is
// within one row of the true one.
func (b bench) placeKnown(t trial) bool {
	stations := t.survey.Stations
	step := (stations[1].At - stations[0].At).In(parse.Inch)
	best, least := 0, math.Inf(1)
	for place := range stations {
		sum := 0.0
		for i, row := range stations {
			x := row.At.In(parse.Inch)
			if i >= place {
				x += step
			}
			hull, full := b.apart(t, row.Pair, x)
			sum += hull*hull + full*full
		}
		if sum < least {
			best, least = place, sum
		}
	}
	return t.near(stations[best].At, t.done.Rows[0])
}

// openingCeiling returns how often a tape that begins at its first mark can be
// told from the opening control alone, its true value known, while clean
// surveys are asked for no more than is allowed: once with the question counted
// as one number, once by the girths of all its rows.
func (b bench) openingCeiling(rows int) (asOne, byRows float64) {
	mark := 1.0
	if b.tape.Unit == parse.Centimetre {
		mark = parse.Centimetres(3).In(parse.Inch)
	}
	shift := mark / b.spread(0)
	share := func(numbers float64) float64 {
		limit := distuv.UnitNormal.Quantile(1 - allowedNeedless/numbers)
		return 1 - distuv.UnitNormal.CDF(limit-shift)
	}
	return share(1), share(float64(2 * rows))
}
