package tracing

import (
	"math"
	"slices"
)

// How pieces of a line are put together, in mm.
const (
	leastPiece = 5.0 // shorter ones are specks
	pieceEnd   = 8.0 // of a piece's end that tells where it goes
	underPrint = 0.4 // of a gap that is print, as a fraction: the line is hidden there
)

// gap is a stretch over which a line may go on unseen: how long it is at most, in
// mm, by how much the line may turn from where it goes, in radians, and whether
// print must hide it.
type gap struct {
	most, turn float64
	hidden     bool
}

func gaps() []gap {
	return []gap{
		{1, math.Pi, false}, // next to each other
		{3, 0.9, false},     // the pencil was lifted
		{15, 0.35, false},   // pale
		{26, 0.9, true},     // across print or a joint
		{130, 0.35, true},   // along them
	}
}

// bridges reports that a line which goes one way may go on there after a gap,
// where it comes from another.
func (p *plane) bridges(end, way, to, from point) bool {
	over := to.minus(end)
	turn := max(angle(way, over), angle(from, over.times(-1)))
	for _, g := range gaps() {
		if over.length() <= g.most && turn <= g.turn && (!g.hidden || p.hidden(end, over)) {
			return true
		}
	}
	return false
}

// stroke follows the longest line on the sheets, and returns its pixels in order,
// in runs: between two runs the line is hidden. rest are the pieces that do not
// belong to it.
func (p *plane) stroke(dark []float32) (runs, rest [][]int) {
	pieces := p.pieces(dark)
	if len(pieces) == 0 {
		return nil, nil
	}
	runs, rest = pieces[:1:1], pieces[1:]
	for {
		grown := false
		for range 2 { // at the one end, then at the other
			if i, turned, ok := p.next(runs[len(runs)-1], rest); ok {
				piece := rest[i]
				if turned {
					slices.Reverse(piece)
				}
				runs = append(runs, piece)
				rest = slices.Delete(rest, i, i+1)
				grown = true
			}
			slices.Reverse(runs)
			for _, r := range runs {
				slices.Reverse(r)
			}
		}
		if !grown {
			return runs, rest
		}
	}
}

// next finds the piece that goes on where a run ends.
func (p *plane) next(run []int, rest [][]int) (best int, turned, ok bool) {
	end, way := p.ending(run)
	nearest := math.Inf(1)
	for i, piece := range rest {
		for _, backwards := range []bool{false, true} {
			there := slices.Clone(piece)
			if !backwards {
				slices.Reverse(there)
			}
			start, out := p.ending(there)
			d := start.minus(end).length()
			if d >= nearest || !p.bridges(end, way, start, out) {
				continue
			}
			nearest, best, turned, ok = d, i, backwards, true
		}
	}
	return best, turned, ok
}

// ending is the last point of a run, and the way it goes there.
func (p *plane) ending(run []int) (end, way point) {
	end = p.at(run[len(run)-1])
	back := run[max(len(run)-1-int(pieceEnd*perMM), 0)]
	return end, end.minus(p.at(back))
}

func angle(a, b point) float64 {
	return math.Abs(math.Atan2(a.x*b.y-a.y*b.x, a.dot(b)))
}

// hidden reports that much of a gap is print, or so near to it that no line is seen.
func (p *plane) hidden(from, over point) bool {
	const n = 40
	print := 0
	for i := range n {
		if bare, _ := p.bare(from.plus(over.times((float64(i)+0.5)/n)), over); !bare {
			print++
		}
	}
	return print >= int(underPrint*n)
}

// pieces are the dark pixels that hang together, each as its longest way, the
// longest first.
func (p *plane) pieces(dark []float32) [][]int {
	var pieces [][]int
	done := make([]bool, len(dark))
	from := make([]int32, len(dark))
	for k := range dark {
		if dark[k] < darkLeast || done[k] {
			continue
		}
		far := p.spread(dark, from, k, func(i int) { done[i] = true })
		other := p.spread(dark, from, far, nil)
		way := []int{other}
		for i := other; i != far; {
			i = int(from[i])
			way = append(way, i)
		}
		// A line as pale as this may end anywhere about where it seems to. The way
		// may run along the pale rim of a dark line.
		pale := func(k int) bool { return p.darkestBy(dark, k) < darkLeast }
		for len(way) > 0 && pale(way[0]) {
			way = way[1:]
		}
		for len(way) > 0 && pale(way[len(way)-1]) {
			way = way[:len(way)-1]
		}
		if float64(len(way)) >= leastPiece*perMM {
			pieces = append(pieces, way)
		}
	}
	slices.SortStableFunc(pieces, func(a, b []int) int { return len(b) - len(a) })
	return pieces
}

