package known

import (
	"math"
	"math/rand/v2"
)

// Loft draws a boat of the second family. The ranges are common practice, no
// source.
func Loft(rng *rand.Rand, class Class) Boat {
	l := loftDouble(rng)
	switch class {
	case CutDown:
		l.change = scooped(rng, l.length, 0, 4)
	case CutDownRamped:
		l.change = scooped(rng, l.length, 6, 36)
	case StepHull:
		l.middle, l.ends, l.bilge, l.planks = lean{0.05, 0}, lean{0.1, 0}, 4, 0
		l.change = broken(rng, l.length, between(rng, 0, 8))
	case StepBoth:
		loftFlared(rng, &l)
		l.change = broken(rng, l.length, between(rng, 0, 8))
	case TwoSteps:
		fore, aft := broken(rng, l.length/2, between(rng, 0, 18)), broken(rng, l.length/2, between(rng, 0, 18))
		l.change = func(x float64) float64 { return fore(x) + aft(x-l.length/2) }
	case Ramp:
		if rng.IntN(2) == 0 {
			loftFlared(rng, &l)
		}
		l.change = broken(rng, l.length, between(rng, 1, 4)*inchesPerFoot)
	case Recurved:
		for i := range l.drops {
			fall, over := between(rng, 3, 10), between(rng, 4, 16)
			l.drops[i] = bezier{[4]float64{0, over * between(rng, 0.1, 0.5), over * 0.7, over}, [4]float64{fall, fall / 2, 0, 0}}
		}
	case Plumb:
		for i := range l.stems {
			l.stems[i] = stem(between(rng, 0.5, 2), between(rng, 2, 5), 0.1)
		}
	case Transom:
		loftTransom(rng, &l)
	case Tumblehome:
		l.middle = lean{between(rng, 0, 0.15), -between(rng, 0.1, 0.35)}
		l.bilge, l.planks = between(rng, 0.9, 2), 0
	case FullForward:
		l.half = loftPlan(rng, l.length, l.half.fore.y[3], between(rng, 0.3, 0.4), 0)
	case FullAft:
		l.half = loftPlan(rng, l.length, l.half.fore.y[3], between(rng, 0.6, 0.7), 0)
	case Decked:
		loftDecked(rng, &l)
	}
	return l.boat(string(class), carry(rng, l.length))
}

// loftDouble draws an open boat with two pointed ends, from a pack canoe of
// 8 ft to a rowing boat of 24.
func loftDouble(rng *rand.Rand) lofted {
	l := lofted{length: between(rng, 8, 24) * inchesPerFoot}
	feet := l.length / inchesPerFoot
	beam := between(rng, 22, 34) + feet*between(rng, 0.1, 0.8)
	depth := between(rng, 0.28, 0.42) * beam
	l.half = loftPlan(rng, l.length, beam/2, between(rng, 0.44, 0.56), 0)
	l.sheer = loftSheer(rng, l.length, depth, depth+between(rng, 2, 12), depth+between(rng, 1, 11))
	l.rocker = loftRise(rng, l.length, between(rng, 0.4, 0.6), 0, between(rng, 0, 3), between(rng, 0, 3))
	for i := range l.stems {
		l.stems[i] = stem(between(rng, 2, 16), between(rng, 0.2, 0.6)*depth, between(rng, 0, 0.5))
	}
	l.middle = lean{between(rng, 0.02, 0.4), between(rng, -0.04, 0.35)}
	l.ends = lean{between(rng, 0.45, 0.9), between(rng, 0.1, 0.6)}
	l.bilge = between(rng, 0.8, 3)
	switch rng.IntN(4) {
	case 0: // hard chine: the knee is the chine
		l.planks, l.bilge = 2, between(rng, 3, 6)
	case 1: // lapped or plywood strakes
		l.planks = 3 + rng.IntN(3)
	}
	return l
}

// loftPlan draws the half-breadth of the gunwale, greatest at a share of the
// length, and of the given share of that at the stern.
func loftPlan(rng *rand.Rand, length, half, at, stern float64) bent {
	siding := between(rng, 0.4, 1)
	fine := func() (reach, climb float64) {
		reach = between(rng, 0.2, 0.4)
		return reach, reach * between(rng, 0.9, 1.9)
	}
	reach, climb := fine()
	fore := batten(0, siding, at*length, half, reach, climb, between(rng, 0.3, 0.5))
	reach, climb = fine()
	aft := batten(length, max(stern*half, siding), at*length, half, reach, climb, between(rng, 0.3, 0.5))
	return bent{fore, aft}
}

