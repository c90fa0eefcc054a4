package fair

import "math"

// World is the fit under one setting and one shape. Its leave-one-out
// predictions are those of a datum from all others.
type World struct {
	LogWeight float64 // log of prior times density of the data
	fit       *Fit
	member    *member
	shape     Shape
	v         []float64 // rank by data: what the shape takes off the precision
	alpha     []float64
	diagonal  []float64
}

// Worlds returns the fit under every setting and each of the shapes.
func (f *Fit) Worlds(shapes []Shape) []World {
	worlds := make([]World, 0, len(shapes)*len(f.members))
	for _, s := range shapes {
		columns := make([]column, len(s.columns))
		on := make([][]float64, len(columns))
		for k, c := range s.columns {
			c.base = k
			columns[k] = c
			on[k] = make([]float64, len(f.data))
			for i, d := range f.data {
				if !f.dropped[i] {
					on[k][i] = c.on(i, d)
				}
			}
		}
		for k := range f.members {
			worlds = append(worlds, f.world(&f.members[k], s, columns, on))
		}
	}
	return worlds
}

func (f *Fit) world(m *member, s Shape, columns []column, on [][]float64) World {
	n := len(f.data)
	w := World{LogWeight: m.evidence + s.prior, fit: f, member: m, shape: s, alpha: m.alpha}
	w.diagonal = make([]float64, n)
	for i := range n {
		w.diagonal[i] = m.precision.v[i*n+i]
	}
	if len(columns) == 0 {
		return w
	}
	g := f.gram(m, columns, on)
	var l [mostColumns][mostColumns]float64
	gain, r := g.gain(columns, &l)
	w.LogWeight += gain
	// v = L^-1 C'Q, row by row by forward substitution.
	w.v = make([]float64, r*n)
	w.alpha = append([]float64(nil), m.alpha...)
	for i := range r {
		vi := w.v[i*n : (i+1)*n]
		for j, x := range on[i] {
			if x == 0 {
				continue
			}
			for k, q := range m.precision.row(j) {
				vi[k] += x * q
			}
		}
		for k := range i {
			vk := w.v[k*n : (k+1)*n]
			for j := range vi {
				vi[j] -= l[i][k] * vk[j]
			}
		}
		for j := range vi {
			vi[j] /= l[i][i]
		}
		c := dot(vi, f.resid)
		for j, x := range vi {
			w.diagonal[j] -= x * x
			w.alpha[j] -= c * x
		}
	}
	return w
}

// precision returns an element of the precision matrix.
func (w *World) precision(i, j int) float64 {
	n := len(w.diagonal)
	q := w.member.precision.v[i*n+j]
	for k := 0; k < len(w.v); k += n {
		q -= w.v[k+i] * w.v[k+j]
	}
	return q
}

// Predict returns the mean and the spread of what datum i would read, given
// all others. A dropped datum has none: ok is false.
func (w *World) Predict(i int) (mean, sd float64, ok bool) {
	q := w.diagonal[i]
	if w.fit.dropped[i] || q <= 0 {
		return 0, 0, false
	}
	return w.fit.data[i].Value - w.alpha[i]/q, 1 / math.Sqrt(q), true
}

// Density returns the log density of datum i, as it was read, given all
// others.
func (w *World) Density(i int) float64 {
	return logNormalPrecision(w.alpha[i], w.diagonal[i])
}

// Pair is the joint prediction of two data from all others.
type Pair struct {
	Mean          [2]float64
	Var           [2]float64
	Covariance    float64
	read          [2]float64
	logNormaliser float64
}

// PredictPair returns what data i and j would read, given all others.
func (w *World) PredictPair(i, j int) (Pair, bool) {
	if w.fit.dropped[i] || w.fit.dropped[j] {
		return Pair{}, false
	}
	a, b, c := w.diagonal[i], w.diagonal[j], w.precision(i, j)
	det := a*b - c*c
	if det <= 0 {
		return Pair{}, false
	}
	p := Pair{Var: [2]float64{b / det, a / det}, Covariance: -c / det}
	p.read = [2]float64{w.fit.data[i].Value, w.fit.data[j].Value}
	p.Mean[0] = p.read[0] - (p.Var[0]*w.alpha[i] + p.Covariance*w.alpha[j])
	p.Mean[1] = p.read[1] - (p.Covariance*w.alpha[i] + p.Var[1]*w.alpha[j])
	p.logNormaliser = math.Log(det)/2 - 2*logRootTau
	return p, true
}

// Density returns the log density of the pair at the given values.
func (p Pair) Density(x, y float64) float64 {
	det := p.Var[0]*p.Var[1] - p.Covariance*p.Covariance
	dx, dy := x-p.Mean[0], y-p.Mean[1]
	quad := (p.Var[1]*dx*dx - 2*p.Covariance*dx*dy + p.Var[0]*dy*dy) / det
	return p.logNormaliser - quad/2
}

// Read returns the log density of the pair as it was read.
func (p Pair) Read() float64 { return p.Density(p.read[0], p.read[1]) }
