package sheet

import (
	"fmt"
	"math"

	"fairtape/reply/cover"
)

// column is a column of a chalk table.
type column struct {
	head  [2]string
	width float64 // mm
	cell  func(m cover.Mark) string
	bold  bool
}

func (p *pen) columns(panel cover.Panel) []column {
	s := p.sheet
	edge := panel.Far.Name
	if panel.Middle {
		edge = "both edges"
	}
	list := []column{
		{[2]string{"Mark", "aft of the bow"}, 25, func(m cover.Mark) string {
			if m.Station {
				return s.Station(m.At)
			}
			return "between"
		}, true},
		{[2]string{panel.Datum, "run"}, 30, func(m cover.Mark) string { return s.Number(m.Datum) }, false},
		{[2]string{edge, "run"}, 30, func(m cover.Mark) string { return s.Number(m.Run) }, false},
		{[2]string{"offset", "to sewing line"}, 26, func(m cover.Mark) string { return s.Number(m.Sew) }, true},
		{[2]string{"offset", "to cutting line"}, 26, func(m cover.Mark) string { return s.Number(m.Cut) }, true},
		{[2]string{"straight", "across"}, 22, func(m cover.Mark) string { return s.Number(m.Across) }, false},
		{[2]string{"edge from", "last station"}, 22, func(m cover.Mark) string {
			if m.Seam == 0 {
				return ""
			}
			return s.Number(m.Seam)
		}, false},
	}
	return list
}

// rowHeight is the height of a row of a table, mm.
const rowHeight = 4.5

// chalk is the table of a panel: how it is laid out on the cloth with chalk,
// tape and a straight line.
func (p *pen) chalk(panel cover.Panel) {
	s := p.sheet
	name := panel.Name
	if s.Order.Cloth.Construction == cover.Sides {
		name = "Both sides, mirrored"
	}
	title := "CHALK TABLE: " + name
	y, bottom := p.page(title, false)
	wide := p.w - 2*margin
	y = p.paragraph(margin, y+1, wide, sizeBody, regular, ink(), fmt.Sprintf(
		"All in %s. Strike a straight line along the grain: the %s. Zero is its bow end. For each mark run along the line from zero, then square off it. "+
			"The %s carries the match marks in its first column of runs; the other edge's marks lie at a run of their own, since stations do not stay square to the line on flat cloth.",
		unitWords(s), panel.Datum, panel.Datum))
	if panel.Middle {
		y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), "Lay off every offset to both sides of the line.")
	} else {
		y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), fmt.Sprintf(
			"The line is the sewing line of the %s; its cutting line lies %s outside.", panel.Near.Name, s.Say(panel.Near.Allowance)))
	}
	columns := p.columns(panel)
	y = p.tableHead(y+1, columns)
	marks := panel.Chalk()
	for i, m := range marks {
		if y+rowHeight > bottom-8 {
			p.check(margin, bottom)
			y, bottom = p.page(title+", continued", false)
			y = p.tableHead(y, columns)
		}
		if i%2 == 0 {
			p.box(margin, y, wide, rowHeight, colour{248, 246, 241})
		}
		x := margin
		for _, c := range columns {
			style, ink := regular, ink()
			if c.bold && m.Station {
				style = bold
			}
			if !m.Station {
				ink = grey()
			}
			p.right(x+c.width-3, y+3.3, sizeBody, style, ink, c.cell(m))
			x += c.width
		}
		y += rowHeight
	}
	p.line(margin, y, p.w-margin, y, 0.3, ink())
	if y+5+p.proofHeight(panel) > bottom-5 {
		p.check(margin, bottom)
		y, bottom = p.page(title+", continued", false)
	}
	p.proof(panel, y+5)
	p.check(margin, bottom)
}

// tableHead writes the headings and returns where the rows begin.
func (p *pen) tableHead(y float64, columns []column) float64 {
	p.box(margin, y, p.w-2*margin, 9.5, sand())
	x := margin
	for _, c := range columns {
		p.right(x+c.width-3, y+4, sizeSmall, bold, ink(), c.head[0])
		p.right(x+c.width-3, y+7.6, sizeSmall, regular, ink(), c.head[1])
		x += c.width
	}
	return y + 9.5
}

