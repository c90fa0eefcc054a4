package table

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// tag is a label that stands outside the tables, with what it labels.
type tag struct {
	*item
	label
	role   role // of a girth under a heading such as "Greatest"
	inline *item
	text   string // words after a colon
	scale  parse.Scale
}

// readBoat reads what stands outside the tables: numbers and words beside
// their labels, on whichever side.
func (s *sheet) readBoat() {
	tags := s.tags()
	s.place(tags)
	var open []*tag
	for _, t := range tags {
		if t.weak && t.measure == parse.SternHeight && sternShapes.MatchString(s.nextTo(t.item).folded) {
			t.label = label{meta: metaStern}
		}
		switch {
		case t.item.used:
		case t.inline != nil:
			s.take(t, []*item{t.inline})
		case t.meta != "" && t.meta != metaSpacing && t.meta != metaTape:
			s.readMeta(t, s.beside(t))
		default:
			open = append(open, t)
		}
	}
	// All labels of a sheet have their numbers on the same side, as a rule:
	// the side that serves most goes first.
	sides := []side{right, below_, left, above}
	best, bestServed := 0, -1
	for i, d := range sides {
		served := 0
		for _, t := range open {
			if len(s.numbersOn(t, d)) > 0 {
				served++
			}
		}
		if served > bestServed {
			best, bestServed = i, served
		}
	}
	if len(open) > 0 {
		sides[0], sides[best] = sides[best], sides[0]
	}
	for _, d := range sides {
		var rest []*tag
		for _, t := range open {
			if numbers := s.numbersOn(t, d); len(numbers) > 0 && !(d == above && len(s.numbersOn(t, right)) > 0) {
				s.take(t, numbers)
			} else {
				rest = append(rest, t)
			}
		}
		open = rest
	}
}

// nextTo returns the next cell to the right that holds anything.
func (s *sheet) nextTo(it *item) *item {
	for _, next := range s.items[it.row][it.col+1:] {
		if !next.empty() {
			return next
		}
	}
	return &item{}
}

// place gives the labels under a heading such as "Greatest girth" their
// meaning.
func (s *sheet) place(tags []*tag) {
	g := group("")
	for _, t := range tags {
		switch {
		case t.group != "":
			g = t.group
		case strings.HasPrefix(string(t.measure), "greatest."):
			g = groupGreatest
		case strings.HasPrefix(string(t.measure), "transom."):
			g = groupTransom
		case t.role != noRole:
			t.measure = within(g, t.role)
			if g == "" {
				s.ofStation(t)
			}
		case t.weak && (t.measure == parse.BowHeight || t.measure == parse.SternHeight):
			if g == groupHeights {
				t.weak = false
			}
		case t.measure != "" || t.meta != "":
			g = ""
		}
	}
}

// ofStation gives a label of a girth the station that stands to its left, when
// a table has a line for each number: "3 ft | hull girth | 44".
func (s *sheet) ofStation(t *tag) {
	if t.col == 0 || t.inline != nil || t.role != roleHull && t.role != roleFull {
		return
	}
	v := view{s, false}
	before, after := v.at(t.row, t.col-1), v.at(t.row, t.col+1)
	for up := t.row - 1; before.empty() && up > t.row-3; up-- {
		if it := v.at(up, t.col-1); it.named { // one name for the lines of a station
			before = it
		} else if !it.empty() {
			break
		}
	}
	name, f := parse.ParseStation(before.Text)
	if f.Some() || name.Special != "" || before.Code != "" || !after.numeric || before.used && !before.named {
		return
	}
	heading := parse.Bare
	for r := t.row - 1; r >= 0; r-- {
		if up := v.at(r, t.col-1); up.word() {
			if roleOf(up.folded) != roleStation {
				return
			}
			heading = headingScale(up.folded)
			break
		}
	}
	if name.Amount.Scale == parse.Bare && !name.Ordinal {
		name.Amount.Scale = heading
	}
	t.at, t.measure = &name, parse.HullGirth
	if t.role == roleFull {
		t.measure = parse.FullGirth
	}
	before.used, before.named = true, true
}

// side is where a number stands, seen from its label.
type side struct{ down, right int }

var (
	right  = side{0, 1}
	left   = side{0, -1}
	below_ = side{1, 0}
	above  = side{-1, 0}
)

