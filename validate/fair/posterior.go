package fair

import (
	"math"
	"slices"
)

// posterior is the curve that worlds make together.
type posterior struct {
	length float64
	parts  []part
}

// part is one world's share of the curve.
type part struct {
	weight  float64
	fit     *Fit
	member  *member
	columns []column
	on      [][]float64
	q       matrix // the world's precision
	alpha   []float64
}

// Worlds that weigh less than this share of the best, and all but the
// heaviest, leave the drawn curve as it is.
const (
	lightest  = 0.02
	mostParts = 12
)

// Blend returns the curve that the worlds make together.
func Blend(worlds []World) Curve {
	order := slices.Clone(worlds)
	slices.SortStableFunc(order, func(a, b World) int {
		switch {
		case a.LogWeight > b.LogWeight:
			return -1
		case a.LogWeight < b.LogWeight:
			return 1
		}
		return 0
	})
	p := &posterior{length: order[0].fit.boat.Length}
	var sum float64
	for _, w := range order[:min(len(order), mostParts)] {
		weight := math.Exp(w.LogWeight - order[0].LogWeight)
		if weight < lightest {
			break
		}
		sum += weight
		p.parts = append(p.parts, w.part(weight))
	}
	for i := range p.parts {
		p.parts[i].weight /= sum
	}
	return p
}

func (w *World) part(weight float64) part {
	p := part{weight: weight, fit: w.fit, member: w.member, columns: w.shape.columns, alpha: w.alpha}
	p.q = w.member.precision
	n := p.q.n
	if len(w.v) > 0 {
		p.q = p.q.clone()
		for k := 0; k < len(w.v); k += n {
			v := w.v[k : k+n]
			for i := range n {
				r := p.q.row(i)
				for j := range n {
					r[j] -= v[i] * v[j]
				}
			}
		}
	}
	for _, c := range p.columns {
		on := make([]float64, n)
		for i, d := range w.fit.data {
			on[i] = c.on(i, d) * c.spread * c.spread
		}
		p.on = append(p.on, on)
	}
	return p
}

// Span returns the boat's length.
func (p *posterior) Span() (from, to float64) { return 0, p.length }

// At returns hull girth and full girth at x inches aft of the foremost point.
func (p *posterior) At(x float64) (hull, full Estimate) {
	return p.estimate(x, 1, 0), p.estimate(x, 1, 1)
}

// estimate blends what the parts say of a sum of hull girth and opening.
func (p *posterior) estimate(x, hull, opening float64) Estimate {
	var mean, square, spread float64
	for i := range p.parts {
		m, v := p.parts[i].at(x, hull, opening)
		mean += p.parts[i].weight * m
		square += p.parts[i].weight * m * m
		spread += p.parts[i].weight * v
	}
	return Estimate{Mean: mean, SD: math.Sqrt(math.Max(0, spread+square-mean*mean))}
}

func (p *part) at(x, hull, opening float64) (mean, variance float64) {
	boat := p.fit.boat
	mh, mo := boat.meanAt(x)
	prior := p.fit.prior
	here := prior.ends(boat, x)
	mean = hull*(mh+prior.mean(here)) + opening*mo
	kh, ko := p.member.between(boat, x, x)
	variance = hull*hull*(kh+prior.covariance(&here, &here)) + opening*opening*ko
	cross := make([]float64, len(p.fit.data))
	for i, d := range p.fit.data {
		kh, ko := p.member.between(boat, x, d.X)
		kh += prior.covariance(&here, &p.fit.ends[i])
		cross[i] = hull*d.Hull*kh + opening*d.Opening*ko
	}
	for k, c := range p.columns {
		h, o := c.value(x)
		e := hull*h + opening*o
		variance += e*e*c.spread*c.spread + p.within(k, e)
		for i, v := range p.on[k] {
			cross[i] += e * v
		}
	}
	mean += dot(cross, p.alpha)
	for i, c := range cross {
		variance -= c * dot(p.q.row(i), cross)
	}
	return mean, math.Max(0, variance)
}

// within is the variance that comes from not knowing where between two
// stations a step lies: drawn as a ramp, of which e has been climbed, it may as
// well be all behind or all ahead.
func (p *part) within(k int, e float64) float64 {
	climbed := math.Abs(e)
	if climbed == 0 || climbed >= 1 {
		return 0
	}
	size := dot(p.on[k], p.alpha)
	return size * size * climbed * (1 - climbed)
}
