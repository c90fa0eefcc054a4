package known

import (
	"math"
	"testing"
)

// By hand: at half the parameter a cubic Bezier curve lies at an eighth of its
// ends and three eighths of its inner points; evenly spread points are a
// straight line.
func TestBezier(t *testing.T) {
	even := [4]float64{0, 4, 8, 12}
	for _, tt := range []struct {
		curve   bezier
		x, want float64
	}{
		{bezier{even, [4]float64{0, 4, 8, 12}}, 7.3, 7.3},
		{bezier{even, [4]float64{8, 0, 16, 0}}, 6, 7},
		{bezier{even, [4]float64{8, 0, 16, 0}}, -1, 8},
		{bezier{even, [4]float64{8, 0, 16, 0}}, 13, 0},
	} {
		if got := tt.curve.at(tt.x); math.Abs(got-tt.want) > 1e-6 {
			t.Errorf("%v at %v: %v, want %v", tt.curve, tt.x, got, tt.want)
		}
	}
}

// A batten runs from its end to its level, whichever end of the boat it is at.
func TestBatten(t *testing.T) {
	for _, from := range []float64{0, 200} {
		b := batten(from, 3, 100, 15, 0.3, 0.5, 0.4)
		if got := b.at(from); math.Abs(got-3) > 1e-6 {
			t.Errorf("from %v the end is at %v, want 3", from, got)
		}
		before, after := b.at(99), b.at(101)
		if math.Max(before, after) < 15-1e-6 || math.Min(before, after) < 15-0.01 {
			t.Errorf("from %v about the middle %v, %v, want level at 15", from, before, after)
		}
	}
}

// Lofted sections keep the bounds of convex ones: at least the V's girth, at
// most that of the box about their greatest breadth; flats are shorter than the
// round that they stand for.
func TestLoftedSections(t *testing.T) {
	rng := source(7)
	for range 300 {
		l := loftDouble(rng)
		for _, x := range []float64{3, 12, l.length / 2, l.length - 12} {
			s := l.section(x)
			top, broadest := s[len(s)-1], 0.0
			for _, p := range s {
				broadest = max(broadest, p.y)
			}
			low, high := VGirth(2*top.y, top.z), 4*broadest+2*top.z-2*top.y
			got := s.girth()
			if got < low-1e-9 || got > high+1e-9 {
				t.Fatalf("at %v of %v: girth %v, want within %v to %v", x, l.length, got, low, high)
			}
			round := l
			round.planks = 0
			if most := round.section(x).girth(); l.planks > 0 && got > most+1e-9 {
				t.Fatalf("at %v of %v: flats %v, round %v", x, l.length, got, most)
			}
		}
	}
}
