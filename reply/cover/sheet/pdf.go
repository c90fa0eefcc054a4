package sheet

import (
	"bytes"
	"fmt"

	"fairtape/reply/cover"
)

// PDF writes the cut sheet for the cutting table.
func PDF(s *cover.CutSheet, paper Paper) ([]byte, error) {
	p := newPen(s, paper, "Cut sheet")
	p.summary()
	for _, panel := range s.Panels {
		if !panel.Mirrored {
			p.chalk(panel)
		}
	}
	p.panels()
	if s.Transom != nil {
		p.transom(s.Transom)
	}
	p.roll()
	p.boat()
	return p.bytes()
}

func (p *pen) bytes() ([]byte, error) {
	var b bytes.Buffer
	if err := p.pdf.Output(&b); err != nil {
		return nil, fmt.Errorf("write the cut sheet: %w", err)
	}
	return b.Bytes(), nil
}

// fact is a line of the summary.
type fact struct{ name, text string }

// facts are what the cutter reads first.
func facts(s *cover.CutSheet) []fact {
	c := s.Order.Cloth
	list := []fact{
		{"Boat", or(clean(s.Boat), "not named") + fmt.Sprintf(", %s long", s.Say(s.Hull.Length()))},
		{"Customer", or(clean(s.Customer), "not named")},
		{"Cloth", clothName(s)},
		{"Roll", fmt.Sprintf("%s wide, %s usable, grain along the roll", s.Say(in(c.RollWidth)), s.Say(in(c.UsableWidth)))},
		{"Construction", construction(c.Construction)},
		{"Girth", trim(s.GirthWords())},
		{"Length", trim(s.LengthWords())},
		{"Curve", s.SureWords()},
		{"Ends", "both reductions fade in over the first foot; " + ends(s)},
		{"Allowances", allowances(s)},
		{"Entry", entry(s)},
		{"Slit", slit(s)},
		{"Buy", fmt.Sprintf("%s of cloth; the panels use %.0f %% of it (as boxes: %s, %.0f %%)",
			s.Running(s.Lay.Length), 100*s.Lay.Use(), s.Running(s.Boxes.Length), 100*s.Boxes.Use())},
	}
	return list
}

// trim drops the name that the fact has already.
func trim(words string) string {
	for i := range words {
		if words[i] == ':' || words[i] == ' ' && i > 6 && words[:6] == "Girth " {
			return words[i+2:]
		}
	}
	return words
}

func or(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

func construction(c cover.Construction) string {
	switch c {
	case cover.HullAndTop:
		return "hull and top: a hull panel and a top panel, seamed at the gunwales"
	case cover.TopAndSkirt:
		return "top and skirt: one panel over the opening, hanging down at both sides, cord in the hem"
	}
	return "sides: two mirrored panels, seamed along keel and top"
}

// ends says what the ends of the panels follow.
func ends(s *cover.CutSheet) string {
	switch bow, stern := s.Profiles[0] != nil, s.Profiles[1] != nil; {
	case bow && stern:
		return "both ends follow the tracings, as photographed"
	case bow:
		return "the bow follows its tracing, as photographed; the stern is FROM TRACING and cut rough"
	case stern:
		return "the stern follows its tracing, as photographed; the bow is FROM TRACING and cut rough"
	}
	return "panel ends are FROM TRACING and cut rough"
}

func allowances(s *cover.CutSheet) string {
	c := s.Order.Cloth
	text := fmt.Sprintf("seams %s", s.Say(in(c.SeamAllowance)))
	if c.Construction == cover.TopAndSkirt {
		return fmt.Sprintf("hem %s with cord casing", s.Say(in(c.Hem)))
	}
	return text + ", felled so that the upper laps over the lower and sheds water"
}

func entry(s *cover.CutSheet) string {
	e := s.Entry
	if e.Length == 0 {
		return fmt.Sprintf("%s; %s", e.Where, e.Closure)
	}
	return fmt.Sprintf("%s, from %s to %s aft of the bow (%s): a rim of %s for a greatest girth of %s; %s, overlap %s",
		e.Where, s.Say(e.From), s.Say(e.To), s.Say(e.Length), s.Say(e.Rim), s.Say(e.Passes), e.Closure, s.Say(e.Overlap))
}

func slit(s *cover.CutSheet) string {
	for _, p := range s.Panels {
		if p.Slit != nil {
			text := fmt.Sprintf("athwart at the carry point, %s aft of the bow, %s long, faced, ends barred", s.Say(p.Slit.At), s.Say(p.Slit.Length))
			if !p.Middle {
				text += fmt.Sprintf("; %s on each side, across the top seam", s.Say(p.Slit.Length/2))
			}
			return text
		}
	}
	return "none"
}

// summary is the first page.
func (p *pen) summary() {
	s := p.sheet
	y, bottom := p.page("CUT SHEET", false)
	wide := p.w - 2*margin
	p.text(margin, y+4, sizeTitle, bold, ink(), or(clean(s.Customer), or(clean(s.Boat), "Cover")))
	if void := voidWords(s); void != "" {
		p.right(p.w-margin, y+4, sizeHead, bold, red(), void)
	}
	y += 9
	if !s.Settled {
		p.text(margin, y+2, sizeHead, bold, red(), "DRAFT: the survey is not settled. Do not cut from this sheet.")
		y += 6
		y = p.list(margin, y+1, wide, bottom, s.Open, 4, red())
	}
	for _, f := range facts(s) {
		p.text(margin, y+3, sizeBody, bold, ink(), f.name)
		y = p.paragraph(margin+26, y+3, wide-26, sizeBody, regular, ink(), f.text) - 3 + 0.6
	}
	y = p.head(margin, y+2, wide, "Before cutting")
	notes := s.Notes
	if len(notes) == 0 {
		notes = []string{fmt.Sprintf("Nothing odd: every reading lies within %s of the fair curve, and edges that are sewn together match.", s.Say(cover.FairDiffers))}
	}
	y = p.list(margin, y, wide, bottom-95, notes, 7, ink())
	y = p.head(margin, y+1, wide, "Cautions")
	y = p.list(margin, y, wide, bottom, cover.Cautions(), 8, ink())
	y = p.head(margin, y+1, wide, "Fair curve: what the panels are cut from")
	p.curve(margin, y-2, wide, min(bottom-y-10, 62))
	p.check(margin, bottom)
}

// list writes points one below the other, as many as there is room for, and
// says how many were left out.
func (p *pen) list(x, y, wide, bottom float64, points []string, most int, c colour) float64 {
	for i, text := range points {
		if i == most || y > bottom {
			p.text(x+4, y, sizeBody, bold, red(), fmt.Sprintf("and %d more: see the table of the xlsx file", len(points)-i))
			return y + lineBody
		}
		p.dot(x+1.5, y-1.1, 0.6, c)
		y = p.paragraph(x+4, y, wide-4, sizeBody, regular, c, clean200(text)) + 0.4
	}
	return y
}
