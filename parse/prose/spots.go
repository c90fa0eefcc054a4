package prose

import (
	"cmp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// endRow hands over the place that lines were gathered for.
func (r *reader) endRow() {
	s := r.row
	r.row = nil
	if s == nil {
		return
	}
	if s.count() == 0 {
		for _, n := range s.was {
			r.problem(CodeSentence, s.where, strings.TrimSpace(n.text), "An earlier number is repeated, and no new one is given.")
		}
		if s.at != nil && s.place == greatest {
			r.keyed = append(r.keyed, []table.Cell{{Text: "greatest girth at", Place: s.where}, r.cell(s, *s.at)})
			return
		}
		// A place with nothing said of it, "at 3 ft I lost count", is no number
		// of the survey; what is not in feet may be one.
		if s.at != nil && s.at.amount.Scale != parse.ScaleFoot {
			r.problem(parse.CodeUnplaced, s.where, s.at.text, "This number belongs to no measure that is known.")
		}
		return
	}
	told := 0 // how many of the wrong numbers a correction names
	if r.correction(s) {
		told = min(1, len(s.was))
	}
	for _, n := range s.was[told:] {
		r.problem(CodeSentence, s.where, strings.TrimSpace(n.text), "It cannot be told which number this one was wrong for.")
	}
	if !r.sortBare(s) {
		return
	}
	switch s.place {
	case station:
		r.pair([]table.Cell{r.cell(s, *s.at), r.tries(s, s.hull), r.tries(s, s.full)})
		for _, n := range s.opening {
			r.problem(parse.CodeUnplaced, s.where, n.text, "An opening is given at a station; it is asked for at the greatest girth only.")
		}
	case greatest:
		if s.at != nil {
			r.whole(s, "greatest girth at", []item{*s.at})
		}
		r.whole(s, "greatest hull girth", s.hull)
		r.whole(s, "greatest full girth", s.full)
		r.whole(s, "greatest opening there", s.opening)
	case transom:
		r.whole(s, "transom hull girth", s.hull)
		r.whole(s, "transom full girth", s.full)
		for _, n := range s.opening {
			r.problem(parse.CodeUnplaced, s.where, n.text, "An opening is given at the transom; it is asked for at the greatest girth only.")
		}
	}
}

// pair adds a station. One whose girths are given apart, in two lists, is one
// row all the same.
func (r *reader) pair(row []table.Cell) {
	name := parse.Fold(row[0].Text)
	for _, had := range r.pairs {
		if parse.Fold(had[0].Text) != name {
			continue
		}
		for i := 1; i < len(row); i++ {
			if had[i].Text == "" {
				had[i], row[i] = row[i], table.Cell{Place: row[i].Place}
			}
		}
		if row[1].Text == "" && row[2].Text == "" {
			return
		}
	}
	r.pairs = append(r.pairs, row)
}

func (r *reader) whole(s *spot, label string, nums []item) {
	if len(nums) > 0 {
		r.keyed = append(r.keyed, []table.Cell{{Text: label, Place: s.where}, r.tries(s, nums)})
	}
}

func (r *reader) cell(s *spot, n item) table.Cell {
	return table.Cell{Text: strings.TrimSpace(n.text), Place: cmp.Or(n.where, s.where), Scale: n.label}
}

// tries is the cell of a number that was taken once, or several times alike.
// Tries that differ stand in it together, which no reader takes for a length.
func (r *reader) tries(s *spot, nums []item) table.Cell {
	if len(nums) == 0 {
		return table.Cell{Place: s.where}
	}
	c := r.cell(s, nums[0])
	if slices.ContainsFunc(nums, func(n item) bool { return n.amount != nums[0].amount }) {
		for _, n := range nums[1:] {
			c.Text += " / " + strings.TrimSpace(n.text)
		}
	}
	return c
}

// leastOpening is the least that a full girth is over its hull girth at an
// inside station, in millimetres: about an inch.
const leastOpening = 25.4

// sortBare decides what numbers are whose girth is not named: two, the larger
// last, are hull and full girth. Anything else is a problem, and ok is false.
func (r *reader) sortBare(s *spot) bool {
	if len(s.bare) == 0 {
		return true
	}
	if len(s.bare) == 2 && len(s.hull)+len(s.full) == 0 && !(s.at != nil && placesOnly(append([]item{*s.at}, s.bare...))) && !s.bare[0].fault.Some() && !s.bare[1].fault.Some() {
		a, _ := s.bare[0].amount.Length(parse.ScaleInch)
		b, _ := s.bare[1].amount.Length(parse.ScaleInch)
		if b-a >= leastOpening && b <= 2*a {
			s.hull, s.full = s.bare[:1], s.bare[1:]
			return true
		}
	}
	message := "It is not said whether this is the hull girth or the full girth."
	if s.at != nil {
		message = "It is not said whether this is the hull girth or the full girth at " + strings.TrimSpace(s.at.text) + "."
	}
	for _, n := range slices.Concat(s.hull, s.full, s.opening, s.bare) {
		r.problem(CodeWhichGirth, s.where, strings.TrimSpace(n.text), message)
	}
	return false
}

// correction notes what may answer an earlier question: single numbers, tries,
// and whatever the words call one. It reports whether there is any.
func (r *reader) correction(s *spot) bool {
	at, placed := parse.Length(0), false
	if s.at != nil {
		bare := parse.ScaleFoot
		at, placed = s.at.amount.Length(bare)
	}
	add := func(m parse.Measure, nums []item) {
		if len(nums) == 0 {
			return
		}
		c := Correction{Cell: parse.Cell{Measure: m}, Placed: placed && s.place == station, Same: s.same, Sentence: s.sentence, Source: r.source(nums[0])}
		c.Source.Place = s.where
		if c.Placed {
			c.Cell.At = at
		}
		for _, n := range nums {
			v := r.readingAt(n, s.at)
			v.Source.Place = s.where
			c.Values = append(c.Values, v)
			c.Bare = c.Bare || n.amount.Scale == parse.Bare && !r.unitKnown(s.at)
		}
		if len(s.was) > 0 {
			was := r.readingAt(s.was[0], s.at)
			was.Source.Place = s.where
			c.Was = &was
		}
		r.corrections = append(r.corrections, c)
	}
	two := len(s.bare) == 2 && !s.amends && s.bare[0].amount != s.bare[1].amount
	single := s.count() == 1 || len(s.hull) > 1 || len(s.full) > 1
	if !s.amends && !single && (two || len(s.bare) == 0) {
		return false
	}
	names := [3]parse.Measure{parse.HullGirth, parse.FullGirth, ""}
	switch s.place {
	case greatest:
		names = [3]parse.Measure{parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestOpening}
	case transom:
		names = [3]parse.Measure{parse.TransomHullGirth, parse.TransomFullGirth, ""}
	}
	add(names[0], s.hull)
	add(names[1], s.full)
	add(names[2], s.opening)
	add("", s.bare)
	return true
}
