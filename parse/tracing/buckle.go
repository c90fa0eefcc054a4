package tracing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// buckle is how the paper lies off the plane that the camera was fitted to, and
// what of the lens the fit leaves: a smooth field of displacements, known at the
// marks, and the less the farther a place is from them. It is a Gaussian process,
// and what is amiss with the view's numbers is estimated along with it (universal
// kriging: Cressie 1993, Statistics for Spatial Data, section 3.4).
type buckle struct {
	fitted  *fitted
	at      []point // of the marks, in the plane
	reach   float64 // over which displacements are alike, mm
	spread  float64 // of a displacement along one direction, in units of the noise
	noise   float64 // of a mark, mm
	marks   mat.Cholesky
	trend   [2]*mat.Dense // what each of the view's numbers does to the marks
	solved  [2]mat.Dense  // the marks' inverse covariance times trend
	numbers mat.Cholesky  // normal matrix of the view's numbers
	amiss   mat.VecDense
	weights [2]mat.VecDense
}

// Settings that are tried: over what reach displacements are alike, in mm, and
// how much greater than the marks' noise they are.
func buckleReaches() []float64 { return []float64{40, 70, 110, 170} }
func buckleSpreads() []float64 { return []float64{0.05, 0.3, 1, 2, 4} }

// newBuckle takes the setting under which the marks are most likely.
func newBuckle(f *fitted) (*buckle, error) {
	var off [2]*mat.VecDense
	var at []point
	for axis := range off {
		off[axis] = mat.NewVecDense(len(f.marks), nil)
	}
	for i, m := range f.marks {
		at = append(at, f.poses[m.sheet].out(m.on))
		d := f.camera.place(m.at).minus(at[i])
		off[0].SetVec(i, d.x)
		off[1].SetVec(i, d.y)
	}
	trend := f.trend()
	var best *buckle
	most := math.Inf(-1)
	for _, reach := range buckleReaches() {
		for _, spread := range buckleSpreads() {
			b := &buckle{fitted: f, at: at, reach: reach, spread: spread, trend: trend}
			if likely, ok := b.weigh(off); ok && likely > most {
				best, most = b, likely
			}
		}
	}
	if best == nil {
		return nil, errFlat
	}
	return best, nil
}

// weigh solves for displacements under a setting and returns the log of its
// likelihood (restricted: Patterson and Thompson 1971, Biometrika 58:545).
func (b *buckle) weigh(off [2]*mat.VecDense) (likely float64, ok bool) {
	n := len(b.at)
	k := mat.NewSymDense(n, nil)
	for i, p := range b.at {
		for j := range i {
			k.SetSym(i, j, b.alike(p, b.at[j]))
		}
		k.SetSym(i, i, b.alike(p, p)+1)
	}
	if !b.marks.Factorize(k) {
		return 0, false
	}
	_, numbers := b.trend[0].Dims()
	normal := mat.NewSymDense(numbers, nil)
	right := mat.NewVecDense(numbers, nil)
	for axis := range off {
		if b.marks.SolveTo(&b.solved[axis], b.trend[axis]) != nil {
			return 0, false
		}
		var part mat.Dense
		part.Mul(b.trend[axis].T(), &b.solved[axis])
		for i := range numbers {
			for j := range i + 1 {
				normal.SetSym(i, j, normal.At(i, j)+part.At(i, j))
			}
		}
		var r mat.VecDense
		r.MulVec(b.solved[axis].T(), off[axis])
		right.AddVec(right, &r)
	}
	if !b.numbers.Factorize(normal) || b.numbers.SolveVecTo(&b.amiss, right) != nil {
		return 0, false
	}
	squares := 0.0
	for axis := range off {
		var rest mat.VecDense
		rest.MulVec(b.trend[axis], &b.amiss)
		rest.SubVec(off[axis], &rest)
		if b.marks.SolveVecTo(&b.weights[axis], &rest) != nil {
			return 0, false
		}
		squares += mat.Dot(&rest, &b.weights[axis])
	}
	free := float64(2*n - numbers)
	if free < 1 {
		return 0, false
	}
	b.noise = math.Sqrt(squares / free)
	return -free*math.Log(b.noise) - b.marks.LogDet() - b.numbers.LogDet()/2, true
}

// alike is the covariance of the displacements at two places, in units of the
// noise.
func (b *buckle) alike(p, q point) float64 {
	d := p.minus(q).length() / b.reach
	return b.spread * b.spread * math.Exp(-d*d/2)
}

// toMarks is the covariance of a place with every mark.
func (b *buckle) toMarks(q point) *mat.VecDense {
	v := mat.NewVecDense(len(b.at), nil)
	for i, p := range b.at {
		v.SetVec(i, b.alike(q, p))
	}
	return v
}

// displaced is by how much what is seen at a place of the plane is displaced.
func (b *buckle) displaced(q point) point {
	near := b.toMarks(q)
	gradient := b.fitted.gradient(q)
	along := func(axis int) float64 {
		return mat.Dot(near, &b.weights[axis]) + mat.Dot(gradient[axis], &b.amiss)
	}
	return point{along(0), along(1)}
}

// doubt is the spread of a displacement along a direction, mm.
func (b *buckle) doubt(q, along point) float64 {
	near := b.toMarks(q)
	var solved mat.VecDense
	if b.marks.SolveVecTo(&solved, near) != nil {
		return math.Inf(1)
	}
	variance := b.spread*b.spread - mat.Dot(near, &solved)
	// What is amiss with the view's numbers, and not told by the marks nearby.
	gradient := b.fitted.gradient(q)
	var open, weighed mat.VecDense
	open.ScaleVec(0, &b.amiss)
	for axis, share := range [2]float64{along.x, along.y} {
		var told mat.VecDense
		told.MulVec(b.solved[axis].T(), near)
		open.AddScaledVec(&open, share, gradient[axis])
		open.AddScaledVec(&open, -share, &told)
	}
	if b.numbers.SolveVecTo(&weighed, &open) != nil {
		return math.Inf(1)
	}
	return b.noise * math.Sqrt(max(variance+mat.Dot(&open, &weighed), 0))
}

// trend is by how much each mark is seen farther off for each of the view's
// numbers, in both directions.
func (f *fitted) trend() (t [2]*mat.Dense) {
	p := f.params()
	for axis := range t {
		t[axis] = mat.NewDense(len(f.marks), len(p), nil)
	}
	for k, step := range steps(len(p)) {
		moved := f.moved(p, k, step)
		for i, m := range f.marks {
			d := moved.off(m).minus(f.off(m)).times(1 / step)
			t[0].Set(i, k, d.x)
			t[1].Set(i, k, d.y)
		}
	}
	return t
}

// gradient is by how much what is seen at a place of the plane is seen farther
// off for each of the view's numbers, in both directions.
func (f *fitted) gradient(q point) (g [2]*mat.VecDense) {
	p := f.params()
	px := f.camera.pixel(q)
	for axis := range g {
		g[axis] = mat.NewVecDense(len(p), nil)
	}
	for k, step := range steps(cameraNumbers) {
		d := f.moved(p, k, step).camera.place(px).minus(q).times(1 / step)
		g[0].SetVec(k, d.x)
		g[1].SetVec(k, d.y)
	}
	return g
}

// moved is the view with its k-th number moved.
func (v *view) moved(p []float64, k int, step float64) *view {
	q := append([]float64{}, p...)
	q[k] += step
	return v.with(q)
}
