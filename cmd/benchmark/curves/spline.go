package curves

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// The grid of smoothing parameters, as powers of ten on stations one apart.
const (
	leastSmoothing = -3
	mostSmoothing  = 3
	smoothingStep  = 0.25
)

// spline scores each point by its leave-one-out residual from a cubic smoothing
// spline, in standard deviations of that residual (Reinsch, Numerische
// Mathematik 10:177, 1967). The smoothing is that whose leave-one-out residuals
// have the least median size: cross-validation that an odd point cannot sway
// (Leung, Annals of Statistics 33:2291, 2005).
func spline(x, y []float64) []float64 {
	n := len(x)
	if n < fewestPoints {
		return make([]float64, n)
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(penalty(x), true) {
		return make([]float64, n)
	}
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	values := eigen.Values(nil)
	var turned mat.VecDense
	turned.MulVec(vectors.T(), mat.NewVecDense(n, y))

	best, least := []float64(nil), math.Inf(1)
	for power := float64(leastSmoothing); power <= mostSmoothing; power += smoothingStep {
		residual, leverage := smooth(&vectors, values, &turned, y, math.Pow(10, power))
		out, sizes := make([]float64, n), make([]float64, n)
		for i, r := range residual {
			left := math.Abs(r) / (1 - leverage[i]) // its variance is noise²/(1-leverage)
			out[i], sizes[i] = left*math.Sqrt(1-leverage[i])/noise, left
		}
		if m := median(sizes); m < least {
			least, best = m, out
		}
	}
	return best
}

// smooth returns residuals and leverages of the spline with the given smoothing.
func smooth(vectors *mat.Dense, values []float64, turned *mat.VecDense, y []float64, by float64) (residual, leverage []float64) {
	n := len(y)
	residual, leverage = make([]float64, n), make([]float64, n)
	for i := range n {
		fit := 0.0
		for k := range n {
			shrink := 1 / (1 + by*max(values[k], 0))
			v := vectors.At(i, k)
			fit += v * shrink * turned.AtVec(k)
			leverage[i] += v * v * shrink
		}
		residual[i] = y[i] - fit
	}
	return residual, leverage
}

// penalty returns Reinsch's matrix Q R⁻¹ Qᵀ, whose form is the integral of the
// squared second derivative of the natural cubic spline, on stations scaled to
// a mean distance of 1.
func penalty(x []float64) *mat.SymDense {
	n := len(x)
	unit := (x[n-1] - x[0]) / float64(n-1)
	q, r := mat.NewDense(n, n-2, nil), mat.NewDense(n-2, n-2, nil)
	for k := range n - 2 {
		before, after := (x[k+1]-x[k])/unit, (x[k+2]-x[k+1])/unit
		q.Set(k, k, 1/before)
		q.Set(k+1, k, -1/before-1/after)
		q.Set(k+2, k, 1/after)
		r.Set(k, k, (before+after)/3)
		if k > 0 {
			r.Set(k, k-1, before/6)
			r.Set(k-1, k, before/6)
		}
	}
	var solved, full mat.Dense
	if solved.Solve(r, q.T()) != nil {
		return mat.NewSymDense(n, nil) // R is diagonally dominant: never singular on rising x
	}
	full.Mul(q, &solved)
	sym := mat.NewSymDense(n, nil)
	for i := range n {
		for k := i; k < n; k++ {
			sym.SetSym(i, k, (full.At(i, k)+full.At(k, i))/2)
		}
	}
	return sym
}
