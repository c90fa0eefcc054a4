package sheet

import (
	"fmt"
	"math"

	"fairtape/reply/cover"
)

// view maps flat cloth to the page: X to the right, Y up.
type view struct{ scale, x, y float64 }

func (v view) at(q Point) Point { return Point{X: v.x + v.scale*q.X, Y: v.y - v.scale*q.Y} }

func (v view) all(points []Point) []Point {
	out := make([]Point, len(points))
	for i, q := range points {
		out[i] = v.at(q)
	}
	return out
}

// fit returns the view that shows points within a frame, not larger than the
// given scale, and the height that they take.
func fit(points []Point, x, y, w, h, most float64) (view, float64) {
	least, high := bounds(points)
	scale := math.Min(most, math.Min(w/(high.X-least.X), h/(high.Y-least.Y)))
	v := view{scale: scale}
	v.x = x + (w-scale*(high.X-least.X))/2 - scale*least.X
	v.y = y + scale*high.Y
	return v, scale * (high.Y - least.Y)
}

// panels draws all panels, two on a page.
func (p *pen) panels() {
	var top, bottom float64
	for i, panel := range p.sheet.Panels {
		if i%2 == 0 {
			top, bottom = p.page("PANELS", true)
			p.legend(bottom - 7)
			p.check(p.w-margin-mmOf(p.sheet), bottom-1)
		}
		half := (bottom - 16 - top) / 2
		p.panel(panel, top+half*float64(i%2), half)
	}
}

// panel is the drawing of a panel with its dimensions.
func (p *pen) panel(panel cover.Panel, top, tall float64) {
	s := p.sheet
	long, high := panel.Size()
	p.text(margin, top+1, sizeHead, bold, ink(), panel.Name)
	p.text(margin+p.width(sizeHead, bold, panel.Name)+4, top+1, sizeBody, regular, ink(), "Cut one. "+facing(panel))
	v, h := fit(shownAll(panel, panel.Cut), margin+16, top+9, p.w-2*margin-32, tall-23, 1.6)
	p.outline(panel, v)
	p.marks(panel, v)
	p.ends(panel, v)
	corners := v.all(shownAll(panel, panel.Cut))
	least, most := bounds(corners)
	p.measure(Point{X: least.X, Y: top + 9 + h + 7.5}, Point{X: most.X, Y: top + 9 + h + 7.5}, "cloth for it "+s.Say(long)+" by "+s.Say(high))
}

// measure draws a dimension between two points of one height.
func (p *pen) measure(a, b Point, words string) {
	p.line(a.X, a.Y, b.X, b.Y, 0.15, grey())
	for _, q := range []Point{a, b} {
		p.line(q.X, q.Y-1.4, q.X, q.Y+1.4, 0.15, grey())
	}
	wide := p.width(sizeSmall, regular, words) + 3
	p.box((a.X+b.X-wide)/2, a.Y-1.6, wide, 3.2, colour{255, 255, 255})
	p.centre((a.X+b.X)/2, a.Y+1, sizeSmall, regular, ink(), words)
}

func mmOf(s *cover.CutSheet) float64 {
	mm, _ := smallCheck(s)
	return mm
}

