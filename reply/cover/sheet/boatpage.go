package sheet

import (
	"fmt"
	"math"

	"fairtape/reply/cover"
)

// boat is the sketch of the boat as it was measured: a wire picture and the
// sections.
func (p *pen) boat() {
	s := p.sheet
	ribs := s.Ribs()
	top, bottom := p.page("SKETCH OF THE BOAT AS MEASURED", true)
	wide := p.w - 2*margin
	y := p.paragraph(margin, top+1, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"A sketch: the girths are the customer's readings, the depths are guessed between those of a box and of a V. Look for kinks: a wrong number makes one. A rib in red lies over %s off the fair curve. Do not take measures from it.", s.Say(cover.FairDiffers)))
	least, most := s.Hull.TopRange(s.Ends[0], s.Ends[1])
	y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"The length over the top depends a little on the depth amidships, which no survey tells: %s to %s. The rough ends leave room for it.", s.Say(least), s.Say(most)))
	if len(ribs) < 2 {
		p.text(margin, y+6, sizeBody, bold, red(), "Too few stations have both girths for a sketch.")
		return
	}
	p.wire(ribs, margin, y+6, wide, 74)
	p.sections(ribs, margin, y+86, wide, bottom-y-98)
	p.check(margin, bottom-1)
}

// project draws space in the plane, as seen from ahead and above of one bow.
func project(x, y, z float64) Point {
	const turn, tilt = 0.42, 0.38 // radians: from abeam, and down
	sin, cos := math.Sincos(turn)
	sx := x*cos - y*sin
	away := x*sin + y*cos
	st, ct := math.Sincos(tilt)
	return Point{X: sx, Y: z*ct + away*st}
}

// wire draws ribs and the lines that join them.
func (p *pen) wire(ribs []cover.Rib, x, y, w, h float64) {
	space := func(r cover.Rib, i int, side float64) Point {
		return project(r.At, side*r.Section.Y[i], r.Keel+r.Section.Z[i])
	}
	var all []Point
	for _, r := range ribs {
		for i := range r.Section.Y {
			all = append(all, space(r, i, 1), space(r, i, -1))
		}
	}
	v, _ := fit(all, x, y, w, h, 2)
	lines := []int{0, 7, 14, 21, 28, 34, len(ribs[0].Section.Y) - 1}
	for _, i := range lines {
		for _, side := range []float64{1, -1} {
			var along []Point
			for _, r := range ribs {
				along = append(along, v.at(space(r, i, side)))
			}
			thick, c := 0.12, grey()
			if i == 0 || i == lines[len(lines)-1] {
				thick, c = 0.4, ink()
			}
			p.path(along, false, thick, c)
		}
	}
	for _, r := range ribs {
		var rib []Point
		for i := range r.Section.Y {
			rib = append(rib, v.at(space(r, i, 1)))
		}
		for i := len(r.Section.Y) - 1; i >= 0; i-- {
			rib = append(rib, v.at(space(r, i, -1)))
		}
		thick, c := 0.2, blue()
		if r.Odd {
			thick, c = 0.6, red()
		}
		p.path(rib, false, thick, c)
		q := v.at(space(r, 0, 1))
		p.centre(q.X, q.Y-1.6, sizeSmall-1, regular, grey(), p.sheet.Station(r.At))
	}
}

// mostSections is how many sections are drawn side by side.
const mostSections = 9

// sections draws the cross-sections at one scale, every other one where there
// are many.
func (p *pen) sections(ribs []cover.Rib, x, y, w, h float64) {
	skip := (len(ribs) + mostSections - 1) / mostSections
	var shownRibs []cover.Rib
	for i, r := range ribs {
		if i%skip == 0 || r.Odd {
			shownRibs = append(shownRibs, r)
		}
	}
	slot := w / float64(len(shownRibs))
	broad, deep := 0.0, 0.0
	for _, r := range shownRibs {
		broad, deep = math.Max(broad, 2*r.Section.Y[0]), math.Max(deep, r.Depth)
	}
	scale := math.Min((slot-4)/broad, (h-14)/deep)
	for k, r := range shownRibs {
		v := view{scale: scale, x: x + slot*(float64(k)+0.5), y: y + h - 12}
		var line []Point
		for i := range r.Section.Y {
			line = append(line, v.at(Point{X: -r.Section.Y[i], Y: r.Section.Z[i]}))
		}
		for i := len(r.Section.Y) - 1; i >= 0; i-- {
			line = append(line, v.at(Point{X: r.Section.Y[i], Y: r.Section.Z[i]}))
		}
		c := ink()
		if r.Odd {
			c = red()
		}
		p.path(line, false, 0.3, c)
		p.dashed(line[0].X, line[0].Y, line[len(line)-1].X, line[len(line)-1].Y, 0.15, grey())
		p.centre(v.x, v.y+4, sizeSmall, bold, c, p.sheet.Station(r.At))
		p.centre(v.x, v.y+7.4, sizeSmall-1, regular, grey(), "opening "+p.sheet.Number(2*r.Section.Y[0]))
	}
}
