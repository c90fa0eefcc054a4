package form

import (
	"bytes"
	"fmt"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Slip draws the page on which a few numbers are measured again. It holds the
// places asked for and nothing that was ever read or expected there. Errors
// wrap those of the layout or ErrNoRoom.
func Slip(spec form.SlipSpec, words Words) ([]byte, form.Layout, error) {
	l, err := form.NewSlip(spec)
	if err != nil {
		return nil, form.Layout{}, err
	}
	p := newPainter(l, phrases(words.Language, spec.Unit, form.Spacing(spec.Unit)))
	p.slip()
	var file bytes.Buffer
	if err := p.pdf.Output(&file); err != nil {
		p.fail(err)
	}
	if p.err != nil {
		return nil, form.Layout{}, fmt.Errorf("draw the slip: %w", p.err)
	}
	return undated(file.Bytes()), l, nil
}

func (p *painter) slip() {
	p.page(1)
	p.body()
	p.title(p.words.slipTitle, p.layout.Pages[0].Marks[1].Box.X0-28)
	p.jobAtRight()
	for i, f := range p.layout.Fields {
		if f.Part == "" {
			continue
		}
		p.slipUnits(f)
		if f.Try == 1 && (i == 0 || p.layout.Fields[i-1].Try == 2) {
			p.slipPlace(f)
		}
	}
	p.slipColumns()
	p.slipBeside()
	p.slipDrawing()
}

// slipDrawing shows the boat under a table that leaves room for it.
func (p *painter) slipDrawing() {
	const high, wide = 48.0, 124.0
	end := 0.0
	for _, f := range p.layout.Fields {
		if f.Part != "" {
			end = max(end, f.Bounds().Y1)
		}
	}
	if top := p.layout.Height - form.MarkInset - form.MarkSide - high - 4; end+8 < top {
		p.alongTheBoat(p.layout.Pages[0].Marks[0].Box.X0+3, top, wide)
	}
}

// slipColumns names the columns of girths, and says that there are two tries.
func (p *painter) slipColumns() {
	x := p.layout.Pages[0].Marks[0].Box.X0 + 3
	first := p.layout.Fields[0].Bounds()
	p.paragraph(p.words.slipIntro, x, first.Y0-above-6.3, 130, 1)
	named := map[string]bool{}
	p.bold()
	for _, f := range p.layout.Fields {
		if name := p.words.girthColumn(f.Cell.Measure); f.Part == form.Whole && name != "" && !named[name] {
			named[name] = true
			p.line(name, f.Bounds().X0, first.Y0-above, left)
		}
	}
	p.body()
}

// slipPlace names a place before its first try, and the tries.
func (p *painter) slipPlace(f form.Field) {
	b := f.Bounds()
	x := p.layout.Pages[0].Marks[0].Box.X0 + 3
	tries := x + 38 - beside
	const width = 21.0
	name := p.words.names[f.Cell.Measure]
	if f.Cell.At > 0 {
		name = p.words.place(f.Cell.At)
	}
	p.paragraph("*"+name+"*", x, baseline(b), width, 4)
	p.line(p.words.first, tries, baseline(b), right)
	p.line(p.words.second, tries, baseline(b)+form.RowPitch, right)
}

// slipUnits writes the unit behind the last boxes of a number.
func (p *painter) slipUnits(f form.Field) {
	b := f.Bounds()
	switch {
	case f.Part == form.Half:
		p.line(p.words.half+nbsp+p.words.inches, b.X1+beside, baseline(b), left)
	case f.Part == form.Feet:
		p.line(p.words.feet, b.X1+beside, baseline(b), left)
	case p.words.unit == parse.Centimetre:
		p.line("cm", b.X1+beside, baseline(b), left)
	}
}

// slipBeside is the column beside the table: how, with care, and what lay under
// the tape.
func (p *painter) slipBeside() {
	tick := p.box(form.NameNothingUnder)
	x := tick.X0
	width := p.box(form.NameUnderTape).Width()
	code := p.layout.Pages[0].Code
	slack := (p.layout.Height - shortestPaper) / 4
	y := code.Y1 - 1
	p.aroundTheBoat(x, y, width)
	y += 52 + slack
	y = p.paragraph(p.words.slipApart, x, y, width, 8)
	y = p.paragraph(p.words.slipCautions, x, y+1.6+slack, width, 10)

	under := p.wrap(p.words.slipUnder, width)
	top := tick.Y0 - above - leading*float64(len(under)-1)
	if y > top {
		p.fail(fmt.Errorf("%w: the slip is full at %.1f mm, the question begins at %.1f mm", ErrNoRoom, y, top))
	}
	p.paragraph(p.words.slipUnder, x, top, width, 4)
	p.fitted(p.words.slipNothing, tick.X1+beside, tick.Y1-1, width-8, left)
	yes := p.box(form.NameSomethingUnder)
	p.fitted(p.words.slipSomething, yes.X1+beside, yes.Y1-1, width-8, left)
}
