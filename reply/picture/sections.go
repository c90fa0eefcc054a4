package picture

import (
	"math"
	"slices"

	"fairtape/parse"
)

// dimensions draws the asked measures of the whole boat as a draughtsman does:
// lines with arrows at both ends.
func (d *drawing) dimensions(asked []parse.Cell) {
	b := d.boat
	base := bottomY + 22.0
	for _, c := range asked {
		switch c.Measure {
		case parse.LengthOverall:
			d.between(point{d.x(0), base + 12}, point{d.x(b.length), base + 12})
			d.extend(d.x(0), d.y(b.bow), base+24)
			d.extend(d.x(b.length), d.y(b.stern), base+24)
		case parse.BowHeight:
			d.height(d.x(0)-54, d.x(0), b.bow)
		case parse.SternHeight:
			d.height(d.x(b.length)+54, d.x(b.length), b.stern)
		case parse.CarryPoint:
			at := b.carry
			if at == 0 {
				at = b.length * 0.1
			}
			y := d.y(b.bow) - 22
			d.between(point{d.x(0), y}, point{d.x(at), y})
			d.extend(d.x(at), y, d.y(b.sheer(at/b.length)))
		}
	}
}

// height draws an end's height from the straight edge along the bottom.
func (d *drawing) height(x, end, inches float64) {
	d.line(end, d.y(inches), x, d.y(inches), 2, grey)
	d.stroke(2, grey, nil, point{x, bottomY}, point{mailWidth / 2, bottomY})
	d.between(point{x, bottomY}, point{x, d.y(inches)})
	d.ring(x, (bottomY+d.y(inches))/2, 30, inches*d.scale/2+26, 5, vermilion)
}

func (d *drawing) extend(x, from, to float64) { d.stroke(1.5, grey, nil, point{x, from}, point{x, to}) }

func (d *drawing) between(from, to point) {
	middle := point{(from.x + to.x) / 2, (from.y + to.y) / 2}
	d.arrow(middle, from, 6, vermilion)
	d.arrow(middle, to, 6, vermilion)
}

// ends names bow and stern.
func (d *drawing) ends() error {
	if err := d.typeface(regular, wordSize); err != nil {
		return err
	}
	y := bottomY + 88
	d.write(d.say.bow, boatLeft-30, y, 0, ink)
	d.write(d.say.stern, boatRight+30, y, 1, ink)
	return nil
}

// which girths are asked, for the two cross-sections.
type girths struct{ hull, full bool }

func askedGirths(asked []parse.Cell) girths {
	var g girths
	for _, c := range asked {
		switch c.Measure {
		case parse.HullGirth, parse.GreatestHullGirth, parse.TransomHullGirth:
			g.hull = true
		case parse.FullGirth, parse.GreatestFullGirth, parse.TransomFullGirth:
			g.full = true
		case parse.MeasurePair, parse.GreatestPair, parse.TransomPair:
			g.hull, g.full = true, true
		}
	}
	return g
}

// sections draws how the tape goes round the boat, seen from the end.
func (d *drawing) sections(g girths) {
	var shown []bool // full girth or not
	if g.hull {
		shown = append(shown, false)
	}
	if g.full {
		shown = append(shown, true)
	}
	for i, full := range shown {
		middle := mailWidth * (float64(i) + 0.5) / float64(len(shown))
		d.section(middle-150, 700, full)
	}
}

// section draws one cross-section with the tape round it and words beside it.
func (d *drawing) section(x, y float64, full bool) {
	const halfWidth, depth = 112.0, 116.0
	shape := func(grow float64) []point {
		var points []point
		for i := range 61 {
			a := math.Pi * float64(i) / 60
			c, s := math.Cos(a), math.Sin(a)
			// Between an ellipse and a box, as a boat's section is.
			px := math.Copysign(math.Pow(math.Abs(c), 0.62), c)
			py := math.Pow(s, 0.72)
			points = append(points, point{x - (halfWidth+grow)*px, y - 20 + (depth+grow)*py})
		}
		return points
	}
	section := shape(0)
	d.stroke(5, ink, nil, section...)
	crown := 0.0
	if d.boat.decked {
		crown = 26
		d.stroke(5, ink, nil, arch(section[len(section)-1], section[0], crown)...)
	} else {
		d.dot(section[0].x+4, section[0].y, 8, ink)
		d.dot(section[len(section)-1].x-4, section[0].y, 8, ink)
	}
	tape := shape(13)
	first, last := tape[0], tape[len(tape)-1]
	first.y, last.y = first.y-13, last.y-13
	tape = slices.Concat([]point{first}, tape, []point{last})
	if full {
		tape = slices.Concat(tape, arch(last, first, crown))
	}
	d.stroke(8, vermilion, nil, tape...)
	if !full {
		d.dot(first.x, first.y, 10, vermilion)
		d.dot(last.x, last.y, 10, vermilion)
	}
	lines := d.say.hullGirth
	switch {
	case full && d.boat.decked:
		lines = d.say.overDeck
	case full:
		lines = d.say.fullGirth
	}
	for i, line := range lines {
		d.write(line, x+halfWidth+36, y+8+float64(i)*wordSize*1.25, 0, ink)
	}
}

// arch is a line from one point to another that rises in between.
func arch(from, to point, rise float64) []point {
	const steps = 20
	points := make([]point, steps+1)
	for i := range points {
		t := float64(i) / steps
		points[i] = point{from.x + (to.x-from.x)*t, from.y + (to.y-from.y)*t - rise*4*t*(1-t)}
	}
	return points
}
