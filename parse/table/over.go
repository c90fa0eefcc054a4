package table

import "fairtape/parse"

// What stands over a column, and which girth that makes of it.

// headings returns the texts over column c, the lowest first.
func (v view) headings(start, c int) []string {
	var texts []string
	beyond := false // rows of one number lie between
	for r := start - 1; r >= 0 && r >= start-headingReach && (v.allWords(r) || len(texts) == 0 && v.loneNumber(r)); r-- {
		if len(texts) > 0 && v.emptyRow(r) {
			break
		}
		if !v.allWords(r) {
			beyond = true
			continue
		}
		if beyond && !v.headsGirths(r) {
			break // a name or a remark over what is no row of this table
		}
		it := v.at(r, c)
		if it.empty() {
			it = v.spanning(r, c, len(texts) > 0)
		}
		if !it.empty() && !it.legend {
			texts = append(texts, it.folded)
		}
	}
	return texts
}

// spanning returns the heading in row r that lies over column c from its left:
// a merged cell, or, over a second heading, the nearest one to the left.
func (v view) spanning(r, c int, second bool) *item {
	for left := c - 1; left >= 0; left-- {
		it := v.at(r, left)
		if it.empty() {
			continue
		}
		if v.overStations(r, left, it) {
			break // a title over the whole table
		}
		if left+v.across(it) > c || second && v.across(it) == 1 && (v.girthHeading(it) || saysKept(it.folded) || tryOf(it.folded) != 0) {
			return it
		}
		break
	}
	return &item{}
}

// overStations reports a text in row r, column c that lies over the heading of
// the stations too.
func (v view) overStations(r, c int, it *item) bool {
	for below := r + 1; below <= r+headingReach; below++ {
		for i := range v.across(it) {
			if h := v.at(below, c+i); h.word() && h.asRole() == roleStation {
				return true
			}
		}
	}
	return false
}

func (v view) column(start, c int) column {
	col := column{at: c}
	text := ""
	for _, t := range v.headings(start, c) {
		if l := labelOf(t); l.measure != "" || l.meta == metaSpacing || stationLabel(t).at != nil {
			break // the label of one number
		}
		if r := roleOf(t); text != "" && col.role != r && (r == roleHull || r == roleFull) && (col.role == roleHull || col.role == roleFull) {
			break // of the column to its left
		}
		if col.scale == parse.Bare {
			col.scale = headingScale(t)
		}
		if m, ok := v.meaning(t); ok && col.role == noRole {
			col.role = m.role
			if col.scale == parse.Bare {
				col.scale = m.scale
			}
			break
		}
		col.rough = col.rough || parse.Doubts(t)
		col.astern = col.astern || fromStern.MatchString(t)
		col.kept = col.kept || saysKept(t) || v.keptTry != 0 && tryOf(t) == v.keptTry
		col.dashed = col.dashed || feetDashInches.MatchString(t)
		if text == "" {
			text = t
		} else {
			text = t + " " + text
		}
		if col.role == noRole || col.role == roleGirth || col.role == roleOpening && v.ownHeading(start, c, t) {
			r := roleOf(text)
			if name, f := parse.ParseStation(t); r == roleStation && !f.Some() && name.Special == "" {
				col.name = &name // "Station 1 ft", over the numbers of that station
			}
			if r.girth() || r == roleStation || col.role == noRole && r != noRole {
				col.role = r
			}
		}
	}
	return col
}

// ownHeading reports a text that stands over a column and names the girth that
// goes round the hull: what the line below it says of the opening is how.
func (v view) ownHeading(start, c int, text string) bool {
	if r := roleOf(text); r != roleHull && r != roleFull {
		return false
	}
	for r := start - 1; r >= max(0, start-headingReach); r-- {
		if v.at(r, c).folded == text {
			return true
		}
	}
	return false
}
