package photo

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fairtape/parse"
	"fairtape/parse/digits"
)

// freeGlyph is a shape as a piece of a number.
type freeGlyph struct {
	shape
	kind  glyphKind
	digit int
	sure  float64
}

type glyphKind int

const (
	glyphDigit glyphKind = iota
	glyphPoint
	glyphSlash
	glyphOther
)

// freeCell is a number of a free table.
type freeCell struct {
	text   string // "" for an empty cell
	sure   float64
	bounds box
}

func (c freeCell) value() (float64, bool) {
	a, fault := parse.ParseLength(c.text)
	return a.Number, c.text != "" && !fault.Some()
}

const (
	mostRead = 400 // shapes that are read; a page with more is a page of text
	// lettersOnly is the share of a row's signs under which digits make no
	// numbers of it.
	lettersOnly = 0.6
)

// numbers reads the rows of the page that hold numbers, each sign by itself.
func (r *Reader) numbers(f *freePage) [][]freeGlyph {
	usual := f.usualWidth()
	signs := 0
	for _, s := range f.shapes {
		if f.isSign(s, usual) {
			signs++
		}
	}
	if signs > mostRead {
		return nil
	}
	var rows [][]freeGlyph
	for _, line := range f.lines() {
		// Most lines of a page of text are seen to be none of numbers at a glance.
		if _, ok := rowOf(f, line, usual, r.digits.Glance); !ok {
			continue
		}
		if row, ok := rowOf(f, line, usual, r.digits.Read); ok {
			rows = append(rows, row)
		}
	}
	return rows
}

// look is a way to read one shape.
type look func(*digits.Box) digits.Distribution

// rowOf reads the shapes of a line; ok is false where they are no row of numbers.
func rowOf(f *freePage, line []shape, usual float64, see look) (row []freeGlyph, ok bool) {
	figures, signs := 0, 0
	for _, s := range line {
		g := freeGlyph{shape: s, kind: glyphOther}
		switch {
		case f.isSign(s, usual):
			signs++
			if parts := parted(f, s, usual, see); len(parts) > 0 {
				row = append(row, parts...)
				figures += len(parts)
				continue
			}
			if g = glyph(f, s, see); g.kind == glyphDigit {
				figures++
			}
		case f.isPoint(s, line):
			g.kind, g.sure = glyphPoint, 1
		}
		row = append(row, g)
	}
	return row, figures >= 2 && float64(figures) >= lettersOnly*float64(signs)
}

// isSign reports a shape that may be a digit, or some that touch.
func (f *freePage) isSign(s shape, usual float64) bool { return f.isGlyph(s) || f.isRun(s, usual) }

// glyph reads a shape by itself.
func glyph(f *freePage, s shape, see look) freeGlyph {
	g := freeGlyph{shape: s, kind: glyphOther}
	if !f.isGlyph(s) {
		return g
	}
	d := see(f.box(s))
	g.digit, g.sure = d.Best()
	if g.sure > max(d.Blank, d.Unreadable, 0.3) {
		g.kind = glyphDigit
	}
	if f.slanted(s) && (g.digit == 1 || g.digit == 7 || g.kind == glyphOther) {
		g.kind = glyphSlash
	}
	return g
}

// usualWidth is that of most signs, in pixels.
func (f *freePage) usualWidth() float64 {
	var widths []float64
	for _, s := range f.shapes {
		if w := s.bounds.width(); f.isGlyph(s) && w > 0.35*f.height {
			widths = append(widths, w)
		}
	}
	if len(widths) == 0 {
		return 0.65 * f.height
	}
	slices.Sort(widths)
	return widths[len(widths)*4/10]
}

// isRun reports a shape that may be two or three digits that touch.
func (f *freePage) isRun(s shape, usual float64) bool {
	b := s.bounds
	return b.height() > 0.55*f.height && b.height() < 1.8*f.height && b.width() > 1.45*usual && b.width() < 3.6*usual
}

