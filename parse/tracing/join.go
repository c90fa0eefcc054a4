package tracing

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"fairtape/parse/form"
)

// fitted is a view of all sheets of a photo together.
type fitted struct {
	*view
	grids    []form.Grid
	marks    []seen
	residual float64       // of the marks, root mean square of their distance, mm
	spread   *mat.SymDense // covariance of the view's numbers
}

// outlier is how many times the usual residual a mark may be off: paper that
// curls at a corner, a finger's shadow.
const outlier = 4.0

// join brings the sheets of a photo under one camera: they lie in one plane, and
// each is turned and moved in it.
func join(p picture, sheets []sheet) (*fitted, error) {
	f := &fitted{view: &view{camera: sheets[0].view.camera}}
	first := &f.camera
	for i, s := range sheets {
		f.grids = append(f.grids, s.grid)
		a, b := point{}, point{s.grid.Width, s.grid.Height}
		if i == 0 {
			f.poses = append(f.poses, pose{})
		} else {
			pa, pb := first.place(s.view.pixel(0, a)), first.place(s.view.pixel(0, b))
			d, e := b.minus(a), pb.minus(pa)
			turn := math.Atan2(e.y, e.x) - math.Atan2(d.y, d.x)
			f.poses = append(f.poses, pose{angle: turn, at: pa})
		}
		for _, m := range s.marks {
			f.marks = append(f.marks, seen{i, m.on, m.at})
		}
	}
	for round := range 3 {
		v, normal, err := f.fit(f.marks)
		if err != nil {
			return nil, err
		}
		f.view = v
		if round == 2 {
			return f, f.measure(normal)
		}
		for i := range f.marks { // with the better view
			if at, ok := markAt(p, f.view, f.marks[i].sheet, f.marks[i].on); ok {
				f.marks[i].at = at
			}
		}
		f.dropOutliers()
	}
	return f, nil
}

// off is how far a mark is seen from where it should be, mm.
func (f *fitted) off(m seen) float64 {
	return f.poses[m.sheet].in(f.camera.place(m.at)).minus(m.on).length()
}

func (f *fitted) dropOutliers() {
	var all []float64
	for _, m := range f.marks {
		all = append(all, f.off(m))
	}
	sorted := slices.Sorted(slices.Values(all))
	usual := max(sorted[len(sorted)/2], 0.05)
	var kept []seen
	for i, m := range f.marks {
		if all[i] <= outlier*usual {
			kept = append(kept, m)
		}
	}
	if 4*len(kept) >= 3*len(f.marks) {
		f.marks = kept
	}
}

// measure sets residual and spread of a view that was fitted to its marks.
func (f *fitted) measure(normal *mat.SymDense) error {
	n, _ := normal.Dims()
	var squares, pixels float64
	for _, m := range f.marks {
		off := f.off(m)
		squares += off * off
		d := f.pixel(m.sheet, m.on).minus(m.at)
		pixels += d.dot(d)
	}
	free := float64(2*len(f.marks) - n)
	if free < 1 {
		return errFlat
	}
	f.residual = math.Sqrt(squares / float64(len(f.marks)) * float64(2*len(f.marks)) / free)
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return errFlat
	}
	f.spread = mat.NewSymDense(n, nil)
	if chol.InverseTo(f.spread) != nil {
		return errFlat
	}
	const leastPixel = 0.05 // what is sharper than that is chance
	scale := max(pixels/free, leastPixel*leastPixel) / (pixelSpread * pixelSpread)
	f.spread.ScaleSym(scale, f.spread)
	return nil
}

// doubt is the spread of where a pixel is in the plane, mm, as the marks leave
// it open.
func (f *fitted) doubt(px point) float64 {
	p := f.params()
	here := f.camera.place(px)
	var gx, gy []float64
	for k, h := range steps(len(p)) {
		q := slices.Clone(p)
		q[k] += h
		moved := f.with(q)
		d := moved.camera.place(px).minus(here)
		gx, gy = append(gx, d.x/h), append(gy, d.y/h)
	}
	x, y := mat.NewVecDense(len(gx), gx), mat.NewVecDense(len(gy), gy)
	return math.Sqrt(max(mat.Inner(x, f.spread, x), 0) + max(mat.Inner(y, f.spread, y), 0))
}
