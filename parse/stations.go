package parse

import (
	"math"
	"slices"
)

// StationHint is what is known of a column of stations beside their names.
type StationHint struct {
	Scale   Scale  // from the heading, else Bare
	Unit    Unit   // of the survey
	Overall Length // length overall, 0 when not known
	Spacing Length // "every 6 inches", 0 when not said
	Half    bool   // the girths are not falling at the last row: more of the boat is to come
}

// Usual spacings of stations where nothing is said: the forms have a row a
// foot, or every 30 cm.
const (
	footSpacing   = 12 * millimetresPerInch
	metricSpacing = 30 * millimetresPerCentimetre
)

// Stations says how far aft of the bow each name of one column lies. Bare
// numbers are counted in the scale that fits their step, the survey's unit and
// the length overall; counted names ("St. 3") by the usual spacing. Named
// places have 0. A fault means that the distances are only the likeliest.
func Stations(names []Name, hint StationHint) ([]Length, Fault) {
	at := make([]Length, len(names))
	var bare, counted []float64
	scale := hint.Scale
	for _, n := range names {
		switch {
		case n.Special != "":
		case n.Ordinal:
			counted = append(counted, n.Amount.Number)
		case n.Amount.Scale == Bare:
			bare = append(bare, n.Amount.Number)
		case hint.Scale == Bare:
			scale = n.Amount.Scale // "1 ft, 2, 3": the first names it for all
		}
	}
	var unclear Fault
	if scale == Bare && len(bare) > 0 {
		scale, unclear = stationScale(bare, hint)
	}
	if scale == ScaleFoot && hint.Scale == Bare && Counted(names) && !hint.Half {
		// 1, 2, 3 that stop at half the boat may be counted, two feet apart.
		if _, f := countedSpacing(bare, hint); f.Some() {
			unclear = f
		}
	}
	spacing := hint.Spacing
	if spacing == 0 && len(counted) > 0 {
		var f Fault
		if spacing, f = countedSpacing(counted, hint); f.Some() {
			unclear = f
		}
	}
	beyond := 0
	for i, n := range names {
		switch {
		case n.Special != "":
		case n.Ordinal:
			at[i] = onGrid(n.Amount.Number * float64(spacing))
		default:
			at[i], _ = n.Amount.Length(scale)
		}
		if at[i] > longestBoat {
			unclear = fault(CodeStationUnclear, "This lies farther from the bow than any boat is long.")
		}
		if hint.Overall > 0 && at[i] > hint.Overall {
			beyond++
		}
	}
	if 2*beyond > len(names) { // one or two may be a slip in the length
		unclear = fault(CodeStationUnclear, "Most of these lie farther from the bow than the boat is long; they may be in another unit.")
	}
	return at, unclear
}

// Counted reports bare names that run 1, 2, 3, as rows are counted.
func Counted(names []Name) bool {
	next := 1.0
	for _, n := range names {
		if n.Special != "" {
			continue
		}
		if n.Ordinal || n.Amount != (Amount{next, Bare}) {
			return false
		}
		next++
	}
	return next > 2
}

// Stations nearer than 2 in or farther apart than 4 ft are no survey, nor is
// a boat of over 15 m brought under a cover of this kind.
const (
	leastStep    = 2 * millimetresPerInch
	greatestStep = 48 * millimetresPerInch
	longestBoat  = 15000
)

// stationScales lists the scales of bare stations with the steps that people
// use in each. 1, 2, 3 are never metres: nobody measures a small boat at four
// places. Feet come first: 1, 2, 3 are feet unless something speaks
// against it.
var stationScales = []struct {
	scale Scale
	steps []float64
}{
	{ScaleFoot, []float64{0.5, 1, 1.5, 2, 3}},
	{ScaleInch, []float64{3, 4, 6, 8, 9, 12, 18, 24, 36}},
	{ScaleCM, []float64{10, 15, 20, 25, 30, 40, 50, 60, 100}},
	{ScaleMM, []float64{100, 150, 200, 250, 300, 400, 500, 600, 1000}},
	{ScaleM, []float64{0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6}},
}

