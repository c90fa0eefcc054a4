package prose

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// meaning is what a notice says of a survey: which of its numbers are meant,
// and what takes the place of the one that is.
type meaning struct {
	cells []numberOf
	value *item // that takes the place of the only cell, nil where none is told plainly
}

// misplaced is the confidence of a number that is said to be wrong, or may be
// the one of which that is said.
const misplaced = 0.5

// Heed tells a document what notices say of its numbers: a number that takes
// the place of another in plain words does, and whatever else may be meant is
// left to a person. It returns the notices that were followed to the word.
func Heed(doc *parse.Document, all []Notice) (followed []Notice) {
	for _, n := range all {
		if n.heed(doc, true) {
			followed = append(followed, n)
		}
	}
	return followed
}

// HeedRemarks tells a document what its own remarks say of its numbers. None
// takes the place of another by a remark alone: what a remark may mean is left to
// a person.
func HeedRemarks(doc *parse.Document) {
	for _, r := range doc.Remarks {
		for _, n := range notices(r.File, textLines(r.Raw)) {
			n.Source = r
			n.heed(doc, false)
		}
	}
}

// heed does so for one notice, and reports whether it was followed to the word.
func (n Notice) heed(doc *parse.Document, plainly bool) bool {
	if len(doc.Surveys) != 1 {
		return false
	}
	s := &doc.Surveys[0]
	m := n.meant(s)
	if m.value == nil || !plainly {
		m.cells = append(m.cells, n.saidWrong(s, m.cells)...)
	}
	if m.value != nil && plainly {
		value, _ := m.value.amount.Length(parse.ScaleOf(s.Unit))
		was := m.cells[0].Reading
		*was = parse.Reading{Value: value, Known: true, Confidence: parse.Typed, Source: parse.Source{
			File: n.Source.File, Place: n.Source.Place,
			Raw: fmt.Sprintf("%s (in place of %s)", strings.TrimSpace(m.value.text), was.Source.Raw),
		}}
		return true
	}
	for _, c := range m.cells {
		c.Confidence = min(c.Confidence, misplaced)
	}
	if len(m.cells) > 0 {
		doc.Problems = append(doc.Problems, parse.Problem{
			Code: CodeSentence, Source: n.Source,
			Message: "This may say that a number is wrong; those that it can mean are left open.",
		})
	}
	return false
}

// wording is the numbers of a notice by what they are, and the words around them.
type wording struct {
	folded string
	places []parse.Length
	values []item
	before []string // before[i] stands before values[i], places left out; the last after all
}

// pointsAt is how words end that point at a place.
var pointsAt = regexp.MustCompile(`(?:^|[ ,;:(@#])(?:at|@|for|of|from|station|stations|stn|sta|st|mark|no|au|aux|poste|section|row|line|ligne|rang|repere|pour|pi|ft|feet|foot|cm)\.? ?(?:the |le |la |no\.? ?|n° ?|#)?$`)

// placed follows a place: "7 ft full girth", "the 7 ft mark".
var placed = regexp.MustCompile(`^ ?(?:ft|feet|foot|cm)? ?(?:mark|station|from|hull|full|girth|coque|complet|tour|[:,]|$)`)