// parted reads digits that touch, cut where the least ink is; nil where they
// are not surely such.
func parted(f *freePage, s shape, usual float64, see look) []freeGlyph {
	const (
		sureWhole = 0.9  // no need to cut
		surePart  = 0.85 // of each piece
		lost      = 0.98 // what a cut leaves of the belief in a piece
	)
	if !f.isRun(s, usual) {
		return nil
	}
	if g := glyph(f, s, see); g.kind == glyphSlash || g.kind == glyphDigit && g.sure >= sureWhole {
		return nil
	}
	n := max(2, int(s.bounds.width()/(1.08*usual)+0.5))
	var parts []freeGlyph
	for _, piece := range f.cut(s, n) {
		g := glyph(f, piece, see)
		if g.kind != glyphDigit || g.sure < surePart {
			return nil
		}
		g.sure *= lost
		parts = append(parts, g)
	}
	return parts
}

// cut parts a shape into n from the left, at the columns with the least ink near
// where even parts would end.
func (f *freePage) cut(s shape, n int) []shape {
	w := f.straight.w
	columns := make([]float64, int(s.bounds.width())+1)
	for _, i := range s.pixels {
		columns[i%w-int(s.bounds.x0)] += float64(f.dark[i])
	}
	even := s.bounds.width() / float64(n)
	edges := []int{0}
	for k := 1; k < n; k++ {
		best, at := math.Inf(1), 0
		for x := int((float64(k) - 0.3) * even); x <= int((float64(k)+0.3)*even) && x < len(columns); x++ {
			off := (float64(x) - float64(k)*even) / even
			if v := columns[x] + off*off; v < best {
				best, at = v, x
			}
		}
		edges = append(edges, at)
	}
	edges = append(edges, len(columns)+1)
	pieces := make([]shape, n)
	for k := range pieces {
		pieces[k].bounds = box{math.Inf(1), math.Inf(1), 0, 0}
	}
	for _, i := range s.pixels {
		x, y := i%w, i/w
		for k := range pieces {
			if at := x - int(s.bounds.x0); at >= edges[k] && at < edges[k+1] {
				pieces[k].pixels = append(pieces[k].pixels, i)
				pieces[k].bounds = pieces[k].bounds.union(box{float64(x), float64(y), float64(x + 1), float64(y + 1)})
			}
		}
	}
	return pieces
}

// lines gathers the shapes of each row, from the left.
func (f *freePage) lines() [][]shape {
	var tall []shape
	usual := f.usualWidth()
	for _, s := range f.shapes {
		if f.isGlyph(s) || f.isRun(s, usual) {
			tall = append(tall, s)
		}
	}
	slices.SortFunc(tall, func(a, b shape) int { return int(a.bounds.middle().y - b.bounds.middle().y) })
	var lines [][]shape
	var middles []float64
	for _, s := range tall {
		y := s.bounds.middle().y
		if n := len(lines) - 1; n >= 0 && y-middles[n] < 0.55*f.height {
			lines[n] = append(lines[n], s)
			middles[n] += (y - middles[n]) / float64(len(lines[n]))
			continue
		}
		lines, middles = append(lines, []shape{s}), append(middles, y)
	}
	for _, s := range f.shapes {
		if f.isGlyph(s) || f.isRun(s, usual) {
			continue
		}
		for i, y := range middles {
			if math.Abs(s.bounds.middle().y-y) < 0.8*f.height {
				lines[i] = append(lines[i], s)
				break
			}
		}
	}
	for _, l := range lines {
		slices.SortFunc(l, func(a, b shape) int { return int(a.bounds.middle().x - b.bounds.middle().x) })
	}
	return lines
}

// isPoint reports a decimal point or comma: small, round, and at the foot of the
// signs beside it.
func (f *freePage) isPoint(s shape, line []shape) bool {
	b := s.bounds
	if b.width() > 0.38*f.height || b.height() > 0.5*f.height || b.width() > 2.2*b.height() {
		return false
	}
	for _, o := range line {
		ob := o.bounds
		if f.isGlyph(o) && math.Abs(ob.middle().x-b.middle().x) < 1.5*f.height {
			return b.middle().y > ob.y0+0.62*ob.height() && b.y0 > ob.y0+0.45*ob.height()
		}
	}
	return false
}

// slanted reports a straight stroke that leans as the line of a fraction does:
// its upper end right of its lower one, and nothing beside it.
func (f *freePage) slanted(s shape) bool {
	b := s.bounds
	if b.width() < 0.22*b.height() || b.height() < 0.6*f.height {
		return false
	}
	w := f.straight.w
	thick := 0.0
	var along, off float64
	for _, i := range s.pixels {
		x, y := float64(i%w)+0.5, float64(i/w)+0.5
		on := b.x1 - (y-b.y0)/b.height()*b.width() // of the diagonal
		off = max(off, math.Abs(x-on))
		along++
	}
	thick = along / b.height()
	return off < 0.75*thick+0.06*f.height
}

