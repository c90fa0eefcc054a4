package photo

import (
	"fmt"
	"slices"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Around the boxes of a number the paper is bare: what is dark there was
// written.
const (
	ringWidth = 2.6 // mm around the boxes that are looked at; nothing is printed within form.BoxClear
	overshoot = 1.2 // mm by which digits stick out of their boxes
	tickTail  = 2.6 // mm by which ticks do
	// strayInk is the ink, in square millimetres, from which something is
	// written there: a tail of a 9 has 0.6, a small digit 2.
	strayInk = 1.6
)

// outside finds ink around the boxes of each number, by field. What is written
// beside one that was struck out belongs to that.
func (page *Page) outside(straight *plane, paper *paper, ink inkLevels, strokes *strokes, struck map[int]int) map[int]float64 {
	found := map[int]float64{}
	l := page.view.layout
	bounds := page.bounds()
	for i, r := range bounds {
		if l.Fields[i].Kind != form.Digits {
			continue
		}
		ring := r.Grow(ringWidth)
		var taken []form.Rect
		for _, b := range page.boxes {
			reach := overshoot
			if l.Fields[b.field].Kind == form.Tick {
				reach = tickTail
			}
			if t := b.rectOf().Grow(reach); t.Overlaps(ring) {
				taken = append(taken, t)
			}
		}
		for j := range struck {
			if near := bounds[j].Grow(ringWidth + overshoot); i != j && struck[i] == 0 && near.Overlaps(ring) {
				taken = append(taken, near)
			}
		}
		found[i] = strayIn(straight, paper, ink, strokes, ring, taken)
	}
	return found
}

// bounds are the boxes of each field together, where they were found.
func (page *Page) bounds() map[int]form.Rect {
	out := map[int]form.Rect{}
	for _, b := range page.boxes {
		r, ok := out[b.field]
		if !ok {
			r = b.rectOf()
		}
		out[b.field] = r.Union(b.rectOf())
	}
	return out
}

// strayIn is the ink in a rectangle of the page that lies in none of others and
// belongs to none of the boxes, nor to a stroke that only goes by.
func strayIn(straight *plane, paper *paper, ink inkLevels, strokes *strokes, r form.Rect, others []form.Rect) float64 {
	sum := float32(0)
	for y := max(int(r.Y0*perMM), 0); y < min(int(r.Y1*perMM), straight.h); y++ {
		for x := max(int(r.X0*perMM), 0); x < min(int(r.X1*perMM), straight.w); x++ {
			if strokes.ownerAt(x, y) != nobody || strokes.longAt(x, y) {
				continue
			}
			mx, my := (float64(x)+0.5)/perMM, (float64(y)+0.5)/perMM
			if slices.ContainsFunc(others, func(o form.Rect) bool { return mx > o.X0 && mx < o.X1 && my > o.Y0 && my < o.Y1 }) {
				continue
			}
			if dark := paper.dark(straight, x, y); dark > max(2*ink.noise, ink.pen/3) {
				sum += min(dark/ink.pen, 1)
			}
		}
	}
	return float64(sum) / (perMM * perMM)
}

// noteOutside says where something is written around a number, and shows it.
func (page *Page) noteOutside(file, place string, number form.Rect) {
	page.Notes = append(page.Notes, parse.Problem{
		Code: CodeOutside, Source: parse.Source{File: file, Place: place},
		Message: fmt.Sprintf("Something is written beside the boxes here. A person has to look (%s).", place),
		Shown:   page.view.crop(number.Grow(ringWidth)),
	})
}

// cropPerMM is the resolution of what persons are shown: a hand can be read,
// and a number takes a few kilobytes.
const cropPerMM = 5

// crop is what a photo shows of a rectangle of the page and 2 mm around it; nil
// without a photo.
func (v *view) crop(r form.Rect) *parse.Crop {
	if v == nil {
		return nil
	}
	const around = 2
	p := v.straight(r.Grow(around), cropPerMM)
	return &parse.Crop{Width: p.w, Height: p.h, Grey: p.pix}
}