// outline draws cutting line, sewing lines, fold and slit.
func (p *pen) outline(panel cover.Panel, v view) {
	p.fill(v.all(shownAll(panel, panel.Cut)), colour{250, 248, 243})
	p.path(v.all(shownAll(panel, panel.Cut)), true, 0.5, ink())
	first, last := span(panel)
	for _, e := range []cover.Edge{panel.Near, panel.Far} {
		p.path(v.all(shownAll(panel, e.Sewing[first:last+1])), false, 0.25, blue())
	}
	for end := range panel.Ends {
		for _, line := range panel.EndSewing(end) {
			if panel.Ends[end] != nil {
				p.path(v.all(shownAll(panel, line)), false, 0.25, blue())
			} else {
				p.dashedPath(v.all(shownAll(panel, line)), 0.2, blue())
			}
		}
	}
	if panel.Fold != nil {
		p.dashedPath(v.all(shownAll(panel, panel.Fold)), 0.15, grey())
		if panel.Middle {
			under := make([]Point, len(panel.Fold))
			for i, q := range panel.Fold {
				under[i] = Point{X: q.X, Y: -q.Y}
			}
			p.dashedPath(v.all(shownAll(panel, under)), 0.15, grey())
		}
	}
	if panel.Middle {
		low, high := bounds(panel.Cut)
		ends := v.all(shownAll(panel, []Point{{X: low.X}, {X: high.X}}))
		p.dashed(ends[0].X, ends[0].Y, ends[1].X, ends[1].Y, 0.15, ink())
	}
	least, most := bounds(panel.Cut)
	for _, y := range panel.Joins {
		ends := v.all(shownAll(panel, []Point{{X: least.X, Y: y}, {X: most.X, Y: y}}))
		p.dashed(ends[0].X, ends[0].Y, ends[1].X, ends[1].Y, 0.4, red())
		p.text(min(ends[0].X, ends[1].X)+22, ends[0].Y-1, sizeSmall, bold, red(), "joining seam")
	}
	if line := entryLine(p.sheet, panel); line != nil {
		p.path(v.all(shownAll(panel, line)), false, 1.1, red())
		q := v.at(shown(panel, line[len(line)/2]))
		p.centre(q.X, q.Y+inward(panel), sizeSmall, bold, red(), "entry, "+p.sheet.Say(p.sheet.Entry.Length))
	}
	if panel.Slit != nil {
		ends := v.all(shownAll(panel, []Point{panel.Slit.From, panel.Slit.To}))
		p.line(ends[0].X, ends[0].Y, ends[1].X, ends[1].Y, 0.9, red())
	}
}

// entryLine returns the stretch of a panel's edge that stays open, nil for none.
func entryLine(s *cover.CutSheet, panel cover.Panel) []Point {
	for _, e := range []cover.Edge{panel.Near, panel.Far} {
		if e.Name != s.Entry.Seam || s.Entry.Length == 0 {
			continue
		}
		var line []Point
		for i, x := range panel.Place {
			if x >= s.Entry.From && x <= s.Entry.To {
				line = append(line, e.Sewing[i])
			}
		}
		return line
	}
	return nil
}

// inward is how far below the entry its name stands, in mm: below a side's top,
// below or above an edge of a panel with a middle.
func inward(panel cover.Panel) float64 {
	if panel.Middle && panel.Near.Name == "starboard gunwale seam" {
		return -2
	}
	return 4
}

// span returns the places between the traced ends.
func span(panel cover.Panel) (first, last int) {
	from, to := panel.Measured()
	for i, x := range panel.Place {
		if x == from {
			first = i
		}
		if x == to {
			last = i
		}
	}
	return first, last
}

// marks draws the match marks, with run and cut offset beside each station.
func (p *pen) marks(panel cover.Panel, v view) {
	s := p.sheet
	first, last := span(panel)
	size := sizeSmall - 1
	for _, i := range panel.Station {
		near, far := v.at(shown(panel, panel.Near.Sewing[i])), v.at(shown(panel, panel.Far.Sewing[i]))
		if i < first || i > last {
			continue
		}
		p.line(near.X, near.Y, far.X, far.Y, 0.12, pale())
		p.tick(panel, v, i)
		middle := Point{X: (near.X + far.X) / 2, Y: (near.Y + far.Y) / 2}
		p.upright(middle.X-0.8, middle.Y+6, size, bold, ink(), s.Station(panel.Place[i]))
		p.upright(middle.X+2.2, middle.Y+6, size, regular, blue(), s.Number(distance(panel.Near.Sewing[i], panel.Far.Sewing[i])))
	}
}

