package tracing

import (
	"image"
	"math"
	"slices"

	"fairtape/parse/form"
)

// picture samples the light of a photo.
type picture struct{ *image.Gray }

// at is the light between pixels, bilinearly; ok is false outside.
func (p picture) at(q point) (light float64, ok bool) {
	x, y := q.x-0.5, q.y-0.5
	x0, y0 := int(math.Floor(x)), int(math.Floor(y))
	if x0 < 0 || y0 < 0 || x0 >= p.Rect.Dx()-1 || y0 >= p.Rect.Dy()-1 {
		return 0, false
	}
	fx, fy := x-float64(x0), y-float64(y0)
	i := y0*p.Stride + x0
	top := float64(p.Pix[i])*(1-fx) + float64(p.Pix[i+1])*fx
	low := float64(p.Pix[i+p.Stride])*(1-fx) + float64(p.Pix[i+p.Stride+1])*fx
	return top*(1-fy) + low*fy, true
}

// codeSide is the longer side, in pixels, of a picture in which codes are sought:
// the modules of a sheet that fills a third of it are 4 pixels wide.
const codeSide = 2600

// findCodes finds codes of tracing sheets: at the size that shows most of them,
// else in the parts of the picture as it is, for small sheets from afar.
func findCodes(p picture) (best []form.FoundGrid) {
	long := max(p.Rect.Dx(), p.Rect.Dy())
	for _, k := range []int{(long + codeSide - 1) / codeSide, (2*long + codeSide - 1) / codeSide} {
		if found := codesIn(shrink(p.Gray, k), image.Point{}, k); len(found) > len(best) {
			best = found
		}
	}
	if len(best) > 0 {
		return best
	}
	// Parts overlap by half, so that each code is whole in one of them.
	const parts = 3
	wide, high := 2*p.Rect.Dx()/(parts+1), 2*p.Rect.Dy()/(parts+1)
	for row := range parts {
		for column := range parts {
			corner := image.Pt(column*wide/2, row*high/2)
			// One is enough: the others are looked for beside it.
			if found := codesIn(cut(p.Gray, corner, wide, high), corner, 1); len(found) > 0 {
				return found
			}
		}
	}
	return nil
}

// codesIn finds the codes in a part of the picture that begins at a corner and
// was shrunk.
func codesIn(m *image.Gray, corner image.Point, shrunk int) []form.FoundGrid {
	found := form.FindGrids(m)
	for i := range found {
		for j, at := range found[i].Finders {
			found[i].Finders[j] = [2]float64{at[0]*float64(shrunk) + float64(corner.X), at[1]*float64(shrunk) + float64(corner.Y)}
		}
	}
	return found
}

// cut copies a part of a picture.
func cut(m *image.Gray, corner image.Point, wide, high int) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, wide, high))
	for y := range high {
		copy(out.Pix[y*wide:(y+1)*wide], m.Pix[(corner.Y+y)*m.Stride+corner.X:])
	}
	return out
}

// beside looks for a code that was not seen in the whole picture: where a sheet
// joined to a located one, the same way up, would have it.
func beside(p picture, s sheet, right, down int) (form.FoundGrid, bool) {
	const around, fine = 18.0, 7.0 // mm of paper about the code, pixels a millimetre
	code := s.grid.Code.Grow(around)
	corner := point{code.X0 + float64(right)*s.grid.Width, code.Y0 + float64(down)*s.grid.Height}
	place := func(x, y float64) point { return s.view.pixel(0, corner.plus(point{x / fine, y / fine})) }
	patch := image.NewGray(image.Rect(0, 0, int(code.Width()*fine), int(code.Height()*fine)))
	for y := range patch.Rect.Dy() {
		for x := range patch.Rect.Dx() {
			light, ok := p.at(place(float64(x)+0.5, float64(y)+0.5))
			if !ok {
				return form.FoundGrid{}, false
			}
			patch.Pix[y*patch.Stride+x] = byte(light)
		}
	}
	all := form.FindGrids(patch)
	if len(all) == 0 {
		return form.FoundGrid{}, false
	}
	for i, at := range all[0].Finders {
		px := place(at[0], at[1])
		all[0].Finders[i] = [2]float64{px.x, px.y}
	}
	return all[0], true
}

// findSheets locates every sheet of a photo: those whose codes are seen, and
// their neighbours.
func findSheets(p picture) (sheets []sheet, codes int) {
	found := findCodes(p)
	codes = len(found)
	for len(found) > 0 {
		s, ok := locate(p, found[0])
		found = found[1:]
		if !ok || slices.ContainsFunc(sheets, s.same) {
			continue
		}
		sheets = append(sheets, s)
		for _, way := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if f, ok := beside(p, s, way[0], way[1]); ok {
				found = append(found, f)
			}
		}
	}
	return sheets, codes
}

// same reports two findings of one sheet: its first mark is where the other's
// is.
func (s sheet) same(o sheet) bool {
	m := s.grid.Marks[0]
	x, y := m.Centre()
	a, b := s.view.pixel(0, point{x, y}), o.view.pixel(0, point{x, y})
	wide := s.view.pixel(0, point{x + form.GridPitch, y}).minus(a).length()
	return a.minus(b).length() < wide
}

