package tracing

import (
	"math"
	"slices"

	"fairtape/parse/form"
)

// The edges of the paper: what is looked for along each side of a sheet.
const (
	edgeInside  = 9.5  // from the nominal edge inwards, mm: the marks begin at 10
	edgeOutside = 34.0 // a Letter page printed at 90 % into the corner of its paper
	edgeStep    = 0.25
	edgeHalf    = 1.5  // breadth of paper and table that are compared, mm
	edgeLeast   = 0.06 // of the paper's light that an edge changes it by
	edgePlaces  = 48   // along a side
	edgeSame    = 0.5  // how far from the line places of it may lie, mm
	edgeShare   = 0.5  // of the places that must lie on one line
	sameScale   = 0.006
)

// printScale is the scale of the print as the paper's own size tells it: 0.94
// for a sheet that was printed at 94 %; 0 where the photo does not show it.
func (f *fitted) printScale(p picture) float64 {
	best := 0.0
	for _, paper := range []form.Paper{form.Letter, form.A4} {
		if s, ok := agree(f.scales(p, paper)); ok && (best == 0 || math.Abs(s-1) < math.Abs(best-1)) {
			best = s
		}
	}
	return best
}

// agree returns the middle one of scales of which most are the same.
func agree(scales []float64) (middle float64, ok bool) {
	if len(scales) < 2 {
		return 0, false
	}
	slices.Sort(scales)
	n := len(scales)
	middle = (scales[(n-1)/2] + scales[n/2]) / 2
	return middle, scales[n-1-n/4]-scales[n/4] <= sameScale
}

// scales lists what every pair of edges, and every joint of two sheets, says of
// the scale if the paper is of this size.
func (f *fitted) scales(p picture, paper form.Paper) (all []float64) {
	wide, high := paper.Size()
	across, down := 0, 0
	for i, g := range f.grids {
		var off [4]float64
		var seen [4]bool
		for side := range 4 {
			off[side], seen[side] = f.edge(p, i, side)
		}
		if seen[0] && seen[2] {
			all = append(all, wide/(g.Width+off[0]+off[2]))
			across++
		}
		if seen[1] && seen[3] {
			all = append(all, high/(g.Height+off[1]+off[3]))
			down++
		}
		for j := range f.grids[:i] {
			s, sideways, ok := f.joint(j, i, wide, high)
			if !ok {
				continue
			}
			all = append(all, s)
			if sideways {
				across++
			} else {
				down++
			}
		}
	}
	if across == 0 || down == 0 && len(f.grids) == 1 {
		return nil // one breadth alone does not tell one paper from another
	}
	return all
}

// Sheets count as joined edge to edge when they lie the same way up and are
// shifted along one side by no more than this.
const (
	joinTurn  = 2.5 * math.Pi / 180
	joinShift = 8.0 // mm
)

// joint is the scale that two sheets joined edge to edge tell: they lie one
// breadth, or one height, of paper apart.
func (f *fitted) joint(i, j int, wide, high float64) (scale float64, sideways, ok bool) {
	turn := math.Remainder(f.poses[j].angle-f.poses[i].angle, 2*math.Pi)
	if math.Abs(turn) > joinTurn {
		return 0, false, false
	}
	// From middle to middle, in the first one's directions.
	middle := func(k int) point { return f.poses[k].out(point{f.grids[k].Width / 2, f.grids[k].Height / 2}) }
	d := middle(j).minus(middle(i)).turned(-f.poses[i].angle)
	const mostOff = 0.13
	switch dx, dy := math.Abs(d.x), math.Abs(d.y); {
	case dy < joinShift && math.Abs(dx/wide-1) < mostOff:
		return wide / dx, true, true
	case dx < joinShift && math.Abs(dy/high-1) < mostOff:
		return high / dy, false, true
	}
	return 0, false, false
}

