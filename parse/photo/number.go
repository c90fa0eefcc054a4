package photo

import (
	"math"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/digits"
	"fairtape/parse/form"
)

// figure is what one box may hold.
type figure = digits.Distribution

// outcome is one thing that a row of boxes may say.
type outcome struct {
	value       int
	probability float64
}

// number is what a row of boxes may say: values, nothing, or something that is
// no number.
type number struct {
	outcomes []outcome // most probable first
	absent   float64   // no box holds anything
	text     string    // figure by figure as most likely, "?" for what nobody can read
}

const (
	// unlikely ends the search for what a row of boxes may say.
	unlikely = 1e-5
	// misplaced is the probability that a number which does not end in the last
	// box is all of the number: 4 2 _ may be 42 at the left, or 42 and a digit
	// that was not seen.
	misplaced = 0.7
	// leadingZero is how often, against what the digits say, a number begins with
	// a zero that is not all of it: it is more often a 6, an 8 or a 9.
	leadingZero = 0.05
)

// numberOf weighs all that boxes may say together. Boxes are read one by one,
// so that their probabilities multiply; h is how their writer fills others.
func numberOf(boxes []figure, h habit) number {
	n := number{absent: 1}
	weights := map[int]float64{}
	var walk func(i, value int, seen, ended bool, p float64)
	walk = func(i, value int, seen, ended bool, p float64) {
		switch {
		case p < unlikely:
			return
		case i == len(boxes):
			if seen && ended {
				p *= h.misplaced()
			}
			if seen {
				weights[value] += p
			}
			return
		}
		walk(i+1, value, seen, seen, p*boxes[i].Blank)
		if ended {
			return // a gap within a number
		}
		for d, q := range boxes[i].Digit {
			// What nobody can read may be any digit.
			q += boxes[i].Unreadable / 10
			if d == 0 && !seen && i < len(boxes)-1 {
				q *= h.leadingZero()
			}
			walk(i+1, 10*value+d, true, false, p*q)
		}
	}
	walk(0, 0, false, false, 1)
	var text strings.Builder
	for _, b := range boxes {
		n.absent *= b.Blank
		d, p := b.Best()
		switch {
		case b.Blank > max(p, b.Unreadable):
		case p >= 0.5:
			text.WriteByte(byte('0' + d))
		default:
			text.WriteByte('?')
		}
	}
	n.text = text.String()
	for v, p := range weights {
		n.outcomes = append(n.outcomes, outcome{v, p})
	}
	sortOutcomes(n.outcomes)
	return n
}

func sortOutcomes(list []outcome) {
	slices.SortFunc(list, func(a, b outcome) int {
		switch {
		case a.probability > b.probability:
			return -1
		case a.probability < b.probability:
			return 1
		}
		return a.value - b.value
	})
}

// entry is all that is known of one cell: its numbers by part, and how probably
// its tick is set.
type entry struct {
	parts map[form.Part]number
	half  float64
	ticks bool // it has a tick
	sound float64
	reach stretch // where a distance along the boat can be
}

// halfUnclear is how far from 0 and 1 a tick's probability makes "1/2" a "?".
const halfUnclear = 0.1

