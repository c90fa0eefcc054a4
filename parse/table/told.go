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
	toldPlace  = regexp.MustCompile(`(\d+(?:[.,]\d+)?) ?(ft|feet|foot|'|in|inch(?:es)?|"|cm|mm|m|pi|pieds?)(?:[^\pL]|$)`)
	toldAll    = regexp.MustCompile(`\b(?:all|every\w*|toute?s?|tous)\b[^.;]{0,40}\b(?:is|are|was|were|est|sont)\b[^.;]{0,20}\b(?:rough|approx\w*|guess\w*|estimate\w*|not sure|unsure|doubt\w*|unreliable|wrong|douteu\w+|incertain\w*|approximati\w+)\b`)
	toldColumn = regexp.MustCompile(`\b(?:girths|columns?|figures|numbers|tours|colonnes?|contours)\b`)
	rounded    = regexp.MustCompile(`\b(?:nearest|rounded|arrondi\w*|au demi|pres)\b`)
)

// howMany are numbers in words.
var howMany = map[string]int{"": 1, "one": 1, "une": 1, "un": 1, "two": 2, "deux": 2, "couple of": 2, "three": 3, "trois": 3, "few": 3, "four": 4, "quatre": 4}

// hearDoubts doubts the numbers of which the lines outside the tables, and the
// comments, say so.
func (s *sheet) hearDoubts() {
	for _, row := range s.withComments() {
		if slices.ContainsFunc(row, func(it *item) bool { return it.row >= 0 && it.value() }) {
			continue // a remark in a row, which is heard there
		}
		for _, it := range row {
			if it.word() && doubtful(it.folded) && !rounded.MatchString(it.folded) {
				s.hearDoubt(it)
			}
		}
	}
}

func (s *sheet) hearDoubt(it *item) {
	doubt := parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("A line beside the table says that this may not be right: %q.", it.Text)}
	hull, full := hullWords.MatchString(it.folded), fullWords.MatchString(it.folded)
	set := func(list []entry, named bool) {
		for i := range list {
			if named || hull == full {
				list[i].doubt = doubt
			}
		}
	}
	told := tellsOf(it.folded)
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

// onceNamed is the measure of the whole boat of which a sentence speaks.
func onceNamed(folded string) parse.Measure {
	switch {
	case carryWords.MatchString(folded) && !otherCarry.MatchString(folded):
		return parse.CarryPoint
	case endHeight(folded) && bowWords.MatchString(folded):
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
	places      []parse.Amount
}

func tellsOf(folded string) told {
	t := told{all: toldAll.MatchString(folded)}
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
	at, known := name.Amount.Length(parse.ScaleFoot)
	return t.all || t.column || i < t.first || rows-i <= t.last || slices.Contains(t.numbers, i+1) ||
		slices.ContainsFunc(t.numbers, func(n int) bool { return name.Special == "" && name.Amount.Number == float64(n) }) ||
		slices.ContainsFunc(t.places, func(p parse.Amount) bool {
			l, ok := p.Length(parse.Bare)
			return ok && known && name.Special == "" && l == at || name.Special == "" && p.Number == name.Amount.Number
		})
}
