package photo

import (
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/parse/digits"
)

// freeGlyph is a shape as a piece of a number.
type freeGlyph struct {
	shape
	kind  glyphKind
	digit int
	sure  float64
	all   digits.Distribution // what else it may be
	// pointed says that a point may stand before it that is too pale to be ink.
	pointed bool
	cutFrom *shape // the ink that it was cut from, of signs that touch
}

// ofCut is what is left of the belief in a sign that was cut off another.
const ofCut = 0.99

type glyphKind int

const (
	glyphDigit glyphKind = iota
	glyphPoint
	glyphSlash
	glyphHalf
	glyphOther
)

// mostRead is how many signs are read; a page with more is a page of text.
const mostRead = 400

// glancesMost is how often the signs of a picture are looked at: those of a table
// 180 times, of one with words around it and seen upside down first some 1200,
// those of pictures of something else thousands.
const glancesMost = 1500

const (
	// leastDigits is the share of plain digits among a table's signs, also of one
	// among words or seen upside down: at least 0.16 in photographs of twenty
	// papers, and 0.12 in a picture of snow.
	leastDigits = 0.15
	// enoughSigns is how many signs tell the share.
	enoughSigns = 150
)

// lines reads the lines of the page at a glance, each sign by itself; ok is false
// where that takes more glances than a table does, or few of the signs are digits.
func (r *Reader) lines(f *freePage, glances *int) (out [][]freeGlyph, ok bool) {
	usual := f.usualWidth()
	see := func(b *digits.Box) digits.Distribution {
		*glances++
		return r.digits.Glance(b)
	}
	signs, plain := 0, 0
	for _, line := range f.lines() {
		if *glances > glancesMost || signs >= enoughSigns && float64(plain) < leastDigits*float64(signs) {
			return nil, false
		}
		read := lineOf(f, line, usual, see)
		for _, g := range read {
			if g.kind != glyphPoint {
				signs++
			}
			if g.isDigit() && g.sure >= parse.Sure {
				plain++
			}
		}
		out = append(out, read)
	}
	return out, true
}

// text reports a page with more signs than a table has.
func (f *freePage) text() bool {
	usual, signs := f.usualWidth(), 0
	for _, s := range f.shapes {
		if f.isSign(s, usual) {
			signs++
		}
	}
	return signs > mostRead
}

// lineOf reads the shapes of a line.
func lineOf(f *freePage, line []shape, usual float64, see look) []freeGlyph {
	var out []freeGlyph
	for i := 0; i < len(line); i++ {
		if n := len(out) - 1; n >= 0 && out[n].isDigit() && line[i].bounds.x0-out[n].bounds.x1 < behind*f.height {
			if signs, n := halfAt(f, line, i, usual, see); n > 0 {
				out = append(out, signs...)
				i += n - 1
				continue
			}
		}
		out = append(out, signsOf(f, line[i], line, usual, see)...)
	}
	for i := 1; i < len(out); i++ {
		out[i].pointed = out[i-1].isDigit() && out[i].isDigit() && f.faintPoint(out[i-1].shape, out[i].shape)
	}
	return out
}

// signsOf reads a shape of a line: one sign, or several that touch.
func signsOf(f *freePage, s shape, line []shape, usual float64, see look) []freeGlyph {
	switch {
	case f.isSign(s, usual):
		if parts := parted(f, s, usual, see); len(parts) > 0 {
			for i := range parts {
				parts[i].cutFrom = &s
			}
			return parts
		}
		return []freeGlyph{glyph(f, s, see)}
	case f.isPoint(s, line):
		return []freeGlyph{{shape: s, kind: glyphPoint, sure: 1}}
	}
	return []freeGlyph{{shape: s, kind: glyphOther}}
}

// faintPoint reports something darker than the paper at the foot between two
// digits, apart from both: a point too pale to be ink.
func (f *freePage) faintPoint(a, b shape) bool {
	const (
		pale     = 0.5  // of what is ink
		stands   = 0.04 // how much darker it is than what lies beside it
		up, down = 0.28, 0.12
	)
	w := f.straight.w
	foot := min(a.bounds.y1, b.bounds.y1)
	at := func(x, y int) float32 { // of three by three pixels
		sum := float32(0)
		for _, i := range around(y*w+x, w) {
			sum += f.dark[i]
		}
		return (sum + f.dark[y*w+x]) / 9
	}
	for y := max(int(foot-up*f.height), 1); y < min(int(foot+down*f.height), f.straight.h-1); y++ {
		for x := max(int(a.bounds.x1), 3); x < min(int(b.bounds.x0), w-3); x++ {
			if v := at(x, y); v > pale*f.noise && v > at(x-2, y)+stands && v > at(x+2, y)+stands {
				return true
			}
		}
	}
	return false
}

// isSign reports a shape that may be a digit, or some that touch.
func (f *freePage) isSign(s shape, usual float64) bool { return f.isGlyph(s) || f.isRun(s, usual) }

// glyph reads a shape by itself.
func glyph(f *freePage, s shape, see look) freeGlyph {
	g := freeGlyph{shape: s, kind: glyphOther}
	if !f.isGlyph(s) {
		return g
	}
	g.all = inked(see(f.box(s)))
	g.digit, g.sure = g.all.Best()
	if s.cut {
		g.sure *= ofCut
	}
	if g.sure > max(g.all.Blank, g.all.Unreadable, 0.3) {
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
