package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// fact is a measure that the boat has once, with every try. It counts only
// when the whole sentence is understood.
type fact struct {
	measure parse.Measure
	nums    []item
	was     []item // the numbers that are said to be wrong
}

// wasBefore names further numbers that are said to be wrong: one is enough.
func (w *weaver) wasBefore(was []item) {
	for _, n := range was[min(1, len(was)):] {
		w.problem(CodeSentence, w.where, strings.TrimSpace(n.text), "More than one number is said to be wrong.")
	}
}

func (w *weaver) tell(f *fact, amends bool) {
	s := &spot{where: w.where}
	w.whole(s, measureNames[f.measure], f.nums)
	w.wasBefore(f.was)
	if !amends && len(f.nums) == 1 {
		return
	}
	c := Correction{
		Cell: parse.Cell{Measure: f.measure}, Sentence: w.text, Source: w.source(f.nums[0]),
		Same: stillWords.MatchString(parse.Fold(w.text)),
	}
	if len(f.was) > 0 {
		was := w.reading(f.was[0])
		c.Was = &was
	}
	for _, n := range f.nums {
		c.Values = append(c.Values, w.reading(n))
		c.Bare = c.Bare || n.amount.Scale == parse.Bare && !w.unitKnown(nil)
	}
	w.corrections = append(w.corrections, c)
}

// chatFrom is how many words a sentence has beside its numbers, none of them a
// term of the trade, when it is talk: such numbers matter only in a mail that
// holds a survey too.
const chatFrom = 3

// settle hands over what the sentence says when every number has its place,
// and reports all of them when not.
func (w *weaver) settle(amends bool) {
	alone := len(w.nums) == len(w.lost)
	if len(w.lost) > 0 {
		for _, n := range w.nums {
			code, message := CodeSentence, "It cannot be told from the words what this number measures."
			if alone {
				code, message = parse.CodeUnplaced, "This number belongs to no measure that is known."
			}
			if alone && !amends && w.talk() {
				w.chat = append(w.chat, parse.Problem{
					Code: code, Source: parse.Source{File: w.file, Place: w.where, Raw: n.text}, Message: message,
				})
				continue
			}
			w.problem(code, w.where, n.text, message)
		}
		if alone && len(w.nums) == 1 && w.girthOnly() {
			w.corrections = append(w.corrections, Correction{
				Cell: parse.Cell{Measure: w.girthNamed()}, Sentence: w.text, Source: w.source(w.nums[0]),
				Values: []parse.Reading{w.reading(w.nums[0])}, Same: stillWords.MatchString(parse.Fold(w.text)),
				Bare: w.nums[0].amount.Scale == parse.Bare && !w.unitKnown(nil),
			})
			return
		}
		if alone && (amends || len(w.nums) <= 2 && len(strings.Fields(strings.Join(w.words, " "))) <= chatFrom) {
			c := Correction{Sentence: w.text, Source: w.source(w.nums[0]), Same: stillWords.MatchString(parse.Fold(w.text))}
			for i, n := range w.nums {
				if i > 0 && w.wasAt(i) {
					was := w.reading(n)
					c.Was = &was
					continue
				}
				c.Values = append(c.Values, w.reading(n))
				c.Bare = c.Bare || n.amount.Scale == parse.Bare && !w.unitKnown(nil)
			}
			w.corrections = append(w.corrections, c)
		}
		return
	}
	if w.placesCrowd() {
		for _, n := range w.nums {
			w.problem(CodeSentence, w.where, n.text, "Two places stand before the numbers, and it cannot be told which one they belong to.")
		}
		return
	}
	for _, f := range w.facts {
		w.tell(f, amends)
	}
	for _, s := range w.spots {
		s.amends = amends
		s.same = stillWords.MatchString(parse.Fold(w.text))
		w.endRow()
		w.row = s
	}
}

// talk reports a sentence of some words of which none is a term of the trade.
func (w *weaver) talk() bool {
	return len(strings.Fields(strings.Join(w.words, " "))) > chatFrom && !slices.ContainsFunc(w.words, func(s string) bool { return labelOf(s).some() })
}

// somePlace are words that name a place in a way that is not understood.
var somePlace = regexp.MustCompile(`\b(?:at|by|near|from|stations?|stn|sta|marks?|places?|rows?|lines?|foot|feet|ft|mid(?:dle|ships)?|amidships|centre|center|bow|stern|first|second|third|last|next|other|one|a|au|station|endroit|milieu)\b`)

// girthOnly reports one number of which only the girth is named: whoever asked
// for one of that girth knows which.
func (w *weaver) girthOnly() bool {
	return w.girthNamed() != "" && !w.nums[0].fault.Some() && !somePlace.MatchString(strings.Join(w.words, " ")) && !parse.Doubts(strings.Join(w.words, " "))
}

func (w *weaver) girthNamed() parse.Measure {
	h, f := hullWords.MatchString(w.words[0]), fullWords.MatchString(w.words[0])
	switch {
	case h && !f:
		return parse.HullGirth
	case f && !h:
		return parse.FullGirth
	}
	return ""
}

// placesCrowd reports a sentence in which a place with nothing said of it is
// followed by one with numbers: "7 ft - at 3 ft 51".
func (w *weaver) placesCrowd() bool {
	for i := 1; i < len(w.spots); i++ {
		if w.spots[i-1].count() == 0 && w.spots[i-1].place == station && w.spots[i].count() > 0 {
			return true
		}
	}
	return false
}

// reading is a number by itself. Its unit, where none is written, is that of
// the letter which it answers, else inches.
func (r *reader) reading(n item) parse.Reading { return r.readingAt(n, nil) }

// readingAt is a number that belongs to a place, whose unit counts for it.
func (r *reader) readingAt(n item, at *item) parse.Reading {
	scale := r.bareScale()
	if at != nil && at.amount.Scale.Unit() == parse.Centimetre {
		scale = parse.ScaleCM
	}
	length, ok := n.amount.Length(scale)
	if n.fault.Some() || !ok {
		return parse.Reading{Source: r.source(n)}
	}
	return parse.Reading{Value: length, Known: true, Confidence: parse.Typed, Source: r.source(n)}
}

// unitKnown reports that bare numbers of a place can be counted in one unit only.
func (r *reader) unitKnown(at *item) bool {
	return r.scale != parse.Bare || at != nil && at.amount.Scale != parse.Bare
}

// source is where a number of the sentence stands.
func (w *weaver) source(n item) parse.Source {
	s := w.reader.source(n)
	s.Place = w.where
	return s
}

func (r *reader) source(n item) parse.Source {
	return parse.Source{File: r.file, Raw: strings.TrimSpace(n.text)}
}

var measureNames = map[parse.Measure]string{
	parse.LengthOverall: "length overall",
	parse.BowHeight:     "bow height",
	parse.SternHeight:   "stern height",
	parse.CarryPoint:    "carry point",
}
