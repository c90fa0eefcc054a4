package cover

import "math"

// line is one of the lines that a cover touches, as points in space: along the
// boat, athwart, up.
type line [][3]float64

func (h Hull) line(athwart func(i int) float64, up []float64) line {
	l := make(line, len(h.X))
	for i, x := range h.X {
		l[i] = [3]float64{x, athwart(i), up[i]}
	}
	return l
}

// topLine runs over the middle of the opening at the gunwale's height.
func (h Hull) topLine() line { return h.line(func(int) float64 { return 0 }, h.Sheer) }

// gunwaleLine runs along one gunwale.
func (h Hull) gunwaleLine() line {
	return h.line(func(i int) float64 { return h.Opening[i] / 2 }, h.Sheer)
}

// keelLine runs along the bottom.
func (h Hull) keelLine() line { return h.line(func(int) float64 { return 0 }, h.Keel) }

// skirtLine runs along the side of the sketched hull, at a drop of cloth below
// the gunwale that differs along the boat.
func (h Hull) skirtLine(drop []float64) line {
	l := make(line, len(h.X))
	for i, x := range h.X {
		s := SketchSection(h.Opening[i], h.Girth[i], h.Sheer[i]-h.Keel[i])
		y, z := s.below(drop[i])
		l[i] = [3]float64{x, y, h.Keel[i] + z}
	}
	return l
}

// spans returns the lengths from each place to the next.
func (l line) spans() []float64 {
	s := make([]float64, len(l)-1)
	for i := range s {
		dx, dy, dz := l[i+1][0]-l[i][0], l[i+1][1]-l[i][1], l[i+1][2]-l[i][2]
		s[i] = math.Sqrt(dx*dx + dy*dy + dz*dz)
	}
	return s
}

// fade is how far from the ends the reduction reaches its full amount, in
// inches: stems are stiff, and cloth drawn tight over them wears through.
const fade = 12.0

// share returns how much of the reduction holds at x: none at the ends, all of
// it a foot from them.
func (h Hull) share(x float64) float64 {
	t := min(x, h.Length()-x, fade) / fade
	return t * t * (3 - 2*t)
}

// reduceGirths returns widths as the cloth has them.
func (h Hull) reduceGirths(widths []float64, by float64) []float64 {
	r := make([]float64, len(widths))
	for i, w := range widths {
		r[i] = w * (1 - by*h.share(h.X[i]))
	}
	return r
}

// reduceSpans returns lengths along the boat as the cloth has them.
func (h Hull) reduceSpans(spans []float64, by float64) []float64 {
	r := make([]float64, len(spans))
	for i, s := range spans {
		r[i] = s * (1 - by*h.share((h.X[i]+h.X[i+1])/2))
	}
	return r
}

func half(v []float64) []float64 {
	h := make([]float64, len(v))
	for i := range v {
		h[i] = v[i] / 2
	}
	return h
}

func sum(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s
}
