package cover

import (
	"math"
	"slices"

	"fairtape/validate/fair"
)

// Hull is a boat as a cover meets it: girths, and the three lines that a cover
// touches, at places along the boat. All are inches; all lists are of one
// length.
type Hull struct {
	X       []float64 // aft of the foremost point, rising from 0 to the length
	Girth   []float64 // hull girth
	Opening []float64 // gunwale to gunwale; over the crown on a decked boat
	Sheer   []float64 // height of the gunwale above the bottom amidships
	Keel    []float64 // height of the keel
}

// Length returns the length of the boat.
func (h Hull) Length() float64 { return h.X[len(h.X)-1] }

// Full returns the full girth at place i.
func (h Hull) Full(i int) float64 { return h.Girth[i] + h.Opening[i] }

// greatest returns the place of the greatest full girth.
func (h Hull) greatest() int {
	best := 0
	for i := range h.X {
		if h.Full(i) > h.Full(best) {
			best = i
		}
	}
	return best
}

// index returns the place nearest to x.
func (h Hull) index(x float64) int {
	i, _ := slices.BinarySearch(h.X, x)
	if i == len(h.X) || i > 0 && x-h.X[i-1] < h.X[i]-x {
		i--
	}
	return i
}

// step is how finely a boat is laid out, in inches: the chord of a curve as
// tight as a stem's turn (12 in) is short by 1 part in 3000 over it.
const step = 1.0

// Places returns places to lay a boat out at: about an inch apart, with every
// one of the given stations among them.
func Places(length float64, stations []float64) []float64 {
	var x []float64
	n := max(int(math.Round(length/step)), 2)
	for i := range n + 1 {
		at := length * float64(i) / float64(n)
		if !slices.ContainsFunc(stations, func(s float64) bool { return s > 0 && s < length && math.Abs(s-at) < step/4 }) || i == 0 || i == n {
			x = append(x, at)
		}
	}
	for _, s := range stations {
		if s > step/4 && s < length-step/4 {
			x = append(x, s)
		}
	}
	slices.Sort(x)
	return slices.Compact(x)
}

// leastOpening keeps the closed loop longer than the open one where a curve is
// carried on to a sharp end.
const leastOpening = 0.5

// Sketch makes a plausible boat of a fair curve: the girths are the curve's, the
// heights a sketch. Depth comes from the bounds on a section's depth, sharing
// them along the whole boat as a half ellipse amidships does; the keel is
// straight but for the stems, where the sheer rises to the heights of the ends
// (0 for one that is not known). The lengths of sheer and keel depend on the
// heights to second order only: a sheer wrong by 2 in amidships is long or
// short by 1/20 in.
func Sketch(curve fair.Curve, stations []float64, bow, stern float64) Hull {
	_, length := curve.Span()
	h := Hull{X: Places(length, stations)}
	for _, x := range h.X {
		hull, full := curve.At(x)
		u := math.Max(hull.Mean, leastOpening)
		w := math.Max(full.Mean-hull.Mean, leastOpening)
		h.Girth = append(h.Girth, u)
		h.Opening = append(h.Opening, math.Min(w, u))
	}
	h.rise(bow, stern)
	return h
}

// rise sketches the heights of a hull from its girths and the heights of its
// ends.
func (h *Hull) rise(bow, stern float64) {
	m := h.greatest()
	h.riseTo(fullness(h.Opening[m], h.Girth[m], lowest(bow, stern)), bow, stern)
}

// riseTo sketches the heights with depths at the given share between their
// bounds.
func (h *Hull) riseTo(share, bow, stern float64) {
	h.Sheer, h.Keel = make([]float64, len(h.X)), make([]float64, len(h.X))
	for i := range h.X {
		h.Sheer[i] = depth(h.Opening[i], h.Girth[i], share)
	}
	depths := slices.Clone(h.Sheer)
	reach := min(stemReach, h.Length()/4)
	if bow > 0 {
		h.end(0, h.index(reach), bow)
	}
	if stern > 0 {
		h.end(len(h.X)-1, h.index(h.Length()-reach), stern)
	}
	for i := range h.X {
		h.Keel[i] = h.Sheer[i] - depths[i]
	}
}

