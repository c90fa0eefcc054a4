package table

import (
	"regexp"

	"fairtape/parse"
)

// whoseBoat heads the column of those who have the boats of a list.
var whoseBoat = regexp.MustCompile(`^(?:members?|owners?|skippers?|membres?|proprietaires?|equipiers?)\b`)

// fewBoats is how many boats a list of them names at least.
const fewBoats = 2

// listsBoats reports a sheet that is a list of boats, a row each, with their
// names and lengths under headings, and nothing else that is measured: a club's.
// None of them is surveyed there.
func (s *sheet) listsBoats() bool {
	if len(s.found.blocks)+len(s.found.singles) > 0 {
		return false
	}
	v := view{s, false}
	for r := range s.items {
		if !v.allWords(r) {
			continue
		}
		named, length, others := false, -1, false
		for c, it := range s.items[r] {
			switch l := it.asLabel(); {
			case l.measure == parse.LengthOverall:
				length = c
			case l.measure != "" || l.group != "" || it.asRole().girth():
				others = true
			case l.meta == metaBoat, l.meta == metaCustomer, whoseBoat.MatchString(it.folded):
				named = true
			}
		}
		if length < 0 || others || !named {
			continue
		}
		boats := 0
		for below := r + 1; below < v.rows() && !v.emptyRow(below); below++ {
			if v.at(below, length).value() {
				boats++
			}
		}
		if boats >= fewBoats {
			return true
		}
	}
	return false
}
