package curves

import (
	"maps"
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

// namedCeiling returns the share of trials in which the slip of one number is
// named by whoever knows the true girths, what else stands on the sheet and how
// often each slip happens, and names what is then likeliest. It is not known
// for slips of the tape, which write any number.
func (b bench) namedCeiling(trials []trial) (share float64, known bool) {
	named := make([]int, len(trials))
	for _, t := range trials {
		if len(t.done.Wrong) != 1 || t.done.Wrong[0].Name == "misread-tape" {
			return 0, false
		}
	}
	each(len(trials), func(i int) {
		named[i] = one(b.likeliestName(trials[i]) == trials[i].done.Wrong[0].Name)
	})
	sum := 0
	for _, n := range named {
		sum += n
	}
	return float64(sum) / float64(len(trials)), true
}

// farOff is how many standard deviations off the true girth a reading never is.
const farOff = 5

// likeliestName weighs every value that may have been measured where a number
// is wrong, and every slip that writes what stands there for it.
func (b bench) likeliestName(t trial) string {
	cell := t.done.Wrong[0].Cell
	p, x := t.at(cell)
	girths := b.girths(t, x)
	girth, reading := girths.hull, p.HullGirth
	if full(cell) {
		girth, reading = girths.full, p.FullGirth
	}
	wrote := reading.Value.In(b.tape.Unit)
	weights := map[string]float64{}
	for _, truth := range b.grid(girth.mean-farOff*girth.sd, girth.mean+farOff*girth.sd) {
		z := (parse.Measured(truth, b.tape.Unit).In(parse.Inch) - girth.mean) / girth.sd
		density := math.Exp(-z * z / 2)
		for _, name := range known.Names(truth, wrote, b.tape.Unit) {
			weights[name] += density * chance(name, truth)
		}
		if full(cell) && math.Abs(truth-p.HullGirth.Value.In(b.tape.Unit)-wrote) < 1e-6 {
			weights["opening-for-full"] += density * chance("opening-for-full", truth)
		}
	}
	best := ""
	for _, name := range slices.Sorted(maps.Keys(weights)) {
		if weights[name] > weights[best] {
			best = name
		}
	}
	return best
}

// grid returns the values that a customer of the unit writes between two girths
// in inches.
func (b bench) grid(from, to float64) []float64 {
	step := 0.5
	if b.tape.Unit == parse.Centimetre {
		step = 1
	}
	unit := b.tape.Unit
	var all []float64
	for k := math.Ceil(parse.Inches(from).In(unit) / step); k*step <= parse.Inches(to).In(unit); k++ {
		all = append(all, k*step)
	}
	return all
}

// chance is how often a slip of the name writes one certain number for truth,
// where every slip of the table is as frequent as any other.
func chance(name string, truth float64) float64 {
	switch name {
	case "off-by-ten", "off-by-foot": // too many or too few
		return 1.0 / 2
	case "digit":
		const others = 9 // that may stand for the right one
		return 1 / (others * math.Ceil(math.Log10(truth+1)))
	}
	return 1
}

// at returns the pair in which a girth stands, and its place in inches.
func (t trial) at(c parse.Cell) (parse.Pair, float64) {
	switch g := t.survey.Greatest; c.Measure {
	case parse.GreatestHullGirth, parse.GreatestFullGirth:
		return g.Pair, g.At.Value.In(parse.Inch)
	case parse.TransomHullGirth, parse.TransomFullGirth:
		return t.survey.Transom, t.sheet.Boat.Length
	}
	i := slices.IndexFunc(t.survey.Stations, func(row parse.Station) bool { return row.At == c.At })
	return t.survey.Stations[i].Pair, c.At.In(parse.Inch)
}

// full reports a full girth.
func full(c parse.Cell) bool {
	return c.Measure == parse.FullGirth || c.Measure == parse.GreatestFullGirth || c.Measure == parse.TransomFullGirth
}

// deviation returns how many standard deviations a girth lies off the true one.
func (b bench) deviation(t trial, c parse.Cell) float64 {
	p, x := t.at(c)
	hull, closed := b.apart(t, p, x)
	if full(c) {
		return closed
	}
	return hull
}

// normal is what a reading may be.
type normal struct{ mean, sd float64 } // inches

// pairOfGirths is what the readings of a pair may be.
type pairOfGirths struct{ hull, full normal }

// girths returns what the girths at x read, the boat's true ones known.
func (b bench) girths(t trial, x float64) pairOfGirths {
	trueHull, trueFull := t.sheet.Boat.Girths(min(x, t.sheet.Boat.Length))
	nearHull, nearFull := t.sheet.Boat.Girths(max(x-1, 0))
	return pairOfGirths{
		hull: normal{trueHull, b.spread(trueHull - nearHull)},
		full: normal{trueFull, b.spread(trueFull - nearFull)},
	}
}

// apart returns how many standard deviations the girths of a pair lie off the
// true ones at x.
func (b bench) apart(t trial, p parse.Pair, x float64) (hull, full float64) {
	g := b.girths(t, x)
	return (p.HullGirth.Value.In(parse.Inch) - g.hull.mean) / g.hull.sd, (p.FullGirth.Value.In(parse.Inch) - g.full.mean) / g.full.sd
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
	shift := b.markShift()
	share := func(numbers float64) float64 {
		limit := distuv.UnitNormal.Quantile(1 - allowedNeedless/numbers)
		return 1 - distuv.UnitNormal.CDF(limit-shift)
	}
	return share(1), share(float64(2 * rows))
}

// openingLikelier returns how often the opening control, its true value known,
// lies nearer to what a tape that begins at its first mark makes of it.
func (b bench) openingLikelier() float64 { return distuv.UnitNormal.CDF(b.markShift() / 2) }

// markShift returns how far a tape that begins at its first mark shifts a
// reading, in the reading's standard deviations.
func (b bench) markShift() float64 {
	mark := 1.0
	if b.tape.Unit == parse.Centimetre {
		mark = parse.Centimetres(3).In(parse.Inch)
	}
	return mark / b.spread(0)
}
