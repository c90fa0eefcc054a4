package picture

import (
	"math"
	"slices"
	"strconv"

	"fairtape/parse"
)

// Sizes in pixels. A mail program shows the picture at half its width, so that
// 32 becomes 16.
const (
	mailWidth  = 1200
	boatLeft   = 90.0
	boatRight  = 1110.0
	stringY    = 160.0 // the string over the boat
	bottomY    = 490.0 // the bottom amidships
	tallest    = 230.0 // of an end
	numberSize = 30.0
	roomySize  = 38.0 // of the numbers where stations lie far apart
	farApart   = 56.0
	wordSize   = 36.0
)

// ForCustomer draws the boat from the side with numbered stations and the
// tape's path at the asked places ringed. It shows no girth, no curve and
// nothing we expect, and is no measure of the boat: heights are enlarged.
// Language is "en" or "fr"; anything else is English.
func ForCustomer(survey parse.Survey, asked []parse.Cell, language string) (Picture, error) {
	height := 610
	insets := askedGirths(asked)
	if insets.hull || insets.full {
		height = 890
	}
	c, err := newCanvas(mailWidth, height)
	if err != nil {
		return Picture{}, err
	}
	d := &drawing{canvas: c, boat: newSide(survey, asked), say: phrases(language), language: language}
	d.scale = tallest / max(d.boat.bow, d.boat.stern)
	size := numberSize
	if d.boat.unit != parse.Centimetre && d.spacing() >= farApart {
		size = roomySize
	}
	if err := c.typeface(regular, size); err != nil {
		return Picture{}, err
	}
	d.hull()
	d.string()
	d.numbers(asked)
	d.tapes(asked)
	d.dimensions(asked)
	if err := d.ends(); err != nil {
		return Picture{}, err
	}
	d.sections(insets)
	return finish(c, d.alt(asked))
}

// drawing is the customer's picture in the making.
type drawing struct {
	*canvas
	boat     side
	scale    float64 // pixels an inch of height
	say      phrasebook
	language string
}

func (d *drawing) x(inches float64) float64 {
	return boatLeft + inches/d.boat.length*(boatRight-boatLeft)
}

func (d *drawing) y(height float64) float64 { return bottomY - height*d.scale }

// edge traces a line of the boat between two shares of its length.
func (d *drawing) edge(height func(float64) float64, from, to float64) []point {
	const steps = 240
	points := make([]point, 0, steps+1)
	for i := range steps + 1 {
		// Close steps at the ends, where the stems turn.
		t := from + (to-from)*(1-math.Cos(math.Pi*float64(i)/steps))/2
		points = append(points, point{d.x(t * d.boat.length), d.y(height(t))})
	}
	return points
}

// hull draws the boat: outline, planks, deck, carry thwart.
func (d *drawing) hull() {
	b := d.boat
	sheer, keel := d.edge(b.sheer, 0, 1), d.edge(b.keel, 0, 1)
	outline := slices.Clone(sheer)
	if b.square {
		// A transom, leaning aft a little from its foot.
		foot := point{d.x(b.length * 0.985), d.y(b.keel(0.985))}
		keel = slices.DeleteFunc(keel, func(p point) bool { return p.x > foot.x })
		keel = append(keel, foot)
	}
	for _, p := range slices.Backward(keel) {
		outline = append(outline, p)
	}
	if b.decked {
		d.deck()
	}
	// Planks: lines between bottom and top edge.
	for _, share := range []float64{0.3, 0.55, 0.78} {
		plank := d.edge(func(t float64) float64 {
			return b.plank(t, share)
		}, 0.014, 0.986)
		d.stroke(1.5, light, nil, plank...)
	}
	d.stroke(5, ink, nil, append(outline, outline[0])...)
	d.rail(sheer)
}

// rail is the gunwale: a second line under the top edge.
func (d *drawing) rail(sheer []point) {
	under := make([]point, 0, len(sheer))
	for _, p := range sheer[4 : len(sheer)-4] {
		under = append(under, point{p.x, p.y + 9})
	}
	d.stroke(2, ink, nil, under...)
}

// deck draws the crown of a deck with the rim of the cockpit.
func (d *drawing) deck() {
	b := d.boat
	crown := func(t float64) float64 { return b.sheer(t) + 3.2*math.Sin(math.Pi*t) }
	d.stroke(3, ink, nil, d.edge(crown, 0, 1)...)
	rim := d.edge(func(t float64) float64 { return crown(t) + 1.6 }, 0.4, 0.62)
	rim = append(rim, d.edge(crown, 0.62, 0.62)[0])
	rim = append([]point{d.edge(crown, 0.4, 0.4)[0]}, rim...)
	d.stroke(4, ink, nil, rim...)
}