// columnsOf lays the rows into columns, which the gaps that go through all rows
// part.
func columnsOf(rows [][]freeGlyph, height float64) [][]freeCell {
	if len(rows) < fewestRows {
		return nil
	}
	x1 := 0.0
	for _, row := range rows {
		for _, g := range row {
			x1 = max(x1, g.bounds.x1)
		}
	}
	covered := make([]int, int(x1)+2)
	for _, row := range rows {
		for _, g := range row {
			if g.kind == glyphOther && (g.bounds.height() < 0.5*height || remains(g.bounds, height)) {
				continue // specks and pieces of lines
			}
			for x := int(g.bounds.x0); x <= int(g.bounds.x1); x++ {
				covered[x]++
			}
		}
	}
	const gap = 0.6 // of a digit's height
	var edges []float64
	start, last := -1, -1
	for x, n := range covered {
		if n == 0 {
			continue
		}
		if last >= 0 && float64(x-last) > gap*height {
			edges = append(edges, float64(x+last)/2)
		}
		if start < 0 {
			start = x
		}
		last = x
	}
	edges = append(edges, math.Inf(1))
	var cells [][]freeCell
	for _, row := range rows {
		line := make([]freeCell, len(edges))
		for j := range edges {
			var glyphs []freeGlyph
			for _, g := range row {
				x := g.bounds.middle().x
				if x < edges[j] && (j == 0 || x >= edges[j-1]) {
					glyphs = append(glyphs, g)
				}
			}
			line[j] = cellOf(glyphs, height)
		}
		cells = append(cells, line)
	}
	return cells
}

// touching is what is left of the belief in a number beside signs that are none.
const touching = 0.5

// cellOf puts the signs of a cell together.
func cellOf(glyphs []freeGlyph, height float64) freeCell {
	c := freeCell{sure: 1}
	var text strings.Builder
	tall := 0
	for i, g := range glyphs {
		if g.kind == glyphOther && (remains(g.bounds, height) || g.bounds.height() < 0.3*height && len(g.pixels) < int(height*height/40)) {
			continue // a speck, or a piece of a line
		}
		if c.bounds == (box{}) {
			c.bounds = g.bounds
		}
		c.bounds = c.bounds.union(g.bounds)
		switch g.kind {
		case glyphDigit:
			if half(glyphs, i) {
				text.WriteByte(' ')
			}
			text.WriteString(strconv.Itoa(g.digit))
			c.sure *= g.sure
			tall++
		case glyphPoint:
			if text.Len() > 0 {
				text.WriteByte('.')
			}
		case glyphSlash:
			if i > 0 && half(glyphs, i-1) {
				text.WriteByte('/')
				break
			}
			text.WriteByte('1')
			c.sure *= min(g.sure, touching)
		default:
			c.sure *= touching
			if tall == 0 && g.bounds.height() < 0.5*height {
				continue
			}
			text.WriteByte('?')
		}
	}
	c.text = strings.TrimSuffix(text.String(), ".")
	if strings.Contains(c.text, "?") {
		c.text = strings.ReplaceAll(c.text, "?", "")
		c.sure = min(c.sure, touching)
	}
	if c.text != "" {
		c.sure = c.sure / (c.sure + strangeHand*(1-c.sure))
	}
	if tall > 4 && !strings.Contains(c.text, "/") {
		c.sure = min(c.sure, touching) // no measure of a boat has so many digits
	}
	return c
}

// remains reports what is left of a ruled line: long and thin.
func remains(b box, height float64) bool {
	thin, long := min(b.width(), b.height()), max(b.width(), b.height())
	return thin < 0.18*height && long > 4*thin
}

// half reports that a 1/2 begins at sign i: 1, a slanted stroke, 2, at the end.
func half(glyphs []freeGlyph, i int) bool {
	return i+2 < len(glyphs) && glyphs[i].kind == glyphDigit && glyphs[i].digit == 1 && glyphs[i+1].kind == glyphSlash &&
		glyphs[i+2].kind == glyphDigit && glyphs[i+2].digit == 2
}