// reading puts the parts together to values of the cell. sound is the share of
// belief that its boxes are where they seem to be.
func (e entry) reading(unit parse.Unit) parse.Reading {
	present := 0.0
	for _, n := range e.parts {
		present = 1 - (1-present)*n.absent
	}
	empty := (1 - present) * (1 - e.half)
	type state struct {
		parts map[form.Part]int
		p     float64
	}
	states := []state{{map[form.Part]int{}, 1}}
	extend := func(part form.Part, list []outcome) {
		var next []state
		for _, s := range states {
			for _, o := range list {
				if p := s.p * o.probability; p >= unlikely {
					parts := map[form.Part]int{part: o.value}
					for k, v := range s.parts {
						parts[k] = v
					}
					next = append(next, state{parts, p})
				}
			}
		}
		states = next
	}
	for _, part := range []form.Part{form.Feet, form.Inches, form.Whole} {
		n, ok := e.parts[part]
		if !ok {
			continue
		}
		list := n.outcomes
		switch part {
		case form.Inches:
			list = append(withinFoot(list), outcome{0, n.absent * misplaced}) // inches may be left out
		case form.Feet:
			list = append(slices.Clone(list), outcome{0, n.absent * misplaced})
		}
		extend(part, list)
	}
	if e.ticks {
		extend(form.Half, []outcome{{0, 1 - e.half}, {1, e.half}})
	}
	weights := map[parse.Length]float64{}
	for _, s := range states {
		if l := form.Compose(unit, s.parts); l > 0 {
			weights[l] += s.p
		}
	}
	withinReach(weights, e.reach)
	// Whether anything was written at all is settled before; what remains is
	// what it says.
	var list []parse.Candidate
	for l, p := range weights {
		list = append(list, parse.Candidate{Value: l, Probability: p})
	}
	slices.SortFunc(list, func(a, b parse.Candidate) int {
		switch {
		case a.Probability > b.Probability:
			return -1
		case a.Probability < b.Probability:
			return 1
		}
		return int(a.Value - b.Value)
	})
	unfamiliar(list, e.sound)
	if empty > 1-leastInk || present+e.half < leastInk {
		return parse.Reading{}
	}
	r := parse.Reading{Source: parse.Source{Raw: e.raw()}}
	least := leastOfUnknown
	if len(list) > 0 && list[0].Probability >= worthShowing {
		r.Value, r.Known, r.Confidence = list[0].Value, true, math.Min(list[0].Probability, 1)
		list, least = list[1:], leastAlternative
	}
	for i, c := range list[:min(len(list), alternativesMost)] {
		// The next best is always named, so that the curve can weigh any number.
		if c.Probability >= least || i == 0 && r.Known {
			r.Alternatives = append(r.Alternatives, c)
		}
	}
	return r
}

// strangeHand is how much likelier errors are than the number reader thinks,
// in odds. It is calibrated on hands like those it learnt from; on digits of
// other origin networks of its kind err several times as often. With 1.5, of
// 7,377 numbers in photos of three grades 11 were sure and wrong; with twice
// that, 6.
const strangeHand = 3.0

// unfamiliar weakens the best candidate against all else by strangeHand, and
// further where boxes are not surely where they seem to be.
func unfamiliar(list []parse.Candidate, sound float64) {
	if len(list) == 0 {
		return
	}
	best := list[0].Probability * sound
	total := best + strangeHand*(1-best)
	list[0].Probability = best / total
	for i := range list[1:] {
		list[i+1].Probability = min(list[i+1].Probability*strangeHand/total, list[0].Probability)
	}
}

const (
	// leastInk is the probability that something was written from which a cell
	// is not simply empty.
	leastInk = 0.05
	// worthShowing is the probability from which a value is shown as the likely
	// one; below, a person sees a list.
	worthShowing     = 0.15
	leastAlternative = 0.005
	// leastOfUnknown is the same for a number without a likely value: less is
	// what any digit in place of one that nobody can read gets.
	leastOfUnknown   = 0.05
	alternativesMost = 5
)

func (e entry) raw() string {
	var words []string
	for _, part := range []form.Part{form.Feet, form.Inches, form.Whole} {
		n, ok := e.parts[part]
		if !ok || n.text == "" {
			continue
		}
		switch part {
		case form.Feet:
			words = append(words, n.text+" ft")
		case form.Inches:
			words = append(words, n.text+" in")
		default:
			words = append(words, n.text)
		}
	}
	switch {
	case e.half > 1-halfUnclear:
		words = append(words, "1/2")
	case e.half > halfUnclear:
		words = append(words, "1/2?")
	}
	if len(words) == 0 {
		return "?" // something is written, and nobody can say what
	}
	return strings.Join(words, " ")
}
