package known

import (
	"math"
	"math/rand/v2"
)

// A change says how many inches lie cut off the sheer at x, negative where a
// strake was added.
type change = func(x float64) float64

// edge rises from 0 to 1 about the given place over the given length, in one of
// several shapes.
type edge struct {
	at, over float64
	shape    int
}

// The shapes of an edge.
const (
	straight = iota // an even ramp
	eased           // a cosine: the carpenter's fair curve
	hollow          // quick at first, then trailing off
	shapes
)

// drawEdge draws the shape of an edge.
func drawEdge(rng *rand.Rand, at, over float64) edge {
	return edge{at: at, over: over, shape: rng.IntN(shapes)}
}

func (e edge) share(x float64) float64 {
	if e.over <= 0 {
		if x < e.at {
			return 0
		}
		return 1
	}
	s := min(max((x-e.at)/e.over+0.5, 0), 1)
	switch e.shape {
	case eased:
		return (1 - math.Cos(math.Pi*s)) / 2
	case hollow:
		return 1 - (1-s)*(1-s)
	}
	return s
}

// cutDown lowers the sides amidships by 1.5 to 4.5 in, between edges that take
// the given range of lengths.
func cutDown(rng *rand.Rand, length, shortest, longest float64) change {
	h := between(rng, 1.5, 4.5)
	fore := drawEdge(rng, between(rng, 0.14, 0.34)*length, between(rng, shortest, longest))
	aft := drawEdge(rng, between(rng, 0.66, 0.86)*length, between(rng, shortest, longest))
	return func(x float64) float64 { return h * (fore.share(x) - aft.share(x)) }
}

// step puts one step of 1 to 4 in into the sheer, up or down, anywhere but the
// last eighth at either end.
func step(rng *rand.Rand, length, over float64) change {
	h := between(rng, 1, 4)
	if rng.IntN(2) == 0 {
		h = -h
	}
	at := drawEdge(rng, between(rng, 0.13, 0.87)*length, over)
	if rng.IntN(2) == 0 { // on the fore side of the edge
		return func(x float64) float64 { return h * (1 - at.share(x)) }
	}
	return func(x float64) float64 { return h * at.share(x) }
}

// twoSteps puts two steps of their own height and shape into the sheer: a
// raised bow and a raised stern, a well amidships, a raised middle.
func twoSteps(rng *rand.Rand, length float64) change {
	first := drawEdge(rng, between(rng, 0.15, 0.42)*length, between(rng, 0, 18))
	second := drawEdge(rng, between(rng, 0.58, 0.85)*length, between(rng, 0, 18))
	a, b := between(rng, 1, 3.5), between(rng, 1, 3.5)
	if rng.IntN(3) == 0 {
		a = -a
	}
	if rng.IntN(3) == 0 {
		b = -b
	}
	return func(x float64) float64 { return a*(1-first.share(x)) + b*second.share(x) }
}
