package fair

import "math"

// matrix is a square matrix in rows.
type matrix struct {
	n int
	v []float64
}

func newMatrix(n int) matrix { return matrix{n: n, v: make([]float64, n*n)} }

func (a matrix) row(i int) []float64 { return a.v[i*a.n : (i+1)*a.n] }

func (a matrix) clone() matrix {
	return matrix{n: a.n, v: append([]float64(nil), a.v...)}
}

// factor replaces the symmetric a by its lower Cholesky factor, zeros above
// the diagonal, and reports whether a was positive definite.
func (a matrix) factor() bool {
	for i := range a.n {
		ri := a.row(i)
		for j := 0; j <= i; j++ {
			rj := a.row(j)
			s := ri[j] - dot(ri[:j], rj[:j])
			if i != j {
				ri[j] = s / rj[j]
				continue
			}
			if s <= 0 {
				return false
			}
			ri[i] = math.Sqrt(s)
		}
		clear(ri[i+1:])
	}
	return true
}

// logDeterminant returns the logarithm of the determinant of the matrix whose
// Cholesky factor a is.
func (a matrix) logDeterminant() float64 {
	var s float64
	for i := range a.n {
		s += math.Log(a.v[i*a.n+i])
	}
	return 2 * s
}

// invert returns the inverse of the matrix whose Cholesky factor a is.
func (a matrix) invert() matrix {
	n := a.n
	// The rows of t are the columns of the inverse factor: upper triangular.
	t := newMatrix(n)
	for j := range n {
		c := t.row(j)
		c[j] = 1 / a.v[j*n+j]
		for i := j + 1; i < n; i++ {
			r := a.row(i)
			c[i] = -dot(r[j:i], c[j:i]) / r[i]
		}
	}
	q := newMatrix(n)
	for i := range n {
		ti := t.row(i)
		for j := 0; j <= i; j++ {
			s := dot(ti[i:], t.row(j)[i:])
			q.v[i*n+j], q.v[j*n+i] = s, s
		}
	}
	return q
}

func dot(a, b []float64) float64 {
	var s float64
	b = b[:len(a)]
	for i, x := range a {
		s += x * b[i]
	}
	return s
}