// How much each sign counts that bare stations are in a scale. That they reach
// just short of the stern outweighs the rest together.
const (
	usualStepWeight = 2
	sameUnitWeight  = 1
	reachWeight     = 4
	feetFirstWeight = 0.5
)

// fewStations is the least number of rows from which it counts that the last
// lies near the stern.
const fewStations = 4

func stationScale(bare []float64, hint StationHint) (Scale, Fault) {
	unclear := fault(CodeStationUnclear, "It is not clear what the distances of the stations are counted in.")
	step, last := stepOf(bare)
	best, bestScore, bestReaches := Bare, -1.0, false // reaches the stern by steps that people use
	tie := false
	for _, c := range stationScales {
		per := c.scale.millimetres()
		if step*per < leastStep || step*per > greatestStep || last*per > longestBoat {
			continue
		}
		if hint.Overall > 0 && last*per > float64(hint.Overall)+leastStep {
			continue
		}
		score, reaches := 0.0, false
		usual := slices.Contains(c.steps, step)
		if usual {
			score += usualStepWeight
		}
		if c.scale == ScaleM && !usual {
			continue
		}
		if c.scale.Unit() == hint.Unit {
			score += sameUnitWeight
		}
		if hint.Overall > 0 && len(bare) >= fewStations && float64(hint.Overall)-last*per <= 2.2*step*per {
			score += reachWeight
			reaches = true
		}
		if c.scale == ScaleFoot {
			score += feetFirstWeight
		}
		switch {
		case score > bestScore:
			best, bestScore, bestReaches, tie = c.scale, score, reaches && usual, false
		case score == bestScore:
			tie = true
		}
	}
	if best == Bare {
		return ScaleOf(hint.Unit), unclear
	}
	if tie || best.Unit() != hint.Unit && hint.Unit != UnknownUnit && !bestReaches {
		return best, unclear
	}
	if best == ScaleFoot && hint.Unit == Centimetre {
		// 1, 2, 3 in a metric survey: feet, or rows every 30 cm, counted.
		return best, fault(CodeStationUnclear, "The stations are numbered 1, 2, 3 and the girths are metric; it is not said how far apart the stations lie.")
	}
	return best, Fault{}
}

// stepOf returns the smallest step between neighbouring numbers, and the
// greatest number.
func stepOf(numbers []float64) (step, last float64) {
	sorted := slices.Clone(numbers)
	slices.Sort(sorted)
	sorted = slices.Compact(sorted)
	last = sorted[len(sorted)-1]
	step = sorted[0]
	if step == 0 && len(sorted) > 1 {
		step = sorted[1]
	}
	for i := 1; i < len(sorted); i++ {
		step = min(step, math.Round((sorted[i]-sorted[i-1])*1e6)/1e6)
	}
	return step, last
}

// countedSpacing is the spacing of counted stations, unless the length overall
// says that another usual one was meant.
func countedSpacing(counted []float64, hint StationHint) (Length, Fault) {
	spacing := Length(footSpacing)
	usual := []Length{Inches(6), Inches(24), Centimetres(30)}
	if hint.Unit == Centimetre {
		spacing = metricSpacing
		usual = []Length{Centimetres(15), Centimetres(20), Centimetres(25), Centimetres(50), Centimetres(60), Inches(12)}
	}
	_, last := stepOf(counted)
	expected := func(s Length) float64 { return math.Ceil(float64(hint.Overall)/float64(s)-1e-9) - 1 }
	unclear := fault(CodeStationUnclear, "The stations are only counted, and it is not clear how far apart they lie.")
	if hint.Overall == 0 {
		if hint.Unit == Centimetre {
			return spacing, unclear // feet, 30 cm and 50 cm are all usual there
		}
		return spacing, Fault{}
	}
	if last > expected(spacing)+1 {
		return spacing, unclear
	}
	if last < expected(spacing)-1 {
		for _, s := range usual {
			if last == expected(s) {
				return spacing, unclear
			}
		}
	}
	return spacing, Fault{}
}