// around are the steps from a pixel to the eight about it.
func (p *plane) around() [8]int {
	return [8]int{1, -1, p.w, -p.w, p.w + 1, p.w - 1, -p.w + 1, -p.w - 1}
}

// darkestBy is the darkest of a pixel and those about it.
func (p *plane) darkestBy(dark []float32, k int) float32 {
	darkest := dark[k]
	for _, d := range p.around() {
		if n := k + d; n >= 0 && n < len(dark) {
			darkest = max(darkest, dark[n])
		}
	}
	return darkest
}

// spread goes over the dark pixels that hang together with start, nearest first,
// notes from where it came to each, and returns the last.
func (p *plane) spread(dark []float32, from []int32, start int, visit func(int)) int {
	queue := []int{start}
	seen := map[int]bool{start: true}
	from[start] = int32(start)
	for i := 0; i < len(queue); i++ {
		k := queue[i]
		if visit != nil {
			visit(k)
		}
		for _, d := range p.around() {
			n := k + d
			if n >= 0 && n < len(dark) && dark[n] >= paleLeast && !seen[n] {
				seen[n] = true
				from[n] = int32(k)
				queue = append(queue, n)
			}
		}
	}
	return queue[len(queue)-1]
}

// How the middle of the line is found, in mm.
const (
	every   = 1.0 // along the line
	tangent = 3.0 // on both sides of a point, tells the line's way there
	breadth = 1.3 // to both sides of the line
)

// middles returns the middle of the line along a run, to a part of a pixel. It ends
// short of the run's ends, which lie in a corner of the blunt end of a pencil line.
func (p *plane) middles(run []int) []point {
	const stride, around = int(every * perMM), int(tangent * perMM)
	var line []point
	for i := stride; i < len(run)-stride; i += stride {
		here := p.at(run[i])
		way := p.at(run[min(i+around, len(run)-1)]).minus(p.at(run[max(i-around, 0)]))
		if way.length() == 0 {
			continue
		}
		across := way.times(1 / way.length()).turned(math.Pi / 2)
		if bare, _ := p.bare(here, way); bare {
			line = append(line, here.plus(across.times(p.darkest(here, across))))
		}
	}
	return smoothLine(line)
}

// darkest is how far across from a point the middle of the darkness lies.
func (p *plane) darkest(here, across point) float64 {
	const step = 0.1
	var lights []float64
	paper := 0.0
	for d := -breadth; d <= breadth+1e-9; d += step {
		l := p.between(here.plus(across.times(d)))
		lights = append(lights, l)
		paper = max(paper, l)
	}
	least := slices.Min(lights)
	var sum, moved float64
	for i, l := range lights {
		if w := (paper+least)/2 - l; w > 0 {
			sum += w
			moved += w * (float64(i)*step - breadth)
		}
	}
	if sum == 0 {
		return 0
	}
	return moved / sum
}

func (p *plane) between(q point) float64 {
	q = q.minus(p.origin)
	x, y := q.x*perMM-0.5, q.y*perMM-0.5
	x0, y0 := min(max(int(x), 0), p.w-2), min(max(int(y), 0), p.h-2)
	fx, fy := x-float64(x0), y-float64(y0)
	k := y0*p.w + x0
	l := func(i int) float64 { return float64(p.light[i]) }
	return (l(k)*(1-fx)+l(k+1)*fx)*(1-fy) + (l(k+p.w)*(1-fx)+l(k+p.w+1)*fx)*fy
}

// smoothLine takes the mean of each point and its two neighbours where they are
// near.
func smoothLine(line []point) []point {
	out := slices.Clone(line)
	for i := 1; i+1 < len(line); i++ {
		if line[i-1].minus(line[i+1]).length() < 3*every {
			out[i] = line[i-1].plus(line[i].times(2)).plus(line[i+1]).times(0.25)
		}
	}
	return out
}