// shrink returns the mean of every k x k pixels.
func shrink(m *image.Gray, k int) *image.Gray {
	if k <= 1 {
		return m
	}
	out := image.NewGray(image.Rect(0, 0, m.Rect.Dx()/k, m.Rect.Dy()/k))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sum := 0
			for j := range k {
				row := m.Pix[(y*k+j)*m.Stride+x*k:]
				for _, v := range row[:k] {
					sum += int(v)
				}
			}
			out.Pix[y*out.Stride+x] = byte(sum / (k * k))
		}
	}
	return out
}

// How the marks of a sheet are found, from its code outwards.
const (
	growReach   = 45.0 // from marks that are found to the next, mm
	markAround  = 2.6  // bare paper about a mark that is looked at, mm
	leastMarks  = 9    // of a sheet; a third of those of the smallest one
	markDark    = 0.65 // light of a mark, as a share of the paper's, at most
	centreMoves = 2.2  // how far a mark may be from where it is expected, mm
)

// sheet is a tracing sheet in a photo, by itself.
type sheet struct {
	grid  form.Grid
	view  *view
	marks []seen
}

// locate finds the marks of a sheet whose code was found. ok is false when too
// few are seen.
func locate(p picture, found form.FoundGrid) (sheet, bool) {
	s := sheet{grid: found.Grid}
	on, err := found.Grid.Finders()
	if err != nil {
		return s, false
	}
	points := make([]seen, 3)
	for i := range on {
		points[i] = seen{0, point{on[i][0], on[i][1]}, point{found.Finders[i][0], found.Finders[i][1]}}
	}
	s.view = start(p, points)
	var left []point
	for _, m := range found.Grid.Marks {
		x, y := m.Centre()
		left = append(left, point{x, y})
	}
	// The lone mark in the corner is sought last: it is far from all others.
	for _, reach := range []float64{growReach, math.Inf(1)} {
		for grown := true; grown; {
			v, err := s.view.fit(points)
			if err != nil {
				return s, false
			}
			s.view, grown = v, false
			var rest []point
			for _, q := range left {
				if nearest(q, points) > reach {
					rest = append(rest, q)
				} else if at, ok := markAt(p, v, 0, q); ok {
					points = append(points, seen{0, q, at})
					grown = true
				}
			}
			left = rest
		}
	}
	if s.marks = points[3:]; len(s.marks) < leastMarks {
		return s, false
	}
	return s, true
}

func nearest(q point, points []seen) float64 {
	best := math.Inf(1)
	for _, p := range points {
		best = min(best, p.on.minus(q).length())
	}
	return best
}

// start is a first view from three points: no perspective.
func start(p picture, points []seen) *view {
	a, b, c := points[0], points[1], points[2]
	u, w := b.on.minus(a.on), c.on.minus(a.on)
	du, dw := b.at.minus(a.at), c.at.minus(a.at)
	det := u.x*w.y - u.y*w.x
	v := &view{poses: []pose{{}}}
	v.camera.middle = point{float64(p.Rect.Dx()) / 2, float64(p.Rect.Dy()) / 2}
	v.camera.radius = v.camera.middle.length()
	h := &v.camera.h
	h[0], h[1] = (du.x*w.y-dw.x*u.y)/det, (dw.x*u.x-du.x*w.x)/det
	h[3], h[4] = (du.y*w.y-dw.y*u.y)/det, (dw.y*u.x-du.y*w.x)/det
	h[2] = a.at.x - h[0]*a.on.x - h[1]*a.on.y
	h[5] = a.at.y - h[3]*a.on.x - h[4]*a.on.y
	return v
}

// markAt finds the middle of a mark near where the view has it, in pixels: the
// middle of its darkness, sampled on the sheet.
func markAt(p picture, v *view, sheet int, on point) (point, bool) {
	const step, half = 0.25, form.GridMark/2 + markAround
	at := on
	for range 3 {
		var lights []float64
		least, most := 255.0, 0.0
		for y := -half; y <= half; y += step {
			for x := -half; x <= half; x += step {
				l, ok := p.at(v.pixel(sheet, at.plus(point{x, y})))
				if !ok {
					return point{}, false
				}
				lights = append(lights, l)
				least, most = min(least, l), max(most, l)
			}
		}
		if least > markDark*most {
			return point{}, false
		}
		middle, sum, i := (least+most)/2, 0.0, 0
		var moved point
		for y := -half; y <= half; y += step {
			for x := -half; x <= half; x += step {
				if w := min(max((middle-lights[i])/(0.3*(most-least))+0.5, 0), 1); w > 0 {
					sum += w
					moved = moved.plus(point{w * x, w * y})
				}
				i++
			}
		}
		if area := sum * step * step; area < 0.6*form.GridMark*form.GridMark || area > 1.4*form.GridMark*form.GridMark {
			return point{}, false
		}
		at = at.plus(moved.times(1 / sum))
		if at.minus(on).length() > centreMoves {
			return point{}, false
		}
	}
	return v.pixel(sheet, at), true
}