// TopRange returns between which lengths the line over the top lies when the
// boat is somewhat shallower or deeper amidships than the sketch: a survey does
// not tell.
func (h Hull) TopRange(bow, stern float64) (least, most float64) {
	m := h.greatest()
	box, vee := depthBounds(h.Opening[m], h.Girth[m])
	share := fullness(h.Opening[m], h.Girth[m], lowest(bow, stern))
	least, most = math.Inf(1), 0
	for _, off := range []float64{-depthDoubt, 0, depthDoubt} {
		h.riseTo(min(max(share+off/math.Max(vee-box, 1), 0), 1), bow, stern)
		l := sum(h.topLine().spans())
		least, most = min(least, l), max(most, l)
	}
	return least, most
}

// depthDoubt is by how much the sketched depth amidships may be wrong, in
// inches: V sections are some 3 in deeper than half ellipses of the same girth.
const depthDoubt = 3.0

// stemReach is the length over which a sheer is led to the height of an end and
// the keel may turn up into a stem, in inches. Common practice, no source.
const stemReach = 24.0

// end leads the sheer from place i, smoothly, to the height of the end at place
// e.
func (h *Hull) end(e, i int, height float64) {
	back := i + 1
	if e > i {
		back = i - 1
	}
	slope := (h.Sheer[back] - h.Sheer[i]) / (h.X[back] - h.X[i])
	run := h.X[e] - h.X[i]
	bend := (height - h.Sheer[i] - slope*run) / (run * run)
	at, from := h.Sheer[i], h.X[i]
	for j := e; j != i; j += sign(i - e) {
		d := h.X[j] - from
		h.Sheer[j] = at + slope*d + bend*d*d
	}
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

// lowest returns the lower of the two heights that are known, 0 for none.
func lowest(a, b float64) float64 {
	if a <= 0 || b > 0 && b < a {
		return b
	}
	return a
}

// depthBounds returns the least and the most depth of a section of opening w
// and hull girth u: that of a box with plumb sides, and of a V.
func depthBounds(w, u float64) (box, vee float64) {
	return (u - w) / 2, math.Sqrt(math.Max(u*u-w*w, 0)) / 2
}

func depth(w, u, share float64) float64 {
	box, vee := depthBounds(w, u)
	return box + share*(vee-box)
}

// fullness returns where between its bounds the depth of a section lies: that of
// a half ellipse, or less where the boat would be deeper amidships than its
// lower end is high (0: not known).
func fullness(w, u, lowerEnd float64) float64 {
	box, vee := depthBounds(w, u)
	if vee-box < 1e-9 {
		return 0
	}
	lo, hi := box, vee // a half ellipse is never shallower than the box or deeper than the V
	for range 60 {
		mid := (lo + hi) / 2
		if EllipseGirth(w, mid) < u {
			lo = mid
		} else {
			hi = mid
		}
	}
	d := lo
	if lowerEnd > 0 {
		d = min(d, lowerEnd)
	}
	return min(max((d-box)/(vee-box), 0), 1)
}

// EllipseGirth returns the hull girth of a half ellipse of breadth w and depth
// d, by the arithmetic-geometric mean (Gauss; DLMF 19.8.6): exact to rounding.
func EllipseGirth(w, d float64) float64 {
	a, b := math.Max(w/2, d), math.Min(w/2, d)
	if b == 0 {
		return 2 * a
	}
	// Half the perimeter is pi (a0² - sum 2^(n-1) c_n²) / M(a0, b0).
	sum, power := a*a, 0.5
	c := math.Sqrt(a*a - b*b)
	for range 40 {
		sum -= power * c * c
		if c < 1e-16*a {
			break
		}
		a, b, c = (a+b)/2, math.Sqrt(a*b), (a-b)/2
		power *= 2
	}
	return math.Pi * sum / a
}