// string draws the string from end to end, with plumb lines at the stations.
func (d *drawing) string() {
	d.stroke(2, grey, []float64{2, 8}, point{d.x(0), stringY}, point{d.x(d.boat.length), stringY})
	for _, end := range []struct{ at, height float64 }{{0, d.boat.bow}, {d.boat.length, d.boat.stern}} {
		d.line(d.x(end.at), stringY-12, d.x(end.at), stringY+12, 3, grey)
		d.stroke(1.5, light, []float64{2, 8}, point{d.x(end.at), stringY}, point{d.x(end.at), d.y(end.height)})
	}
	for _, at := range d.boat.stations {
		t := at / d.boat.length
		d.line(d.x(at), stringY-8, d.x(at), stringY+8, 2, grey)
		d.stroke(1.5, light, []float64{3, 9}, point{d.x(at), stringY + 8}, point{d.x(at), d.y(d.boat.keel(t))})
	}
}

// stationName is what stands over a station: feet, or centimetres, as it is
// named on the form.
func (d *drawing) stationName(at float64) string {
	if d.boat.unit == parse.Centimetre {
		return number(nearest(parse.Inches(at), parse.Centimetre), parse.Centimetre)
	}
	if feet := at / perFoot; math.Abs(feet-math.Round(feet)) < 0.02 {
		return strconv.Itoa(int(math.Round(feet)))
	}
	return number(parse.Inches(at/perFoot), parse.Inch)
}

// numbers writes the stations' names: the asked ones ringed, of the others as
// many as there is room for.
func (d *drawing) numbers(asked []parse.Cell) {
	const y = stringY - 28
	var taken []box
	spacing := d.spacing()
	write := func(at float64, ringed bool) {
		name := d.stationName(at)
		w, _ := d.MeasureString(name)
		x := d.x(at)
		b := box{x0: x - w/2 - 4, x1: x + w/2 + 4, y0: 0, y1: 1}
		if ringed {
			b.x0, b.x1 = x-w/2-10, x+w/2+10
		}
		if !ringed && slices.ContainsFunc(taken, func(o box) bool { return b.overlap(o) > 0 }) {
			return
		}
		taken = append(taken, b)
		colour := grey
		if ringed {
			colour = ink
			d.ring(x, y-11, max(w/2+7, min(w/2+14, spacing*0.47), 22), 27, 4, vermilion)
		}
		d.write(name, x, y, 0.5, colour)
	}
	for _, at := range d.boat.stations {
		if d.isAsked(at, asked) {
			write(at, true)
		}
	}
	for i, at := range d.boat.stations {
		if !d.isAsked(at, asked) && (d.boat.known || i < 3) {
			write(at, false)
		}
	}
	d.write(d.say.distances(d.boat.unit), mailWidth/2, stringY-84, 0.5, grey)
}

func (d *drawing) isAsked(at float64, asked []parse.Cell) bool {
	return slices.ContainsFunc(asked, func(c parse.Cell) bool {
		station := c.Measure == parse.HullGirth || c.Measure == parse.FullGirth || c.Measure == parse.MeasurePair
		return station && math.Abs(c.At.In(parse.Inch)-at) < sameStation
	})
}

// spacing is the least distance between two numbered stations, in pixels.
func (d *drawing) spacing() float64 {
	least := 100.0
	for i := 1; i < len(d.boat.stations); i++ {
		least = min(least, d.x(d.boat.stations[i])-d.x(d.boat.stations[i-1]))
	}
	return max(least, 30)
}

// tapes draws the tape's path at every asked place, with a ring round it.
func (d *drawing) tapes(asked []parse.Cell) {
	var done []float64
	for _, c := range asked {
		at, ok := d.tapeAt(c)
		if !ok || slices.Contains(done, at) {
			continue
		}
		done = append(done, at)
		t := min(max(at/d.boat.length, 0), 1)
		top, foot := d.y(d.boat.sheer(t)), d.y(d.boat.keel(min(t, 0.985)))
		x := d.x(min(at, d.boat.length*0.992))
		d.line(x, top, x, foot, 15, white)
		d.line(x, top-4, x, foot+4, 9, vermilion)
		width := min(34, d.spacing()*0.44)
		if at >= d.boat.length {
			width = 24 // leaves room for the end's height beside it
		}
		d.ring(x, (top+foot)/2, width, (foot-top)/2+34, 5, vermilion)
	}
}

// tapeAt is where the tape is laid for a cell, in inches from the bow.
func (d *drawing) tapeAt(c parse.Cell) (float64, bool) {
	switch c.Measure {
	case parse.HullGirth, parse.FullGirth, parse.MeasurePair:
		at := c.At.In(parse.Inch)
		return at, at > 0 && at < d.boat.length
	case parse.GreatestAt, parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestPair, parse.GreatestOpening:
		return d.boat.greatest, true
	case parse.TransomHullGirth, parse.TransomFullGirth, parse.TransomPair:
		return d.boat.length, true
	}
	return 0, false
}
