package table

import (
	"regexp"

	"fairtape/parse"
)

// Of the greatest girth people say which number is which behind each: "at 5 ft 7
// in from the bow, 50 under and 83 around".

// takeSaid records the numbers that say themselves which measure of a place they
// are, "4 ft 8 in from the bow", "43 1/2 under", and returns the others.
func (v view) takeSaid(g group, entries []entry) (rest []entry) {
	var said []*tag
	for _, e := range entries {
		words, length, ok := wordsAndLength(parse.Plain(e.Text))
		r := roleOf(words)
		if !ok || r == noRole || e.Code != "" {
			rest = append(rest, e)
			continue
		}
		e = e.saying(length)
		e.used = true
		said = append(said, &tag{item: e.item, role: r, label: label{measure: within(g, r)}})
	}
	oneOpen(g, said)
	for _, t := range said {
		if t.measure == "" {
			rest = append(rest, entry{item: t.item})
			continue
		}
		v.addWhole(t.measure, entry{item: t.item})
	}
	return rest
}

// saidSign parts the numbers of such a list.
var saidSign = regexp.MustCompile(`[,;]\s+|\s(?:and|et|&)\s`)

// severalSaid returns the numbers of a list each of which says what it is; none
// when one does not.
func severalSaid(it *item, text string) (numbers []*item) {
	for _, part := range saidSign.Split(text, -1) {
		cell := it.Cell
		cell.Text = atPlace.ReplaceAllString(part, "")
		if cell.Text != part && withoutBow(cell.Text) == cell.Text {
			cell.Text += " from the bow"
		}
		words, _, ok := wordsAndLength(cell.Text)
		if !ok || roleOf(words) == noRole {
			return nil
		}
		numbers = append(numbers, newItem(cell, it.row, it.col))
	}
	if len(numbers) < 2 {
		return nil
	}
	return numbers
}

func entriesOf(items []*item) (entries []entry) {
	for _, it := range items {
		entries = append(entries, entry{item: it})
	}
	return entries
}
