package table

import "fairtape/parse"

// ofStation gives a label of a girth the station that it belongs to: the one to
// its left, when a table has a line for each number ("3 ft | hull girth | 44"),
// or the one that a card has over its lines.
func (s *sheet) ofStation(t *tag) {
	if t.role != roleHull && t.role != roleFull {
		return
	}
	v := view{s, false}
	at, heading := v.stationLeft(t)
	if at == nil {
		at, heading = v.cardOver(t), parse.Bare
	}
	if at == nil || t.inline == nil && !v.at(t.row, t.col+1).numeric {
		return
	}
	name, _ := parse.ParseStation(at.Text)
	if name.Amount.Scale == parse.Bare && !name.Ordinal {
		name.Amount.Scale = heading
	}
	t.at, t.measure = &name, parse.HullGirth
	if t.role == roleFull {
		t.measure = parse.FullGirth
	}
	at.used, at.named = true, true
}

// stationLeft returns the name of a station to the left of a label, and the unit
// of its column.
func (v view) stationLeft(t *tag) (*item, parse.Scale) {
	if t.col == 0 || t.inline != nil || !v.at(t.row, t.col+1).numeric {
		return nil, parse.Bare
	}
	before := v.at(t.row, t.col-1)
	for up := t.row - 1; before.empty() && up > t.row-3; up-- {
		if it := v.at(up, t.col-1); it.named { // one name for the lines of a station
			before = it
		} else if !it.empty() {
			break
		}
	}
	name, f := parse.ParseStation(before.Text)
	if f.Some() || name.Special != "" || before.Code != "" || before.used && !before.named {
		return nil, parse.Bare
	}
	for r := t.row - 1; r >= 0; r-- {
		if up := v.at(r, t.col-1); up.word() {
			if up.asRole() != roleStation {
				return nil, parse.Bare
			}
			return before, headingScale(up.folded)
		}
	}
	return before, parse.Bare
}

// cardLines is how many lines a card has under the name of its station.
const cardLines = 4

// cardOver returns the name of a station that stands over the lines of a card.
// It is no length that has a label of its own.
func (v view) cardOver(t *tag) *item {
	for r := t.row - 1; r >= 0 && r >= t.row-cardLines; r-- {
		it := v.at(r, t.col)
		name, f := parse.ParseStation(it.Text)
		switch {
		case it.word() && it.asRole().girth() && stationLabel(it.folded).at == nil:
			continue // another line of the card
		case it.empty() || f.Some() || name.Special != "" || it.Code != "" || !name.Ordinal && name.Amount.Scale == parse.Bare,
			it.used && !it.named, v.at(r, t.col-1).asLabel().measure != "", v.at(r-1, t.col).asLabel().measure != "":
			return nil
		}
		return it
	}
	return nil
}

// readCards reads cards that have the name of a station at the head, and below
// it nothing but lines that each say a girth: "2 ft" over "Hull girth 45" and
// "Full girth 65".
func (s *sheet) readCards() {
	for _, items := range s.items {
		for _, it := range items {
			line, lines := s.card(it)
			if len(lines) == 0 {
				continue
			}
			it.used = true
			for _, l := range lines {
				l.used = true
			}
			s.found.singles = append(s.found.singles, line)
		}
	}
}

// card returns what the card under a name says, and its cells; none when it is
// no such card.
func (s *sheet) card(head *item) (line row, lines []*item) {
	v := view{s, false}
	// Few cells have words and a number below them; only those are looked at.
	if firstDigit(v.at(head.row+1, head.col).folded) <= 0 || !s.cardHead(head) {
		return row{}, nil
	}
	name, _ := parse.ParseStation(head.Text)
	line = row{name: name, label: head}
	for r := head.row + 1; ; r++ {
		it := v.at(r, head.col)
		if it.empty() || s.cardHead(it) {
			break
		}
		role, e := girthSaid(it)
		switch {
		case it.used || len(lines) == cardLines:
			return row{}, nil
		case role == roleHull:
			line.hull = append(line.hull, e)
		case role == roleFull:
			line.full = append(line.full, e)
		default:
			return row{}, nil
		}
		lines = append(lines, it)
	}
	return line, lines
}

// cardHead reports the name of a station that is not the number of a label
// beside it or above it.
func (s *sheet) cardHead(it *item) bool {
	name, f := parse.ParseStation(it.Text)
	if it.empty() || it.used || f.Some() || name.Special != "" || it.Code != "" || !name.Ordinal && name.Amount.Scale == parse.Bare {
		return false
	}
	v := view{s, false}
	for _, label := range []*item{s.leftOf(it), v.at(it.row-1, it.col)} {
		if label != nil && label.word() && firstDigit(label.folded) < 0 && !label.asLabel().none() {
			return false
		}
	}
	return true
}
