package picture

import (
	"image/color"
	"math"
	"strings"

	"fairtape/validate/slip"
)

// box is an area, and how much it matters to keep it free.
type box struct{ x0, y0, x1, y1, weight float64 }

// overlap is the common area of two boxes.
func (b box) overlap(o box) float64 {
	w := min(b.x1, o.x1) - max(b.x0, o.x0)
	h := min(b.y1, o.y1) - max(b.y0, o.y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

const (
	// maxLabels is how many odd points of a panel are named; more would cover
	// it, and are told in words.
	maxLabels = 5
	// roomy is how many can be named in full.
	roomy = 2
)

// labels names the odd points, each where it hides least, and then the curve
// and the greatest girth where there is room left.
func (p *panel) labels() {
	var odd []mark
	for _, m := range p.marks {
		if m.odd == nil {
			continue
		}
		odd = append(odd, m)
		at, _ := p.spot(m)
		p.taken = append(p.taken, box{at.x - ringRadius, at.y - ringRadius, at.x + ringRadius, at.y + ringRadius, 60})
	}
	for _, m := range odd[:min(len(odd), maxLabels)] {
		at, _ := p.spot(m)
		p.label(at, ringRadius, p.markLines(m, len(odd) <= roomy), ink, vermilion)
	}
	if len(odd) > roomy {
		return
	}
	if p.report.Curve != nil {
		x := p.axis.end * 0.22
		mean, _ := p.estimate(x)
		p.label(point{p.axis.x(x), p.y(mean)}, 6, []string{"fair curve"}, blue, blue)
	}
	for _, m := range p.marks {
		if at, off := p.spot(m); m.greatest && m.odd == nil && off == 0 && p.full {
			p.label(at, 14, []string{"greatest"}, grey, grey)
		}
	}
}

// markLines are the words beside an odd point. Of a pair or a row it is not
// said which number is expected in this place.
func (p *panel) markLines(m mark, full bool) []string {
	f := *m.odd
	if f.Cell.Measure != m.measure {
		f.Expected = nil
	}
	name := place(m.at, p.axis.unit, "en") + ": "
	if f.Slip == slip.RowSkipped {
		return []string{name + slipWords(f.Slip) + "?"}
	}
	value := m.value
	lines := labelLines(f, &value, p.axis.unit)
	if full {
		lines[0] = name + lines[0]
		return lines
	}
	read, expected, both := strings.Cut(lines[0], ", ")
	if !both {
		return []string{name + read}
	}
	return []string{name + read, expected}
}

// label writes lines beside a place, as near as hides little, and ties them to
// it.
func (p *panel) label(at point, radius float64, lines []string, words, tie color.Color) {
	const leading = labelSize * 1.15
	width := 0.0
	for _, line := range lines {
		w, _ := p.MeasureString(line)
		width = max(width, w)
	}
	height := leading * float64(len(lines))
	best, cost := box{}, math.Inf(1)
	for _, distance := range []float64{20, 36, 60, 90, 130, 180, 240} {
		for i := range 24 {
			a := float64(i) * math.Pi / 12
			cx := at.x + math.Cos(a)*(radius+distance+width/2)
			cy := at.y + math.Sin(a)*(radius+distance+height/2)
			b := box{cx - width/2, cy - height/2, cx + width/2, cy + height/2, 40}
			if b.x0 < marginLeft+4 || b.x1 > shopWidth-20 || b.y0 < p.top-10 || b.y1 > p.bottom {
				continue
			}
			if sum := p.cost(b) + distance*3; sum < cost {
				best, cost = b, sum
			}
		}
	}
	if math.IsInf(cost, 1) {
		return
	}
	p.taken = append(p.taken, best)
	end := point{min(max(at.x, best.x0), best.x1), min(max(at.y, best.y0), best.y1)}
	if d := math.Hypot(end.x-at.x, end.y-at.y); d > radius+10 {
		start := point{at.x + (end.x-at.x)*radius/d, at.y + (end.y-at.y)*radius/d}
		p.stroke(2.5, tie, nil, start, end)
	}
	for i, line := range lines {
		p.halo(line, best.x0, best.y0+leading*float64(i)+labelSize*0.85, 0, words)
	}
}

func (p *panel) cost(b box) float64 {
	sum := 0.0
	for _, t := range p.taken {
		sum += b.overlap(t) * t.weight
	}
	return sum
}
