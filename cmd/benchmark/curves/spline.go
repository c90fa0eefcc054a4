package curves

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// splineSmoothing is the weight of the spline's bending against its residuals,
// on stations one apart. Of the powers of ten and their halves it finds most on
// boats of seed 7, more than weights chosen sheet by sheet: cross-validation,
// plain or by the median residual, bends the curve to the odd point.
const splineSmoothing = 0.01

// spline scores each point by its leave-one-out residual from a cubic smoothing
// spline, in standard deviations of that residual (Reinsch, Numerische
// Mathematik 10:177, 1967).
func spline(x, y []float64) []float64 {
	residual, leverage := smooth(x, y, splineSmoothing)
	for i := range residual {
		// residual/(1-leverage), whose variance is noise²/(1-leverage)
		residual[i] = math.Abs(residual[i]) / math.Sqrt(1-leverage[i]) / noise
	}
	return residual
}

// smooth returns residuals and leverages of the spline with the given
// smoothing: y less Hy and the diagonal of H, H the inverse of I + by K.
func smooth(x, y []float64, by float64) (residual, leverage []float64) {
	n := len(x)
	residual, leverage = make([]float64, n), make([]float64, n)
	system := penalty(x)
	system.ScaleSym(by, system)
	for i := range n {
		system.SetSym(i, i, system.At(i, i)+1)
	}
	var factor mat.Cholesky
	var hat mat.SymDense
	if !factor.Factorize(system) || factor.InverseTo(&hat) != nil {
		return residual, leverage // K is never negative: the sum is positive definite
	}
	var fit mat.VecDense
	fit.MulVec(&hat, mat.NewVecDense(n, y))
	for i := range n {
		residual[i], leverage[i] = y[i]-fit.AtVec(i), hat.At(i, i)
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
