package table

import (
	"math"
	"regexp"

	"fairtape/parse"
)

// take records the numbers of a label.
func (s *sheet) take(t *tag, cells []*item) {
	var entries []entry
	for i := 0; i < len(cells); i++ {
		it := cells[i]
		it.used = true
		if unitOnly.MatchString(it.folded) && !it.value() {
			continue
		}
		e := entry{item: it, heading: t.scale}
		if i+1 < len(cells) && !cells[i+1].value() {
			e.heading = scaleOfWord(cells[i+1].folded)
			cells[i+1].used = true
			if e.heading == parse.ScaleFoot && i+2 < len(cells) && bareInches(cells[i+2]) {
				e = entry{item: s.joinFeet(it, cells[i+2])}
				cells[i+2].used = true
				i += 2
			}
			i++
		} else if i+1 < len(cells) && wholeFeet(it) && cells[i+1].amount.Scale == parse.ScaleInch && cells[i+1].amount.Number < 12 {
			e = e.saying(it.Text + " " + cells[i+1].Text) // "9 ft | 3 in"
			e.used, cells[i+1].used = true, true
			i++
		} else if i+1 < len(cells) && feetThenInches.MatchString(t.folded) && bareInches(cells[i+1]) && it.amount.Scale == parse.Bare {
			e = entry{item: s.joinFeet(it, cells[i+1])}
			cells[i+1].used = true
			i++
		} else if h := s.unitAbove(it); h != parse.Bare && t.scale == parse.Bare {
			e.heading = h
			if h == parse.ScaleFoot && i+1 < len(cells) && s.unitAbove(cells[i+1]) == parse.ScaleInch {
				e = entry{item: s.joinFeet(it, cells[i+1])}
				cells[i+1].used = true
				i++
			}
		}
		if t.weak && (t.measure == parse.BowHeight || t.measure == parse.SternHeight) && len(cells) == 1 {
			e.end = true
		} else if t.spot {
			e.spot = !t.distance
		} else if t.weak {
			e.doubt = parse.Fault{Code: parse.CodeUnplaced, Message: "The label allows for more than one measure."}
		}
		if parse.Doubts(t.folded) {
			e.doubt = parse.Fault{Code: parse.CodeApproximate, Message: "The label says that this number may not be right."}
		}
		entries = append(entries, e)
	}
	s.doubtBeside(t, cells, entries)
	t.item.used = true
	v := view{s, false}
	switch {
	case len(entries) == 0:
	case t.meta == metaSpacing:
		s.found.spacing = entries[0].item
	case t.meta == metaTape:
		s.readTape(entries)
	case t.at != nil:
		s.takeStation(t, entries)
	case t.group == groupGreatest || t.group == groupTransom:
		s.takeGroup(t, bothOf(entries))
	case t.group == groupHeights:
		s.takeHeights(t, bothOf(entries))
	case t.measure != "":
		v.addWhole(t.measure, entries...)
	default:
		for _, e := range entries {
			s.problem(parse.CodeUnplaced, e.item, "This number belongs to no measure that is known.")
		}
	}
}

// takeStation reads the numbers after "Hull girth at 3 ft", or after "Hull girth
// and full girth at 3 ft".
func (s *sheet) takeStation(t *tag, entries []entry) {
	line := row{name: *t.at, label: t.item}
	if at := &line.name.Amount; at.Scale == parse.Bare && at.Number >= leastMillimetres && len(entries) > 0 && entries[0].scale() == parse.ScaleMM {
		at.Scale = parse.ScaleMM // "Hull girth at 300" beside a number of millimetres
	}
	switch t.measure {
	case parse.HullGirth:
		line.hull = entries
	case parse.FullGirth:
		line.full = entries
	case parse.MeasurePair:
		entries = bothOf(entries)
		if len(entries) != 2 {
			for _, e := range entries {
				s.problem(parse.CodeColumnsUnclear, e.item, "It is not clear which girth this number is.")
			}
			return
		}
		line.hull, line.full = entries[:1], entries[1:]
	}
	s.found.singles = append(s.found.singles, line)
}

// leastMillimetres is how far aft, in mm, a station lies at least.
const leastMillimetres = 50

// feetThenInches closes a label that has a cell for each: "Length (ft / in)".
var feetThenInches = regexp.MustCompile(`\b(?:ft|feet|foot|pi|pieds)\.?\s*(?:/|,|&|and|et|\+|-)\s*(?:in|inch|inches|po|pouces)\b\.?[\])]?$`)

// wholeFeet reports a whole number of feet.
func wholeFeet(it *item) bool {
	return !it.fault.Some() && it.amount.Scale == parse.ScaleFoot && it.amount.Number == math.Trunc(it.amount.Number)
}

// bareInches reports what may be the inches beside a number of feet.
func bareInches(it *item) bool {
	return it.numeric && !it.fault.Some() && it.amount.Scale == parse.Bare && it.amount.Number < 12
}

