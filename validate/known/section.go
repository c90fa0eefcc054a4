package known

import "math"

// point is a point of a section, in inches: half-breadth from the middle plane
// and height.
type point struct{ y, z float64 }

// section is the starboard half of a cross-section from the keel up, heights
// never falling. A taut tape bridges its hollows.
type section []point

// girth returns twice the length of a taut tape from the keel to the last point.
func (s section) girth() float64 {
	return 2 * s.taut().length()
}

// breadth returns the whole breadth at the last point.
func (s section) breadth() float64 { return 2 * s[len(s)-1].y }

// taut returns the points that a taut tape touches: the outer side of the
// convex hull. Heights never fall, so one pass suffices (the monotone chain of
// Andrew, 1979).
func (s section) taut() section {
	touched := make(section, 0, len(s))
	for _, p := range s {
		for len(touched) >= 2 && inside(touched[len(touched)-2], touched[len(touched)-1], p) {
			touched = touched[:len(touched)-1]
		}
		touched = append(touched, p)
	}
	return touched
}

// inside reports whether b lies on the middle plane's side of the line a to c.
func inside(a, b, c point) bool {
	return (b.y-a.y)*(c.z-a.z)-(b.z-a.z)*(c.y-a.y) <= 0
}

// length returns the length of the polyline.
func (s section) length() float64 {
	sum := 0.0
	for i := 1; i < len(s); i++ {
		sum += math.Hypot(s[i].y-s[i-1].y, s[i].z-s[i-1].z)
	}
	return sum
}

// lowered returns the section with its gunwale cut down by h inches or, where h
// is negative, raised by -h with a strake that flares out by the given slope.
func (s section) lowered(h, flare float64) section {
	top := s[len(s)-1]
	if h == 0 {
		return s
	}
	if h < 0 {
		return append(s[:len(s):len(s)], point{top.y - flare*h, top.z - h})
	}
	cut := top.z - h
	for i := len(s) - 1; i > 0; i-- {
		if s[i-1].z <= cut {
			f := 0.0
			if rise := s[i].z - s[i-1].z; rise > 0 {
				f = (cut - s[i-1].z) / rise
			}
			edge := point{s[i-1].y + f*(s[i].y-s[i-1].y), cut}
			return append(s[:i:i], edge)
		}
	}
	return s[:1]
}
