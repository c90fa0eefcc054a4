package cover

import (
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate"
)

// Transom is the panel over a square stern. It is sewn into the stern edges of
// the other panels: its edge is as long as the girths there.
type Transom struct {
	Wide, High float64 // of the finished panel, inches
	Around     float64 // its curved edge, inches
	Sewing     []Point // closed, counter-clockwise, from the starboard gunwale down and around; X athwart, Y up
	Cutting    []Point
	Hem        float64 // of the straight lower edge of a skirt, 0 for none
}

// bilge is by how much the depth of a section exceeds that of a box with sharp
// corners, in inches: the corners of a boat and of cloth are rounded.
const bilge = 0.5

// transomOf returns the girths at a square stern, in inches: those that were
// measured, else the curve's. ok is false for a pointed stern.
func transomOf(r validate.Report, h Hull) (hull, full float64, ok bool) {
	if r.Survey.Stern != parse.Square {
		return 0, 0, false
	}
	last := len(h.X) - 1
	hull, full = h.Girth[last], h.Full(last)
	if t := r.Survey.Transom; t.HullGirth.Certain() && t.FullGirth.Certain() {
		hull, full = inches(t.HullGirth.Value), inches(t.FullGirth.Value)
	}
	return hull, full, full > hull && full <= 2*hull
}

// transom makes the panel. Reductions have faded out at the end, so it is as
// measured; height is that of the stern, 0 where it is not known.
func (c Cloth) transom(hull, full, height float64) *Transom {
	w := full - hull
	box, vee := depthBounds(w, hull)
	d := depth(w, hull, fullness(w, hull, height))
	if height > 0 {
		d = min(height, vee)
	}
	d = max(d, min(box+bilge, vee))
	s := SketchSection(w, hull, d)
	allow, hem := inches(c.SeamAllowance), 0.0
	if c.Construction == TopAndSkirt {
		s, hem = s.above(min(skirtDrop, skirtShare*hull)), inches(c.Hem)
	}
	var half []Point // from the gunwale down
	for i := range s.Y {
		half = append(half, Point{X: s.Y[i], Y: s.Z[i]})
	}
	t := &Transom{Wide: w, High: half[0].Y - half[len(half)-1].Y, Around: 2 * polyline(half), Hem: hem}
	port := reversed(half)
	for i := range port {
		port[i].X = -port[i].X
	}
	if port[0] == half[len(half)-1] {
		port = port[1:]
	}
	t.Sewing = reversed(append(slices.Clone(half), port...)) // counter-clockwise, seen from astern
	t.Cutting = around(t.Sewing, allow)
	for i, q := range t.Sewing {
		if hem > 0 && q.Y == half[len(half)-1].Y {
			t.Cutting[i].Y = q.Y - hem
		}
	}
	return t
}

// above returns the part of a section within so much cloth of the gunwale.
func (s Section) above(drop float64) Section {
	y, z := s.below(drop)
	var out Section
	for i := range s.Y {
		if s.Z[i] > z {
			out.Y, out.Z = append(out.Y, s.Y[i]), append(out.Z, s.Z[i])
		}
	}
	out.Y, out.Z = append(out.Y, y), append(out.Z, z)
	return out
}

// around returns the outline so far outside of a closed one that runs
// counter-clockwise.
func around(outline []Point, by float64) []Point {
	n := len(outline)
	wrapped := append([]Point{outline[n-1]}, outline...)
	wrapped = append(wrapped, outline[0])
	return offset(wrapped, -by)[1 : n+1]
}

// Breadths returns the breadth of the transom at heights so far apart below its
// upper edge, for laying it out with chalk.
func (t *Transom) Breadths(apart float64) (rows [][2]float64) {
	top := math.Inf(-1)
	for _, q := range t.Sewing {
		top = max(top, q.Y)
	}
	for down := 0.0; down <= t.High+1e-9; down += apart {
		rows = append(rows, [2]float64{down, t.breadth(top - down)})
	}
	if last := rows[len(rows)-1]; t.High-last[0] > apart/8 {
		rows = append(rows, [2]float64{t.High, t.breadth(top - t.High)})
	}
	return rows
}

func (t *Transom) breadth(y float64) float64 {
	widest := 0.0
	for i, a := range t.Sewing {
		b := t.Sewing[(i+1)%len(t.Sewing)]
		lo, hi := min(a.Y, b.Y), max(a.Y, b.Y)
		if y < lo-1e-9 || y > hi+1e-9 {
			continue
		}
		x := a.X
		if hi > lo {
			x = a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		}
		widest = max(widest, 2*math.Abs(x))
	}
	return widest
}
