package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A notice that names no number, "one of the numbers in my sheet is wrong, I
// think", is still one that a person must see. Of the sentences that may be
// notices, these speak of numbers of a survey.
var ofNumbers = regexp.MustCompile(`\b(?:numbers?|figures?|measure(?:ment|d)?s?|readings?|girths?|heights?|lengths?|stations?|rows?|values?|survey|sheet|form|table|list|tape|` +
	`chiffres?|nombres?|mesures?|tours?|hauteurs?|longueurs?|valeurs?|releve|feuille|fiche|tableau|liste|ruban|lignes?|reperes?)\b`)

// Unheeded returns a problem for every notice that says that something is wrong
// with a number, names none that the documents have, and stands on no line of
// which a person is told already.
func Unheeded(all []Notice, docs ...parse.Document) []parse.Problem {
	var problems []parse.Problem
	for _, n := range all {
		f := parse.Fold(n.Sentence)
		if !ofNumbers.MatchString(f) || !parse.Doubts(f) || strings.HasSuffix(strings.TrimSpace(f), "?") || slices.ContainsFunc(docs, n.seenIn) {
			continue
		}
		problems = append(problems, parse.Problem{
			Code: CodeSentence, Source: n.Source,
			Message: "This says that a number may be wrong, but not which one.",
		})
	}
	return problems
}

// seenIn reports a document that has a number which the notice is about, or that
// tells of its line.
func (n Notice) seenIn(doc parse.Document) bool {
	if slices.ContainsFunc(doc.Problems, func(p parse.Problem) bool { return p.Source.File == n.Source.File && p.Source.Place == n.Source.Place }) {
		return true
	}
	for i := range doc.Surveys {
		s := &doc.Surveys[i]
		if len(n.meant(s).cells) > 0 || slices.ContainsFunc(written(s), func(c numberOf) bool { return n.holds(c.Reading) }) {
			return true
		}
	}
	return false
}
