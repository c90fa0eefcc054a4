package tracing

import (
	"math"
	"slices"

	"fairtape/parse/form"
)

// fitted is a view of all sheets of a photo together.
type fitted struct {
	*view
	grids    []form.Grid
	marks    []seen
	residual float64 // of the marks, root mean square of their distance, mm
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
		v, err := f.fit(f.marks)
		if err != nil {
			return nil, err
		}
		f.view = v
		if round == 2 {
			break
		}
		for i := range f.marks { // with the better view
			if at, ok := markAt(p, f.view, f.marks[i].sheet, f.marks[i].on); ok {
				f.marks[i].at = at
			}
		}
		f.dropOutliers()
	}
	return f, f.measure()
}

func (f *fitted) dropOutliers() {
	var all []float64
	for _, m := range f.marks {
		all = append(all, f.off(m).length())
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

// measure sets the residual of a view that was fitted to its marks.
func (f *fitted) measure() error {
	free := float64(2*len(f.marks) - len(f.params()))
	if free < 1 {
		return errFlat
	}
	squares := 0.0
	for _, m := range f.marks {
		off := f.off(m)
		squares += off.dot(off)
	}
	f.residual = math.Sqrt(2 * squares / free)
	return nil
}