func distance(a, b Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// tick draws a match mark over both seam allowances.
func (p *pen) tick(panel cover.Panel, v view, i int) {
	for _, e := range []cover.Edge{panel.Near, panel.Far} {
		a, b := v.at(shown(panel, e.Sewing[i])), v.at(shown(panel, e.Cutting[i]))
		dx, dy := b.X-a.X, b.Y-a.Y
		d := math.Hypot(dx, dy)
		if d == 0 {
			continue
		}
		long := math.Max(d, 1.6)
		p.line(a.X, a.Y, a.X+dx/d*long, a.Y+dy/d*long, 0.35, ink())
	}
}

// upright writes text running up the page.
func (p *pen) upright(x, y, size float64, style string, c colour, text string) {
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(90, x, y)
	p.text(x, y, size, style, c, text)
	p.pdf.TransformEnd()
}

// ends names bow and stern, the edges, and what is from tracing.
func (p *pen) ends(panel cover.Panel, v view) {
	least, most := bounds(panel.Cut)
	for k, e := range []struct {
		x    float64
		name string
	}{{least.X, "BOW"}, {most.X, "STERN"}} {
		q := v.at(shown(panel, Point{X: e.x, Y: (least.Y + most.Y) / 2}))
		name, traced := q.X-6, q.X-2
		if q.X > p.w/2 {
			name, traced = q.X+8.5, q.X+4
		}
		p.upright(name, q.Y+p.width(sizeBody, bold, e.name)/2, sizeBody, bold, ink(), e.name)
		words := "end from tracing"
		if panel.Ends[k] != nil {
			words = "end as traced"
		}
		p.upright(traced, q.Y+p.width(sizeSmall, bold, words)/2, sizeSmall, bold, red(), words)
	}
	low, high := bounds(v.all(shownAll(panel, panel.Cut)))
	for k, e := range []cover.Edge{panel.Near, panel.Far} {
		y := low.Y - 2.4
		// The far edge of a side hangs down, that of a panel with a middle is up.
		if (k == 0) == panel.Middle {
			y = high.Y + 3.6
		}
		p.centre((low.X+high.X)/2, y, sizeSmall, bold, blue(), e.Name+edgeWords(p.sheet, e))
	}
	if panel.Slit != nil {
		q := v.at(shown(panel, panel.Slit.To))
		words := slitWords(p.sheet, panel)
		x := q.X + 1.5
		if q.X > p.w/2 {
			x = q.X - 1.5 - p.width(sizeSmall, bold, words)
		}
		p.text(x, q.Y+0.8, sizeSmall, bold, red(), words)
	}
}

// slitWords names the slit of a panel.
func slitWords(s *cover.CutSheet, panel cover.Panel) string {
	words := "slit " + s.Say(panel.Slit.Length)
	if !panel.Middle {
		words += ", half on each side"
	}
	return words
}

// facing says how a panel is drawn.
func facing(panel cover.Panel) string {
	return fmt.Sprintf("The outer face is towards you, the grain along the %s.", panel.Datum)
}

func edgeWords(s *cover.CutSheet, e cover.Edge) string {
	what := "allowance"
	if e.Seam == cover.Hemmed {
		what = "hem with cord casing"
	}
	return fmt.Sprintf(", %s long, %s %s", s.Say(polyline(e.Sewing)), what, s.Say(e.Allowance))
}

func polyline(line []Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += distance(line[i-1], line[i])
	}
	return sum
}

// legend says what the lines are.
func (p *pen) legend(y float64) {
	x := margin
	entry := func(draw func(x, y float64), text string) {
		draw(x, y-1)
		p.text(x+10, y, sizeSmall, regular, ink(), text)
		x += 14 + p.width(sizeSmall, regular, text)
	}
	entry(func(x, y float64) { p.line(x, y, x+8, y, 0.5, ink()) }, "cut")
	entry(func(x, y float64) { p.line(x, y, x+8, y, 0.25, blue()) }, "sew")
	entry(func(x, y float64) { p.dashed(x, y, x+8, y, 0.2, blue()) }, "sew, guessed until the tracing is in")
	entry(func(x, y float64) { p.dashed(x, y, x+8, y, 0.15, grey()) }, "lies on the gunwale")
	entry(func(x, y float64) { p.line(x, y, x+8, y, 0.12, pale()) }, "station: name, and straight across from edge to edge")
	entry(func(x, y float64) { p.line(x, y, x+8, y, 0.9, red()) }, "slit, entry")
	p.text(margin, y+4.6, sizeSmall, regular, grey(), "Not to scale for cutting: lay out from the chalk table, or plot the SVG or DXF file.")
}