// loftSheer draws a sheer, level somewhere about amidships.
func loftSheer(rng *rand.Rand, length, level, bow, stern float64) bent {
	return loftRise(rng, length, between(rng, 0.42, 0.6), level, bow, stern)
}

// loftRise draws a line that is level at a share of the length and reaches the
// given heights at the ends.
func loftRise(rng *rand.Rand, length, at, level, bow, stern float64) bent {
	return bent{
		batten(0, bow, at*length, level, between(rng, 0.15, 0.35), between(rng, 0.45, 0.85), between(rng, 0.3, 0.6)),
		batten(length, stern, at*length, level, between(rng, 0.15, 0.35), between(rng, 0.45, 0.85), between(rng, 0.3, 0.6)),
	}
}

// stem bends the profile of an end: it turns up by turn over reach; raked is how
// far along it is still rising.
func stem(reach, turn, raked float64) bezier {
	return bezier{[4]float64{0, raked * reach / 2, reach * (0.3 + raked/3), reach}, [4]float64{turn, turn * 0.45, 0, 0}}
}

func loftFlared(rng *rand.Rand, l *lofted) {
	l.middle, l.ends = lean{between(rng, 0, 0.1), between(rng, 0.3, 0.6)}, lean{between(rng, 0.2, 0.6), between(rng, 0.3, 0.6)}
	l.planks, l.bilge = 2, 5
	l.strake = between(rng, 0.2, 0.5)
}

func loftTransom(rng *rand.Rand, l *lofted) {
	l.length = between(rng, 8, 18) * inchesPerFoot
	half := between(rng, 17, 29)
	depth := between(rng, 13, 20)
	l.half = loftPlan(rng, l.length, half, between(rng, 0.5, 0.65), between(rng, 0.4, 0.85))
	l.sheer = loftSheer(rng, l.length, depth, depth+between(rng, 3, 10), depth+between(rng, 0, 4))
	l.rocker = loftRise(rng, l.length, between(rng, 0.4, 0.6), 0, between(rng, 0, 2), between(rng, 0, 4))
	l.stems = [2]bezier{stem(between(rng, 4, 26), between(rng, 0.4, 0.8)*depth, between(rng, 0, 0.6)), {}}
}

func loftDecked(rng *rand.Rand, l *lofted) {
	l.length = between(rng, 9, 19) * inchesPerFoot
	depth := between(rng, 7, 11)
	l.half = loftPlan(rng, l.length, between(rng, 10, 16), between(rng, 0.45, 0.57), 0)
	l.sheer = loftSheer(rng, l.length, depth, depth+between(rng, 1, 6), depth+between(rng, 0.5, 4))
	for i := range l.stems {
		l.stems[i] = stem(between(rng, 5, 28), between(rng, 0.3, 0.7)*depth, between(rng, 0, 0.6))
	}
	l.ridge = between(rng, 0.05, 0.16)
	if rng.IntN(2) == 0 {
		l.openDeck = [2]float64{between(rng, 0.2, 0.4) * l.length, between(rng, 0.6, 0.8) * l.length}
	}
}

// landing rises from 0 to 1 about a place over a length as a fifth-order curve,
// or as the quarter of a circle that a saw leaves on one side.
func landing(rng *rand.Rand, at, over float64) func(x float64) float64 {
	round := rng.IntN(3)
	return func(x float64) float64 {
		s := 1.0
		if over > 0 {
			s = min(max((x-at)/over+0.5, 0), 1)
		} else if x < at {
			s = 0
		}
		switch round {
		case 0:
			return math.Sqrt(s * (2 - s))
		case 1:
			return 1 - math.Sqrt(1-s*s)
		}
		return s * s * s * (10 - 15*s + 6*s*s)
	}
}

// scooped cuts the sides down amidships.
func scooped(rng *rand.Rand, length, shortest, longest float64) change {
	h := between(rng, 1.5, 5)
	fore := landing(rng, between(rng, 0.15, 0.38)*length, between(rng, shortest, longest))
	aft := landing(rng, between(rng, 0.62, 0.85)*length, between(rng, shortest, longest))
	return func(x float64) float64 { return h * (fore(x) - aft(x)) }
}

// broken puts one step into the sheer of a boat, or of its half.
func broken(rng *rand.Rand, length, over float64) change {
	h := between(rng, 1, 4.5)
	if rng.IntN(2) == 0 {
		h = -h
	}
	at := landing(rng, between(rng, 0.16, 0.84)*length, over)
	return func(x float64) float64 { return h * at(x) }
}
