package form

import (
	"bytes"
	"fmt"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Tracing draws two pages: how the ends of a boat are traced on paper, with a
// label for each tracing, and the sheet to trace on, which a photo of it is read
// by. As many of that are printed as an end needs. Errors wrap form.ErrPaper,
// form.ErrUnit, ErrNoRoom or ErrLetter.
func Tracing(paper form.Paper, unit parse.Unit, words Words) ([]byte, error) {
	grid, err := form.NewGrid(paper, unit)
	if err != nil {
		return nil, fmt.Errorf("draw the tracing sheet: %w", err)
	}
	if err := words.check(); err != nil {
		return nil, fmt.Errorf("draw the tracing sheet: %w", err)
	}
	l := form.Layout{Paper: paper}
	l.Width, l.Height = paper.Size()
	p := newPainter(l, phrases(words.Language, unit, form.Spacing(unit)))
	p.pdf.SetTitle(p.words.tracing.title, true)
	p.pdf.AddPage()
	p.ink(black)
	p.tracing(words.Post)
	p.pdf.AddPage()
	p.grid(grid)
	var file bytes.Buffer
	if err := p.pdf.Output(&file); err != nil {
		p.fail(err)
	}
	if p.err != nil {
		return nil, fmt.Errorf("draw the tracing sheet: %w", p.err)
	}
	return undated(file.Bytes()), nil
}

func (p *painter) tracing(post string) {
	const margin, gutter, drawing = 18.0, 10.0, 84.0
	t := p.words.tracing
	width := p.layout.Width - 2*margin
	p.pdf.SetFont(font, "B", titleSize)
	p.fitted(t.title, margin, 24, width, left)
	p.body()
	p.oneEnd(margin, 36, drawing)
	y := 36.0
	x := margin + drawing + gutter
	for i, s := range t.steps {
		p.heading(i+1, s.heading, x, y+4, width-drawing-gutter)
		y = p.paragraph(s.how, x, y+10.2, width-drawing-gutter, 7) + 3
	}
	y = p.paragraph(p.words.slipCautions, margin, y+4, width, 4)
	y = p.paragraph(t.photo, margin, y+2, width, 4)
	p.posted(post, margin, y+2, width)

	// The labels lie at the foot, to cut out.
	const high = 62.0
	top := p.layout.Height - margin - high
	if y+8 > top {
		p.fail(fmt.Errorf("%w: the words reach %.1f mm, the labels begin at %.1f mm", ErrNoRoom, y, top))
	}
	wide := (width - gutter) / 2
	p.label(t.bow, form.Rect{X0: margin, Y0: top, X1: margin + wide, Y1: top + high})
	p.label(t.stern, form.Rect{X0: margin + wide + gutter, Y0: top, X1: margin + width, Y1: top + high})
}

// grid draws the sheet to trace on: all of it that is bare is for the line.
func (p *painter) grid(g form.Grid) {
	p.ink(0)
	for _, m := range g.Marks {
		p.fillRect(m)
	}
	p.modules(g.CodeText, g.Code)
	p.ink(black)
	p.stroke(black, drawn)
	const tick = 1.8
	line := g.Line
	p.pdf.SetLineCapStyle("butt")
	p.pdf.Line(line.X0, line.Y0, line.X0, line.Y1)
	for _, y := range []float64{line.Y0, line.Y1} {
		p.pdf.Line(line.X0-tick, y, line.X0+tick, y)
	}
	p.pdf.SetLineCapStyle("round")
	p.body()
	// Beside the line, from its lower end up.
	x, y := line.X0+5, line.Y1-2
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(90, x, y)
	p.fitted(p.words.tracing.measure, x, y, line.Height()-45, left)
	wide := p.pdf.GetStringWidth(p.words.tracing.measure)
	p.rule(x+wide+2, x+wide+32, y+0.8)
	p.pdf.TransformEnd()
	foot := g.Words[len(g.Words)-1]
	p.fitted(p.words.tracing.print, foot.X0, foot.Y1-1.2, foot.Width(), left)
}

// label is to be cut out and glued to a tracing.
func (p *painter) label(end string, r form.Rect) {
	p.pdf.SetDashPattern([]float64{2, 1.5}, 0)
	p.stroke(grey, form.OutlineWidth)
	p.pdf.Rect(r.X0, r.Y0, r.Width(), r.Height(), "D")
	p.pdf.SetDashPattern(nil, 0)
	p.stroke(black, drawn)
	const inside = 5.0
	p.heading(0, end, r.X0+inside, r.Y0+9, r.Width()-2*inside)
	y := r.Y0 + 20
	for _, name := range []string{p.words.customer, p.words.boat} {
		p.fitted(name, r.X0+inside, y, r.Width()-2*inside, left)
		p.rule(r.X0+inside, r.X1-inside, y+10.5)
		y += 18
	}
	p.fitted(p.words.tracing.up, r.X0+inside+6, r.Y1-5, r.Width()-2*inside-6, left)
	p.arrow(point{r.X0 + inside + 1.5, r.Y1 - 3.5}, point{r.X0 + inside + 1.5, r.Y1 - 9.5}, false)
}

// oneEnd draws an end of the boat before a card, with the pencil on its way.
func (p *painter) oneEnd(x, y, width float64) {
	const high = 68.0
	p.stroke(black, drawn)
	p.pdf.Rect(x, y, width, high, "D") // the card
	bottom := y + high - 12
	sheer := curve{{x + 15, y + 12}, {x + 32, y + 21}, {x + 52, y + 25}, {x + width, y + 27}}
	stem := curve{{x + 15, y + 12}, {x + 6, y + 24}, {x + 12, bottom - 4}, {x + 38, bottom - 1}}
	keel := curve{{x + 38, bottom - 1}, {x + 50, bottom}, {x + 66, bottom + 0.4}, {x + width, bottom + 0.4}}
	p.curve(sheer)
	p.stroke(black, heavy)
	p.curve(stem)
	p.stroke(black, drawn)
	p.curve(keel)

	// The pencil stands square to the card: it is seen from its end.
	tip := stem.at(0.45)
	p.stroke(black, 0.5)
	p.pdf.Circle(tip.x-1.9, tip.y, 1.7, "D")
	p.ink(black)
	p.pdf.Circle(tip.x-1.9, tip.y, 0.5, "F")
	p.stroke(black, drawn)

	p.fitted(p.words.tracing.card, x+2.5, y+5.5, width-4, left)
	p.line(p.words.tracing.pencil, tip.x+4, tip.y+capHeight/2, left)
	p.fitted(p.words.tracing.flat, x+38, bottom+6.5, width-38, left)
}
