package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A sheet that is held or lies bent shows its boxes where a smooth surface of
// low degree has them: a cubic of the place on the page.
const (
	bendTerms = 10
	bendStiff = 0.05 // weight of a sheet that does not bend, beside that of one box
	wellSeen  = 0.75 // of the usual outline: what is seen less may be another line
	offBend   = 1.5  // mm from the first bend: what lies farther has gone astray
)

func (p point) from(q point) float64 { return math.Hypot(p.x-q.x, p.y-q.y) }

// bendOf is where the bend of the sheet has each box, in pixels from where it
// should be: the least squares cubic through the boxes that are seen well, laid a
// second time without those that are far from the first.
func bendOf(boxes []placed) []point {
	usual := usualOutline(boxes)
	var bend []point
	for range 2 {
		fit := newShiftFit(bendTerms)
		for i, b := range boxes {
			at := point{b.dx * perMM, b.dy * perMM}
			if b.outline < wellSeen*usual || bend != nil && at.from(bend[i]) > offBend*perMM {
				continue
			}
			fit.add(b.terms(), 1, at)
		}
		for k := range bendTerms {
			fit.stiffen(k, bendStiff)
		}
		x, y, ok := fit.solve()
		if !ok {
			return make([]point, len(boxes))
		}
		bend = make([]point, len(boxes))
		for i, b := range boxes {
			terms := b.terms()
			bend[i] = point{mat.Dot(terms, x), mat.Dot(terms, y)}
		}
	}
	return bend
}

// shiftFit is the weighted least squares fit of shifts by terms of the place, as
// its normal equations.
type shiftFit struct {
	normal *mat.SymDense
	x, y   *mat.VecDense
}

func newShiftFit(terms int) shiftFit {
	return shiftFit{mat.NewSymDense(terms, nil), mat.NewVecDense(terms, nil), mat.NewVecDense(terms, nil)}
}

func (f shiftFit) add(terms *mat.VecDense, weight float64, shift point) {
	f.normal.SymRankOne(f.normal, weight, terms)
	f.x.AddScaledVec(f.x, weight*shift.x, terms)
	f.y.AddScaledVec(f.y, weight*shift.y, terms)
}

// stiffen draws a term's share of the shift towards nothing.
func (f shiftFit) stiffen(term int, weight float64) {
	f.normal.SetSym(term, term, f.normal.At(term, term)+weight)
}

// solve returns the shares of the terms; ok is false where the places leave them
// open.
func (f shiftFit) solve() (x, y *mat.VecDense, ok bool) {
	x, y = new(mat.VecDense), new(mat.VecDense)
	var chol mat.Cholesky
	ok = chol.Factorize(f.normal) && chol.SolveVecTo(x, f.x) == nil && chol.SolveVecTo(y, f.y) == nil
	return x, y, ok
}

// terms are the powers of a box's place on the page, which is about 1 wide.
func (b placed) terms() *mat.VecDense {
	const page = 200.0 // mm
	x, y := b.rect.Centre()
	x, y = x/page-0.5, y/page-0.7
	return mat.NewVecDense(bendTerms, []float64{1, x, y, x * x, x * y, y * y, x * x * x, x * x * y, x * y * y, y * y * y})
}
