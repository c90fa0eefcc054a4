package photo

import (
	"errors"
	"image"
	"math"
	"slices"

	"fairtape/parse/form"
)

// sighting is four marks that may be those of a page.
type sighting struct {
	marks [4]point // centres, clockwise from the page's top left
	side  float64  // of the marks, pixels
	page  int      // 1 to 3 by their pattern
	error float64  // how far the marks' corners are from where they should be, in sides
}

// An eye is clearly light, a solid mark clearly dark; between, both are tried.
const (
	solidUnder = 0.45
	eyeOver    = 0.15
	cornersOff = 0.35 // how far a corner may be off, in sides of its mark
)

// sightings puts patches together to pages, the likeliest first.
func sightings(blobs []blob) []sighting {
	var found []sighting
	for a := range blobs {
		for b := a + 1; b < len(blobs); b++ {
			for c := b + 1; c < len(blobs); c++ {
				if !sameSize(blobs[a], blobs[b], blobs[c]) {
					continue
				}
				for d := c + 1; d < len(blobs); d++ {
					if sameSize(blobs[a], blobs[b], blobs[d]) && sameSize(blobs[c], blobs[d]) {
						found = append(found, asPage([4]blob{blobs[a], blobs[b], blobs[c], blobs[d]})...)
					}
				}
			}
		}
	}
	slices.SortFunc(found, func(a, b sighting) int {
		switch {
		case a.error < b.error:
			return -1
		case a.error > b.error:
			return 1
		}
		return 0
	})
	return found[:min(len(found), sightingsMost)]
}

// sightingsMost is how many pages are looked at for their code.
const sightingsMost = 3

// sameSize reports marks that one page may show: the near ones are larger.
func sameSize(blobs ...blob) bool {
	least, most := math.Inf(1), 0.0
	for _, b := range blobs {
		least, most = min(least, b.side), max(most, b.side)
	}
	return most < 2.8*least
}

func asPage(marks [4]blob) []sighting {
	ordered, ok := clockwise(marks)
	if !ok {
		return nil
	}
	var found []sighting
	patterns := [][4]bool{{}}
	for i, m := range ordered {
		var next [][4]bool
		for _, p := range patterns {
			if m.eye < solidUnder {
				p[i] = true
				next = append(next, p)
			}
			if m.eye > eyeOver {
				p[i] = false
				next = append(next, p)
			}
		}
		patterns = next
	}
	for _, pattern := range patterns {
		page, turns, ok := form.PageOf(pattern)
		if !ok {
			continue
		}
		s := sighting{page: page}
		var turned [4]blob
		for i := range 4 {
			turned[(i+turns)%4] = ordered[i]
		}
		for i, m := range turned {
			s.marks[i] = m.centre
			s.side += m.side / 4
		}
		if !apart(turned) {
			continue
		}
		if s.error = cornersError(turned); s.error < cornersOff {
			found = append(found, s)
		}
	}
	return found
}

// clockwise orders four patches around their middle; ok is false when one lies
// between the others.
func clockwise(marks [4]blob) ([4]blob, bool) {
	var middle point
	for _, m := range marks {
		middle.x += m.centre.x / 4
		middle.y += m.centre.y / 4
	}
	slices.SortFunc(marks[:], func(a, b blob) int {
		if math.Atan2(a.centre.y-middle.y, a.centre.x-middle.x) < math.Atan2(b.centre.y-middle.y, b.centre.x-middle.x) {
			return -1
		}
		return 1
	})
	for i := range 4 {
		a, b, c := marks[i].centre, marks[(i+1)%4].centre, marks[(i+2)%4].centre
		if (b.x-a.x)*(c.y-b.y)-(b.y-a.y)*(c.x-b.x) <= 0 {
			return marks, false
		}
	}
	return marks, true
}

