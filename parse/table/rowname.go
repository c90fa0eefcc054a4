package table

import (
	"math"

	"fairtape/parse"
)

// rowName reads the name of a row; at is the cell that tells where the
// greatest girth lies, and where the one that names the place.
func (v view) rowName(label *item, r int, others []column) (name parse.Name, at, where *item, ok bool) {
	special := parse.Special("")
	where = label
	for _, it := range append([]*item{label}, v.otherCells(r, others)...) {
		if it.numeric || len(it.folded) > longestLabel || it != label && (v.ownNumber(it, label) || v.recurs(it)) {
			continue
		}
		switch {
		case it != label && (v.between(label) || label.numeric && v.tellsPlace(it)):
			continue // "widest here" beside a station is a remark, "widest is at 8 ft" no name of its row
		case greatestWords.MatchString(it.folded) && it.asLabel().meta == "":
			special, where = parse.NamedGreatest, it
		case transomWords.MatchString(it.folded), squareStern.MatchString(it.folded):
			special, where = parse.NamedTransom, it
		default:
			continue
		}
		break
	}
	if special != "" {
		name = parse.Name{Special: special}
		if special == parse.NamedGreatest {
			at = v.greatestPlace(where, label)
		}
		return name, at, where, true
	}
	if label.Code != "" && label.Code != parse.CodeHidden {
		return name, nil, where, false
	}
	name, f := parse.ParseStation(label.Text)
	if !f.Some() && name.Amount.Scale == parse.Bare && !name.Ordinal {
		name.Amount.Scale = label.Scale
	}
	return name, nil, where, !f.Some()
}

// tellsPlace reports a label of the greatest girth with a number behind it.
func (v view) tellsPlace(it *item) bool {
	t := newTag(it)
	return t != nil && t.measure == parse.GreatestAt && t.inline != nil
}

// between reports the name of a station that lies halfway between the ones above
// and below it: without it the table would have a hole.
func (v view) between(label *item) bool {
	r, c := label.row, label.col
	if v.flip {
		r, c = c, r
	}
	above, below := v.at(r-1, c), v.at(r+1, c)
	if !label.numeric || !above.numeric || !below.numeric || label.fault.Some() || above.fault.Some() || below.fault.Some() {
		return false
	}
	step := below.amount.Number - label.amount.Number
	return step != 0 && math.Abs(label.amount.Number-above.amount.Number-step) < sameStep
}

// recurs reports a text that stands in its column again after others, and so
// names no place: "Max" among those who measured.
func (v view) recurs(it *item) bool {
	r, c := it.row, it.col
	if v.flip {
		r, c = c, r
	}
	for _, step := range []int{-1, 1} {
		others := false
		for other := r + step; other >= 0 && other < v.rows(); other += step {
			switch text := v.at(other, c).folded; {
			case text == it.folded && others:
				return true
			case text != it.folded && text != "":
				others = true
			}
		}
	}
	return false
}

func (v view) otherCells(r int, others []column) []*item {
	var cells []*item
	for _, o := range others {
		if it := v.at(r, o.at); it.word() && !it.used {
			cells = append(cells, it)
		}
	}
	return cells
}

// greatestPlace finds the distance in "Greatest girth at 8 ft 1 in", or in the
// column of stations when the word stands in another.
func (v view) greatestPlace(where, label *item) *item {
	if where != label {
		if label.numeric {
			return label
		}
		return nil
	}
	rest := where.Cell
	rest.Text = greatestRemark.ReplaceAllString(parse.Plain(rest.Text), "")
	return tailNumber(newItem(rest, where.row, where.col))
}

// greatestRemark is the word after its place: "8 ft 1 in (greatest)".
var greatestRemark = parse.NewPattern(`(?i)\s*[(,-]\s*(?:the )?(?:greatest|maximum|max|widest|largest|biggest|plus gr[a-z]+)\b[^0-9]*$`)

// tailNumber returns the number that ends a label, as an item of its own; nil
// when there is none.
func tailNumber(it *item) *item {
	text := parse.Plain(it.Text)
	i := firstDigit(text)
	if i < 0 {
		return nil
	}
	cell := it.Cell
	cell.Text = trimTail(text[i:])
	tail := newItem(cell, it.row, it.col)
	tail.folded = parse.Fold(cell.Text)
	if !tail.value() {
		return nil
	}
	return tail
}
