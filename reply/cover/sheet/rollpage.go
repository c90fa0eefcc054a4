package sheet

import (
	"fmt"
	"strconv"

	"fairtape/reply/cover"
)

// roll is how the pieces lie on the roll, and the list of notions.
func (p *pen) roll() {
	s := p.sheet
	top, bottom := p.page("ROLL AND NOTIONS", true)
	wide := p.w - 2*margin
	c := s.Order.Cloth
	y := p.paragraph(margin, top+1, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"Buy %s. The panels use %.0f %% of the cloth; as boxes they would take %s and use %.0f %%. Grain along the roll; pieces are turned end for end or not at all, and never flipped: the face is up everywhere.",
		s.Running(s.Lay.Length), 100*s.Lay.Use(), s.Running(s.Boxes.Length), 100*s.Boxes.Use()))
	frame := []Point{{X: 0, Y: 0}, {X: s.Lay.Length, Y: 0}, {X: s.Lay.Length, Y: s.Lay.Width}, {X: 0, Y: s.Lay.Width}}
	v, tall := fit(frame, margin+8, y+4, wide-16, 62, 1)
	p.fill(v.all(frame), colour{246, 246, 246})
	for _, placed := range s.Lay.Placed {
		outline := v.all(placed.Outline(s.Pieces))
		p.fill(outline, colour{232, 238, 243})
		p.path(outline, true, 0.35, ink())
		least, most := bounds(outline)
		name := s.Pieces[placed.Piece].Name
		if placed.Turned {
			name += ", turned end for end"
		}
		p.centre((least.X+most.X)/2, (least.Y+most.Y)/2, sizeSmall, bold, ink(), name)
		at := placed.Outline(s.Pieces)
		lo, _ := bounds(at)
		p.centre((least.X+most.X)/2, (least.Y+most.Y)/2+3.6, sizeSmall-1, regular, grey(),
			fmt.Sprintf("begins %s from the cut end, %s from the lower edge", s.Say(lo.X), s.Say(lo.Y)))
	}
	p.path(v.all(frame), true, 0.25, blue())
	p.centre(p.w/2, y+4+tall+4.5, sizeSmall, bold, blue(), "running length "+s.Say(s.Lay.Length)+"  ·  usable width "+s.Say(s.Lay.Width)+" of "+s.Say(in(c.RollWidth)))
	y = p.head(margin, y+tall+14, wide, "Notions")
	for _, n := range s.Notions {
		p.text(margin, y, sizeBody, bold, ink(), n.What)
		p.right(margin+66, y, sizeBody, regular, ink(), quantity(s, n))
		p.text(margin+72, y, sizeBody, regular, grey(), n.For)
		y += lineBody
	}
	p.check(margin, bottom-1)
}

func quantity(s *cover.CutSheet, n cover.Notion) string {
	if n.Length > 0 {
		return s.Running(n.Length)
	}
	return strconv.Itoa(n.Count)
}
