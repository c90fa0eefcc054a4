package table

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// readCelled reads rows whose cells each hold a label and its number: "Station
// 1 ft | hull 35.5 | full 42".
func (s *sheet) readCelled() {
	for _, row := range s.items {
		station, line := s.celled(row)
		if station == nil {
			continue
		}
		station.used = true
		for _, it := range line.cells() {
			s.items[it.row][it.col].used = true
		}
		switch v := (view{s, false}); line.name.Special {
		case parse.NamedTransom:
			v.addTransom(line)
		case parse.NamedGreatest:
			v.addWhole(parse.GreatestHullGirth, line.hull...)
			v.addWhole(parse.GreatestFullGirth, line.full...)
			v.addWhole(parse.GreatestOpening, line.opening...)
			if at := v.greatestPlace(line.label, line.label); at != nil {
				v.addWhole(parse.GreatestAt, entry{item: at})
			}
		default:
			s.found.singles = append(s.found.singles, line)
		}
	}
}

// placeHead parts "At 1 ft: hull girth 41" into the place and what is said of
// it; rest is nil when the cell holds a place alone.
func placeHead(it *item) (place string, rest *item) {
	text := parse.Plain(it.Text)
	m := labelEnd.FindStringIndex(text)
	if m == nil || strings.TrimSpace(text[m[1]:]) == "" {
		return it.Text, nil
	}
	cell := it.Cell
	cell.Text = strings.TrimSpace(text[m[1]:])
	return text[:m[0]], newItem(cell, it.row, it.col)
}

// sentenceEnd is where a sentence with a number ends and the next begins.
var sentenceEnd = regexp.MustCompile(`(\d[^.;,:]*)\.\s+(\p{Lu})`)

// wordEnd is where words behind a number end and the next number follows.
var wordEnd = regexp.MustCompile(`(\d\S* \pL{3,})[;,]\s+(\d)`)

// clauses divides "hull girth 41, full girth 52. Opening there 11", and "41
// under, 52 around".
func clauses(it *item) []*item {
	text := parse.Plain(it.Text)
	for _, end := range []*regexp.Regexp{listEnd, sentenceEnd, wordEnd} {
		text = end.ReplaceAllString(text, "$1\t$2")
	}
	texts := strings.Split(text, "\t")
	if len(texts) == 1 {
		return []*item{it}
	}
	var parts []*item
	for _, text := range texts {
		cell := it.Cell
		cell.Text = text
		parts = append(parts, newItem(cell, it.row, it.col))
	}
	return parts
}

// girthSaid reads "hull girth 41 1/2" or "hull: 41 1/2"; the role is none when
// the text is neither.
func girthSaid(it *item) (role, entry) {
	text := parse.Plain(it.Text)
	i := firstDigit(text)
	if i <= 0 {
		return noRole, entry{}
	}
	i = hedgeStart(text, i)
	head := strings.TrimRight(parse.Fold(text[:i]), " :=.-")
	if l := labelOf(head); len(head) > longestLabel || !l.none() && l.measure != parse.GreatestOpening {
		return noRole, entry{}
	}
	cell := it.Cell
	cell.Text = trimTail(text[i:])
	number := newItem(cell, it.row, it.col)
	if !number.value() {
		return noRole, entry{}
	}
	return roleOf(head), entry{item: number, heading: headingScale(head)}
}

// girthBehind reads "43 1/2 under", where the words stand behind the number.
func girthBehind(it *item) (role, entry) {
	words, length, ok := wordsAndLength(parse.Plain(it.Text))
	if !ok || firstDigit(it.Text) > 0 || words == "" {
		return noRole, entry{}
	}
	e := entry{item: it}.saying(length)
	return roleOf(words), e
}

// saysGirth reports a cell with a girth and its number, "Hull girth: 46", which
// is no heading. "Girth 2" is one.
func (it *item) saysGirth() bool {
	role, e := girthSaid(it)
	return role.girth() && (e.amount.Number >= 10 || labelEnd.MatchString(it.folded))
}

// celled reads one such row; its station is nil when it is none. Every cell
// that holds anything has to be understood.
func (s *sheet) celled(items []*item) (station *item, line row) {
	var said []*item
	for _, it := range items {
		switch {
		case it.empty():
			continue
		case it.used:
			return nil, row{}
		case station == nil:
			place, rest := placeHead(it)
			name, f := parse.ParseStation(place)
			if f.Some() || it.Code != "" || name.Special == "" && !name.Ordinal && name.Amount.Scale == parse.Bare {
				return nil, row{}
			}
			head := it.Cell
			head.Text = place
			station, line.name, line.label = it, name, newItem(head, it.row, it.col)
			if rest == nil {
				continue
			}
			it = rest
		}
		said = append(said, clauses(it)...)
	}
	var doubt parse.Fault
	var around []entry // girths of which it is not said which they are
	for _, it := range said {
		if behind := len(line.cells()) > 0 && firstDigit(it.folded) < 0; behind && parse.Doubts(it.folded) {
			doubt = parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("The words behind it say that it may not be right: %q.", it.Text)}
			continue
		} else if behind && harmlessWords(it.folded, besideGirth) {
			continue
		}
		role, e := girthSaid(it)
		if role == noRole {
			role, e = girthBehind(it)
		}
		switch role {
		case roleGirth:
			around = append(around, e)
		case roleHull:
			line.hull = append(line.hull, e)
		case roleFull:
			line.full = append(line.full, e)
		case roleOpening:
			line.opening = append(line.opening, e)
		default:
			return nil, row{}
		}
	}
	if len(around) > 0 && (len(line.hull) == 0 || len(line.full) > 0) || len(line.hull)+len(line.full) == 0 {
		return nil, row{}
	}
	line.full = append(line.full, around...) // "43 under, 58 around"
	if doubt.Some() {
		line.doubtAll(doubt)
	}
	return station, line
}

// doubtAll doubts the girths of a row, or no more than is open already: "full 84
// or 85, not sure" speaks of that.
func (r *row) doubtAll(doubt parse.Fault) {
	if slices.ContainsFunc(r.cells(), func(it *item) bool { return it.fault.Some() }) {
		return
	}
	for _, tries := range [][]entry{r.hull, r.full, r.opening} {
		for i := range tries {
			tries[i].doubt = doubt
		}
	}
}
