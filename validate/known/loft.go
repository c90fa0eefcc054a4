package known

import (
	"math"

	"fairtape/parse"
)

// The second family is drawn as a loftsman draws: lines bent through a few
// points as cubic Bezier curves, sections as conics between the slope of the
// bottom and the lean of the side, planked in flats or left round, bow and
// stern each for itself. It shares sections and tapes with the first family,
// and no line.

// bezier is a cubic Bezier curve of which x never falls. Lengths are inches.
type bezier struct{ x, y [4]float64 }

// bernstein returns the point of a Bezier curve with the given ordinates.
func bernstein(p [4]float64, t float64) float64 {
	s := 1 - t
	return s*s*s*p[0] + 3*s*s*t*p[1] + 3*s*t*t*p[2] + t*t*t*p[3]
}

// at returns y at x, that of the nearer end outside the curve.
func (b bezier) at(x float64) float64 {
	const halvings = 40 // to the rounding of a double
	lo, hi := 0.0, 1.0
	for range halvings {
		middle := (lo + hi) / 2
		if bernstein(b.x, middle) < x {
			lo = middle
		} else {
			hi = middle
		}
	}
	return bernstein(b.y, (lo+hi)/2)
}

// bent is a line from bow to stern in two curves that meet at x of the first
// curve's end.
type bent struct{ fore, aft bezier }

func (l bent) at(x float64) float64 {
	if x < l.fore.x[3] {
		return l.fore.at(x)
	}
	return l.aft.at(x)
}

// batten bends a line level at (middle, top) that reaches end, at the bow where
// middle is right of it, at the stern otherwise. The line leaves the end towards
// a point that lies reach of the way along and climb of the way up, and is level
// over flat of the way.
func batten(from, end, middle, top, reach, climb, flat float64) bezier {
	along := func(share float64) float64 { return from + share*(middle-from) }
	b := bezier{
		x: [4]float64{from, along(reach), along(1 - flat), middle},
		y: [4]float64{end, end + climb*(top-end), top, top},
	}
	if from > middle {
		b.x[0], b.x[1], b.x[2], b.x[3] = b.x[3], b.x[2], b.x[1], b.x[0]
		b.y[0], b.y[1], b.y[2], b.y[3] = b.y[3], b.y[2], b.y[1], b.y[0]
	}
	return b
}

// lean is the shape of a section, as shares of what its breadth and depth allow.
type lean struct {
	bottom float64 // slope of the bottom: 0 flat, 1 a straight V
	side   float64 // outward lean of the side: 0 plumb, 1 a straight V, below 0 tumblehome
}

// lofted is a boat of the second family.
type lofted struct {
	length   float64
	half     bent // half-breadth of the gunwale
	sheer    bent
	rocker   bent
	stems    [2]bezier // what bow and stern turn up by, over the distance from the end
	drops    [2]bezier // what recurved ends fall off by, likewise; zero for none
	middle   lean
	ends     lean
	bilge    float64 // weight of the conic: 1 a parabola, more a harder bilge
	planks   int     // flats between keel and gunwale, 0 for a round bottom
	change   change
	strake   float64
	ridge    float64    // height of the deck's ridge over its breadth, 0 for an open boat
	openDeck [2]float64 // inches from the bow between which there is no deck
}

// conicPoints is how many points make a round half section.
const conicPoints = 28

// section returns the half section at x.
func (l lofted) section(x float64) section {
	b := l.half.at(x)
	top, bottom := l.sheer.at(x), l.rocker.at(x)
	for i, from := range [2]float64{x, l.length - x} {
		bottom += upTo(l.stems[i], from)
		top -= upTo(l.drops[i], from)
	}
	d := max(top-bottom, minDepth)
	full := min(b/l.half.fore.y[3], 1)
	r := l.ends.bottom + (l.middle.bottom-l.ends.bottom)*full
	s := l.ends.side + (l.middle.side-l.ends.side)*full
	knee := point{b * (1 - s) / (1 - r*s), d * r * (1 - s) / (1 - r*s)}
	n := l.planks
	if n == 0 {
		n = conicPoints
	}
	out := section{{0, 0}}
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		p, q, w := (1-t)*(1-t), t*t, 2*t*(1-t)*l.bilge
		sum := p + q + w
		out = append(out, point{(w*knee.y + q*b) / sum, (w*knee.z + q*d) / sum})
	}
	out = out.rising()
	if l.change != nil {
		out = out.lowered(min(l.change(x), d/2), l.strake)
	}
	return out
}

// upTo is the curve's value within its length, 0 beyond.
func upTo(b bezier, from float64) float64 {
	if from >= b.x[3] {
		return 0
	}
	return b.at(from)
}

func (l lofted) girths(x float64) (open, closed float64) {
	s := l.section(x)
	open = s.girth()
	if l.ridge == 0 || x > l.openDeck[0] && x < l.openDeck[1] {
		return open, open + s.breadth()
	}
	edge := s[len(s)-1]
	return open, append(s[:len(s):len(s)], point{0, edge.z + 2*edge.y*l.ridge}).girth()
}

// boat makes the hull a Boat.
func (l lofted) boat(name string, carry float64) Boat {
	b := Boat{Name: name, Length: l.length, CarryPoint: carry, Stern: parse.Pointed, Decked: l.ridge > 0, girths: l.girths}
	b.BowHeight, b.SternHeight = l.highest(0), l.highest(l.length)
	if l.half.at(l.length) > narrowest {
		b.Stern = parse.Square
	}
	return b
}

// narrowest is the half-breadth, in inches, over which a stern is a transom.
const narrowest = 3

// highest returns the greatest height of the sheer in the quarter at an end.
func (l lofted) highest(end float64) float64 {
	most := math.Inf(-1)
	for i := range 101 {
		from := l.length / 4 * float64(i) / 100
		x := math.Abs(end - from)
		top := l.sheer.at(x) - upTo(l.drops[0], x) - upTo(l.drops[1], l.length-x)
		if l.change != nil {
			top -= l.change(x)
		}
		most = max(most, top)
	}
	return most
}