// apart reports marks that are about as far from their neighbours as on a page,
// in their own sides. Most patches that only look like marks are not, and laying
// a page onto them takes long.
func apart(marks [4]blob) bool {
	const most = 2 // times nearer or farther, as a tilted page shows them
	boxes := markBoxes(form.Letter)
	for i, a := range marks {
		b := marks[(i+1)%4]
		x0, y0 := boxes[i].Centre()
		x1, y1 := boxes[(i+1)%4].Centre()
		want := math.Hypot(x1-x0, y1-y0) / form.MarkSide
		got := math.Hypot(b.centre.x-a.centre.x, b.centre.y-a.centre.y) / ((a.side + b.side) / 2)
		if got > most*want || got < want/most {
			return false
		}
	}
	return true
}

// cornersError lays a page of the likelier paper onto the centres of the marks
// and says how far the marks' corners are from where it has them, as a share of
// the marks' sides, on average.
func cornersError(marks [4]blob) float64 {
	best := math.Inf(1)
	for _, paper := range []form.Paper{form.Letter, form.A4} {
		boxes := markBoxes(paper)
		var from, to [4]point
		for i, b := range boxes {
			from[i].x, from[i].y = b.Centre()
			to[i] = marks[i].centre
		}
		h, err := solveHomography(from, to)
		if err != nil {
			continue
		}
		sum := 0.0
		for i, b := range boxes {
			for _, corner := range []point{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}} {
				expected := h.point(corner)
				nearest := math.Inf(1)
				for _, c := range marks[i].corners {
					nearest = min(nearest, math.Hypot(c.x-expected.x, c.y-expected.y))
				}
				sum += nearest / marks[i].side
			}
		}
		best = min(best, sum/16)
	}
	return best
}

// markBoxes are the marks of every page of a paper, clockwise from the top left.
func markBoxes(paper form.Paper) [4]form.Rect {
	w, h := paper.Size()
	const near, far = form.MarkInset, form.MarkInset + form.MarkSide
	return [4]form.Rect{
		{X0: near, Y0: near, X1: far, Y1: far},
		{X0: w - far, Y0: near, X1: w - near, Y1: far},
		{X0: w - far, Y0: h - far, X1: w - near, Y1: h - near},
		{X0: near, Y0: h - far, X1: far, Y1: h - near},
	}
}

// view is a page found in a picture.
type view struct {
	light  *plane
	paper  form.Paper
	h      homography // from millimetres of the page to pixels of light
	scale  float64    // pixels a millimetre, about the middle
	layout form.Layout
	code   form.Code
}

// newView straightens a sighted page by the centres of its marks, each found
// again as the middle of its darkness in the straightened picture.
func newView(light *plane, s sighting, paper form.Paper) (*view, error) {
	boxes := markBoxes(paper)
	var from [4]point
	for i, b := range boxes {
		from[i].x, from[i].y = b.Centre()
	}
	to := s.marks
	v := &view{light: light, paper: paper}
	for range 2 {
		h, err := solveHomography(from, to)
		if err != nil {
			return nil, err
		}
		v.h = h
		for i := range to {
			to[i] = v.darkMiddle(from[i])
		}
	}
	h, err := solveHomography(from, to)
	if err != nil {
		return nil, err
	}
	v.h = h
	w, ht := paper.Size()
	a, b := h.point(point{w/2 - 5, ht / 2}), h.point(point{w/2 + 5, ht / 2})
	c, d := h.point(point{w / 2, ht/2 - 5}), h.point(point{w / 2, ht/2 + 5})
	v.scale = math.Sqrt(math.Hypot(b.x-a.x, b.y-a.y)*math.Hypot(d.x-c.x, d.y-c.y)) / 10
	return v, nil
}

// darkMiddle is the middle of the darkness around a mark, in pixels: what is
// darker than half way between the lightest and the darkest there.
func (v *view) darkMiddle(at point) point {
	const reach, step = form.MarkSide/2 + 1.9, 0.2 // within the bare paper around it
	least, most := float32(255), float32(0)
	each := func(f func(x, y float64, light float32)) {
		for y := at.y - reach; y <= at.y+reach; y += step {
			for x := at.x - reach; x <= at.x+reach; x += step {
				px, py := v.h.at(x, y)
				f(x, y, v.light.at(px, py))
			}
		}
	}
	each(func(_, _ float64, l float32) { least, most = min(least, l), max(most, l) })
	half := (least + most) / 2
	var sum, sx, sy float64
	each(func(x, y float64, l float32) {
		if w := float64(half - l); w > 0 {
			sum, sx, sy = sum+w, sx+w*x, sy+w*y
		}
	})
	if sum == 0 {
		return v.h.point(at)
	}
	return v.h.point(point{sx / sum, sy / sum})
}

