package sheet

import (
	"fmt"

	"fairtape/reply/cover"
)

// transom is the drawing of the panel over a square stern, with its breadths.
func (p *pen) transom(t *cover.Transom) {
	s := p.sheet
	y, bottom := p.page("TRANSOM PANEL", false)
	wide := p.w - 2*margin
	curve := "Its curved edge"
	if t.Hem > 0 {
		curve = "Its sides"
	}
	y = p.paragraph(margin, y+1, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"Cut one, the outer face towards you, the grain athwart. The upper edge is %s, %s %s from gunwale to gunwale: sewn into the stern edges of the other panels they match the girths there, without reduction.",
		s.Say(t.Wide), low(curve), s.Say(t.Around)))
	words := fmt.Sprintf("The depth, %s, is sketched from the girths and the stern's height: hold the panel against the stern tracing before cutting, which has the rake too. Allowance %s", s.Say(t.High), s.Say(in(s.Order.Cloth.SeamAllowance)))
	if t.Hem > 0 {
		words += fmt.Sprintf(", hem %s at the foot", s.Say(t.Hem))
	}
	y = p.paragraph(margin, y, wide, sizeBody, bold, red(), words+".")
	v, tall := fit(t.Cutting, margin+20, y+8, wide-40, 110, 4)
	p.fill(v.all(t.Cutting), colour{250, 248, 243})
	p.path(v.all(t.Cutting), true, 0.5, ink())
	p.path(v.all(t.Sewing), true, 0.25, blue())
	_, top := bounds(t.Sewing)
	middle := v.all([]Point{{Y: top.Y}, {Y: top.Y - t.High}})
	p.dashed(middle[0].X, middle[0].Y, middle[1].X, middle[1].Y, 0.15, grey())
	foot := y + 8 + tall + 7
	ends := v.all([]Point{{X: -t.Wide / 2}, {X: t.Wide / 2}})
	p.measure(Point{X: ends[0].X, Y: foot}, Point{X: ends[1].X, Y: foot}, "finished breadth "+s.Say(t.Wide))
	y = p.head(margin, foot+8, wide, "Breadth of the sewing line below the upper edge")
	const columns = 4
	rows := t.Breadths(transomStep(s))
	for i, r := range rows {
		x := margin + float64(i%columns)*wide/columns
		p.text(x, y, sizeBody, regular, ink(), s.Say(r[0])+" below:")
		p.text(x+26, y, sizeBody, bold, ink(), s.Number(r[1]))
		if i%columns == columns-1 {
			y += lineBody + 1
		}
	}
	p.check(margin, bottom)
}

// transomStep is how far apart breadths of the transom are given, in inches: 1 in,
// or 25 mm.
func transomStep(s *cover.CutSheet) float64 {
	if cover.UnitName(s.Unit) == "mm" {
		return 25 / mmPerInch
	}
	return 1
}

// low begins with a small letter.
func low(text string) string { return string(text[0]-'A'+'a') + text[1:] }
