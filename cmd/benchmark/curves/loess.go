package curves

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// The fit of Cleveland, JASA 74:829 (1979): local parabolas over a span of
// neighbours, tricube weights, bisquare weights against odd points. The span is
// the one, of 0.4 to 0.75, that finds most on boats of seed 7; shorter ones
// nearly pass through every point.
const (
	loessSpan   = 0.4 // share of the points in one local fit
	loessLeast  = 7   // points in one local fit, so that a parabola leaves residuals
	loessRounds = 4   // robustness iterations
	bisquareAt  = 6   // median absolute residuals at which a weight falls to nothing
)

// loess scores each point by its distance from the robust local fit, in
// standard deviations of the tape.
func loess(x, y []float64) []float64 {
	robust := make([]float64, len(x))
	for i := range robust {
		robust[i] = 1
	}
	residual := make([]float64, len(x))
	for range loessRounds {
		for i := range x {
			if fit, ok := local(x, y, robust, i); ok {
				residual[i] = y[i] - fit
			}
		}
		sizes := make([]float64, len(x))
		for i, r := range residual {
			sizes[i] = math.Abs(r)
		}
		scale := bisquareAt * max(median(sizes), noise/2)
		for i, r := range residual {
			u := min(math.Abs(r)/scale, 1)
			robust[i] = (1 - u*u) * (1 - u*u)
		}
	}
	for i, r := range residual {
		residual[i] = math.Abs(r) / noise
	}
	return residual
}

// local returns the value at x[i] of the parabola fitted to its neighbours. It
// reports false when too few of them are trusted; the fit before then stands.
func local(x, y, robust []float64, i int) (fit float64, ok bool) {
	span := min(max(int(math.Ceil(loessSpan*float64(len(x)))), loessLeast), len(x))
	away := make([]float64, len(x))
	for k := range x {
		away[k] = math.Abs(x[k] - x[i])
	}
	reach := 1.001 * slices.Sorted(slices.Values(away))[span-1]
	design, values := mat.NewDense(len(x), 3, nil), mat.NewVecDense(len(x), nil)
	for k := range x {
		u := min(away[k]/reach, 1)
		tricube := math.Pow(1-u*u*u, 3)
		w := math.Sqrt(tricube * robust[k])
		d := (x[k] - x[i]) / reach
		design.SetRow(k, []float64{w, w * d, w * d * d})
		values.SetVec(k, w*y[k])
	}
	var parabola mat.VecDense
	if parabola.SolveVec(design, values) != nil {
		return 0, false
	}
	return parabola.AtVec(0), true
}