// marksSeen reports that all four marks are where the page should have them:
// dark, with bare paper around.
func (v *view) marksSeen() bool {
	for _, b := range markBoxes(v.paper) {
		cx, cy := b.Centre()
		ring := func(half float64) (least, most float32) {
			least = 255
			for i := range 24 {
				// Around a square, a side at a time.
				t := (float64(i%6)+0.5)/3 - 1
				x, y := [4]float64{t, 1, -t, -1}[i/6], [4]float64{-1, t, 1, -t}[i/6]
				l := v.light.at(v.h.at(cx+x*half, cy+y*half))
				least, most = min(least, l), max(most, l)
			}
			return least, most
		}
		_, black := ring(form.MarkSide/2 - 0.9)
		white, _ := ring(form.MarkSide/2 + 1.2)
		if black >= white {
			return false
		}
	}
	return true
}

// straight draws a rectangle of the page straightened, at so many pixels a
// millimetre.
func (v *view) straight(r form.Rect, perMM float64) *plane {
	out := newPlane(max(int(math.Ceil(r.Width()*perMM)), 2), max(int(math.Ceil(r.Height()*perMM)), 2))
	n := max(1, min(3, int(v.scale/perMM+0.5)))
	for y := range out.h {
		for x := range out.w {
			sum := float32(0)
			for j := range n {
				for i := range n {
					px := r.X0 + (float64(x)+(float64(i)+0.5)/float64(n))/perMM
					py := r.Y0 + (float64(y)+(float64(j)+0.5)/float64(n))/perMM
					sum += v.light.at(v.h.at(px, py))
				}
			}
			out.pix[y*out.w+x] = byte(sum/float32(n*n) + 0.5)
		}
	}
	return out
}

// codeLook is a try at reading a code: how far around its place, in mm, and at
// which resolution, in pixels a millimetre.
type codeLook struct{ around, perMM float64 }

// codeLooks are the tries, the likeliest first: the reader finds some codes at one
// resolution that it does not at another, and a bent sheet has its code elsewhere.
func codeLooks() []codeLook {
	return []codeLook{{1, 7}, {1, 5}, {1, 10}, {9, 7}, {9, 5}}
}

// readCode reads the code of a page. It names the paper, which may be the other:
// both have their codes at nearly the same place.
func (v *view) readCode(page int) (form.Code, error) {
	at, err := codePlaces(v.paper, page)
	if err != nil {
		return form.Code{}, err
	}
	for _, look := range codeLooks() {
		for _, r := range at {
			p := v.straight(r.Grow(form.CodeClear+look.around), look.perMM)
			grey := &image.Gray{Pix: p.pix, Stride: p.w, Rect: image.Rect(0, 0, p.w, p.h)}
			code, err := form.FindCode(grey)
			if err == nil && code.Page == page || errors.Is(err, form.ErrVersion) {
				return code, err
			}
		}
	}
	return form.Code{}, form.ErrNoCode
}

// codePlaces are where a page may have its code: that of a form, and that of a
// slip.
func codePlaces(paper form.Paper, page int) ([]form.Rect, error) {
	l, err := form.New(form.Spec{Paper: paper, Unit: "in", Rows: form.MostRows})
	if err != nil {
		return nil, err
	}
	places := []form.Rect{l.Pages[page-1].Code}
	if page == 1 {
		r := places[0]
		places = append(places, form.Rect{X0: r.X1 - form.SlipCodeSide, Y0: r.Y0, X1: r.X1, Y1: r.Y0 + form.SlipCodeSide})
	}
	return places, nil
}
