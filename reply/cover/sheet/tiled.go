package sheet

import (
	"fmt"
	"math"

	"fairtape/reply/cover"
)

// Tiles are pages of a drawing at full size.
const (
	tileMargin  = 12.0 // mm around each tile, for crop marks and labels
	tileOverlap = 10.0 // mm that neighbouring tiles share
	cropMark    = 5.0  // mm
	tileInset   = 10.0 // mm of paper around the whole drawing, so that no line lies on a trimmed edge
)

// Tiled draws the panels at full size over many pages, to be trimmed at the
// crop marks and joined. Each page has a scale bar. Only one of two mirrored
// panels is drawn: it is turned over for the other.
func Tiled(s *cover.CutSheet, paper Paper) ([]byte, error) {
	p := newPen(s, paper, "Panels at full size")
	for _, panel := range s.Panels {
		if !panel.Mirrored {
			p.tiles(panel)
		}
	}
	if t := s.Transom; t != nil {
		least, most := bounds(t.Cutting)
		figures := transomFigures(t, tileInset-least.X*mmPerInch, tileInset, title(s))
		p.pages("Transom", figures, (most.X-least.X)*mmPerInch, (most.Y-least.Y)*mmPerInch)
	}
	return p.bytes()
}

// tiles draws one panel.
func (p *pen) tiles(panel cover.Panel) {
	least, most := bounds(shownAll(panel, panel.Cut))
	figures := placed{panel: panel, dx: tileInset - least.X*mmPerInch, dy: tileInset + most.Y*mmPerInch}.figures(p.sheet)
	p.pages(panel.Name, figures, (most.X-least.X)*mmPerInch, (most.Y-least.Y)*mmPerInch)
}

// pages draws a drawing of the given size, in millimetres, over as many pages as
// it takes.
func (p *pen) pages(name string, figures []figure, wide, tall float64) {
	w, h := p.paper.size()
	w, h = h, w // lying
	stepX, stepY := w-2*tileMargin-tileOverlap, h-2*tileMargin-tileOverlap-6
	columns := int(math.Ceil((wide + 2*tileInset - tileOverlap) / stepX))
	rows := int(math.Ceil((tall + 2*tileInset - tileOverlap) / stepY))
	for r := range rows {
		for c := range columns {
			x, y := float64(c)*stepX, float64(r)*stepY
			frame := [4]float64{x, y, x + stepX + tileOverlap, y + stepY + tileOverlap}
			if !touches(figures, frame) {
				continue
			}
			p.tile(figures, frame, fmt.Sprintf("%s, tile %c%d of %c%d", name, 'A'+r%26, c+1, 'A'+(rows-1)%26, columns))
		}
	}
}

// touches reports whether a line of the drawing runs through the frame.
func touches(all []figure, frame [4]float64) bool {
	for _, f := range all {
		n := len(f.line)
		if f.text != "" {
			continue
		}
		if f.closed {
			n++
		}
		for i := 1; i < n; i++ {
			a, b := f.line[i-1], f.line[i%len(f.line)]
			if max(a.X, b.X) >= frame[0] && min(a.X, b.X) <= frame[2] && max(a.Y, b.Y) >= frame[1] && min(a.Y, b.Y) <= frame[3] {
				return true
			}
		}
	}
	return false
}

// tile draws what lies in the frame on a page of its own.
func (p *pen) tile(all []figure, frame [4]float64, name string) {
	w, h := p.paper.size()
	p.pdf.AddPageFormat("L", sizeOf(w, h))
	p.w, p.h = h, w
	p.watermark()
	wide, tall := frame[2]-frame[0], frame[3]-frame[1]
	p.pdf.ClipRect(tileMargin, tileMargin, wide, tall, false)
	for _, f := range all {
		line := make([]Point, len(f.line))
		for i, q := range f.line {
			line[i] = Point{X: q.X - frame[0] + tileMargin, Y: q.Y - frame[1] + tileMargin}
		}
		switch {
		case f.text != "":
			p.text(line[0].X, line[0].Y, f.size/mmPerPoint, regular, grey(), f.text)
		case f.layer == layerGuess:
			p.dashedPath(line, 0.4, blue())
		case f.layer == layerCut:
			p.path(line, f.closed, 0.6, ink())
		case f.layer == layerSew:
			p.path(line, false, 0.4, blue())
		default:
			p.path(line, false, 0.5, red())
		}
	}
	p.pdf.ClipEnd()
	for _, x := range []float64{tileMargin, tileMargin + wide} {
		for _, y := range []float64{tileMargin, tileMargin + tall} {
			p.line(x-cropMark/2, y, x+cropMark/2, y, 0.2, ink())
			p.line(x, y-cropMark/2, x, y+cropMark/2, 0.2, ink())
		}
	}
	foot := p.h - 6
	mm, words := smallCheck(p.sheet)
	p.line(tileMargin, foot, tileMargin+mm, foot, 0.3, ink())
	p.line(tileMargin, foot-1.5, tileMargin, foot+1.5, 0.3, ink())
	p.line(tileMargin+mm, foot-1.5, tileMargin+mm, foot+1.5, 0.3, ink())
	p.text(tileMargin+mm+3, foot+1, sizeSmall, bold, ink(), words+": "+CheckLine)
	p.right(p.w-tileMargin, foot+1, sizeSmall, regular, ink(), fmt.Sprintf("%s  ·  %s  ·  overlap %.0f mm", heading(p.sheet), name, tileOverlap))
}

const mmPerPoint = 25.4 / 72
