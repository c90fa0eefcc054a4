package table

import (
	"fmt"
	"regexp"
	"slices"

	"fairtape/parse"
)

// A boat may have been measured twice, with both in the sheet, and words that
// say which counts: "The second measuring counts", "First try (do not use)".

const (
	tryWords   = `(?:measur(?:ing|ement)s?|sets?|tr(?:y|ies)|times?|readings?|goes?|go|rounds?|attempts?|pass(?:es)?|tables?|mesures?|fois|series?|essais?|releves?|tableaux?|passages?|ones?)`
	firstWords = `(?:first|1st|1ere?|1re|premi(?:er|ere)s?)`
	laterWords = `(?:second|2nd|2n?de?|2e|2eme|deuxiemes?|secondes?|last|latest|later|dernieres?)`
)

var (
	keptSaid = regexp.MustCompile(`\b(?:the |la |le |les )?(` + firstWords + `|` + laterWords + `) (?:` + tryWords + ` )?(?:of \pL+ )?(?:is |are |is the one that |are the ones that |sont |est |c'est )?(?:what |celle qui |celles qui )?(?:counts?|comptent|compte|(?:the )?(?:right|good|better|correct) (?:ones?|` + tryWords + `)|(?:la |le |les )?bon(?:ne)?s?|(?:to|should|must) be used)\b` +
		`|\b(?:please )?(?:only )?(?:use|take|go by|trust|prenez|prendre|utilisez|utiliser) (?:only )?(?:the |la |le |les )?(` + firstWords + `|` + laterWords + `)\b`)
	firstTry   = regexp.MustCompile(`\b` + firstWords + `\b|\b(?:` + tryWords + `|hull|full|girth|tour|coque|complet) ?(?:no\.? ?|#)?1\b|\(1\)`)
	otherTry   = regexp.MustCompile(`\b` + laterWords + `\b|\b(?:` + tryWords + `|hull|full|girth|tour|coque|complet) ?(?:no\.? ?|#)?2\b|\(2\)`)
	notCounted = regexp.MustCompile(`\b(?:do not use|don't use|not to (?:be )?used?|ignore|disregard|wrong|superseded|replaced|does(?: not|n't) count|old|void|scrap(?:ped)?|a ignorer|ne (?:pas|compte pas)|n'est pas bonne?|fausse?|remplacee?|annulee?|ancien(?:ne)?s?)\b`)
)

// tryOf is which measuring a heading speaks of: 1, 2, or 0 for none.
func tryOf(heading string) int {
	first, other := firstTry.MatchString(heading), otherTry.MatchString(heading)
	switch {
	case first == other:
		return 0
	case first:
		return 1
	}
	return 2
}

// hearKept takes from the words of a sheet which measuring counts.
func (s *sheet) hearKept() {
	for _, row := range s.withComments() {
		for _, it := range row {
			if !it.word() || notKept.MatchString(it.folded) {
				continue
			}
			m := keptSaid.FindStringSubmatch(it.folded)
			if m == nil {
				continue
			}
			if try := tryOf(m[1] + m[2]); s.keptTry == 0 {
				s.keptTry = try
			} else if s.keptTry != try {
				s.keptTry = -1 // both are said to
			}
		}
	}
}

// countsByTitle says what stands over a table of its numbers: that they count,
// or that they do not.
func (v view) countsByTitle(start int) (kept, dropped bool) {
	for r := start - 1; r >= 0 && r >= start-headingReach && v.allWords(r) && !v.emptyRow(r); r-- {
		title := v.alone(r)
		if title == nil {
			continue
		}
		try := tryOf(title.folded)
		switch {
		case notCounted.MatchString(title.folded):
			return false, true
		case saysKept(title.folded), v.keptTry > 0 && try == v.keptTry:
			return true, false
		case v.keptTry > 0 && try != 0:
			return false, true
		}
	}
	return false, false
}

// counting leaves out the tables of which the words over them say that they do
// not count, where another gives the same stations.
func (b *builder) counting(blocks []block) []block {
	sameNames := func(x, y block) bool {
		return slices.ContainsFunc(x.rows, func(r row) bool {
			return slices.ContainsFunc(y.rows, func(o row) bool { return o.name == r.name })
		})
	}
	var rest []block
	for i, bl := range blocks {
		beaten := false
		for k, other := range blocks {
			beaten = beaten || i != k && sameNames(bl, other) && !bl.kept && !other.dropped && (bl.dropped || other.kept)
		}
		if !beaten {
			rest = append(rest, bl)
			continue
		}
		b.problem(parse.CodeSecondTry, bl.rows[0].label, fmt.Sprintf("Another table of the same stations is said to be the one that counts, so this one, of %d rows from here on, is not read.", len(bl.rows)))
	}
	return rest
}

var (
	newName  = regexp.MustCompile(`^(?:(?:new|final|good|clean|corrected|nouvelles?|nouveau|propre|definiti\w+)\b|` + laterWords + ` ` + tryWords + `\b)`)
	oldName  = regexp.MustCompile(`^(?:(?:old|draft|rough|brouillon|ancien(?:ne)?s?)\b|` + firstWords + ` ` + tryWords + `\b)`)
	badNamed = regexp.MustCompile(`\b(?:wrong|do not use|don't use|superseded|void|ne pas utiliser|fausse|annulee?)\b`)
)

// enoughKept is the share of the numbers of a replaced sheet that the one has
// which replaces it; corrections alone have fewer.
const enoughKept = 0.8

// keptName reports a sheet whose name says that it counts before another.
func keptName(g Grid) bool {
	name := parse.Fold(g.Name)
	return (saysKept(name) || newName.MatchString(name)) && !badNamed.MatchString(name)
}

// replacedName reports a sheet whose name says that it does not count: in so many
// words, or beside one with so many numbers that says that it does.
func replacedName(g Grid, kept int) bool {
	name := parse.Fold(g.Name)
	return badNamed.MatchString(name) || oldName.MatchString(name) && !keptName(g) && float64(kept) >= enoughKept*float64(numbersOf(g))
}
