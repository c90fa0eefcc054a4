package pdf

import (
	"image"
	"math"

	"fairtape/parse/digits"
)

const (
	// drawnSurely is the probability from which a drawn digit that is not the
	// one in the text counts against it. Of 3,900 digits in 30 fonts at 7, 9 and
	// 12 points two were taken for others, both in a font made to look written.
	drawnSurely = 0.9
	// drawnSide is how large a digit is drawn for the reader, in its pixels: a
	// digit of a form, 6 mm high.
	drawnSide = 24
)

// looker looks at digits as they are drawn: a font may show 3 for what it calls
// 8, and both readers of the text believe it.
type looker struct {
	reader *digits.Reader
	honest map[outline]int // how often surely seen to be what they say they are
}

// otherwise reports that one of the digits of a page is drawn as another.
func (l *looker) otherwise(page int, digits []glyph) bool {
	for _, g := range digits {
		o := g.outline(page)
		if l.honest[o] >= looksMost {
			continue
		}
		best, probability := l.reader.Read(g.ink).Best()
		switch {
		case probability < drawnSurely: // it says nothing of the others
		case best == int(g.char-'0'):
			l.honest[o]++
		default:
			return true
		}
	}
	return false
}

// looksMost is how often an outline of a digit is surely seen to be that digit on
// a page, until no more is looked at: what a font draws once it draws again.
const looksMost = 3

// outline tells the digits of a page that one font draws alike: by their size and
// that of their ink, in fiftieths of a point.
type outline struct {
	page              int
	char              rune
	em, width, height int
}

func (g *glyph) outline(page int) outline {
	const fine = 50
	part := func(points float64) int { return int(math.Round(points * fine)) }
	return outline{page, g.char, part(g.em), part(g.tight.width()), part(g.tight.height())}
}

// join adds a digit that can be held against its drawing to others.
func (g *glyph) join(digits []glyph) []glyph {
	if g.ink == nil {
		return digits
	}
	return append(digits, *g)
}

// lookedAt reports a digit whose drawing can be held against it.
func (g *glyph) lookedAt() bool { return g.seen && isFigure(g.char) && math.Abs(g.angle) <= level }

// level is how far a line may turn, in radians, whose digits are looked at.
const level = 0.05

// drawing is the ink of one glyph, brought to the size of a digit on a form.
func drawing(with, without *image.Gray, b box, scale float64) *digits.Box {
	var out digits.Box
	x0, y0, w, h := b.x0*scale, b.y0*scale, b.width()*scale, b.height()*scale
	if w <= 0 || h <= 0 {
		return &out
	}
	size := max(w, h)
	for y := range digits.Height {
		for x := range digits.Width {
			u := (float64(x)+0.5-digits.Width/2)/drawnSide*size + w/2
			v := (float64(y)+0.5-digits.Height/2)/drawnSide*size + h/2
			if u < -1 || v < -1 || u > w+1 || v > h+1 {
				continue
			}
			out[y*digits.Width+x] = inkAt(with, without, x0+u, y0+v)
		}
	}
	return &out
}

// inkAt is how much darker or lighter the text makes the page at a point, from
// 0 to 1, between pixels in proportion.
func inkAt(with, without *image.Gray, x, y float64) float32 {
	x, y = x-0.5, y-0.5
	i, j := int(math.Floor(x)), int(math.Floor(y))
	fx, fy := x-float64(i), y-float64(j)
	at := func(i, j int) float64 {
		if !(image.Point{i, j}).In(with.Rect) || !(image.Point{i, j}).In(without.Rect) {
			return 0
		}
		return math.Abs(float64(with.GrayAt(i, j).Y)-float64(without.GrayAt(i, j).Y)) / 255
	}
	return float32((1-fy)*((1-fx)*at(i, j)+fx*at(i+1, j)) + fy*((1-fx)*at(i, j+1)+fx*at(i+1, j+1)))
}