// wording reads a notice by a survey's stations.
func (n Notice) wording(s *parse.Survey) wording {
	words, nums, _ := weave(scan(figures(n.Sentence)))
	m := wording{folded: parse.Fold(graveA.Replace(n.Sentence)), before: []string{""}}
	bare := parse.ScaleFoot
	if s.Unit == parse.Centimetre {
		bare = parse.ScaleCM
	}
	stations := slices.DeleteFunc(slices.Clone(s.Stations), func(st parse.Station) bool { return n.holds(&st.HullGirth) || n.holds(&st.FullGirth) })
	for i, it := range nums {
		last := &m.before[len(m.before)-1]
		*last += " " + brackets.Replace(parse.Fold(graveA.Replace(words[i]))) + " "
		at, ok := it.amount.Length(bare)
		stands := slices.ContainsFunc(stations, func(st parse.Station) bool { return st.At == at })
		points := pointsAt.MatchString(*last) || it.amount.Scale == parse.ScaleFoot || i == 0 && it.amount.Scale != parse.Bare && placed.MatchString(parse.Fold(words[1]))
		switch {
		case ok && (!it.fault.Some() || it.fault.Code == parse.CodeApproximate) && stands && points: // "6 ft is a guess"
			m.places = append(m.places, at)
		case !it.fault.Some() && it.amount.Scale == parse.Bare && numbered.MatchString(*last) && ordinal(stations, it.amount.Number) > 0:
			m.places = append(m.places, ordinal(stations, it.amount.Number))
		default:
			m.values = append(m.values, it)
			m.before = append(m.before, "")
		}
	}
	m.before[len(m.before)-1] += " " + brackets.Replace(parse.Fold(graveA.Replace(words[len(words)-1])))
	return m
}

// numbered is how words end that count a station.
var numbered = regexp.MustCompile(`\b(?:station|stn|sta|st|poste|repere)\.? ?(?:no\.? ?|n° ?|#)?$`)

// ordinal is the distance of a station by its number, 0 where the stations are
// not laid off evenly from the bow.
func ordinal(stations []parse.Station, number float64) parse.Length {
	i := int(number)
	if number != float64(i) || i < 1 || i > len(stations) {
		return 0
	}
	for k, st := range stations {
		if !evenly(st.At, stations[0].At, k+1) {
			return 0
		}
	}
	return stations[i-1].At
}

func evenly(at, step parse.Length, count int) bool {
	d := float64(at) - float64(step)*float64(count)
	return d < 1 && d > -1 // millimetres
}

// meant finds the numbers of a survey that the notice is about. Where the words
// name no place, the number that they repeat tells.
func (n Notice) meant(s *parse.Survey) meaning {
	r := n.wording(s)
	h, f := hullWords.MatchString(r.folded), fullWords.MatchString(r.folded)
	l := labelOf(r.folded)
	var cells []numberOf
	named := len(r.places) > 0 || l.measure != "" || l.place != noPlace
	for _, c := range written(s) {
		girth := c.cell.Measure == parse.HullGirth || c.cell.Measure == parse.FullGirth
		switch {
		case n.holds(c.Reading):
		case len(r.places) > 0:
			if girth && slices.Contains(r.places, c.cell.At) && (h == f || h == (c.cell.Measure == parse.HullGirth)) {
				cells = append(cells, c)
			}
		case l.measure != "":
			if c.cell.Measure == l.measure {
				cells = append(cells, c)
			}
		case l.place != noPlace:
			if strings.HasPrefix(string(c.cell.Measure), map[place]string{greatest: "greatest.", transom: "transom."}[l.place]) {
				cells = append(cells, c)
			}
		case r.repeats(c.Reading, s.Unit) && (h == f || !girth || h == (c.cell.Measure == parse.HullGirth)):
			cells = append(cells, c)
		}
	}
	m := meaning{cells: cells}
	if repeated := slices.DeleteFunc(slices.Clone(cells), func(c numberOf) bool { return !r.repeats(c.Reading, s.Unit) }); named && len(repeated) > 0 {
		cells = repeated
		if len(r.values) == 1 {
			m.cells = repeated // the words say nothing of another number there
		}
	}
	if len(cells) == 1 && mends(r.folded) && !wavers(r.folded) && !strings.Contains(r.folded, "?") {
		if value := r.instead(cells[0].Reading, s.Unit); value != nil {
			m = meaning{cells, value}
		}
	}
	return m
}

// is reports that a written number is a reading's.
func (n item) is(r *parse.Reading, unit parse.Unit) bool {
	a, ok := n.amount.Length(parse.ScaleOf(unit))
	b, okBare := parse.Amount{Number: n.amount.Number}.Length(parse.ScaleOf(unit)) // "the 107 in the sheet" is no 107 in
	return r.Known && !n.fault.Some() && (ok && a == r.Value || okBare && b == r.Value)
}

