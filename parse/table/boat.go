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
	role     role // of a girth under a heading such as "Greatest"
	inline   *item
	several  []*item // numbers behind the label that say themselves what they are
	text     string  // words after a colon
	scale    parse.Scale
	distance bool // from the bow
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
		case len(t.several) > 0:
			s.takeGroup(t, entriesOf(t.several))
			t.item.used = true
		case t.inline != nil && t.group == groupGreatest:
			s.take(t, append([]*item{t.inline}, s.numbersOn(t, right)...))
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
			if numbers := s.numbersOn(t, d); len(numbers) > 0 && !s.ratherBeside(t, d, numbers[0]) {
				s.take(t, numbers)
			} else {
				rest = append(rest, t)
			}
		}
		open = rest
	}
}

// ratherBeside reports a number over a label, or under it and behind a label of
// its own, where another stands right of the label.
func (s *sheet) ratherBeside(t *tag, d side, number *item) bool {
	switch d {
	case above:
	case below_:
		left := s.leftOf(number)
		if left == nil || !left.word() || left.asLabel().measure == "" && left.asRole() == noRole {
			return false
		}
	default:
		return false
	}
	return len(s.numbersOn(t, right)) > 0
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

// stationCount is the label of how many stations there are.
var stationCount = regexp.MustCompile(`^(?:(?:number|no\.?|count|nombre) (?:of|de) )?(?:stations|postes|reperes)\b`)

// place gives the labels under a heading such as "Greatest girth" their
// meaning.
func (s *sheet) place(tags []*tag) {
	g := group("")
	var roles []*tag // under one heading
	for _, t := range tags {
		if t.group != "" || t.measure != "" || t.meta != "" {
			oneOpen(g, roles)
			roles = nil
		}
		switch {
		case t.group != "":
			g = t.group
		case strings.HasPrefix(string(t.measure), "greatest."):
			g = groupGreatest
		case strings.HasPrefix(string(t.measure), "transom."):
			g = groupTransom
		case t.role != noRole:
			if !stationCount.MatchString(t.folded) {
				t.measure = within(g, t.role)
			}
			roles = append(roles, t)
			if g == "" {
				s.ofStation(t)
			}
		case t.weak && (t.measure == parse.BowHeight || t.measure == parse.SternHeight):
			if g == groupHeights {
				t.weak = false
			}
		case t.meta == metaSquare && s.isSquare(t):
			g = groupTransom
		case t.measure != "" || t.meta != "":
			g = ""
		}
	}
	oneOpen(g, roles)
}

// oneOpen gives the one girth that does not say which it is the role that the
// other leaves: "under", "around" are hull and full girth.
func oneOpen(g group, tags []*tag) {
	var open *tag
	hull, full := false, false
	for _, t := range tags {
		switch t.role {
		case roleHull:
			hull = true
		case roleFull:
			full = true
		case roleGirth:
			if open != nil {
				return
			}
			open = t
		}
	}
	switch {
	case open == nil || hull == full:
	case hull:
		open.measure = within(g, roleFull)
	case full:
		open.measure = within(g, roleHull)
	}
}

// isSquare reports that the stern is said to be square: by a heading over what
// was measured there, or by a yes.
func (s *sheet) isSquare(t *tag) bool {
	value := s.beside(t)
	said := answer(value.Text)
	return value.empty() && answer(t.folded) != "" || yesWords.MatchString(said)
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
	if t.part && t.inline == nil && s.reportable(t.item) {
		return nil // a sentence with numbers of its own
	}
	if t.at != nil && (d == above || d == left) {
		return nil // "Hull girth 44 in" may hold its number, and is no label of what stands before it
	}
	if t.group != "" && d == above {
		return nil // a heading is of what follows
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
		case it.used && !it.empty(), it.note:
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
