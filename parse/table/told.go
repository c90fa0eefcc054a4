package table

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"fairtape/parse"
)

// A line beside a table may say of which of its numbers the writer is not sure:
// "The last two rows were done in the dark and may be wrong".

var (
	toldEnd    = regexp.MustCompile(`\b(first|last|top|bottom|premiere?s?|derniere?s?) (?:(one|two|three|four|couple of|few|\d|une?|deux|trois|quatre) )?(?:rows?|lines?|stations?|lignes?|rangs?|postes?|mesures?|measurements?|girths?|pairs?|paires?)\b`)
	toldEnd2   = regexp.MustCompile(`\b(deux|trois|quatre|\d) (premiere?s?|derniere?s?) (?:lignes|rangs|postes|mesures|stations|paires)\b`)
	toldNumber = regexp.MustCompile(`\b(?:rows?|lines?|stations?|stns?|sta|lignes?|postes?|rangs?|reperes?|nos?\.?)\.? ?#?(\d{1,2})(?: ?(?:,|and|to|et|a|-|&) ?(\d{1,2}))?\b`)
	toldFrom   = regexp.MustCompile(`\b(?:from|after|a partir d[eu]|depuis) (?:la |le |the )?(?:station|row|line|ligne|poste|repere|rang)?\.? ?#?(\d{1,2})(?: ?(?:ft|feet|'|pi))? (?:on(?:wards?)?|and (?:on|up|after)|aft|et (?:apres|plus)|everything|all|tout)\b`)
	toldPlace  = regexp.MustCompile(`(\d+(?:[.,]\d+)?) ?(ft|feet|foot|'|in|inch(?:es)?|"|cm|mm|m|pi|pieds?)(?:[^\pL]|$)`)
	toldAll    = regexp.MustCompile(`\b(?:all|every\w*|toute?s?|tous)\b[^.;]{0,40}\b(?:is|are|was|were|est|sont)\b(.{0,30})`)
	toldColumn = regexp.MustCompile(`\b(?:girths|columns?|figures|numbers|tours|colonnes?|contours)\b`)
	rounded    = regexp.MustCompile(`\b(?:nearest|rounded|arrondi\w*|au demi|pres)\b`)
)

// headingWords is how many words a heading has at most that is no sentence.
const headingWords = 2

// howMany are numbers in words.
var howMany = map[string]int{"": 1, "one": 1, "une": 1, "un": 1, "two": 2, "deux": 2, "couple of": 2, "three": 3, "trois": 3, "few": 3, "four": 4, "quatre": 4}

// hearDoubts doubts the numbers of which the lines outside the tables, and the
// comments, say so.
func (s *sheet) hearDoubts() {
	for _, row := range s.withComments() {
		if slices.ContainsFunc(row, func(it *item) bool { return it.row >= 0 && it.value() }) {
			for _, it := range row { // remarks in a row are heard there
				if s.tellsLook(it) {
					s.hearLooks(it, toldDoubt(it))
				}
			}
			continue
		}
		for _, it := range row {
			if !it.word() || rounded.MatchString(it.folded) {
				continue
			}
			heading := it.used && it.asRole() != noRole && filledCells(row) > 1
			if it.asRole() == roleHalf && len(strings.Fields(it.folded)) <= headingWords && s.tooLargeForHalves() {
				continue // a heading: "Demi-tour"
			}
			if w := whollyOf(it.folded); w.some() && !heading && (it.asLabel().none() || len(strings.Fields(it.folded)) >= sentenceWords) {
				s.doubtWholly(w, toldDoubt(it))
			}
			if parse.Doubts(it.folded) {
				s.hearDoubt(it)
			}
		}
	}
}

func filledCells(row []*item) (n int) {
	for _, it := range row {
		if !it.empty() {
			n++
		}
	}
	return n
}

func toldDoubt(it *item) parse.Fault {
	return parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("A line beside the table says that this may not be right: %q.", it.Text)}
}

func (s *sheet) hearDoubt(it *item) {
	doubt := toldDoubt(it)
	hull, full := hullWords.MatchString(it.folded), fullWords.MatchString(it.folded)
	set := func(list []entry, named bool) {
		for i := range list {
			if named || hull == full {
				list[i].doubt = doubt
			}
		}
	}
	told := tellsOf(it.folded)
	s.hearLooks(it, doubt)
	s.doubtAround(it, told, doubt)
	for _, b := range s.found.blocks {
		for i, r := range b.rows {
			if told.row(i, len(b.rows), r.name) {
				set(r.hull, hull)
				set(r.full, full)
			}
		}
	}
	for i, r := range s.found.singles {
		if told.row(i, len(s.found.singles), r.name) {
			set(r.hull, hull)
			set(r.full, full)
		}
	}
	if m := onceNamed(it.folded); m != "" || told.all {
		for measure, list := range s.found.whole {
			for i := range list {
				if measure == m || told.all {
					list[i].doubt = doubt
				}
			}
		}
	}
}

