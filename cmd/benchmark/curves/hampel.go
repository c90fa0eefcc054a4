package curves

import (
	"math"
	"slices"
)

const (
	hampelHalf = 3      // the window is a point and three on either side
	madToSD    = 1.4826 // of a normal distribution
)

// hampel scores each point by its distance from the median of its window over
// the window's median absolute deviation (Hampel 1974; the decision filter of
// Davies and Gather, JASA 88:782, 1993).
func hampel(_, y []float64) []float64 {
	out := make([]float64, len(y))
	for i := range y {
		window := slices.Clone(y[max(0, i-hampelHalf):min(len(y), i+hampelHalf+1)])
		middle := median(window)
		for k := range window {
			window[k] = math.Abs(window[k] - middle)
		}
		out[i] = math.Abs(y[i]-middle) / max(madToSD*median(window), noise)
	}
	return out
}

// median sorts x and returns its middle.
func median(x []float64) float64 {
	slices.Sort(x)
	n := len(x)
	if n%2 == 1 {
		return x[n/2]
	}
	return (x[n/2-1] + x[n/2]) / 2
}
