package form

import (
	"fmt"
	"strings"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Distances from the layout's boxes to the words that belong to them.
const (
	above  = form.BoxClear + descent // from a box up to the baseline of its label
	beside = form.BoxClear + 0.3     // from a box to what stands beside it

	numbersWidth  = 75.0 // of the left column of page 2
	tableOffset   = 77.1 // from the left column's edge to the names of the rows
	headingOffset = 79.0 // to the heading of the table
	ruleOffset    = 76.2 // to the line between the two

	shortestPaper = 279.4 // Letter; on A4 the rest is put between the parts
)

// guide draws page 1: who it is, and how to measure.
func (p *painter) guide(post string) {
	p.page(1)
	p.body()
	x := p.box(form.NameCustomer).X0
	p.title(p.words.guideTitle, p.layout.Pages[0].Marks[1].Box.X0-28)
	p.jobAtRight()
	for _, f := range []struct{ name, label string }{
		{form.NameCustomer, p.words.customer}, {form.NameTelephone, p.words.telephone},
		{form.NameBoat, p.words.boat}, {form.NameUnderCover, p.words.underCover},
	} {
		b := p.box(f.name)
		p.fitted(f.label, b.X0, b.Y0-above, b.Width(), left)
	}

	width := p.layout.Width - 2*x
	slack := (p.layout.Height - shortestPaper) / 5
	p.heading(0, p.words.before, x, 65, width)
	tick := p.box(form.NameTapeChecked)
	p.fitted(fmt.Sprintf(p.words.tapeReads, p.words.tapeOn(p.layout.Paper)), tick.X1+beside, tick.Y1-1, width-10, left)
	y := p.paragraph(p.words.tools, x, 81.2, width, 2)
	y = p.paragraph(p.words.cautions, x, y+1.4+slack/2, width, 6)

	y += slack/2 - 1.4
	p.alongTheBoat(x, y, 124)
	p.aroundTheBoat(x+132, y, width-132)
	y += 53 + slack

	const gutter = 8.0
	column := (width - gutter) / 2
	leftEnd, rightEnd := y, y
	for i, s := range p.words.steps {
		at, end := x, &leftEnd
		if i%2 == 1 {
			at, end = x+column+gutter, &rightEnd
		}
		p.heading(i+1, s.heading, at, *end, column)
		*end = p.paragraph(s.how, at, *end+6, column, 8) + 3.6 + slack
	}
	y = p.paragraph(p.words.done, x, max(leftEnd, rightEnd)-1.5, width, 3)
	p.posted(post, x, y+0.8, width)
	if y > p.layout.Height-form.MarkInset-form.MarkSide-leading {
		p.fail(fmt.Errorf("%w: page 1 is full at %.1f mm", ErrNoRoom, y))
	}
}

// posted says where paper tracings go, with a line to write on where that is
// not known.
func (p *painter) posted(post string, x, y, width float64) {
	if post = strings.Join(strings.Fields(unstarred(post)), " "); post != "" {
		p.paragraph(p.words.post+" "+post, x, y, width, 2)
		return
	}
	p.paragraph(p.words.post, x, y, width, 1)
	p.rule(x+p.pdf.GetStringWidth(p.words.post)+2, x+width, y+0.6)
}

// jobAtRight writes the job beside the upper right mark.
func (p *painter) jobAtRight() {
	if p.layout.Job > 0 {
		p.fitted(p.words.jobNumber(p.layout.Job), p.layout.Pages[0].Marks[1].Box.X0-5, 16.3, 40, right)
	}
}

// box is the place of a field.
func (p *painter) box(name string) form.Rect {
	for _, f := range p.layout.Fields {
		if f.Name == name {
			return f.Bounds()
		}
	}
	p.fail(fmt.Errorf("the form has no field %q", name))
	return form.Rect{}
}

// numbers draws page 2: every number, in the order of a walk around the boat.
func (p *painter) numbers() {
	p.page(2)
	p.body()
	x := p.box(form.NameOpen).X0
	p.title(p.words.numbersTitle, x+numbersWidth)
	p.heading(1, p.words.steps[0].heading, x, 27.5, numbersWidth)
	p.ticks(form.NameOpen, p.words.open, form.NameDecked, p.words.decked)
	p.labelAbove(parse.LengthOverall, p.words.names[parse.LengthOverall], x)
	p.labelled(parse.BowHeight, x)
	p.labelled(parse.CarryPoint, x)

	p.table(2)

	p.heading(3, p.words.steps[2].heading, x, 92.5, numbersWidth)
	p.ticks(form.NamePointed, p.words.pointed, form.NameSquare, p.words.square)
	p.labelled(parse.SternHeight, x)
	p.fitted(p.words.onTransom, x, p.cell(parse.TransomHullGirth, form.Whole).Y0-above, numbersWidth, left)
	p.named(parse.TransomHullGirth, p.words.names[parse.HullGirth], x)
	p.named(parse.TransomFullGirth, p.words.names[parse.FullGirth], x)

	p.heading(4, p.words.steps[3].heading, x, 158.5, numbersWidth)
	p.labelAbove(parse.GreatestAt, p.words.greatestAt, x)
	p.named(parse.GreatestHullGirth, p.words.names[parse.HullGirth], x)
	p.named(parse.GreatestFullGirth, p.words.names[parse.FullGirth], x)
	p.labelled(parse.GreatestOpening, x)
	p.howToWrite(2)
	if p.layout.Rows > form.RowsPerPage {
		p.page(3)
		p.body()
		p.title(p.words.numbersTitle, x+numbersWidth)
		p.table(3)
		p.howToWrite(3)
	}
}

func (p *painter) ticks(names ...string) {
	for i := 0; i < len(names); i += 2 {
		b := p.box(names[i])
		p.fitted(names[i+1], b.X1+beside, b.Y1-1, 26, left)
	}
}

// cell is the place of one part of a number that the boat has once.
func (p *painter) cell(m parse.Measure, part form.Part) form.Rect {
	for _, f := range p.layout.Fields {
		if f.Cell.Measure == m && f.Part == part {
			return f.Bounds()
		}
	}
	p.fail(fmt.Errorf("the form has no %s of %s", part, m))
	return form.Rect{}
}

// baseline is where words beside a box stand.
func baseline(b form.Rect) float64 { return (b.Y0+b.Y1)/2 + capHeight/2 }

// labelled writes the name of a number before its boxes and its unit behind.
func (p *painter) labelled(m parse.Measure, x float64) { p.named(m, p.words.names[m], x) }

func (p *painter) named(m parse.Measure, name string, x float64) {
	b := p.cell(m, form.Whole)
	p.fitted(name, x, baseline(b), b.X0-form.BoxClear-x, left)
	p.units(m, b)
}

// units writes what follows the boxes of a number that ends with b.
func (p *painter) units(m parse.Measure, b form.Rect) {
	if p.words.unit == parse.Centimetre {
		p.line("cm", b.X1+beside, baseline(b), left)
		return
	}
	p.line(p.words.half+nbsp+p.words.inches, p.cell(m, form.Half).X1+beside, baseline(b), left)
}

// labelAbove writes the name of a distance above its boxes.
func (p *painter) labelAbove(m parse.Measure, name string, x float64) {
	part := form.Whole
	if p.words.unit == parse.Inch {
		part = form.Inches
		feet := p.cell(m, form.Feet)
		p.line(p.words.feet, feet.X1+beside, baseline(feet), left)
	}
	b := p.cell(m, part)
	p.fitted(name, x, b.Y0-above, numbersWidth, left)
	p.units(m, b)
}

// table writes the names of the rows and columns of stations on a page.
func (p *painter) table(page int) {
	var hull, full []form.Field
	for _, f := range p.layout.Fields {
		switch {
		case f.Page != page || f.Part != form.Whole:
		case f.Cell.Measure == parse.HullGirth:
			hull = append(hull, f)
		case f.Cell.Measure == parse.FullGirth:
			full = append(full, f)
		}
	}
	edge := p.box(form.NameOpen).X0
	x := edge + tableOffset
	top := hull[0].Bounds()
	p.heading(2, p.words.steps[1].heading, edge+headingOffset, 16.3, p.layout.Pages[0].Marks[1].Box.X0-3-edge-headingOffset)
	p.bold()
	p.line(p.words.hullColumn, top.X0, top.Y0-above, left)
	p.line(p.words.fullColumn, full[0].Bounds().X0, top.Y0-above, left)
	for _, f := range hull {
		b := f.Bounds()
		p.bold()
		p.fitted(p.words.place(f.Cell.At), b.X0-beside, baseline(b), b.X0-beside-x, right)
		p.body()
		if p.words.unit == parse.Inch {
			for _, number := range []form.Rect{b, full[0].Bounds()} {
				p.line(p.words.half, number.X1+form.BoxClear+form.TickSide+beside, baseline(b), left)
			}
		}
	}
	last := hull[len(hull)-1].Bounds()
	p.stroke(grey, hairline)
	p.pdf.Line(edge+ruleOffset, 22, edge+ruleOffset, last.Y1)
	p.stroke(black, drawn)
}

// howToWrite shows beside the code how figures are written.
func (p *painter) howToWrite(page int) {
	code := p.layout.Pages[page-1].Code
	x := code.X1 + form.CodeClear
	width := p.box(form.NameOpen).X0 + numbersWidth - x
	y := code.Y0 - 4
	for _, sentence := range []string{p.words.pen, p.words.oneFigure, p.words.nearest} {
		y = p.paragraph(sentence, x, y, width, 4) + 1
	}
	y += 1.5 // the figures are higher than type
	p.fitted(p.words.likeThis, x, y, width-14, left)
	p.figures(x+p.pdf.GetStringWidth(p.words.likeThis)+3, y)
}
