package sheet

import (
	"math"
	"strconv"

	"fairtape/parse"
	"fairtape/reply/cover"
)

func in(l parse.Length) float64 { return l.In(parse.Inch) }

// clean200 cleans a sentence of our own that may quote a text from outside.
func clean200(text string) string {
	var out string
	for len(text) > 0 {
		r := []rune(text)
		n := min(len(r), longestText-1)
		out += keepSpace(string(r[:n]))
		text = string(r[n:])
	}
	return out
}

func keepSpace(text string) string {
	c := clean(text)
	if text != "" && text[len(text)-1] == ' ' {
		c += " "
	}
	if text != "" && text[0] == ' ' {
		c = " " + c
	}
	return c
}

// chart maps inches of the boat and of girth to the page.
type chart struct {
	x, y, w, h   float64 // of the frame, mm
	length, most float64 // inches
}

func (c chart) at(x, girth float64) (float64, float64) {
	return c.x + c.w*x/c.length, c.y + c.h*(1-girth/c.most)
}

// curve draws both girths along the boat: readings as dots, the curve as a line.
func (p *pen) curve(x, y, w, h float64) {
	s := p.sheet
	most := 0.0
	for i := range s.Hull.X {
		most = math.Max(most, s.Hull.Full(i))
	}
	for _, r := range s.Rows {
		most = math.Max(most, math.Max(r.Read[0], r.Read[1]))
	}
	step := 20.0
	per := 1.0
	if s.Unit == parse.Centimetre {
		step, per = 50/2.54, 2.54
	}
	c := chart{x: x + 9, y: y, w: w - 12, h: h - 6, length: s.Hull.Length(), most: math.Ceil(most*1.04/step) * step}
	for g := 0.0; g <= c.most+1e-9; g += step {
		_, gy := c.at(0, g)
		p.line(c.x, gy, c.x+c.w, gy, 0.1, pale())
		p.right(c.x-1.2, gy+1, sizeSmall-1, regular, grey(), strconv.FormatFloat(math.Round(g*per), 'f', -1, 64))
	}
	for i, r := range s.Rows {
		gx, gy := c.at(r.At, 0)
		p.line(gx, gy, gx, gy+1, 0.15, grey())
		if i%every(len(s.Rows)) == 0 {
			p.centre(gx, gy+3.8, sizeSmall-1, regular, grey(), s.Station(r.At))
		}
	}
	for k, girth := range []func(i int) float64{func(i int) float64 { return s.Hull.Girth[i] }, s.Hull.Full} {
		var line []Point
		for i, at := range s.Hull.X {
			px, py := c.at(at, girth(i))
			line = append(line, Point{X: px, Y: py})
		}
		p.path(line, false, 0.35, []colour{blue(), ink()}[k])
		name := []string{"hull girth", "full girth"}[k]
		m := line[len(line)/2]
		p.centre(m.X, m.Y-1.4, sizeSmall, bold, []colour{blue(), ink()}[k], name)
	}
	for _, r := range s.Rows {
		for k := range r.Read {
			if r.Read[k] == 0 {
				continue
			}
			px, py := c.at(r.At, r.Read[k])
			p.dot(px, py, 0.7, []colour{blue(), ink()}[k])
			if math.Abs(r.Read[k]-r.Curve[k]) > cover.FairDiffers {
				p.stroke(0.4, red())
				p.pdf.Circle(px, py, 1.8, "D")
			}
		}
	}
}

// every returns how many stations share one label.
func every(n int) int { return max(1, (n+11)/12) }
