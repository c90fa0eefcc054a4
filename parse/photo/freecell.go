package photo

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fairtape/parse"
)

// freeCell is a number of a free table.
type freeCell struct {
	text   string // "" for an empty cell
	sure   float64
	others []reading // what else it may be, likelier ones first
	bounds box
	faint  bool // there may be a point before its last digit that is too pale to be ink
}

// reading is what a cell may say.
type reading struct {
	text        string
	probability float64
}

func (c freeCell) value() (float64, bool) { return valueOf(c.text) }

func valueOf(text string) (float64, bool) {
	a, fault := parse.ParseLength(text)
	return a.Number, text != "" && !fault.Some()
}

const (
	// touching is what is left of the belief in a number beside signs that are none.
	touching = 0.5
	// cutOff is what is left where a half may be lost: the curve cannot tell either,
	// and makes nothing sure that was less than a tenth.
	cutOff = 0.05
	// mostDigits is how many digits no measure of a boat has before its point.
	mostDigits = 4
)

// cellOf puts the signs of a cell together.
func cellOf(glyphs []freeGlyph) freeCell {
	c := freeCell{sure: 1}
	if len(glyphs) == 0 {
		return c
	}
	glyphs = withoutMark(glyphs)
	whole, fraction := withoutFraction(glyphs)
	c.bounds = glyphs[0].bounds
	for _, g := range glyphs {
		c.bounds = c.bounds.union(g.bounds)
	}
	var signs []byte
	var digits []freeGlyph
	var places []int // of the digits among the signs
	for _, g := range whole {
		switch {
		case g.isDigit():
			places, digits = append(places, len(signs)), append(digits, g)
			signs = append(signs, byte('0'+g.digit))
			c.sure *= g.sure
		case g.kind == glyphPoint:
			if len(signs) > 0 {
				signs = append(signs, '.')
			}
		default:
			c.sure *= touching
		}
	}
	c.faint = len(digits) > 0 && digits[len(digits)-1].pointed
	tail := ""
	if fraction != nil {
		var sure float64
		tail, sure = fractionOf(fraction)
		c.sure *= sure
	}
	text := func(signs []byte) string {
		return strings.TrimPrefix(strings.TrimSuffix(string(signs), ".")+tail, " ")
	}
	c.text = text(signs)
	for k, g := range digits {
		for d, p := range g.all.Digit {
			if d == g.digit || g.sure <= 0 {
				continue
			}
			other := slices.Clone(signs)
			other[places[k]] = byte('0' + d)
			c.others = append(c.others, reading{text(other), c.sure / g.sure * (p + g.all.Unreadable/10)})
		}
	}
	slices.SortFunc(c.others, func(a, b reading) int { return cmp.Compare(b.probability, a.probability) })
	c.weaken()
	return c
}

// marked reports a small mark between the digits of a cell that is no point: of
// feet, or a dash. What stands after them, as the mark of inches does, is harmless.
func (c freeCell) marked(row []freeGlyph, height float64) bool {
	const (
		least = 1.0 / 100 // of a digit's height squared
		lower = 0.75      // of the cell's height, from which it may be a point
	)
	return c.text != "" && slices.ContainsFunc(row, func(g freeGlyph) bool {
		at := g.bounds.middle()
		return g.kind == glyphOther && g.speck(height) && float64(len(g.pixels)) > least*height*height &&
			at.x > c.bounds.x0 && g.bounds.x1 < c.bounds.x1 && at.y > c.bounds.y0 && at.y < c.bounds.y0+lower*c.bounds.height()
	})
}

// freeHand is what strangeHand is on other papers, where no box says what a sign
// belongs to. With strangeHand, of 3,132 numbers written on such 9 were sure and
// wrong, most of them but just sure.
const freeHand = 2 * strangeHand

// weaken takes the readings of a strange hand for less sure than the number
// reader does.
func (c *freeCell) weaken() {
	if c.text == "" {
		return
	}
	total := c.sure + freeHand*(1-c.sure)
	c.sure /= total
	for i := range c.others {
		c.others[i].probability *= freeHand / total
	}
	c.others = c.others[:min(len(c.others), alternativesMost)]
}

// doubt leaves at most so much of the belief in a cell.
func (c *freeCell) doubt(most float64) { c.sure = min(c.sure, most) }

// withoutMark leaves out the mark of inches or feet behind a number: small, and
// not on the foot of the digits before it.
func withoutMark(glyphs []freeGlyph) []freeGlyph {
	const small, raised = 0.6, 0.65 // of the height of the first digit
	n := len(glyphs)
	if n < 2 || !glyphs[0].isDigit() {
		return glyphs
	}
	first, last := glyphs[0].bounds, glyphs[n-1].bounds
	if last.height() < small*first.height() && last.y1 < first.y0+raised*first.height() {
		return withoutMark(glyphs[:n-1])
	}
	return glyphs
}

