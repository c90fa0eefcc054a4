package table

import (
	"fmt"
	"math"
	"regexp"
	"slices"

	"fairtape/parse"
)

// A girth may stand in several columns: two tries and the one that was kept, a
// number and its correction.

var (
	// keptWords head the column of those that count.
	keptWords = regexp.MustCompile(`\b(?:corrected|corrections?|revised|amended|corrigee?s?|rectifiee?s?|kept|retained|final|definitive|chosen|adopted|agreed|accepted|retenue?s?|gardee?s?|conservee?s?|definiti(?:f|ve)s?|finale?s?|choisie?s?|adoptee?s?|use (?:this|these)|to use|a utiliser|a prendre|a garder|counts|qui compte|right one|good one|la bonne|correct)\b|^(?:value |number |one )?used\b|\buse\)?$`)
	notKept   = regexp.MustCompile(`\b(?:not|don't|doesn't|non|pas|never|jamais|without|sans)\b`)
	meanWords = regexp.MustCompile(`\b(?:average|mean|avg|moyennes?|moy)\b`)
)

// saysKept reports the heading of a column whose numbers count before others of
// the same girth.
func saysKept(heading string) bool {
	return keptWords.MatchString(heading) && !notKept.MatchString(heading)
}

// kept leaves of several numbers of one girth the one that counts. That another
// no longer does is said where it is not one of the tries between which the kept
// one lies.
func (v view) kept(entries []entry) []entry {
	counts := func(e entry) bool { return e.kept }
	i := slices.IndexFunc(entries, counts)
	if i < 0 || entries[i].fault.Some() || slices.ContainsFunc(entries[i+1:], counts) {
		return entries
	}
	var tries, counted []entry
	for k, e := range entries {
		if k == i || otherScale(e, entries[i]) {
			counted = append(counted, e)
		} else {
			tries = append(tries, e)
		}
	}
	if !amongTries(entries[i], tries) {
		for _, e := range tries {
			v.problem(parse.CodeSecondTry, e.item, fmt.Sprintf("Another column gives %q as the number that counts, and that is read.", entries[i].Text))
		}
	}
	return counted
}

// otherScale reports two numbers that say that they are counted in different
// things. The same number in another unit is no try.
func otherScale(a, b entry) bool {
	return a.scale() != b.scale() && a.scale() != parse.Bare && b.scale() != parse.Bare
}

// amongTries reports a number that lies between the least and the most of some
// tries.
func amongTries(e entry, tries []entry) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, t := range tries {
		if t.fault.Some() {
			return false
		}
		low, high = min(low, t.amount.Number), max(high, t.amount.Number)
	}
	return low <= e.amount.Number && e.amount.Number <= high
}

// meanWithin is how far a mean may lie from that of its tries: people round it
// to the half inch, or the whole centimetre.
const meanWithin = 0.5

// withMeans adds the means of two tries, which a customer gives as the number
// that counts, where no other column does. A column is one by its heading and by
// every number in it.
func (v view) withMeans(start int, girths, others []column) []column {
	measured := girths
	for _, mean := range others {
		if mean.role != roleDerived || !slices.ContainsFunc(v.headings(start, mean.at), meanWords.MatchString) {
			continue
		}
		var tries []column
		for _, g := range measured {
			if g.at < mean.at && len(tries) > 0 && tries[0].role != g.role {
				tries = nil
			}
			if g.at < mean.at {
				tries = append(tries, g)
			}
		}
		if len(tries) < 2 || slices.ContainsFunc(tries, func(c column) bool { return c.kept || c.scale != tries[0].scale }) || !v.means(start, tries, mean) {
			continue
		}
		mean.role, mean.scale, mean.kept = tries[0].role, tries[0].scale, true
		girths = append(girths, mean)
	}
	return girths
}

// means reports a column with the mean of the tries in every row.
func (v view) means(start int, tries []column, mean column) bool {
	rows := 0
	for r := start; r < v.rows() && !v.emptyRow(r) && !v.allWords(r); r++ {
		sum, n := 0.0, 0.0
		for _, c := range tries {
			if it := v.at(r, c.at); it.numeric && !it.fault.Some() {
				sum, n = sum+it.amount.Number, n+1
			}
		}
		it := v.at(r, mean.at)
		switch {
		case n == 0 && !it.numeric:
			continue
		case n == 0, it.fault.Some(), math.Abs(it.amount.Number-sum/n) > meanWithin:
			return false
		}
		rows++
	}
	return rows >= fewRows
}

// withoutHidden leaves out the hidden columns of girths that other columns give
// in sight.
func (v view) withoutHidden(start int, girths []column) []column {
	return slices.DeleteFunc(slices.Clone(girths), func(c column) bool {
		return v.hidden(start, c.at) && slices.ContainsFunc(girths, func(o column) bool {
			return o.role == c.role && !v.hidden(start, o.at) && v.mostlyNumbers(start, o.at)
		})
	})
}

// hidden reports a column whose numbers nobody sees.
func (v view) hidden(start, c int) bool {
	n := 0
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		it := v.at(r, c)
		if it.value() && it.Code != parse.CodeHidden {
			return false
		}
		if it.value() {
			n++
		}
	}
	return n > 0
}

// withoutHalves leaves out the two sides of a girth that is given whole.
func (v view) withoutHalves(start int, girths []column) []column {
	if !slices.ContainsFunc(girths, func(c column) bool { return c.role == roleHull || c.role == roleGirth }) {
		return girths
	}
	return slices.DeleteFunc(slices.Clone(girths), func(c column) bool { return c.role == roleHalf && v.mostlyNumbers(start, c.at) })
}
