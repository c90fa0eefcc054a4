package cover

import "math"

// Section is the sketched half of a cross-section from the gunwale down to the
// keel: half-breadth and height above the keel, in inches.
type Section struct{ Y, Z []float64 }

// sectionPoints is how many points draw a half section; the girth of the
// polyline is right to 1 part in 2000.
const sectionPoints = 41

// flattest is the greatest exponent of a sketched section; it is a box but for
// a bilge of about an inch.
const flattest = 40

// SketchSection returns a plausible section of opening w, hull girth u and
// depth d: |2y/w|^n + |z/d|^n = 1 (z down from the gunwale) with the n that
// gives the girth; 1 is a V, 2 a half ellipse.
func SketchSection(w, u, d float64) Section {
	lo, hi := 1.0, float64(flattest)
	for range 40 {
		mid := (lo + hi) / 2
		if superellipse(w/2, d, mid).girth() < u {
			lo = mid
		} else {
			hi = mid
		}
	}
	return superellipse(w/2, d, (lo+hi)/2)
}

func superellipse(b, d, n float64) Section {
	s := Section{make([]float64, sectionPoints), make([]float64, sectionPoints)}
	for i := range sectionPoints {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / (sectionPoints - 1))
		if i == sectionPoints-1 {
			sin, cos = 1, 0
		}
		s.Y[i], s.Z[i] = b*math.Pow(cos, 2/n), d*(1-math.Pow(sin, 2/n))
	}
	return s
}

// girth returns the hull girth of the whole section.
func (s Section) girth() float64 {
	sum := 0.0
	for i := 1; i < len(s.Y); i++ {
		sum += math.Hypot(s.Y[i]-s.Y[i-1], s.Z[i]-s.Z[i-1])
	}
	return 2 * sum
}

// below returns the point so far down the section from the gunwale.
func (s Section) below(drop float64) (y, z float64) {
	for i := 1; i < len(s.Y); i++ {
		d := math.Hypot(s.Y[i]-s.Y[i-1], s.Z[i]-s.Z[i-1])
		if d >= drop && d > 0 {
			f := drop / d
			return s.Y[i-1] + f*(s.Y[i]-s.Y[i-1]), s.Z[i-1] + f*(s.Z[i]-s.Z[i-1])
		}
		drop -= d
	}
	return s.Y[len(s.Y)-1], s.Z[len(s.Z)-1]
}