// withoutFraction parts a fraction at the end, as a tape has it, from the signs
// before it. No measure has so many digits that a digit, some stroke and another
// could be three of them.
func withoutFraction(glyphs []freeGlyph) (whole, fraction []freeGlyph) {
	n := len(glyphs)
	if n > 1 && glyphs[n-1].kind == glyphHalf {
		return glyphs[:n-1], glyphs[n-1:]
	}
	if n < 4 {
		return glyphs, nil // no girth is but a fraction
	}
	over, stroke, under := glyphs[n-3], glyphs[n-2], glyphs[n-1]
	pointed := slices.ContainsFunc(glyphs, func(g freeGlyph) bool { return g.kind == glyphPoint })
	if stroke.kind != glyphSlash && (!stroke.upright() || pointed) || under.kind != glyphDigit {
		return glyphs, nil
	}
	const plainLength = 5 // signs: two digits and a fraction
	switch {
	case under.digit == 2 && over.upright():
	case (under.digit == 4 || under.digit == 8) && over.isDigit() && over.digit%2 == 1 && over.digit < under.digit && n >= plainLength:
	default:
		return glyphs, nil
	}
	return glyphs[:n-3], glyphs[n-3:]
}

// fractionOf is what a fraction says, behind a space, and how surely.
func fractionOf(signs []freeGlyph) (text string, sure float64) {
	last := signs[len(signs)-1]
	if len(signs) == 1 || last.digit == 2 {
		return " 1/2", last.sure
	}
	return fmt.Sprintf(" %d/%d", signs[0].digit, last.digit), signs[0].sure * last.sure
}

// isDigit reports a digit, such as a 1 that leans.
func (g freeGlyph) isDigit() bool {
	return g.kind == glyphDigit || g.kind == glyphSlash && g.sure > likely
}

// upright reports a sign that is one stroke, or reads like one.
func (g freeGlyph) upright() bool {
	return g.kind == glyphSlash || g.kind == glyphOther && g.bounds.width() < 0.7*g.bounds.height() || g.kind == glyphDigit && (g.digit == 1 || g.digit == 7)
}

// speck reports a sign too small to be a part of a number, or a piece of a line.
func (g freeGlyph) speck(height float64) bool {
	b := g.bounds
	thin, long := min(b.width(), b.height()), max(b.width(), b.height())
	return g.kind != glyphDigit && g.kind != glyphSlash && g.kind != glyphHalf &&
		(long < 0.45*height || thin < 0.18*height && long > 4*thin || long > 1.6*height && long > 4*thin)
}

// putPoints puts the points in that were too faint to be seen: 505 between 49
// and 52 is 50.5. A column in which all numbers could be such is left as it is
// and doubted, and so is a lone number without its point: the customer may have
// lost it.
func putPoints(cells [][]freeCell, stations int) {
	const usual = 3 // points that are not seen: the pen or the picture, no slip
	var faint []*freeCell
	for j := range cells[0] {
		if j == stations {
			continue
		}
		var path []*freeCell
		plain := 0
		for i := range cells {
			c := &cells[i][j]
			if _, ok := c.value(); !ok || c.sure == 0 {
				continue
			}
			path = append(path, c)
			if _, may := c.pointed(); !may {
				plain++
			}
		}
		for k, to := range smoothest(path) {
			switch _, may := path[k].pointed(); {
			case may && plain < 2:
				path[k].doubt(touching)
			case to:
				path[k].putPoint()
				faint = append(faint, path[k])
			}
		}
	}
	for _, c := range faint {
		if !c.faint && len(faint) < usual {
			c.doubt(touching) // it may have been left out
		}
	}
}

// pointed is a number with its last digit, a half, behind a point.
func (c freeCell) pointed() (string, bool) {
	n := len(c.text)
	if n < 3 || c.text[n-1] != '5' || strings.ContainsAny(c.text, "./ ") {
		return "", false
	}
	return c.text[:n-1] + "." + c.text[n-1:], true
}

func (c *freeCell) putPoint() {
	c.text, _ = c.pointed()
	c.others = slices.DeleteFunc(slices.Clone(c.others), func(o reading) bool { return len(o.text) < 3 })
	for i, o := range c.others {
		c.others[i].text = o.text[:len(o.text)-1] + "." + o.text[len(o.text)-1:]
	}
}

// smoothest says which numbers of a column have a point that was not seen, as
// it runs smoothest.
func smoothest(path []*freeCell) []bool {
	type way struct {
		cost float64
		from int
	}
	ways := make([][2]way, len(path))
	at := func(k, pointed int) float64 {
		v, _ := path[k].value()
		if pointed == 1 {
			v /= 10
		}
		return math.Log(max(v, 0.1))
	}
	for k, c := range path {
		_, may := c.pointed()
		for p := range 2 {
			ways[k][p].cost = float64(p) * 1e-3 // as it stands, where nothing speaks against it
			if p == 1 && !may {
				ways[k][p].cost = math.Inf(1)
			}
			if k == 0 {
				continue
			}
			best := [2]float64{}
			for q := range 2 {
				best[q] = ways[k-1][q].cost + math.Abs(at(k, p)-at(k-1, q))
			}
			if best[1] < best[0] {
				ways[k][p].from = 1
			}
			ways[k][p].cost += min(best[0], best[1])
		}
	}
	out := make([]bool, len(path))
	p := 0
	if n := len(path) - 1; n >= 0 && ways[n][1].cost < ways[n][0].cost {
		p = 1
	}
	for k := len(path) - 1; k >= 0; k-- {
		out[k] = p == 1
		p = ways[k][p].from
	}
	return out
}
