package picture

import (
	"image/color"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate"
)

// axis is the length of the boat across the picture.
type axis struct {
	unit parse.Unit
	end  float64 // of the boat, in the unit
	step float64 // between numbers, in the unit
}

// newAxis lays the boat out. A length overall that the stations contradict, or
// that is asked again, is not believed.
func newAxis(report validate.Report) axis {
	s := report.Survey
	a := axis{unit: s.Unit}
	last := 0.0
	for _, station := range s.Stations {
		last = max(last, station.At.In(s.Unit))
	}
	a.end = max(last*1.06, 1)
	if s.LengthOverall.Known {
		doubted := slices.ContainsFunc(report.Findings, func(f validate.Finding) bool {
			return f.Cell.Measure == parse.LengthOverall && f.Kind != validate.Note
		})
		longest := parse.Inches(mostLength).In(s.Unit)
		if l := s.LengthOverall.Value.In(s.Unit); !doubted && l >= last && l <= longest {
			a.end = l
		}
	}
	base, choices := float64(perFoot), []float64{1, 2, 3, 4, 5, 10}
	if s.Unit == parse.Centimetre {
		base, choices = 30, []float64{1, 2, 4, 5, 10, 20}
	}
	for _, k := range choices {
		if a.step = base * k; a.end/a.step <= 12 {
			break
		}
	}
	return a
}

func (a axis) x(at float64) float64 {
	const inset = 24
	return marginLeft + inset + at/a.end*(shopWidth-marginLeft-marginRight-2*inset)
}

// names writes the distances under the lower panel.
func (a axis) names(c *canvas, y float64) {
	per, unit := float64(perFoot), "ft from the bow"
	if a.unit == parse.Centimetre {
		per, unit = 1, "cm from the bow"
	}
	for at := a.step; at < a.end; at += a.step {
		c.write(number(parse.Inches(at/per), parse.Inch), a.x(at), y+44, 0.5, grey)
	}
	c.write(unit, shopWidth-marginRight, y+92, 1, grey)
}

// panel is one of the two charts.
type panel struct {
	*canvas
	report      validate.Report
	axis        axis
	full        bool
	top, bottom float64 // of the plot, in pixels

	marks     []mark
	low, high float64 // of the values, in the unit
	step      float64
	taken     []box // where labels may not go
}

func (p *panel) draw() {
	p.marks = marks(p.report, p.full)
	p.scale()
	p.grid()
	p.curve()
	p.points()
	p.name()
	p.labels()
}

// edgeRoom is the strip at the upper and lower edge where points beyond the
// scale stand.
const edgeRoom = 34

func (p *panel) y(value float64) float64 {
	return p.bottom - edgeRoom - (value-p.low)/(p.high-p.low)*(p.bottom-p.top-2*edgeRoom)
}

// plausible is how far over the middle value of a panel a girth may lie and
// still set the scale: a boat's largest girth is under twice its middle one.
const plausible = 2.2

// scale chooses the range of values so that the sound ones fill it: one wild
// number must not squash the rest.
func (p *panel) scale() {
	var sound []float64
	for _, m := range p.marks {
		if m.odd == nil {
			sound = append(sound, m.value.In(p.axis.unit))
		} else if e := m.odd.Expected; e != nil && m.odd.Cell.Measure == m.measure {
			sound = append(sound, e.In(p.axis.unit))
		}
	}
	if len(sound) < 3 {
		for _, m := range p.marks {
			sound = append(sound, m.value.In(p.axis.unit))
		}
	}
	slices.Sort(sound)
	for p.report.Curve == nil && len(sound) > 2 && sound[len(sound)-1] > plausible*sound[len(sound)/2] {
		sound = sound[:len(sound)-1]
	}
	low, high := 0.0, 1.0
	if len(sound) > 0 {
		low, high = sound[0], sound[len(sound)-1]
	}
	// An odd value near the others shows in its place; one far off at the edge.
	span := max(high-low, high/4, 1)
	near := func(v float64) bool { return v > low-span/2 && v < high+span/2 }
	lowest, highest := low, high
	for _, m := range p.marks {
		if v := m.value.In(p.axis.unit); near(v) {
			lowest, highest = min(lowest, v), max(highest, v)
		}
	}
	p.step = niceStep((highest - lowest) / 4)
	p.low = max(0, math.Floor(lowest/p.step-0.2)*p.step)
	p.high = math.Ceil(highest/p.step+0.2) * p.step
}

// niceStep rounds up to 1, 2, 5, 10, 20, ...
func niceStep(least float64) float64 {
	if least <= 1 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, k := range []float64{1, 2, 5} {
		if k*power >= least {
			return k * power
		}
	}
	return 10 * power
}