// bothOf gives each of two numbers in one cell an entry of its own.
func bothOf(entries []entry) []entry {
	var out []entry
	for _, e := range entries {
		first, second, ok := splitPair(e.Text)
		if !ok || e.Code != "" {
			out = append(out, e)
			continue
		}
		for _, text := range []string{first, second} {
			part := e
			cell := e.Cell
			cell.Text = text
			part.item = newItem(cell, e.row, e.col)
			out = append(out, part)
		}
	}
	return out
}

// takeHeights reads two heights under one label: the ends are named over the
// numbers, or in the label, in their order.
func (s *sheet) takeHeights(t *tag, entries []entry) {
	v := view{s, false}
	bow, stern := bowWords.FindStringIndex(t.folded), sternWords.FindStringIndex(t.folded)
	for i, e := range entries {
		var end parse.Measure
		for r := e.row - 1; r >= 0 && r >= e.row-reachDown && end == ""; r-- {
			if l := v.at(r, e.col).asLabel(); l.measure == parse.BowHeight || l.measure == parse.SternHeight {
				end = l.measure
				v.at(r, e.col).used = true
			}
		}
		if left := s.leftOf(t.item); end == "" && left != nil && len(entries) == 1 {
			if l := left.asLabel(); l.weak && (l.measure == parse.BowHeight || l.measure == parse.SternHeight) {
				end = l.measure // "bow | height | 18"
				left.used = true
			}
		}
		if end == "" && bow != nil && stern != nil && len(entries) == 2 {
			end = parse.BowHeight
			if (i == 0) == (stern[0] < bow[0]) {
				end = parse.SternHeight
			}
		}
		if end == "" {
			s.problem(parse.CodeUnplaced, e.item, "This number belongs to no measure that is known.")
			continue
		}
		v.addWhole(end, e)
	}
}

// unitAbove returns the unit in the nearest cell of words over a number. A unit
// beside the label of one number is not that of the numbers below.
func (s *sheet) unitAbove(it *item) parse.Scale {
	v := view{s, false}
	for r := it.row - 1; r >= 0 && r >= it.row-reachAcross; r-- {
		up := v.at(r, it.col)
		if up.value() || up.empty() {
			continue
		}
		if unitOnly.MatchString(up.folded) && !v.labelled(r) {
			return scaleOfWord(up.folded)
		}
		break
	}
	return parse.Bare
}

// takeGroup reads the numbers after "Greatest girth at" or "Transom": the
// distance where the label asks for it, hull girth, full girth, and the
// opening. Fewer or other numbers are not guessed at.
func (s *sheet) takeGroup(t *tag, entries []entry) {
	v := view{s, false}
	entries = v.takeSaid(t.group, entries)
	var measures []parse.Measure
	switch {
	case t.group == groupTransom && len(entries) == 2 && pairOf(entries[0], entries[1]):
		measures = []parse.Measure{parse.TransomHullGirth, parse.TransomFullGirth}
	case t.group == groupGreatest && len(entries) == 1 && (t.measure == parse.GreatestAt || t.distance):
		measures = []parse.Measure{parse.GreatestAt}
	case t.group == groupGreatest && len(entries) == 2 && t.measure == "" && pairOf(entries[0], entries[1]):
		measures = []parse.Measure{parse.GreatestHullGirth, parse.GreatestFullGirth}
	case t.group == groupGreatest && len(entries) == 3 && pairOf(entries[1], entries[2]),
		t.group == groupGreatest && len(entries) == 4 && pairOf(entries[1], entries[2]) && isOpening(entries):
		measures = []parse.Measure{parse.GreatestAt, parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestOpening}
	}
	if t.group == groupTransom && len(entries) > 0 {
		s.found.square = true
	}
	for i, e := range entries {
		if i < len(measures) {
			v.addWhole(measures[i], e)
			continue
		}
		s.problem(parse.CodeUnplaced, e.item, "It is not clear which measure this number is.")
	}
}

// pairOf reports numbers that can be a hull girth and the full girth there.
func pairOf(hull, full entry) bool {
	if hull.fault.Some() || full.fault.Some() {
		return true // each will be a problem of its own
	}
	a, b := hull.amount.Number, full.amount.Number
	return a < b && b <= 2*a
}

// isOpening reports that the fourth number is about the difference of the two
// before it, whatever they are counted in.
func isOpening(e []entry) bool {
	if e[1].fault.Some() || e[2].fault.Some() || e[3].fault.Some() {
		return true
	}
	d := e[2].amount.Number - e[1].amount.Number
	return e[3].amount.Number > 0.8*d && e[3].amount.Number < 1.25*d
}

// The long edge of the paper that forms are printed on, for the check of the
// tape: US letter and A4 (ISO 216), with the tolerance of a reading.
const (
	letterEdge   = 11.0 // in
	a4Edge       = 29.7 // cm
	edgeTolerant = 0.13
)

// readTape passes over a tape that reads the paper's edge rightly.
func (s *sheet) readTape(entries []entry) {
	for _, e := range entries {
		n := e.amount.Number
		if !e.fault.Some() && (n > letterEdge-edgeTolerant && n < letterEdge+edgeTolerant || n > a4Edge-edgeTolerant && n < a4Edge+edgeTolerant) {
			continue
		}
		s.problem(parse.CodeTape, e.item, "The tape does not read the long edge of the paper as it should.")
	}
}