const (
	// reachAcross and reachDown are how far from its label a number is looked
	// for: merged cells and hints stand in between, blank rows hardly.
	reachAcross = 12
	reachDown   = 2
)

// numbersOn returns the numbers that stand on one side of a label, up to the
// next label: one, or several tries, or feet and inches in cells of their own.
func (s *sheet) numbersOn(t *tag, d side) []*item {
	if t.measure == "" && t.group == "" && t.meta == "" {
		return nil
	}
	reach := reachAcross
	if d.down != 0 {
		reach = reachDown
	}
	var found []*item
	v := view{s, false}
	for i := 1; i <= reach; i++ {
		r, c := t.row+i*d.down, t.col+i*d.right
		if r < 0 || c < 0 || r >= v.rows() || c >= v.cols() {
			break
		}
		it := v.at(r, c)
		switch {
		case it.used && !it.empty():
			return found
		case it.empty():
			if len(found) > 0 && d.down != 0 {
				return found
			}
		case it.value():
			found = append(found, it)
			if d.down != 0 || d.right < 0 {
				return s.withUnit(v, found, d)
			}
		case it.blank():
			return found
		case unitOnly.MatchString(it.folded):
			if len(found) > 0 {
				found = append(found, it)
			} else if t.scale == parse.Bare {
				t.scale = scaleOfWord(it.folded)
			}
		case newTag(it) != nil:
			return found
		case len(found) > 0, answerWords.MatchString(it.folded):
			return found
		}
	}
	return found
}

// answerWords stand in place of a number, so that one beyond them is not meant.
var answerWords = regexp.MustCompile(`\b(?:not|no|non|pas|can'?t|cannot|could|couldn'?t|didn'?t|unknown|inconnue?|missing|later|see|voir|forgot|none|don'?t|unsure|sure)\b`)

// withUnit adds the unit that follows a number in a cell of its own.
func (s *sheet) withUnit(v view, found []*item, d side) []*item {
	last := found[len(found)-1]
	if d.down == 0 {
		if it := v.at(last.row, last.col+1); unitOnly.MatchString(it.folded) {
			return append(found, it)
		}
	}
	return found
}

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
			if e.heading == parse.ScaleFoot && i+2 < len(cells) && cells[i+2].numeric && cells[i+2].amount.Scale == parse.Bare && cells[i+2].amount.Number < 12 {
				e = entry{item: s.joinFeet(it, cells[i+2])}
				cells[i+2].used = true
				i += 2
			}
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
		} else if t.weak {
			e.doubt = parse.Fault{Code: parse.CodeUnplaced, Message: "The label allows for more than one measure."}
		}
		entries = append(entries, e)
	}
	t.item.used = true
	v := view{s, false}
	switch {
	case len(entries) == 0:
	case t.meta == metaSpacing:
		s.found.spacing = entries[0].item
	case t.meta == metaTape:
		s.readTape(entries)
	case t.at != nil:
		line := row{name: *t.at, label: t.item}
		if t.measure == parse.HullGirth {
			line.hull = entries
		} else {
			line.full = entries
		}
		s.found.singles = append(s.found.singles, line)
	case t.group == groupGreatest || t.group == groupTransom:
		s.takeGroup(t, entries)
	case t.measure != "":
		v.addWhole(t.measure, entries...)
	default:
		for _, e := range entries {
			s.problem(parse.CodeUnplaced, e.item, "This number belongs to no measure that is known.")
		}
	}
}

// unitAbove returns the unit in the nearest cell of words over a number.
func (s *sheet) unitAbove(it *item) parse.Scale {
	v := view{s, false}
	for r := it.row - 1; r >= 0 && r >= it.row-reachAcross; r-- {
		up := v.at(r, it.col)
		if up.value() || up.empty() {
			continue
		}
		if unitOnly.MatchString(up.folded) {
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
	var measures []parse.Measure
	switch {
	case t.group == groupTransom && len(entries) == 2 && pairOf(entries[0], entries[1]):
		measures = []parse.Measure{parse.TransomHullGirth, parse.TransomFullGirth}
	case t.group == groupGreatest && t.measure == parse.GreatestAt && len(entries) == 1:
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
