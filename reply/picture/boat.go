package picture

import (
	"math"
	"slices"

	"fairtape/parse"
)

// side is a boat seen from the side, as a drawing: heights are enlarged, and
// what the survey does not say, or says wrongly, is drawn as boats usually are.
// Lengths are in inches.
type side struct {
	unit     parse.Unit
	length   float64
	known    bool // the length, and with it the number of stations
	bow      float64
	stern    float64
	square   bool
	decked   bool
	stations []float64
	carry    float64 // 0 for unknown
	greatest float64
}

// What is drawn where the survey says nothing: common sizes of a canoe, common
// practice with no source. Nothing is measured on the drawing.
const (
	usualLength = 16 * perFoot
	usualHeight = 18.0
	leastHeight = 8.0
	mostHeight  = 36.0
	leastLength = 4.0 * perFoot
	mostLength  = 40.0 * perFoot
	nearStern   = 4.0 // a station so near the stern may be absent
	sameStation = 0.5 // distances so near each other are one station
	spacingIn   = 12.0
	spacingCm   = 30 / 2.54
)

// newSide makes the drawing's boat. Numbers that are asked again are not
// believed.
func newSide(s parse.Survey, asked []parse.Cell) side {
	b := side{unit: s.Unit, square: s.Stern == parse.Square, decked: s.Decked}
	doubted := func(m parse.Measure) bool {
		return slices.ContainsFunc(asked, func(c parse.Cell) bool { return c.Measure == m })
	}
	value := func(r parse.Reading, m parse.Measure, low, high, usual float64) float64 {
		v := r.Value.In(parse.Inch)
		if r.Known && !doubted(m) && v >= low && v <= high {
			return v
		}
		return usual
	}
	spacing := spacingIn
	if s.Unit == parse.Centimetre {
		spacing = spacingCm
	}
	last := 0.0
	for _, station := range s.Stations {
		if at := station.At.In(parse.Inch); at > 0 && at < mostLength {
			last = max(last, at)
		}
	}
	for _, c := range asked {
		if at := c.At.In(parse.Inch); at > 0 && at < mostLength {
			last = max(last, at)
		}
	}
	b.length = value(s.LengthOverall, parse.LengthOverall, max(last, leastLength), mostLength, 0)
	b.known = b.length > 0
	switch {
	case !b.known && last > 0:
		b.length, b.known = last+spacing, true
	case !b.known:
		b.length = usualLength
	}
	b.bow = value(s.BowHeight, parse.BowHeight, leastHeight, mostHeight, usualHeight)
	b.stern = value(s.SternHeight, parse.SternHeight, leastHeight, mostHeight, b.bow*0.9)
	b.carry = value(s.CarryPoint, parse.CarryPoint, 4, b.length/2, 0)
	b.greatest = value(s.Greatest.At, parse.GreatestAt, b.length*0.2, b.length*0.85, b.length*0.52)
	b.stations = b.places(s, asked, spacing)
	return b
}

// places are the stations to number: those of the grid, those measured and
// those asked for.
func (b side) places(s parse.Survey, asked []parse.Cell, spacing float64) []float64 {
	var all []float64
	add := func(at, room float64) {
		near := func(o float64) bool { return math.Abs(o-at) < room }
		if at > 0 && at < b.length && !slices.ContainsFunc(all, near) {
			all = append(all, at)
		}
	}
	for _, c := range asked {
		if c.Measure == parse.HullGirth || c.Measure == parse.FullGirth || c.Measure == parse.MeasurePair {
			add(c.At.In(parse.Inch), sameStation)
		}
	}
	for _, station := range s.Stations {
		add(station.At.In(parse.Inch), sameStation)
	}
	for at := spacing; at < b.length-nearStern/2; at += spacing {
		add(at, spacing*0.4) // the grid's, where none was measured
	}
	slices.Sort(all)
	return all
}

// The outline, in shares of the length and in inches of height above the
// bottom amidships.

// stemRun is how far the profile of an end runs along the bottom before it is
// level.
func (b side) stemRun() float64 { return min(0.13, 23/b.length) }

// sheer is the height of the top edge at t, 0 at the bow and 1 at the stern: a
// parabola through both ends and a low point a little aft of the middle.
func (b side) sheer(t float64) float64 {
	middle := 0.66 * min(b.bow, b.stern)
	ends := b.bow + (b.stern-b.bow)*t
	sag := (b.bow+b.stern)/2 - middle
	return ends - sag*math.Pow(math.Sin(math.Pi*math.Pow(t, 0.97)), 0.85)
}

// keel is the height of the bottom edge at t: the turn of the stem, a little
// rocker, the turn of the stern or a transom's foot.
func (b side) keel(t float64) float64 {
	y := rocker(t) + turn(t/b.stemRun(), b.bow)
	if !b.square {
		y += turn((1-t)/b.stemRun(), b.stern)
	}
	return min(y, b.sheer(t))
}

// plank is a line between bottom and top edge; share is 0 at the bottom. Toward
// the ends planks rise sooner and more softly than the keel does.
func (b side) plank(t, share float64) float64 {
	foot := func(end, height float64) float64 {
		return height * math.Pow(max(0, 1-end/0.5), 3)
	}
	low := rocker(t) + foot(t, b.bow*0.55)
	if !b.square {
		low += foot(1-t, b.stern*0.55)
	}
	return low + (b.sheer(t)-low)*share
}

// rocker is how much the bottom rises toward the ends.
func rocker(t float64) float64 { return 0.8 * math.Pow(2*t-1, 4) }

// turn is the rise of an end's profile: a quarter of a superellipse, rather
// softer than an ellipse. End is 0 at the very end and 1 where it is level.
func turn(end, height float64) float64 {
	const soft = 1.75
	if end >= 1 {
		return 0
	}
	return height * (1 - math.Pow(1-math.Pow(1-end, soft), 1/soft))
}
