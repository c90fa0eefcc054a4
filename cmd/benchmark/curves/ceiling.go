package curves

import (
	"math"

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
	switch t.done.Slip {
	case known.RowSkipped:
		return b.placeKnown(t)
	case known.RowRepeated: // one girth of the pair betrays the row
		return b.oddest(t, t.done.Rows[0]) > b.limit(t)
	case known.Swapped:
		return b.oddest(t, t.done.Wrong[0].Cell.At) > b.limit(t)
	}
	for _, w := range t.done.Wrong {
		hull, full := b.apart(t, w.Cell.At, w.Cell.At.In(parse.Inch))
		if w.Cell.Measure == parse.FullGirth {
			hull = full
		}
		if math.Abs(hull) <= b.limit(t) {
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

// oddest returns the larger deviation of a row's girths.
func (b bench) oddest(t trial, at parse.Length) float64 {
	hull, full := b.apart(t, at, at.In(parse.Inch))
	return max(math.Abs(hull), math.Abs(full))
}

// apart returns how many standard deviations the girths written at a station lie
// off the true ones at x.
func (b bench) apart(t trial, at parse.Length, x float64) (hull, full float64) {
	for _, row := range t.survey.Stations {
		if row.At != at {
			continue
		}
		trueHull, trueFull := t.sheet.Boat.Girths(min(x, t.sheet.Boat.Length))
		nearHull, nearFull := t.sheet.Boat.Girths(max(x-1, 0))
		hull = (row.HullGirth.Value.In(parse.Inch) - trueHull) / b.spread(trueHull-nearHull)
		full = (row.FullGirth.Value.In(parse.Inch) - trueFull) / b.spread(trueFull-nearFull)
	}
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
			hull, full := b.apart(t, row.At, x)
			sum += hull*hull + full*full
		}
		if sum < least {
			best, least = place, sum
		}
	}
	return t.near(stations[best].At, t.done.Rows[0])
}
