package fair

import (
	"errors"
	"math"
	"slices"
)

// Boat is what the fit knows of a boat beside its girths.
type Boat struct {
	Length float64 // overall, inches, above 0
	Decked bool    // full girths run over a deck
	Square bool    // the stern is a transom, where the opening does not close
}

// Datum is one number about a boat: Hull times the hull girth at X plus
// Opening times the opening there, in inches, read with rounding or other
// spread SD that comes on top of the tape's. A hull girth has Hull 1 and
// Opening 0, a full girth has both 1. Fixed data are not readings of the tape:
// their spread is SD alone.
type Datum struct {
	X             float64
	Hull, Opening float64
	Value         float64
	SD            float64
	Slope         float64 // inches per inch: what it errs by when the loop lies off its station
	Fixed         bool
}

// ErrTooFew is returned for fewer data than a curve can be laid through.
var ErrTooFew = errors.New("too few girths for a fair curve")

// leastData is the number of readings from which a curve says more than the
// hard rules do.
const leastData = 6

// Fit is a Gaussian process on hull girth and opening along one boat, given
// data, under each setting of the grid. It is immutable: edits return another.
type Fit struct {
	boat    Boat
	data    []Datum
	prior   prior
	ends    []ends    // at the data
	resid   []float64 // data less prior mean
	members []member
	dropped []bool
}

// member is the fit under one setting.
type member struct {
	hyper
	precision matrix    // inverse covariance of the data; zero rows where dropped
	alpha     []float64 // precision times resid
	evidence  float64   // log of setting's prior times density of the data
}

// New fits the data of a boat. The error is ErrTooFew.
func New(boat Boat, data []Datum) (*Fit, error) {
	return newFit(boat, data, searching())
}

// Glance returns the log of the density of the data under a few settings only:
// enough to tell good arrangements of the same numbers from bad ones.
func Glance(boat Boat, data []Datum) (float64, error) {
	few := searching()
	few.grid = few.grid[:glance]
	f, err := newFit(boat, data, few)
	if err != nil {
		return 0, err
	}
	return f.Evidence(), nil
}

// glance is how many settings a Glance looks at.
const glance = 2

func newFit(boat Boat, data []Datum, p prior) (*Fit, error) {
	readings := 0
	for _, d := range data {
		if !d.Fixed {
			readings++
		}
	}
	if readings < leastData || !(boat.Length > 0) {
		return nil, ErrTooFew
	}
	f := &Fit{boat: boat, data: data, prior: p, ends: make([]ends, len(data)), resid: make([]float64, len(data)), dropped: make([]bool, len(data))}
	for i, d := range data {
		h, o := boat.meanAt(d.X)
		f.ends[i] = p.ends(boat, d.X)
		if d.Fixed { // what is known of an end is known of it without its stem's turn
			f.ends[i].turns = ends{}.turns
		}
		f.resid[i] = d.Value - d.Hull*(h+p.mean(f.ends[i])) - d.Opening*o
	}
	layout := f.layout()
	for _, h := range p.grid {
		k := layout.covariance(h)
		if !k.factor() {
			continue
		}
		m := member{hyper: h}
		logDet := k.logDeterminant()
		m.precision = k.invert()
		m.alpha = make([]float64, len(data))
		for i := range data {
			m.alpha[i] = dot(m.precision.row(i), f.resid)
		}
		m.evidence = math.Log(h.prior) - dot(m.alpha, f.resid)/2 - logDet/2 - float64(len(data))*logRootTau
		f.members = append(f.members, m)
	}
	if len(f.members) == 0 {
		return nil, ErrTooFew
	}
	return f, nil
}

// logRootTau is log sqrt(2 pi).
const logRootTau = 0.91893853320467274178

// layout keeps what the covariances of all settings share.
type layout struct {
	boat   Boat
	data   []Datum
	places []float64 // distinct, inches
	at     []int     // place of each datum
	common matrix    // what is the same under every setting
}

func (f *Fit) layout() layout {
	l := layout{boat: f.boat, data: f.data, at: make([]int, len(f.data)), common: newMatrix(len(f.data))}
	for i, a := range f.data {
		l.at[i] = slices.Index(l.places, a.X)
		if l.at[i] < 0 {
			l.at[i] = len(l.places)
			l.places = append(l.places, a.X)
		}
		for j, b := range f.data[:i+1] {
			c := a.Hull * b.Hull * f.prior.covariance(&f.ends[i], &f.ends[j])
			if l.at[i] == l.at[j] { // one loop, laid a little off its station
				c += placeSpread * placeSpread * a.Slope * b.Slope
			}
			l.common.row(i)[j] = c
		}
	}
	return l
}