// doubtAround doubts the row over a line that stands between two rows of a table
// and names no other, and the row under it unless an arrow points up.
func (s *sheet) doubtAround(it *item, told told, doubt parse.Fault) {
	if told.some() || onceNamed(it.folded) != "" || it.row < 0 {
		return
	}
	over, under := it.row-1, it.row+1
	around := map[int]bool{}
	for _, n := range s.all() {
		if n.name != nil && n.measure == "" {
			around[n.name.row] = true
		}
	}
	if !around[over] || !around[under] {
		return
	}
	for _, n := range s.all() {
		if n.name != nil && (n.name.row == over || n.name.row == under && !pointsUp.MatchString(it.folded)) {
			n.entry.doubt = doubt
		}
	}
}

var pointsUp = regexp.MustCompile(`^[\^↑⬆]|\b(?:above|ci-dessus)\b`)

// onceNamed is the measure of the whole boat of which a sentence speaks.
func onceNamed(folded string) parse.Measure {
	switch {
	case carryWords.MatchString(folded) && !otherCarry.MatchString(folded):
		return parse.CarryPoint
	case endHeight(folded) && namesBow(folded):
		return parse.BowHeight
	case endHeight(folded):
		return parse.SternHeight
	case overallWords.MatchString(folded):
		return parse.LengthOverall
	}
	return ""
}

// told is which rows of a table a sentence speaks of.
type told struct {
	all, column bool
	first, last int // so many rows at that end of the table
	numbers     []int
	from        int // the row of this number, and all after it
	places      []parse.Amount
}

// some reports that the sentence names any rows.
func (t told) some() bool {
	return t.all || t.column || t.first+t.last+t.from+len(t.numbers)+len(t.places) > 0
}

func tellsOf(folded string) told {
	said := toldAll.FindStringSubmatch(folded)
	t := told{all: said != nil && parse.Doubts(said[1])}
	end := func(which, count string) {
		n, known := howMany[count]
		if !known {
			n, _ = strconv.Atoi(count)
		}
		if strings.HasPrefix(which, "f") || strings.HasPrefix(which, "t") || strings.HasPrefix(which, "p") {
			t.first = max(t.first, n)
		} else {
			t.last = max(t.last, n)
		}
	}
	for _, m := range toldEnd.FindAllStringSubmatch(folded, -1) {
		end(m[1], m[2])
	}
	for _, m := range toldEnd2.FindAllStringSubmatch(folded, -1) {
		end(m[2], m[1])
	}
	for _, m := range toldNumber.FindAllStringSubmatch(folded, -1) {
		for _, text := range m[1:] {
			if n, err := strconv.Atoi(text); err == nil {
				t.numbers = append(t.numbers, n)
			}
		}
	}
	if m := toldFrom.FindStringSubmatch(folded); m != nil {
		t.from, _ = strconv.Atoi(m[1])
	}
	for _, m := range toldPlace.FindAllStringSubmatch(folded, -1) {
		if a, f := parse.ParseLength(m[1] + " " + m[2]); !f.Some() {
			t.places = append(t.places, a)
		}
	}
	t.column = toldColumn.MatchString(folded) && hullWords.MatchString(folded) != fullWords.MatchString(folded) && t.first+t.last+len(t.numbers)+len(t.places) == 0
	return t
}

// row reports that the sentence speaks of row i of so many, of the given name.
func (t told) row(i, rows int, name parse.Name) bool {
	return t.all || t.column || t.from > 0 && i+1 >= t.from || i < t.first || rows-i <= t.last || slices.Contains(t.numbers, i+1) ||
		slices.ContainsFunc(t.numbers, func(n int) bool { return name.Special == "" && name.Amount.Number == float64(n) }) ||
		slices.ContainsFunc(t.places, func(p parse.Amount) bool { return name.Special == "" && isPlace(name.Amount, p) })
}

// leastPlace is how many inches a place that is told in them lies from the bow at
// least: "2 inches off" names none.
const leastPlace = 12

// isPlace reports the name of a station, bare or with its unit, that is a place
// told.
func isPlace(name, told parse.Amount) bool {
	if told.Scale == parse.ScaleInch && told.Number < leastPlace {
		return false
	}
	at, known := name.Length(told.Scale)
	l, ok := told.Length(told.Scale)
	return known && ok && at == l
}
