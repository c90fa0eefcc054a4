package table

import "regexp"

// toleranceHead is the heading of how far the numbers before may be off.
var toleranceHead = regexp.MustCompile(`^(?:(?:±|\+ ?/? ?-) ?(?:` + toleranceWords + `)?|(?:` + toleranceWords + `)(?: ?(?:±|\+ ?/? ?-))?)(?: ?[(\[].*)?$`)

const toleranceWords = `tol(?:erances?|\.)?|uncertainty|incertitudes?|precision`

// findNotes marks what stands under the heading of a column of notes, or of
// tolerances.
func (s *sheet) findNotes() {
	v := view{s, false}
	for r := range s.items {
		if !v.allWords(r) {
			continue
		}
		for c, it := range s.items[r] {
			if !it.word() || len(it.folded) > longestNumber || !v.at(r, c-1).word() {
				continue
			}
			switch {
			case it.asRole() == roleNotes:
				for below := r + 1; below < v.rows() && !v.allWords(below); below++ {
					v.at(below, c).note = true
				}
			case toleranceHead.MatchString(it.folded):
				v.findTolerances(r, c)
			}
		}
	}
}

// A tolerance further down its column, under the headings of another table, is
// at most so many times the largest above, and at most that part of the number
// before it.
const (
	toleranceGrows = 2
	toleranceShare = 0.1
)

// findTolerances marks the tolerances under a heading.
func (v view) findTolerances(heading, c int) {
	most := 0.0
	r := heading + 1
	for ; r < v.rows() && (!v.allWords(r) || v.emptyRow(r)); r++ {
		it := v.at(r, c)
		it.note = true
		if it.numeric {
			most = max(most, it.amount.Number)
		}
	}
	for ; r < v.rows(); r++ {
		it, before := v.at(r, c), v.at(r, c-1)
		if it.numeric && before.numeric && it.amount.Number <= toleranceGrows*most && it.amount.Number <= toleranceShare*before.amount.Number {
			it.note = true
		}
	}
}
