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
