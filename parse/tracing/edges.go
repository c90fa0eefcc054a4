package tracing

import (
	"cmp"
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

// Sheets that are joined by eye stand a little apart. Common practice, no source.
const (
	usualGap  = 0.25 // mm
	gapDoubt  = 0.2
	edgeDoubt = 0.1 // of where one edge of the paper lies
)

// scale is what the size of the paper tells of the print's: 0.94 for a sheet that
// was printed at 94 %, and by how much that may be off, as a spread.
type scale struct{ of, doubt float64 }

// printScale is the scale of the print as the paper's own size tells it. ok is
// false where the photo does not show it.
func (f *fitted) printScale(p picture) (best scale, ok bool) {
	for _, paper := range []form.Paper{form.Letter, form.A4} {
		if s, agreed := agree(f.scales(p, paper)); agreed && (!ok || math.Abs(s.of-1) < math.Abs(best.of-1)) {
			best, ok = s, true
		}
	}
	return best, ok
}

// agree returns the middle one of scales of which most are the same.
func agree(scales []scale) (middle scale, ok bool) {
	if len(scales) < 2 {
		return scale{}, false
	}
	slices.SortFunc(scales, func(a, b scale) int { return cmp.Compare(a.of, b.of) })
	n := len(scales)
	low, high := scales[(n-1)/2], scales[n/2]
	return scale{(low.of + high.of) / 2, max(low.doubt, high.doubt)}, scales[n-1-n/4].of-scales[n/4].of <= sameScale
}

// scales lists what the sheets say of the scale if the paper is of this size: how
// far two opposite edges of the paper are apart, of one sheet or of several joined
// in a row; where no such edges are seen, how far the middles of two joined sheets
// are.
func (f *fitted) scales(p picture, paper form.Paper) []scale {
	var byEdges, byJoints []scale
	var size [4]float64
	size[right], size[lower] = paper.Size()
	rows := [4]int{}
	for i, g := range f.grids {
		for _, way := range []side{right, lower} {
			long := g.Width
			if way == lower {
				long = g.Height
			}
			if apart, _, ok := f.next(i, way, paper); ok {
				rows[way]++
				byJoints = append(byJoints, scale{(size[way] + usualGap) / apart, gapDoubt / size[way]})
			}
			begin, ok := f.edge(p, i, way.opposite(), paper)
			if !ok {
				continue
			}
			sheets, last := 1.0, i
			long += begin
			for {
				apart, j, ok := f.next(last, way, paper)
				if !ok {
					break
				}
				sheets, last, long = sheets+1, j, long+apart
			}
			if end, ok := f.edge(p, last, way, paper); ok {
				rows[way]++
				of := sheets * size[way]
				byEdges = append(byEdges, scale{(of + (sheets-1)*usualGap) / (long + end), math.Hypot(edgeDoubt*math.Sqrt2, gapDoubt*(sheets-1)) / of})
			}
		}
	}
	if rows[right] == 0 || rows[lower] == 0 && len(f.grids) == 1 {
		return nil // one breadth alone does not tell one paper from another
	}
	if len(byEdges) > 1 {
		return byEdges
	}
	return append(byEdges, byJoints...)
}

// side is one side of a sheet.
type side int

const (
	left side = iota
	upper
	right
	lower
)

func (s side) opposite() side { return (s + 2) % 4 }

// Sheets count as joined edge to edge when they lie the same way up and are
// shifted along one side by no more than this.
const (
	joinTurn  = 2.5 * math.Pi / 180
	joinShift = 8.0  // mm
	joinOff   = 0.13 // of the paper's size, as a fraction: prints of 90 to 110 %
)

// next is the sheet joined to a side of another, and how far apart their middles
// are.
func (f *fitted) next(i int, at side, paper form.Paper) (apart float64, j int, ok bool) {
	size, _ := paper.Size()
	if at == upper || at == lower {
		_, size = paper.Size()
	}
	middle := func(k int) point { return f.poses[k].out(point{f.grids[k].Width / 2, f.grids[k].Height / 2}) }
	for j := range f.grids {
		if turn := math.Remainder(f.poses[j].angle-f.poses[i].angle, 2*math.Pi); j == i || math.Abs(turn) > joinTurn {
			continue
		}
		// From middle to middle: outwards from the side, and along it.
		d := middle(j).minus(middle(i)).turned(-f.poses[i].angle - float64(at-right)*math.Pi/2)
		if math.Abs(d.y) < joinShift && math.Abs(d.x/size-1) < joinOff {
			return d.x, j, true
		}
	}
	return 0, 0, false
}

// edge finds how far outside of where the grid has it an edge of the paper lies,
// at the middle of a side. A side that another sheet is joined to shows none.
func (f *fitted) edge(p picture, sheet int, at side, paper form.Paper) (off float64, ok bool) {
	if _, _, joined := f.next(sheet, at, paper); joined {
		return 0, false
	}
	g := f.grids[sheet]
	long := g.Height
	if at == upper || at == lower {
		long = g.Width
	}
	place := func(along, out float64) point {
		switch at {
		case left:
			return point{-out, along}
		case upper:
			return point{along, -out}
		case right:
			return point{g.Width + out, along}
		}
		return point{along, g.Height + out}
	}
	var places []point // along the side from its middle, off the nominal edge
	for i := range edgePlaces {
		along := long * (0.06 + 0.88*(float64(i)+0.5)/edgePlaces)
		if d, ok := f.step(p, sheet, func(out float64) point { return place(along, out) }); ok {
			places = append(places, point{along - long/2, d})
		}
	}
	return middleOfLine(places)
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
