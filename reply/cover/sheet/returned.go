package sheet

import (
	"fmt"

	"fairtape/reply/cover"
)

// Returned is a page for a cover that came back: what was cut, beside blanks for
// the cover laid flat and for the boat measured again. The three together tell
// whether it was measured, cut or sewn wrong.
func Returned(s *cover.CutSheet, paper Paper) ([]byte, error) {
	p := newPen(s, paper, "Returned cover")
	for _, panel := range s.Panels {
		p.returned(panel)
	}
	return p.bytes()
}

// blank is a column to be filled in by hand, mm wide.
const blank = 30.0

func (p *pen) returned(panel cover.Panel) {
	s := p.sheet
	y, bottom := p.page("RETURNED COVER: "+panel.Name, false)
	wide := p.w - 2*margin
	y = p.paragraph(margin, y+1, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"Lay the cover flat, inside out, without stretching it. All in %s, from sewing line to sewing line. Where the cover laid flat differs from the sheet, it was cut or sewn wrong; where the boat measured again differs from the readings, it was measured wrong.", unitWords(s)))
	columns := []struct {
		head  [2]string
		width float64
	}{
		{[2]string{"Station", "aft of the bow"}, 24}, {[2]string{"across the panel", "as sewn"}, 28}, {[2]string{"across the panel", "cover laid flat"}, blank},
		{[2]string{"edge from last", "as sewn"}, 26}, {[2]string{"edge from last", "cover laid flat"}, blank},
		{[2]string{"full girth", "as read"}, 18}, {[2]string{"full girth", "boat measured again"}, blank},
	}
	p.box(margin, y, wide, 9.5, sand())
	x := margin
	for _, c := range columns {
		p.right(x+c.width-3, y+4, sizeSmall, bold, ink(), c.head[0])
		p.right(x+c.width-3, y+7.6, sizeSmall, regular, ink(), c.head[1])
		x += c.width
	}
	y += 9.5
	read := map[float64]float64{}
	for _, r := range s.Rows {
		read[r.At] = r.Read[1]
	}
	for _, m := range panel.Chalk() {
		if !m.Station {
			continue
		}
		cells := []string{s.Station(m.At), s.Number(m.Across), "", "", "", "", ""}
		if m.Seam > 0 {
			cells[3] = s.Number(m.Seam)
		}
		if g := read[m.At]; g > 0 {
			cells[5] = s.Number(g)
		}
		x := margin
		for i, c := range columns {
			if c.width == blank {
				p.line(x+6, y+6.4, x+c.width-3, y+6.4, 0.2, grey())
			} else {
				p.right(x+c.width-3, y+5.4, sizeBody, regular, ink(), cells[i])
			}
			x += c.width
		}
		y += returnedRow
	}
	p.text(margin, y+8, sizeBody, bold, ink(), "Measured by                                             on                                   The cover is:  good     tight at                 loose at")
	p.check(margin, bottom)
}

// returnedRow is the height of a row that is filled in by hand, mm.
const returnedRow = 8.0