func (l layout) covariance(h hyper) matrix {
	p := len(l.places)
	hull, opening := newMatrix(p), newMatrix(p)
	for i := range p {
		for j := 0; j <= i; j++ {
			a, b := h.between(l.boat, l.places[i], l.places[j])
			hull.v[i*p+j], hull.v[j*p+i] = a, a
			opening.v[i*p+j], opening.v[j*p+i] = b, b
		}
	}
	k := newMatrix(len(l.data))
	for i, a := range l.data {
		for j := 0; j <= i; j++ {
			b := l.data[j]
			at := l.at[i]*p + l.at[j]
			c := a.Hull*b.Hull*hull.v[at] + a.Opening*b.Opening*opening.v[at] + l.common.row(i)[j]
			if i == j {
				c += h.noise(a)
			}
			k.v[i*k.n+j], k.v[j*k.n+i] = c, c
		}
	}
	return k
}

// between is the prior covariance of the hull girths, and of the openings, at
// two places, inches from the bow.
func (h hyper) between(b Boat, x, y float64) (hull, opening float64) {
	s, t := x/b.Length, y/b.Length
	d := math.Abs(warp(s) - warp(t))
	return priorHull(s, t) + h.hullSpread*h.hullSpread*matern(d/h.hullRange),
		b.priorOpening(s, t) + h.openingSpread*h.openingSpread*matern(d/h.openingRange)
}

// noise is the variance of one datum about the boat's own value.
func (h hyper) noise(d Datum) float64 {
	v := d.SD * d.SD
	if !d.Fixed {
		v += h.tape * h.tape
	}
	return v
}

// placeSpread is how surely a loop lies on its station, inches. Sites found
// again differ by 5 to 20 mm (J Sports Sci 2010 28:751).
const placeSpread = 0.3

// Evidence returns the log of the density of the data, averaged over the grid.
func (f *Fit) Evidence() float64 {
	var s LogSum
	for _, m := range f.members {
		s.Add(m.evidence)
	}
	return s.Value()
}

// EvidenceLess returns what Evidence would be with the given amounts taken off
// the data.
func (f *Fit) EvidenceLess(off []float64) float64 {
	var s LogSum
	for _, m := range f.members {
		var linear, square float64
		for i, d := range off {
			if d != 0 {
				linear += d * m.alpha[i]
				square += d * dot(m.precision.row(i), off)
			}
		}
		s.Add(m.evidence + linear - square/2)
	}
	return s.Value()
}

// copy returns a fit that can be edited.
func (f *Fit) copy() *Fit {
	g := &Fit{boat: f.boat, data: append([]Datum(nil), f.data...), prior: f.prior, ends: f.ends, resid: append([]float64(nil), f.resid...),
		dropped: append([]bool(nil), f.dropped...), members: make([]member, len(f.members))}
	for i, m := range f.members {
		m.precision = m.precision.clone()
		m.alpha = append([]float64(nil), m.alpha...)
		g.members[i] = m
	}
	return g
}

// Replace returns the fit with another value for datum i.
func (f *Fit) Replace(i int, value float64) *Fit {
	g := f.copy()
	g.replace(i, value)
	return g
}

func (f *Fit) replace(i int, value float64) {
	delta := value - f.data[i].Value
	for k := range f.members {
		m := &f.members[k]
		q := m.precision.row(i)
		m.evidence -= m.alpha[i]*delta + q[i]*delta*delta/2
		for j := range m.alpha {
			m.alpha[j] += q[j] * delta
		}
	}
	f.data[i].Value = value
	f.resid[i] += delta
}

// Drop returns the fit without datum i.
func (f *Fit) Drop(i int) *Fit {
	g := f.copy()
	g.drop(i)
	return g
}

func (f *Fit) drop(i int) {
	if f.dropped[i] {
		return
	}
	for k := range f.members {
		m := &f.members[k]
		q := append([]float64(nil), m.precision.row(i)...)
		m.evidence -= logNormalPrecision(m.alpha[i], q[i])
		scale := m.alpha[i] / q[i]
		for j := range m.alpha {
			m.alpha[j] -= q[j] * scale
			r := m.precision.row(j)
			c := q[j] / q[i]
			for l := range r {
				r[l] -= c * q[l]
			}
			r[i] = 0
		}
		clear(m.precision.row(i))
		m.alpha[i] = 0
	}
	f.dropped[i] = true
}

// logNormalPrecision is the log density of a datum given all others, from its
// alpha and its diagonal of the precision.
func logNormalPrecision(alpha, q float64) float64 {
	return (math.Log(q)-alpha*alpha/q)/2 - logRootTau
}

// LogSum adds numbers given by their logarithms. The zero LogSum is empty.
type LogSum struct {
	top, sum float64
	any      bool
}

// Add adds exp(l).
func (s *LogSum) Add(l float64) {
	switch {
	case math.IsInf(l, -1):
	case !s.any:
		s.top, s.sum, s.any = l, 1, true
	case l <= s.top:
		if l > s.top-40 { // below that it is lost in rounding
			s.sum += math.Exp(l - s.top)
		}
	default:
		s.sum = s.sum*math.Exp(s.top-l) + 1
		s.top = l
	}
}

// Value returns the logarithm of the sum, -Inf when nothing was added.
func (s *LogSum) Value() float64 {
	if !s.any {
		return math.Inf(-1)
	}
	return s.top + math.Log(s.sum)
}
