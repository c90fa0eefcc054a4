package prose

import (
	"fmt"
	"regexp"

	"fairtape/parse"
	"fairtape/parse/table"
)

// amendment is a number that takes the place of one which stands in the same
// mail: "PS: the hull girth at 6 ft is wrong above, it should be 48 1/2".
type amendment struct {
	place    *item // the station, nil for a measure that the boat has once
	cell     parse.Cell
	value    item
	where    string
	sentence string
}

// replaceWords say that a number takes the place of another.
var replaceWords = regexp.MustCompile(`\b(?:should (?:be|have been|read|say)|(?:is|was) wrong|correction|correct(?:ed)? (?:the|my)|corrected|please (?:correct|change|replace)|my mistake|typo|mis-?read|mis-?wrote|make that|(?:i|we) meant|devrait etre|doit etre|(?:veuillez|merci de) corriger|corrigez|est fausse?|erreur)\b`)

// amendmentOf takes a sentence for an amendment when it gives one number of one
// place, and says that it replaces another.
func (s *spot) amendmentOf() (amendment, bool) {
	if s.place != station || s.at == nil || s.count() != 1 || !replaces(s.sentence) {
		return amendment{}, false
	}
	at, ok := s.at.amount.Length(parse.ScaleFoot)
	a := amendment{place: s.at, where: s.where, sentence: s.sentence, cell: parse.Cell{At: at, Measure: parse.HullGirth}}
	switch {
	case len(s.hull) == 1:
		a.value = s.hull[0]
	case len(s.full) == 1:
		a.value, a.cell.Measure = s.full[0], parse.FullGirth
	default:
		return amendment{}, false
	}
	return a, ok && !a.value.fault.Some()
}

func replaces(sentence string) bool { return replaceWords.MatchString(parse.Fold(sentence)) }

// amend puts amendments into the survey that they are about, and parts them
// into those that found what they replace and the rest.
func (r *reader) amend(doc parse.Document, all []amendment) (done, rest []amendment) {
	for _, a := range all {
		if len(doc.Surveys) == 1 && r.replace(&doc.Surveys[0], a) {
			done = append(done, a)
		} else {
			rest = append(rest, a)
		}
	}
	return done, rest
}

func (r *reader) replace(s *parse.Survey, a amendment) bool {
	var was *parse.Reading
	if a.place == nil {
		was = s.Once(a.cell.Measure)
	}
	for i := range s.Stations {
		if st := &s.Stations[i]; a.place != nil && st.At == a.cell.At {
			was = st.Girth(a.cell.Measure)
		}
	}
	value, ok := a.value.amount.Length(parse.ScaleOf(s.Unit))
	if was == nil || was.Absent() || !ok {
		return false
	}
	source := r.source(a.value)
	source.Place, source.Raw = a.where, fmt.Sprintf("%s (in place of %s)", source.Raw, was.Source.Raw)
	*was = parse.Reading{Value: value, Known: true, Confidence: parse.Typed, Source: source}
	return true
}

// misplaced is the confidence of a number that is said to be wrong, where it
// cannot be told which one that is.
const misplaced = 0.5

// doubtWrong lowers what stands in the survey of the numbers that an amendment
// names, when it found nothing to replace: one of them is said to be wrong.
func doubtWrong(doc parse.Document, a amendment) {
	for i := range doc.Surveys {
		s := &doc.Surveys[i]
		for _, it := range scan(a.sentence) {
			value, ok := it.amount.Length(parse.ScaleOf(s.Unit))
			if !it.number || !ok {
				continue
			}
			for k := range s.Stations {
				was := s.Stations[k].Girth(a.cell.Measure)
				if was != nil && was.Known && was.Value == value && was.Source.Place != a.where {
					was.Confidence = min(was.Confidence, misplaced)
				}
			}
		}
	}
}

// keep hands an amendment over as a number like any other, where there is
// nothing that it replaces.
func (r *reader) keep(a amendment) {
	s := &spot{where: a.where}
	switch {
	case a.place == nil:
		r.whole(s, measureNames[a.cell.Measure], []item{a.value})
	case a.cell.Measure == parse.FullGirth:
		r.pair([]table.Cell{r.cell(s, *a.place), {Place: a.where}, r.cell(s, a.value)})
	default:
		r.pair([]table.Cell{r.cell(s, *a.place), r.cell(s, a.value), {Place: a.where}})
	}
}
