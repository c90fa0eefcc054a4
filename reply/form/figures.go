package form

import (
	"math"
	"strings"

	"fairtape/parse"
)

// The drawings. All are of lines, in one place each, with the words of the form
// beside what they name.

type point struct{ x, y float64 }

// curve is a cubic Bézier curve.
type curve [4]point

// at is the point of the curve at t, from 0 to 1.
func (c curve) at(t float64) point {
	u := 1 - t
	w := [4]float64{u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t}
	var p point
	for i, q := range c {
		p.x += w[i] * q.x
		p.y += w[i] * q.y
	}
	return p
}

func (p *painter) curve(c curve) {
	p.pdf.CurveBezierCubic(c[0].x, c[0].y, c[1].x, c[1].y, c[2].x, c[2].y, c[3].x, c[3].y, "D")
}

func (p *painter) stretch(a, b point) { p.pdf.Line(a.x, a.y, b.x, b.y) }

// arrow draws a line with a head at b, and one at a too when both is set.
func (p *painter) arrow(a, b point, both bool) {
	const long, wide = 2.2, 0.75
	length := math.Hypot(b.x-a.x, b.y-a.y)
	dx, dy := (b.x-a.x)/length, (b.y-a.y)/length
	p.stretch(a, b)
	p.stretch(b, point{b.x - long*dx - wide*dy, b.y - long*dy + wide*dx})
	p.stretch(b, point{b.x - long*dx + wide*dy, b.y - long*dy - wide*dx})
	if both {
		p.stretch(a, point{a.x + long*dx - wide*dy, a.y + long*dy + wide*dx})
		p.stretch(a, point{a.x + long*dx + wide*dy, a.y + long*dy - wide*dx})
	}
}

// alongTheBoat draws the boat from above, with the string and its marks, and
// from the side, with the straight edge and the heights.
func (p *painter) alongTheBoat(x, y, width float64) {
	bow, stern := x+4, x+width-4
	p.fromAbove(bow, stern, y+11.5)
	p.fromTheSide(bow, stern, y+24)
}

// fromAbove has its middle line at y.
func (p *painter) fromAbove(bow, stern, y float64) {
	const half = 6.2
	long := stern - bow
	side := func(sign float64) curve {
		return curve{{bow, y}, {bow + 0.28*long, y + sign*half*1.34}, {stern - 0.28*long, y + sign*half*1.34}, {stern, y}}
	}
	p.stroke(black, 0.5)
	p.curve(side(-1))
	p.curve(side(1))

	// The marks, squared: they cross at the same distance on both sides.
	p.stroke(black, drawn)
	const marks = 9
	for i := 1; i <= marks; i++ {
		at := bow + long*float64(i)/(marks+1)
		edge := y - heightAt(side(-1), at)
		p.stretch(point{at, y - edge}, point{at, y + edge})
		if i == 4 {
			p.stretch(point{at, y - 1.8}, point{at + 1.8, y - 1.8}) // the square
			p.stretch(point{at + 1.8, y - 1.8}, point{at + 1.8, y})
		}
	}
	p.stroke(black, heavy)
	p.stretch(point{bow - 3, y}, point{stern + 3, y})
	p.stroke(black, drawn)
	p.line(p.words.string, bow+6, y-half-1.6, left)
	p.line(p.words.squared, stern-6, y-half-1.6, right)
}

// heightAt is y of a curve that runs from left to right, at x.
func heightAt(c curve, x float64) float64 {
	low, high := 0.0, 1.0
	for range 40 {
		middle := (low + high) / 2
		if c.at(middle).x < x {
			low = middle
		} else {
			high = middle
		}
	}
	return c.at(low).y
}

// fromTheSide has the highest point of the bow at y.
func (p *painter) fromTheSide(bow, stern, y float64) {
	const depth, rocker = 13.5, 1.0
	long := stern - bow
	bottom := y + depth
	sheer := curve{{bow + 2, y}, {bow + 0.25*long, y + 6.6}, {stern - 0.3*long, y + 6.6}, {stern - 2, y + 1.4}}
	stem := curve{{bow + 2, y}, {bow - 2.5, y + 4}, {bow + 1, bottom - rocker}, {bow + 13, bottom - rocker}}
	keel := curve{{bow + 13, bottom - rocker}, {bow + 0.3*long, bottom + 0.35}, {stern - 0.3*long, bottom + 0.35}, {stern - 12, bottom - rocker}}
	after := curve{{stern - 12, bottom - rocker}, {stern - 1, bottom - rocker}, {stern + 2, y + 5}, {stern - 2, y + 1.4}}
	p.stroke(black, 0.5)
	for _, c := range []curve{sheer, stem, keel, after} {
		p.curve(c)
	}

	// The straight edge lies along the bottom amidships and reaches the end.
	p.stroke(black, drawn)
	edge := bottom + 0.3
	p.pdf.Rect(bow-3.5, edge, 0.62*long, 1.5, "D")
	p.arrow(point{bow - 2, edge}, point{bow - 2, y}, true)
	p.dashed(point{bow - 3.2, y}, point{bow + 1.2, y})
	p.dashed(point{stern - 12, edge}, point{stern + 3.4, edge})
	p.arrow(point{stern + 2, edge}, point{stern + 2, y + 1.4}, true)
	p.dashed(point{stern - 1.4, y + 1.4}, point{stern + 3.4, y + 1.4})
	p.line(p.words.names[parse.BowHeight], bow+7, bottom-3.6, left)
	p.line(p.words.names[parse.SternHeight], stern-5, bottom-3.6, right)

	// The carry point, from the foremost point to the hand.
	hand := bow + 0.3*long
	p.arrow(point{bow + 0.4, y - 1}, point{hand, y - 1}, true)
	p.stretch(point{hand, y - 2.6}, point{hand, heightAt(sheer, hand)})
	p.line(p.words.names[parse.CarryPoint], hand+2.5, y+1, left)
	p.lengthOverall(bow+0.4, stern-0.4, bottom+6)
}

