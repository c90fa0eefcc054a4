package known

import "math"

// halfPoints is how many points make a curved half section; the girth of an
// ellipse so drawn is right to 1 part in 5000, well under a tape's error.
const halfPoints = 32

// form is the shape of a boat's sections. Each section is drawn between keel
// and gunwale; fullness, 1 at the greatest beam and 0 at a sharp end, lets it
// go from the shape amidships to that of the ends.
type form struct {
	bilge    float64 // exponent of the superellipse amidships: 2 an ellipse, 4 nearly a box
	ends     float64 // the same exponent at the ends
	vee      float64 // share of a straight V in the bottom, 0 to 1
	flare    float64 // how much the sides lean out, 0 to 1
	homing   float64 // tumblehome: what the gunwale lies inside the greatest breadth, as share of it
	flat     float64 // breadth of a flat bottom over that of the gunwale; 0 for a round one
	knuckle  float64 // height of a second chine over depth, with flat; 0 for none
	strake   float64 // outward slope of any side added above the gunwale
	crown    float64 // camber of the deck over its breadth; 0 for an open boat
	openFrom float64 // there is no deck from here ...
	openTo   float64 // ... to here, as shares of the length
}

// half returns the section with half-breadth b at the gunwale and depth d.
func (f form) half(b, d, fullness float64) section {
	if f.flat > 0 {
		return f.chined(b, d, fullness)
	}
	n := f.ends + (f.bilge-f.ends)*fullness
	s := make(section, 0, 2*halfPoints)
	home := b * f.homing * fullness
	greatest, depth := b+home, d
	if home > 0 {
		depth = homingFrom * d
	}
	for i := range halfPoints + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / halfPoints)
		p := point{greatest * math.Pow(sin, 2/n), depth * (1 - math.Pow(cos, 2/n))}
		if i == halfPoints {
			p = point{greatest, depth}
		}
		up := p.z / depth
		p.y *= 1 - f.flare*(1-up)
		if greatest > 0 {
			p.z += f.vee * (depth*p.y/greatest - p.z)
		}
		s = append(s, p)
	}
	if home > 0 {
		for i := 1; i <= halfPoints/4; i++ {
			up := float64(i) / (halfPoints / 4)
			s = append(s, point{greatest - home*up*up, depth + up*(d-depth)})
		}
	}
	return s.rising()
}

// homingFrom is the height, as share of the depth, at which sides with
// tumblehome are broadest.
const homingFrom = 0.55

// rising makes heights never fall: a bottom with more V than bilge would
// otherwise dip by rounding.
func (s section) rising() section {
	for i := 1; i < len(s); i++ {
		s[i].z = max(s[i].z, s[i-1].z)
	}
	return s
}

// chined returns a flat-bottomed section, with one knuckle or two.
func (f form) chined(b, d, fullness float64) section {
	bottom := b * f.flat * (0.4 + 0.6*fullness)
	s := section{{0, 0}, {bottom, f.vee * d * fullness}}
	if f.knuckle > 0 {
		up := f.knuckle
		s = append(s, point{bottom + (b-bottom)*math.Sqrt(up), up * d})
	}
	return append(s, point{b, d}).rising()
}

// deck returns the section closed over its crown: an arc of the form's camber
// from the gunwale to the middle plane.
func (s section) deck(camber float64) section {
	top := s[len(s)-1]
	closed := append(section{}, s...)
	for i := 1; i <= halfPoints/4; i++ {
		in := float64(i) / (halfPoints / 4)
		closed = append(closed, point{top.y * (1 - in), top.z + 2*top.y*camber*(1-(1-in)*(1-in))})
	}
	return closed
}