// edge finds how far outside of where the grid has it an edge of the paper lies,
// at the middle of a side: left, upper, right, lower.
func (f *fitted) edge(p picture, sheet, side int) (off float64, ok bool) {
	g := f.grids[sheet]
	long := g.Height
	if side%2 == 1 {
		long = g.Width
	}
	place := func(along, out float64) point {
		switch side {
		case 0:
			return point{-out, along}
		case 1:
			return point{along, -out}
		case 2:
			return point{g.Width + out, along}
		}
		return point{along, g.Height + out}
	}
	var at []point // along the side from its middle, off the nominal edge
	for i := range edgePlaces {
		along := long * (0.06 + 0.88*(float64(i)+0.5)/edgePlaces)
		if d, ok := f.step(p, sheet, func(out float64) point { return place(along, out) }); ok {
			at = append(at, point{along - long/2, d})
		}
	}
	return middleOfLine(at)
}

// step finds the edge of the paper along a way outwards: the sharpest step of
// the light from that of the paper.
func (f *fitted) step(p picture, sheet int, place func(out float64) point) (float64, bool) {
	var lights []float64
	for out := -edgeInside; out <= edgeOutside; out += edgeStep {
		on := place(out)
		l, ok := p.at(f.pixel(sheet, on))
		if !ok || f.onAnother(sheet, on) {
			break
		}
		lights = append(lights, l)
	}
	const half = int(edgeHalf / edgeStep)
	mean := func(from, to int) float64 {
		sum := 0.0
		for _, l := range lights[from:to] {
			sum += l
		}
		return sum / float64(to-from)
	}
	steps := make([]float64, len(lights))
	best := 0
	for i := half; i+half <= len(lights); i++ {
		steps[i] = math.Abs(mean(i-half, i) - mean(i, i+half))
		if steps[i] > steps[best] {
			best = i
		}
	}
	if best == 0 {
		return 0, false
	}
	white := mean(0, best)
	if steps[best] < edgeLeast*white {
		return 0, false
	}
	// The first step outwards that is nearly as sharp: beyond the edge lies a
	// table with edges of its own.
	for i := half; i < best; i++ {
		if steps[i] > 0.6*steps[best] {
			for i+1 < len(steps) && steps[i+1] >= steps[i] {
				i++
			}
			best = i
			break
		}
	}
	sub := 0.0
	if best+1 < len(steps) {
		if bow := steps[best-1] - 2*steps[best] + steps[best+1]; bow < 0 {
			sub = min(max((steps[best-1]-steps[best+1])/(2*bow), -0.5), 0.5)
		}
	}
	return (float64(best)+sub)*edgeStep - edgeInside - edgeStep/2, true
}

// onAnother reports that a place beside a sheet lies on one that is joined to it.
func (f *fitted) onAnother(sheet int, on point) bool {
	const joined = 1.5 // mm inside of the other's edge
	q := f.poses[sheet].out(on)
	for i, g := range f.grids {
		r := f.poses[i].in(q)
		if i != sheet && min(r.x, r.y, g.Width-r.x, g.Height-r.y) > joined {
			return true
		}
	}
	return false
}

// middleOfLine lays a line through places of which some are astray, and returns
// its height at 0.
func middleOfLine(at []point) (float64, bool) {
	if len(at) < edgePlaces/2 {
		return 0, false
	}
	var best []point
	for i, a := range at {
		for _, b := range at[:i] {
			run := a.x - b.x
			if math.Abs(run) < 20 {
				continue
			}
			slope := (a.y - b.y) / run
			if math.Abs(slope) > 0.03 {
				continue
			}
			var on []point
			for _, q := range at {
				if math.Abs(q.y-a.y-slope*(q.x-a.x)) < edgeSame {
					on = append(on, q)
				}
			}
			if len(on) > len(best) {
				best = on
			}
		}
	}
	if float64(len(best)) < edgeShare*edgePlaces {
		return 0, false
	}
	var n, x, y, xx, xy float64
	for _, q := range best {
		n, x, y, xx, xy = n+1, x+q.x, y+q.y, xx+q.x*q.x, xy+q.x*q.y
	}
	slope := (n*xy - x*y) / (n*xx - x*x)
	return (y - slope*x) / n, true
}