// lengthOverall is the measure under the boat.
func (p *painter) lengthOverall(bow, stern, y float64) {
	name := p.words.names[parse.LengthOverall]
	half := p.pdf.GetStringWidth(name)/2 + 2
	middleX := (bow + stern) / 2
	p.arrow(point{middleX - half, y}, point{bow, y}, false)
	p.arrow(point{middleX + half, y}, point{stern, y}, false)
	p.line(name, middleX, y+capHeight/2, middle)
}

func (p *painter) dashed(a, b point) {
	p.pdf.SetDashPattern([]float64{1, 1}, 0)
	p.stretch(a, b)
	p.pdf.SetDashPattern(nil, 0)
}

// aroundTheBoat draws the two girths on a section of the boat, one beside the
// other. The tape is the heavy line.
func (p *painter) aroundTheBoat(x, y, width float64) {
	half := width/4 - 3.4
	for i, m := range []parse.Measure{parse.HullGirth, parse.FullGirth} {
		centre := x + width*(0.25+0.5*float64(i))
		p.section(centre, y+14, half, m)
		p.caption(p.words.girthColumn(m), centre, y+39, width/2)
	}
}

// caption writes a name under a drawing, in two lines where it is too wide for
// one.
func (p *painter) caption(name string, centre, y, width float64) {
	for i, words := range p.wrap("*"+name+"*", width-2) {
		line := ""
		for _, w := range words {
			line = strings.TrimSpace(line + " " + w.text)
		}
		p.bold()
		p.line(line, centre, y+float64(i)*leading, middle)
	}
	p.body()
}

// section draws a cross-section with its gunwales at y. Its sides are hollow
// under the gunwales, where the tape goes straight.
func (p *painter) section(x, y, half float64, m parse.Measure) {
	const depth, hollow, flare = 16.0, 8.5, 1.0
	const off = 1.4 // the tape keeps off the hull, so that both lines are seen
	for _, sign := range []float64{-1, 1} {
		at := func(dx, dy float64) point { return point{x + sign*dx, y + dy} }
		p.stroke(black, drawn)
		p.curve(curve{at(half, 0), at(half-2.8, 3), at(half-2.6, 5.5), at(half-flare, hollow)})
		p.curve(curve{at(half-flare, hollow), at(half-0.4, 13), at(half*0.6, depth), at(0, depth)})
		p.pdf.Circle(x+sign*half, y+0.3, 0.9, "D")

		p.stroke(black, heavy)
		p.stretch(at(half+off, 0), at(half-flare+off, hollow))
		p.curve(curve{at(half-flare+off, hollow), at(half-0.2+off, 14.2), at(half*0.65, depth+off), at(0, depth+off)})
		if m == parse.FullGirth {
			p.curve(curve{at(half+off, 0), at(half+off, -1.1), at(half+0.6, -off), at(half-0.6, -off)})
		} else {
			p.stretch(at(half+off-1.1, -0.1), at(half+off+1.3, -0.1)) // where the tape begins and ends
		}
	}
	if m == parse.FullGirth {
		p.stroke(black, heavy)
		p.stretch(point{x - half + 0.6, y - off}, point{x + half - 0.6, y - off})
	}
	p.stroke(black, drawn)
}

// figures writes a one and a seven as by hand, on the baseline y.
func (p *painter) figures(x, y float64) {
	const height = 5.0
	p.stroke(black, 0.6)
	p.stretch(point{x + 1.3, y - height}, point{x + 1, y})
	p.curve(curve{{x + 6, y - height}, {x + 7.2, y - height + 0.2}, {x + 8.4, y - height + 0.1}, {x + 9.4, y - height}})
	p.curve(curve{{x + 9.4, y - height}, {x + 8.3, y - 3.3}, {x + 7.6, y - 1.7}, {x + 7.3, y}})
	p.stroke(black, drawn)
}
