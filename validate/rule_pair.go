package validate

import (
	"fairtape/parse"
	"fairtape/validate/slip"
)

// Limits of a pair of girths, inches.
const (
	// The gunwales of a boat stand about an inch apart at least at a station
	// inside the ends (common practice, no source); two readings to the half
	// inch can lose half of that.
	leastOpening = 0.75
	// A station nearer than this to an end is not inside: there the gunwales
	// meet in the stem.
	insideEnds = 6.0
	// A straight line is the shortest way, so the opening is at most the hull
	// girth; each of the three readings in that may be off by half its step.
	twiceHullSlack = 1.0
)

// pairRules holds hull girth and full girth of each place against each other.
func pairRules(s parse.Survey) []Finding {
	var out []Finding
	for _, p := range placedPairs(s) {
		hull, full := p.HullGirth.Value, p.FullGirth.Value
		switch opening := full - hull; {
		case opening <= 0:
			out = append(out, notAbove(p, s.Unit))
		case p.inside && opening < parse.Inches(leastOpening):
			out = append(out, Finding{Kind: Recheck, Rule: OpeningTooSmall, Cell: p.both, Probability: impossible, Slip: slip.Unknown,
				Message: place(p.both, s.Unit) + " leave an opening of only " + number(opening, s.Unit)})
		case opening > hull+parse.Inches(twiceHullSlack):
			out = append(out, aboveTwice(p, s))
		}
	}
	return out
}

// notAbove is the finding of a full girth that is not above its hull girth.
// Exchanged they must be a possible pair for that to be the likely slip.
func notAbove(p placed, unit parse.Unit) Finding {
	hull, full := p.HullGirth.Value, p.FullGirth.Value
	f := Finding{Kind: Recheck, Rule: FullNotAboveHull, Cell: p.both, Probability: impossible, Slip: slip.Unknown,
		Message: place(p.both, unit) + ": the full girth, " + number(full, unit) + ", is not above the hull girth, " + number(hull, unit)}
	if hull-full >= parse.Inches(leastOpening) && hull <= 2*full {
		f.Kind, f.Slip = Confirm, slip.SwappedPair
		f.Message += "; likely " + likely(f.Slip)
	}
	return f
}

// aboveTwice is the finding of an opening wider than the hull girth. On a
// decked boat the loop runs over the crown, so there it is only a note.
func aboveTwice(p placed, s parse.Survey) Finding {
	f := Finding{Kind: Recheck, Rule: FullAboveTwiceHull, Cell: p.both, Probability: impossible, Slip: slip.Unknown,
		Message: place(p.both, s.Unit) + ": the full girth, " + number(p.FullGirth.Value, s.Unit) +
			", is more than twice the hull girth, " + number(p.HullGirth.Value, s.Unit)}
	if s.Decked {
		f.Kind, f.Probability = Note, 0
	}
	return f
}