// repeats reports that a number is among those of the notice.
func (m wording) repeats(r *parse.Reading, unit parse.Unit) bool {
	return slices.ContainsFunc(m.values, func(n item) bool { return n.is(r, unit) })
}

// What stands before and after a number that is said to be wrong, and before and
// after the one that is right.
var (
	wrongBefore = regexp.MustCompile(`\b(?:not|instead of|in place of|rather than|no longer|wrote|typed|put(?: down)?|written|say(?:s|ing)?|said|had|change|replace|correct|au lieu d[eu']|et (?:non|pas)(?: pas)?|non|pas|ecrit|mis|tape|remplacez|remplacer|corrigez|corriger)(?: the| it| le| la| de)?:? ?$`)
	wrongAfter  = regexp.MustCompile(`^[^,;.]{0,40}?\b(?:should(?:'ve| have)? (?:be(?:en)?|read|say|have said)\s*$|(?:is|was|were) (?:wrong|incorrect|misread|mistyped|an? (?:typo|slip|mistake|misprint|error))\b|(?:devrait|doit) (?:etre|se lire|dire)(?: de)?\s*$|est (?:faux|fausse|une erreur|errone\w*)\b)`)
	mustBefore  = regexp.MustCompile(`\b(?:should(?:'ve| have)?|must|ought to|meant to|devrait|doit|faut|voulais) (?:be(?:en)?|have|read|say|said|put|write|etre|lire|mettre|ecrire|dire) ?$`)
	rightBefore = regexp.MustCompile(`(?:\b(?:should(?:'ve| have)? (?:be(?:en)?|read|say|said)|is|was|be|to|read|say|reads|meant|make (?:that|it)|get|got|est(?: de| bien)?|etre|lire|mettre|par|en|ecrire|dire)|'s|[:=])(?: (?:now|actually|really|in fact|only|at|en fait|bien|de))*[:=]? ?$`)
	rightAfter  = regexp.MustCompile(`^[^,;.]{0,20}?\b(?:(?:is|was) (?:right|correct|the (?:right|correct)|true)|est (?:juste|bon|bonne|correcte?|la bonne|le bon))\b`)
)

// saidWrong finds the numbers of a survey that a notice says are wrong, where those
// that it seems to be about have none of them.
func (n Notice) saidWrong(s *parse.Survey, about []numberOf) (found []numberOf) {
	r := n.wording(s)
	for i, v := range r.values {
		if mustBefore.MatchString(r.before[i]) || !wrongBefore.MatchString(r.before[i]) && !wrongAfter.MatchString(r.before[i+1]) {
			continue
		}
		isIt := func(c numberOf) bool { return v.is(c.Reading, s.Unit) && !n.holds(c.Reading) }
		if !slices.ContainsFunc(about, isIt) {
			found = append(found, slices.DeleteFunc(written(s), func(c numberOf) bool { return !isIt(c) })...)
		}
	}
	return found
}

// instead is the number that the words plainly say stands in place of a reading;
// nil where they do not.
func (m wording) instead(was *parse.Reading, unit parse.Unit) *item {
	var value *item
	named, repeated, plain := false, false, false
	for i, n := range m.values {
		before, after := m.before[i], m.before[i+1]
		must := mustBefore.MatchString(before)
		wrong := !must && (wrongBefore.MatchString(before) || wrongAfter.MatchString(after))
		right := must || !wrong && (rightBefore.MatchString(before) || rightAfter.MatchString(after))
		_, ok := n.amount.Length(parse.ScaleOf(unit))
		switch {
		case n.fault.Some() || !ok:
			return nil
		case n.is(was, unit):
			if must || right && rightAfter.MatchString(after) {
				return nil // the number that stands is the right one
			}
			repeated = true
			plain = plain || wrong
		case wrong:
			return nil // another number is said to be wrong
		case value != nil && value.amount != n.amount:
			return nil
		default:
			value = &m.values[i]
			plain = plain || must
			named = named || right
		}
	}
	if !plain && (repeated || !named) {
		return nil
	}
	return value
}
