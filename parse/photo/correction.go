package photo

import (
	"cmp"
	"slices"

	"fairtape/parse/form"
)

// A number that was crossed out has the right one beside it, mostly squeezed in
// between two rows. It is read as digits on bare paper, and never surely.

const (
	// struckFrom is the belief that nobody can read a digit from which it was
	// crossed out.
	struckFrom = 0.5
	// anewPerMM is the resolution in which what was written anew is read: small
	// digits are 2 mm high.
	anewPerMM = 10.0
	// anewBeyond is how far to both sides of the boxes it may reach, in mm.
	anewBeyond = 3.0
	// intoBoxes is how far into the boxes above and below it may reach.
	intoBoxes = 0.3
	// leastAnew is the least height of its digits, in mm.
	leastAnew = 1.4
	// leastWritten is the ink of its digits at least, in square millimetres.
	leastWritten = 0.6
	// roomAbove is how high above the boxes it may reach where no others are.
	roomAbove = form.BoxClear
)

// struckOut counts the digits of each field that were crossed out.
func (page *Page) struckOut(boxes []figure) map[int]int {
	out := map[int]int{}
	for i, b := range page.boxes {
		if boxes[i].Unreadable >= struckFrom {
			out[b.field]++
		}
	}
	return out
}

// rewritten reads what stands above, else below, the numbers that were crossed
// out, by field.
func (r *Reader) rewritten(page *Page, paper *paper, s *strokes, boxes []figure, struck map[int]int) map[int][]figure {
	out := map[int][]figure{}
	bounds := page.bounds()
	for field := range struck {
		above, below := page.gaps(field, bounds)
		others := func(owner int) bool { return owner != nobody && page.boxes[owner].field != field }
		if s.inkIn(above, others) < leastWritten && s.inkIn(below, others) < leastWritten {
			continue
		}
		anew := r.gap(page.view, paper, above, func(b box) bool { return b.y0 < 1 })
		if len(anew) == 0 {
			anew = r.gap(page.view, paper, below, func(b box) bool { return b.y1 > below.Height()*anewPerMM-1 })
		}
		if number := page.inPlace(field, boxes, struck[field], anew); number != nil {
			out[field] = number
		}
	}
	return out
}

// gaps are the bare paper above and below the boxes of a field, up to the next
// ones.
func (page *Page) gaps(field int, bounds map[int]form.Rect) (above, below form.Rect) {
	b := bounds[field]
	above = form.Rect{X0: b.X0 - anewBeyond, Y0: b.Y0 - roomAbove, X1: b.X1 + anewBeyond, Y1: b.Y0 + intoBoxes}
	below = form.Rect{X0: above.X0, Y0: b.Y1 - intoBoxes, X1: above.X1, Y1: b.Y1 + roomAbove}
	for _, o := range bounds {
		if o.X0 >= b.X1 || o.X1 <= b.X0 {
			continue
		}
		if o.Y1 < b.Y0 && b.Y0-o.Y1 < form.RowPitch {
			above.Y0 = min(above.Y0, o.Y1-intoBoxes)
		}
		if o.Y0 > b.Y1 && o.Y0-b.Y1 < form.RowPitch {
			below.Y1 = max(below.Y1, o.Y0+intoBoxes)
		}
	}
	return above, below
}

// gap reads the digits in a stretch of bare paper; none where something else
// stands there, or where they go on into the boxes of others.
func (r *Reader) gap(v *view, paper *paper, gap form.Rect, intoOthers func(box) bool) []figure {
	f := &freePage{straight: v.straight(gap, anewPerMM)}
	f.dark = make([]float32, len(f.straight.pix))
	for i, light := range f.straight.pix {
		x, y := i%f.straight.w, i/f.straight.w
		f.dark[i] = max(0, 1-float32(light)/paper.at(gap.X0+float64(x)/anewPerMM, gap.Y0+float64(y)/anewPerMM))
	}
	f.removeRows()
	pieces := f.pieces(f.mask(f.dark, func(int) bool { return true }))
	for _, s := range pieces {
		f.height = max(f.height, s.bounds.height())
	}
	if f.height < leastAnew*anewPerMM {
		return nil
	}
	f.shapes = f.joined(pieces)
	slices.SortFunc(f.shapes, func(a, b shape) int { return cmp.Compare(a.bounds.x0, b.bounds.x0) })
	var out []figure
	for _, g := range lineOf(f, f.shapes, f.usualWidth(), r.digits.Read) {
		switch {
		case g.isDigit() && !intoOthers(g.bounds):
			out = append(out, g.all)
		case !g.speck(f.height):
			return nil
		}
	}
	return out
}

// removeRows takes out what the pixels of a row have in common: the outlines of
// boxes.
func (f *freePage) removeRows() {
	w := f.straight.w
	row := make([]float32, w)
	for y := range f.straight.h {
		line := f.dark[y*w : (y+1)*w]
		copy(row, line)
		slices.Sort(row)
		common := min(row[w*2/5], darkestLine)
		for x, d := range line {
			line[x] = over(common, d)
		}
	}
}

// inPlace puts what was written anew in the place of what was crossed out: all of
// the number, or those digits of it alone; nil where it is neither.
func (page *Page) inPlace(field int, boxes []figure, struck int, anew []figure) []figure {
	var number []figure
	inked := 0
	for i, b := range page.boxes {
		if b.field == field {
			number = append(number, boxes[i])
			if boxes[i].Blank < 0.5 {
				inked++
			}
		}
	}
	switch {
	case len(anew) == 0 || len(anew) > len(number):
		return nil
	case len(anew) >= inked || struck == inked:
		blank := make([]figure, len(number)-len(anew))
		for i := range blank {
			blank[i] = figure{Blank: 1}
		}
		return append(blank, anew...)
	case len(anew) == struck:
		for i := range number {
			if number[i].Unreadable >= struckFrom {
				number[i], anew = anew[0], anew[1:]
			}
		}
		return number
	}
	return nil
}