func (p *panel) grid() {
	left, right := float64(marginLeft), float64(shopWidth-marginRight)
	for v := p.low; v <= p.high+p.step/2; v += p.step {
		p.line(left, p.y(v), right, p.y(v), 1, light)
		p.write(number(parse.Measured(v, p.axis.unit), p.axis.unit), left-14, p.y(v)+12, 1, grey)
	}
	for at := p.axis.step; at < p.axis.end; at += p.axis.step {
		p.line(p.axis.x(at), p.bottom-edgeRoom+6, p.axis.x(at), p.bottom-edgeRoom+18, 2, grey)
	}
}

// estimate is the fair curve at a distance in the unit: middle and half width
// of the band in the unit.
func (p *panel) estimate(at float64) (mean, half float64) {
	inches := parse.Measured(at, p.axis.unit).In(parse.Inch)
	hull, full := p.report.Curve.At(inches)
	e := hull
	if p.full {
		e = full
	}
	return parse.Inches(e.Mean).In(p.axis.unit), parse.Inches(2 * e.SD).In(p.axis.unit)
}

func (p *panel) curve() {
	if p.report.Curve == nil {
		return
	}
	from, to := p.report.Curve.Span()
	start, end := parse.Inches(from).In(p.axis.unit), parse.Inches(to).In(p.axis.unit)
	const steps = 200
	var middle, upper, lower []point
	for i := range steps + 1 {
		at := start + (end-start)*float64(i)/steps
		mean, half := p.estimate(at)
		if at > p.axis.end || math.IsNaN(mean) || math.IsNaN(half) {
			continue
		}
		middle = append(middle, point{p.axis.x(at), p.y(mean)})
		upper = append(upper, point{p.axis.x(at), p.y(mean + half)})
		lower = append(lower, point{p.axis.x(at), p.y(mean - half)})
	}
	// Nothing of it stands in the strip below the scale.
	p.DrawRectangle(marginLeft, p.top, shopWidth-marginLeft-marginRight, p.bottom-edgeRoom-p.top)
	p.Clip()
	band := slices.Clone(upper)
	for _, q := range slices.Backward(lower) {
		band = append(band, q)
	}
	p.fill(tint, band...)
	p.stroke(1.5, blue, nil, upper...)
	p.stroke(1.5, blue, nil, lower...)
	p.stroke(4, blue, nil, middle...)
	p.ResetClip()
	for _, q := range middle {
		p.taken = append(p.taken, box{q.x - 4, q.y - 8, q.x + 4, q.y + 8, 1})
	}
}

// spot is where a mark is drawn; off is -1 or 1 for one beyond the upper or
// lower edge.
func (p *panel) spot(m mark) (at point, off int) {
	y := p.y(m.value.In(p.axis.unit))
	switch {
	case y < p.top+edgeRoom/2-10:
		y, off = p.top+edgeRoom/2, -1
	case y > p.bottom-edgeRoom/2+10:
		y, off = p.bottom-edgeRoom/2, 1
	}
	return point{p.axis.x(m.at.In(p.axis.unit)), y}, off
}

func (p *panel) points() {
	for _, m := range p.marks {
		at, off := p.spot(m)
		var colour color.Color = grey
		if m.odd != nil {
			colour = vermilion
			p.expected(m, at)
		}
		switch {
		case off != 0:
			s := float64(off)
			p.fill(colour, point{at.x, at.y + s*13}, point{at.x - 12, at.y - s*9}, point{at.x + 12, at.y - s*9})
		case m.greatest:
			p.DrawRectangle(at.x-9, at.y-9, 18, 18)
			p.SetColor(white)
			p.FillPreserve()
			p.SetColor(colour)
			p.SetLineWidth(4)
			p.Stroke()
		default:
			p.dot(at.x, at.y, dotRadius, colour)
		}
		if m.odd != nil {
			p.ring(at.x, at.y, ringRadius, ringRadius, 5, vermilion)
		}
		p.taken = append(p.taken, box{at.x - 12, at.y - 12, at.x + 12, at.y + 12, 4})
	}
}

// expected draws where the value should lie: an upright cross on the curve and
// a line to it.
func (p *panel) expected(m mark, at point) {
	e := m.odd.Expected
	if e == nil || m.odd.Cell.Measure != m.measure {
		return
	}
	y := p.y(e.In(p.axis.unit))
	p.line(at.x, at.y, at.x, y, 3, vermilion, 3, 9)
	p.line(at.x-14, y, at.x+14, y, 5, vermilion)
	p.line(at.x, y-14, at.x, y+14, 5, vermilion)
}

// name writes what the panel shows into its emptiest upper corner.
func (p *panel) name() {
	text := "hull girth"
	if p.full {
		text = "full girth"
	}
	text += ", " + unitName(p.axis.unit)
	w, _ := p.MeasureString(text)
	x := float64(marginLeft + 8)
	at := box{x, p.top - 14, x + w, p.top + 30, 20}
	p.halo(text, x, p.top+20, 0, ink)
	p.taken = append(p.taken, at)
}

func unitName(unit parse.Unit) string {
	if unit == parse.Centimetre {
		return "cm"
	}
	return "in"
}
