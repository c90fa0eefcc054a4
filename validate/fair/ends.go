package fair

import "math"

// turn is what the turn of a stem takes from the hull girth near it: a matter of
// inches, whatever the length of the boat. The keel turns up into the stem as a
// quarter of an ellipse does.
type turn struct {
	least, step  float64 // inches of the boat's length that it takes: the least, and between one of those reckoned with and the next
	mean, spread float64 // of what it takes at the very end, inches
}

// rise is what a sheer that sweeps up to an end adds to the hull girth before it:
// it goes with a power of the distance from midships.
type rise struct {
	mean, spread float64 // at the very end, inches; no spread for a fit that leaves it to the curve
}

const (
	turns  = 8 // lengths of turn that stand for all of them
	powers = 5 // of sheers, likewise
)

// power is one of the powers of a sheer, 2 to 4.
func power(k int) float64 { return 2 + 0.5*float64(k) }

// ends is how much of what bow and stern do to the hull girth at the very end
// they do at a place, for each length of turn and each power.
type ends struct {
	turns [2][turns]float64
	rises [2][powers]float64
}

// ends of a boat, as they are felt at x inches. A square stern has no stem.
func (p prior) ends(b Boat, x float64) (e ends) {
	for k, from := range [2]float64{x, b.Length - x} {
		if k == 0 || !b.Square {
			e.turns[k] = p.turn.at(from)
		}
		e.rises[k] = p.rise.at(from / b.Length)
	}
	return e
}

func (t turn) at(fromEnd float64) (s [turns]float64) {
	for k := range s {
		reach := t.least + t.step*float64(k)
		in := min(max(1-fromEnd/reach, 0), 1)
		s[k] = 1 - math.Sqrt(1-in*in)
	}
	return s
}

func (r rise) at(share float64) (s [powers]float64) {
	if r.spread == 0 {
		return s
	}
	for k := range s {
		s[k] = math.Pow(max(1-2*share, 0), power(k))
	}
	return s
}

// mean is the mean of what the ends do to the hull girth at a place.
func (p prior) mean(e ends) (inches float64) {
	for k := range e.turns {
		inches += p.rise.mean*mean(e.rises[k][:]) - p.turn.mean*mean(e.turns[k][:])
	}
	return inches
}

// covariance is that of what the ends do to the hull girth at two places.
func (p prior) covariance(a, b *ends) (v float64) {
	for k := range a.turns {
		if a.turns[k][turns-1] != 0 && b.turns[k][turns-1] != 0 { // within the longest turn
			v += mixed(a.turns[k][:], b.turns[k][:], p.turn.mean, p.turn.spread)
		}
		if p.rise.spread != 0 {
			v += mixed(a.rises[k][:], b.rises[k][:], p.rise.mean, p.rise.spread)
		}
	}
	return v
}

// mixed is the covariance of an effect at two places: one of the shapes, all
// alike likely, times a size of the given mean and spread.
func mixed(a, b []float64, size, spread float64) float64 {
	return (size*size+spread*spread)*dot(a, b)/float64(len(a)) - size*size*mean(a)*mean(b)
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