// proof writes what proves the layout: diagonals, ends and seams sewn back.
func (p *pen) proof(panel cover.Panel, y float64) {
	s := p.sheet
	wide := p.w - 2*margin
	for _, d := range panel.Diagonals() {
		y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), fmt.Sprintf("Diagonal: %s at %s to %s at %s = %s",
			d.Edges[0], s.Station(d.From), d.Edges[1], s.Station(d.To), s.Say(d.Length)))
	}
	from, to := panel.Measured()
	fore, aft := roughWords(s, panel)
	for k, e := range []struct{ name, beyond, rough string }{
		{"bow", "Forward of " + s.Station(from), fore}, {"stern", "Abaft " + s.Station(to), aft},
	} {
		if panel.Ends[k] == nil {
			y = p.paragraph(margin, y, wide, sizeBody, bold, red(), fmt.Sprintf(
				"%s the outline is FROM TRACING. Cut rough as drawn, the datum %s beyond the mark, and trim to the tracing.", e.beyond, e.rough))
			continue
		}
		y = p.paragraph(margin, y, wide, sizeBody, bold, ink(), fmt.Sprintf("%s the sewing line follows the tracing of the %s, from the keel to the top:", e.beyond, e.name))
		y = p.endTable(panel, k, y)
	}
	for _, l := range s.Lines {
		if l.Panel == panel.Name {
			y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), fmt.Sprintf(
				"Sewn back from %s to %s, the %s line is %s on the cloth; the boat's, less the reduction, is %s.", s.Station(l.From), s.Station(l.To), l.Line, s.Say(l.ClothInside), s.Say(l.MeantInside)))
		}
	}
	for _, j := range s.Seams {
		w := j.Worst()
		if j.Edges[0] != panel.Name {
			continue
		}
		if w.Difference() < seamsMatch {
			y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), upper(j.Name)+": the two edges match at every mark.")
		} else {
			y = p.paragraph(margin, y, wide, sizeBody, regular, ink(), fmt.Sprintf(
				"%s: the two edges differ by at most %.1f %% between two match marks (%s to %s).",
				upper(j.Name), 100*w.Difference(), s.Station(w.From), s.Station(w.To)))
		}
	}
}

// seamsMatch is the difference of two edges, as a share, that nobody can sew: a
// fiftieth of an inch in a foot.
const seamsMatch = 0.0015

// endTable gives places of a traced end in two rows.
func (p *pen) endTable(panel cover.Panel, end int, y float64) float64 {
	s := p.sheet
	p.text(margin+4, y, sizeBody, regular, grey(), "run")
	p.text(margin+4, y+lineBody, sizeBody, regular, grey(), "offset")
	column := (p.w - 2*margin - 18) / endMarks
	for i, q := range panel.EndMarks(end, endMarks) {
		x := margin + 18 + float64(i+1)*column
		p.right(x, y, sizeBody, regular, ink(), s.Number(q.X))
		p.right(x, y+lineBody, sizeBody, bold, ink(), s.Number(math.Abs(q.Y)))
	}
	return y + 2*lineBody + 1
}

// proofHeight is about how much room proof takes, in mm.
func (p *pen) proofHeight(panel cover.Panel) float64 {
	lines := len(panel.Diagonals())
	for k := range panel.Ends {
		lines += 2
		if panel.Ends[k] != nil {
			lines++
		}
	}
	for _, l := range p.sheet.Lines {
		if l.Panel == panel.Name {
			lines++
		}
	}
	for _, j := range p.sheet.Seams {
		if j.Edges[0] == panel.Name {
			lines++
		}
	}
	return float64(lines) * lineBody
}

// endMarks is how many places of a traced end are given for chalk.
const endMarks = 12

// roughWords say how far the cloth reaches beyond the first and the last mark.
func roughWords(s *cover.CutSheet, panel cover.Panel) (fore, aft string) {
	least, most := bounds(panel.Cut)
	marks := panel.Chalk()
	return s.Say(marks[0].Datum - least.X), s.Say(most.X - marks[len(marks)-1].Datum)
}

func upper(text string) string {
	if text == "" {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}

func unitWords(s *cover.CutSheet) string {
	if cover.UnitName(s.Unit) == "mm" {
		return "millimetres"
	}
	return "inches and eighths"
}
