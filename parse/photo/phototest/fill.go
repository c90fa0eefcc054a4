package phototest

import (
	"math/rand/v2"
	"strconv"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Value is one number to write.
type Value struct {
	Cell   parse.Cell
	Try    int // 0 on a form
	Length parse.Length
}

// Values are the numbers of a survey.
func Values(s parse.Survey) []Value {
	var out []Value
	add := func(r parse.Reading, at parse.Length, m parse.Measure) {
		if r.Known {
			out = append(out, Value{Cell: parse.Cell{At: at, Measure: m}, Length: r.Value})
		}
	}
	add(s.LengthOverall, 0, parse.LengthOverall)
	add(s.BowHeight, 0, parse.BowHeight)
	add(s.SternHeight, 0, parse.SternHeight)
	add(s.CarryPoint, 0, parse.CarryPoint)
	add(s.Greatest.At, 0, parse.GreatestAt)
	add(s.Greatest.HullGirth, 0, parse.GreatestHullGirth)
	add(s.Greatest.FullGirth, 0, parse.GreatestFullGirth)
	add(s.Greatest.Opening, 0, parse.GreatestOpening)
	add(s.Transom.HullGirth, 0, parse.TransomHullGirth)
	add(s.Transom.FullGirth, 0, parse.TransomFullGirth)
	for _, st := range s.Stations {
		add(st.HullGirth, st.At, parse.HullGirth)
		add(st.FullGirth, st.At, parse.FullGirth)
	}
	return out
}

// Trouble is how often, of 1, something goes wrong while writing.
type Trouble struct {
	Rewritten   float64 // a digit crossed out and another squeezed in above the box
	Overwritten float64 // a digit written over another
	Notes       float64 // a word beside a number
}

// Written is what a person wrote on the page.
type Written struct {
	Value
	Troubled bool // crossed out, written over: nobody could be sure
}

// Fill writes values into the boxes of the page and returns what it wrote.
func (s *Sheet) Fill(h *Hand, values []Value, t Trouble, rng *rand.Rand) []Written {
	var out []Written
	for _, v := range values {
		parts, found := split(s.Layout.Unit, v), false
		w := Written{Value: v}
		for _, f := range s.Layout.Fields {
			if f.Page != s.Page || f.Cell != v.Cell || f.Try != v.Try || f.Kind == form.Text {
				continue
			}
			found = true
			if f.Kind == form.Tick {
				if parts[form.Half] == 1 {
					s.tick(h, f.Boxes[0], rng)
				}
				continue
			}
			w.Troubled = s.number(h, f, parts[f.Part], t, rng) || w.Troubled
		}
		if found {
			out = append(out, w)
		}
	}
	return out
}

// Tick marks the box of a name.
func (s *Sheet) Tick(h *Hand, name string, rng *rand.Rand) {
	for _, f := range s.Layout.Fields {
		if f.Page == s.Page && f.Name == name {
			s.tick(h, f.Boxes[0], rng)
		}
	}
}

func split(unit parse.Unit, v Value) map[form.Part]int {
	if unit == parse.Centimetre {
		return map[form.Part]int{form.Whole: int(v.Length.In(unit) + 0.5)}
	}
	halves := int(2*v.Length.In(unit) + 0.5)
	parts := map[form.Part]int{form.Half: halves % 2, form.Whole: halves / 2}
	if v.Cell.Measure == parse.LengthOverall || v.Cell.Measure == parse.GreatestAt {
		parts[form.Feet], parts[form.Inches] = halves/24, halves/2%12
	}
	return parts
}

// number writes a number at the right end of a field, and reports trouble.
func (s *Sheet) number(h *Hand, f form.Field, n int, t Trouble, rng *rand.Rand) (troubled bool) {
	text := strconv.Itoa(n)
	first := len(f.Boxes) - len(text)
	if first < 0 {
		return false
	}
	for i, c := range text {
		box := f.Boxes[first+i]
		x, y := box.Centre()
		d := int(c - '0')
		switch chance := rng.Float64(); {
		case chance < t.Rewritten:
			s.digit(h, (d+1+rng.IntN(9))%10, x, y, rng)
			s.strike(h, box, rng)
			s.above(h, d, box, rng)
			troubled = true
		case chance < t.Rewritten+t.Overwritten:
			s.digit(h, (d+1+rng.IntN(9))%10, x, y, rng)
			s.digit(h, d, x, y, rng)
			troubled = true
		default:
			s.digit(h, d, x, y, rng)
		}
	}
	if rng.Float64() < t.Notes {
		s.beside(h, f.Bounds(), rng)
	}
	return troubled
}

// above writes a digit above a box, as small as the next boxes there make it.
func (s *Sheet) above(h *Hand, d int, box form.Rect, rng *rand.Rand) {
	room := 2 * form.BoxClear
	for _, f := range s.Layout.Fields {
		for _, b := range f.Boxes {
			if f.Page == s.Page && b.X0 < box.X1 && b.X1 > box.X0 && b.Y1 <= box.Y0 {
				room = min(room, box.Y0-b.Y1)
			}
		}
	}
	small := *h
	small.height = min(h.height, room)
	small.jitter = min(h.jitter, 0.2)
	x, _ := box.Centre()
	s.digit(&small, d, x, box.Y0-small.height/2, rng)
}

// beside writes a word beside a number, where no other boxes are.
func (s *Sheet) beside(h *Hand, b form.Rect, rng *rand.Rand) {
	width := 8 + 8*rng.Float64()
	at := form.Rect{X0: b.X1 + 16, Y0: b.Y0 + 1, X1: b.X1 + 16 + width, Y1: b.Y1 - 1}
	for _, f := range s.Layout.Fields {
		if f.Page == s.Page && f.Bounds().Grow(form.BoxClear).Overlaps(at) {
			return
		}
	}
	s.Note(h, at.X0, at.Y0+4, width, rng)
}
