package known

import (
	"math"

	"fairtape/parse"
)

// Boat is a boat whose girths are known everywhere. Lengths are inches.
type Boat struct {
	Name        string
	Length      float64 // overall
	BowHeight   float64 // above the bottom amidships
	SternHeight float64
	CarryPoint  float64
	Decked      bool
	Stern       parse.Stern

	girths func(x float64) (hull, full float64)
}

// Girths returns the true girths at x inches aft of the foremost point.
func (b Boat) Girths(x float64) (hull, full float64) { return b.girths(x) }

// searchStep is how finely the place of the greatest girth is sought, in
// inches; a girth changes by under 1/100 in over it where it is greatest.
const searchStep = 1

// greatest returns the place of the largest full girth within one spacing of x.
func (b Boat) greatest(x, spacing float64) float64 {
	best, most := x, 0.0
	from, to := max(x-spacing, searchStep), min(x+spacing, b.Length-searchStep)
	for at := from; at <= to; at += searchStep {
		if _, full := b.girths(at); full > most {
			best, most = at, full
		}
	}
	return best
}

// hull is a boat as its builder knows it.
type hull struct {
	length  float64
	breadth float64 // greatest, at the gunwale
	siding  float64 // breadth of the stem, where the sides meet
	plan    plan
	sheer   rise
	keel    rise
	bow     end
	stern   end
	form    form
	change  func(x float64) float64 // what was cut off the sheer (negative: added), nil for nothing
	coaming coaming
}

// coaming is a rim standing on a deck, over which the closed loop runs.
type coaming struct {
	from, to float64 // inches from the bow
	breadth  float64 // over the breadth of the deck
	height   float64 // inches above the deck's crown
}

// half returns the half section at x and the local breadth as share of the
// greatest.
func (h hull) half(x float64) section {
	t := x / h.length
	fullness := min(max(h.plan(t), 0), 1)
	b := (h.siding + (h.breadth-h.siding)*fullness) / 2
	aft := h.length - x
	top := h.sheer.height(t) - h.bow.top(x) - h.stern.top(aft)
	bottom := h.keel.height(t) + h.bow.keel(x) + h.stern.keel(aft)
	s := h.form.half(b, max(top-bottom, minDepth), fullness)
	if h.change != nil {
		s = s.lowered(min(h.change(x), (top-bottom)/2), h.form.strake)
	}
	return s
}

// minDepth keeps a section a section where stem and sheer meet.
const minDepth = 1.0

func (h hull) girths(x float64) (open, closed float64) {
	s := h.half(x)
	open = s.girth()
	t := x / h.length
	if h.form.crown == 0 || t > h.form.openFrom && t < h.form.openTo {
		return open, open + s.breadth()
	}
	d := s.deck(h.form.crown)
	if c := h.coaming; x >= c.from && x <= c.to {
		crown := d[len(d)-1].z
		rim := point{s[len(s)-1].y * c.breadth, crown + c.height}
		d = append(d[:len(d)-1:len(d)-1], rim, point{0, rim.z})
	}
	return open, d.girth()
}

// boat makes the hull a Boat.
func (h hull) boat(name string, carry float64) Boat {
	b := Boat{
		Name: name, Length: h.length, CarryPoint: carry, Stern: parse.Pointed,
		Decked: h.form.crown > 0, girths: h.girths,
	}
	b.BowHeight = h.highest(0, h.length/4)
	b.SternHeight = h.highest(h.length, 3*h.length/4)
	if h.plan(1) > sharp {
		b.Stern = parse.Square
	}
	return b
}

// sharp is the most of the greatest breadth that a pointed stern has.
const sharp = 0.05

// highest returns the greatest height of the sheer between an end and x.
func (h hull) highest(end, x float64) float64 {
	most := math.Inf(-1)
	for i := range 101 {
		at := end + (x-end)*float64(i)/100
		top := h.sheer.height(at/h.length) - h.bow.top(at) - h.stern.top(h.length-at)
		if h.change != nil {
			top -= h.change(at)
		}
		most = max(most, top)
	}
	return most
}
