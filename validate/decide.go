package validate

import (
	"math"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// A wrong number costs as much as the cover is spoilt by it: nothing within
// what cloth gives, the whole from three inches on; between, it strains or hangs
// in folds. Common practice: the cloth is sewn a little under the measured girth
// and stretches over half an inch.
const (
	harmless = 0.75 // inches
	harmful  = 3.0
)

// harm is the share of the cost of a missed slip that an error of off inches
// bears.
func harm(off float64) float64 {
	return math.Min(1, math.Max(0, (math.Abs(off)-harmless)/(harmful-harmless)))
}

// needsNoTape reports slips of the pen that the customer can answer for with
// yes or no.
func needsNoTape(k slip.Kind) bool {
	switch k {
	case slip.DecimalLost, slip.FeetInchesJoined, slip.SwappedPair, slip.OpeningForFull,
		slip.FromStern, slip.HalfGirth, slip.TapeOffset:
		return true
	}
	return false
}

// sureOfPen is the probability from which a slip of the pen is asked as a
// yes-or-no question; below, the tape decides.
const sureOfPen = 0.9

// noteworthy is the probability from which the shop is told of a number that
// nobody is asked about.
const noteworthy = 0.02

// What a needless question costs, in needless questions about one number.
// Common practice, no source.
const (
	// About a whole survey: every girth of some fifteen rows is put in doubt,
	// and with them the customer's trust in the rest.
	wholeAsk = 400
	// About every row abaft a place.
	skippedAsk = 30
	// The same from the first row on: nothing of the survey is out of doubt. On
	// the benchmark's tuning seeds 3010 to 3013 half of such suspicions below
	// 0.8, which this asks for, were of a station skipped much further aft.
	everyAsk = 120
	// About the end of the tape, asked by measuring the opening once more.
	tapeEndAsk = 5
	// A height tells little of the girths, nor they of it, and paper tracings
	// give the ends' outlines anyway.
	heightAsk = 15
)

// weight is what a needless question about the suspicion costs, in needless
// questions about one number.
func weight(s slip.Suspicion) float64 {
	switch {
	case s.Cell.Measure == parse.BowHeight || s.Cell.Measure == parse.SternHeight:
		return heightAsk
	case s.Whole:
		return wholeAsk
	case s.Kind == slip.RowSkipped && s.Every:
		return everyAsk
	case s.Kind == slip.RowSkipped:
		return skippedAsk
	case s.Kind == slip.TapeOffset:
		return tapeEndAsk
	}
	return 1
}

// atOpening narrows a tape's cut-off end to the one number that tells of it and
// that settles it, so that nobody is asked about every row.
func atOpening(s slip.Suspicion, survey parse.Survey) slip.Suspicion {
	s.Whole, s.Rows = false, nil
	s.Cell = parse.Cell{Measure: parse.GreatestOpening}
	s.Read = survey.Greatest.Opening.Value
	s.Expected = survey.Greatest.FullGirth.Value - survey.Greatest.HullGirth.Value
	s.Low, s.High = s.Expected-parse.Inches(harmless), s.Expected+parse.Inches(harmless)
	s.Off = harmful
	return s
}

// decide weighs the cost of asking against that of passing the number.
func decide(s slip.Suspicion, unit parse.Unit, costs Costs) (Finding, bool) {
	p := s.Probability
	f := Finding{Rule: ruleOf(s), Cell: s.Cell, Rows: s.Rows, Slip: s.Kind, Probability: p}
	if s.Cell.Measure != "" {
		f.Read, f.Expected, f.Low, f.High = &s.Read, &s.Expected, &s.Low, &s.High
		if s.Suggested {
			f.Suggest = &s.Suggest
		}
	}
	off := s.Off
	if s.Whole || s.Kind == slip.RowSkipped || s.Kind == slip.TapeOffset {
		off = harmful
	}
	askedAtOpening := s.Whole && s.Kind == slip.TapeOffset
	switch {
	case askedAtOpening || p*harm(off)*costs.Miss <= (1-p)*costs.Ask*weight(s):
		if p < noteworthy || harm(off) == 0 {
			return Finding{}, false
		}
		f.Kind = Note
	case s.Whole || needsNoTape(s.Kind) && p >= sureOfPen:
		f.Kind = Confirm
	default:
		f.Kind = Recheck
	}
	f.Message = message(f, unit)
	return f, true
}

// ruleOf names the rule that a suspicion comes from.
func ruleOf(s slip.Suspicion) Rule {
	switch {
	case s.Whole:
		return WholeColumn
	case s.Kind == slip.RowSkipped || s.Kind == slip.RowRepeated:
		return RowOrder
	}
	return FairCurve
}
