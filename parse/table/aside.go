package table

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// endsAfter reports that after so many names a column goes on with no further
// bare number: one that falls back is a sign that the column holds no stations.
func (v view) endsAfter(r, c, names int) bool {
	for ; r < v.rows(); r++ {
		it := v.at(r, c)
		switch {
		case it.empty():
			if names == 0 {
				return true
			}
		case names == 0:
			return !it.numeric
		default:
			names--
		}
	}
	return true
}

// ownNumber reports a label that stands beside a table, in the row of one of
// its stations, and speaks of a number of its own:
// "Greatest girth: hull | 46 | | 8 ft | 44".
func (v view) ownNumber(it, label *item) bool {
	if l := it.asLabel(); l.measure != "" && l.measure != parse.GreatestAt {
		return true
	}
	if v.flip || it.col >= label.col {
		return false
	}
	for c := it.col + 1; c < label.col; c++ {
		if v.at(it.row, c).value() {
			return true
		}
	}
	return false
}

var totalOnly = regexp.MustCompile(`^tota(?:l|le|ls|ux)\b(?:\s*\(?(?:in|cm|mm|po|inches|pouces)\)?)?$`)

// onlyTotals reports a table whose only girths are columns called "Total":
// beside a hull girth that is the full girth, alone it is any sum.
func (v view) onlyTotals(start int, girths []column) bool {
	for _, g := range girths {
		if texts := v.headings(start, g.at); len(texts) == 0 || !totalOnly.MatchString(texts[0]) {
			return false
		}
	}
	return true
}

// girthNamed reports a row whose first cell names a girth or a place, and so the
// number behind it: "under | 43", below the heading of the greatest girth.
func (v view) girthNamed(r int) bool {
	for c := range v.cols() {
		if it := v.at(r, c); !it.empty() {
			return it.word() && (it.asRole().girth() || frenchAt.MatchString(strings.Trim(it.Text, " :")))
		}
	}
	return false
}
