package pdf

import (
	"cmp"
	"slices"
)

// lines gathers the page's characters and fields into lines of cells, from the
// top down and from the left.
func (p *page) lines() [][]cell {
	var bands []band
	for _, g := range p.inOrder() {
		b := bandFor(&bands, g.loose)
		b.glyphs = append(b.glyphs, g)
	}
	for i := range p.fields {
		f := &p.fields[i]
		texts := f.lines()
		for k, text := range texts {
			at := f.line()
			if n := float64(len(texts)); n > 1 {
				height := (f.box.y1 - f.box.y0) / n
				at = box{f.box.x0, f.box.y0 + height*float64(k), f.box.x1, f.box.y0 + height*float64(k+1)}
			}
			b := bandFor(&bands, at)
			b.fields = append(b.fields, fieldLine{f, text})
		}
	}
	slices.SortStableFunc(bands, func(a, b band) int { return cmp.Compare(a.box.middle(), b.box.middle()) })
	var lines [][]cell
	for _, b := range bands {
		lines = append(lines, p.cells(b))
	}
	return lines
}

// smallPart is the share of the usual size of print below which a character may
// be raised or lowered beside others: a figure of a fraction, a mark.
const smallPart = 0.8

// inOrder lists the characters from the top down, small ones last: they stand
// on the lines of the others.
func (p *page) inOrder() []glyph {
	sizes := make([]float64, len(p.glyphs))
	for i, g := range p.glyphs {
		sizes[i] = g.em
	}
	slices.Sort(sizes)
	usual := 0.0
	if len(sizes) > 0 {
		usual = sizes[len(sizes)/2]
	}
	small := func(g glyph) int {
		if g.em < smallPart*usual {
			return 1
		}
		return 0
	}
	glyphs := slices.Clone(p.glyphs)
	slices.SortStableFunc(glyphs, func(a, b glyph) int {
		return cmp.Or(small(a)-small(b), cmp.Compare(a.loose.middle(), b.loose.middle()))
	})
	return glyphs
}

type band struct {
	box    box
	glyphs []glyph
	fields []fieldLine
}

// fieldLine is one line of what a field holds.
type fieldLine struct {
	*field
	text string
}

// bandFor finds the line that a box stands on, or begins one.
func bandFor(bands *[]band, b box) *band {
	best, most := -1, sameLine
	for i := range *bands {
		if o := (*bands)[i].box.overlap(b); o >= most {
			best, most = i, o
		}
	}
	if best < 0 {
		*bands = append(*bands, band{box: b})
		return &(*bands)[len(*bands)-1]
	}
	return &(*bands)[best]
}

// cells cuts a line where gaps are wide or a drawn line runs between.
func (p *page) cells(b band) []cell {
	slices.SortStableFunc(b.glyphs, func(x, y glyph) int { return cmp.Compare(x.tight.x0, y.tight.x0) })
	for i := 1; i < len(b.glyphs); i++ {
		if overUnder(b.glyphs[i], b.glyphs[i-1]) {
			b.glyphs[i-1], b.glyphs[i] = b.glyphs[i], b.glyphs[i-1]
		}
	}
	b.glyphs = withoutLeaders(b.glyphs)
	var out []cell
	var last glyph
	for i, g := range b.glyphs {
		gap := g.loose.x0 - last.loose.x1
		switch {
		case i == 0 || gap > columnGap*g.em || g.blank > 1 && gap > spaceGap*g.em || p.ruled(last.tight.x1, g.tight.x0, b.box) || p.fieldBetween(last, g):
			out = append(out, cell{text: string(g.char), box: g.loose, high: g.baseline(), low: g.baseline(), hidden: !g.seen, digits: g.join(nil)})
		default:
			c := &out[len(out)-1]
			switch {
			case overUnder(last, g):
				c.text += "/"
			case gap > spaceGap*g.em || otherSize(last, g):
				c.text += " "
			}
			c.text += string(g.char)
			c.box = c.box.join(g.loose)
			c.high, c.low = min(c.high, g.baseline()), max(c.low, g.baseline())
			c.digits = g.join(c.digits)
			c.hidden = c.hidden || !g.seen && (g.char >= '0' && g.char <= '9')
		}
		last = g
	}
	for _, f := range b.fields {
		c := f.cell(p.number)
		c.text = f.text
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(x, y cell) int { return cmp.Compare(x.box.x0, y.box.x0) })
	return out
}

// withoutLeaders leaves out the lines to write on that are typed as underscores.
func withoutLeaders(glyphs []glyph) []glyph {
	var out []glyph
	for i, g := range glyphs {
		beside := i > 0 && glyphs[i-1].char == '_' || i+1 < len(glyphs) && glyphs[i+1].char == '_'
		if g.char != '_' || !beside {
			out = append(out, g)
		}
	}
	return out
}

// overUnder reports the two figures of a fraction, one above the other.
func overUnder(a, b glyph) bool {
	shared := min(a.tight.x1, b.tight.x1) - max(a.tight.x0, b.tight.x0)
	return isFigure(a.char) && isFigure(b.char) && b.tight.y0 >= a.tight.middle() && 2*shared > min(a.tight.width(), b.tight.width())
}

// otherSize reports figures beside each other that are printed in two sizes:
// those of a fraction, or a mark, are no part of the number before.
func otherSize(a, b glyph) bool {
	return isFigure(a.char) && isFigure(b.char) && min(a.em, b.em) < smallPart*max(a.em, b.em)
}

func isFigure(r rune) bool { return r >= '0' && r <= '9' }
