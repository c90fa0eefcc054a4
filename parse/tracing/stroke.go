package tracing

import (
	"math"
	"slices"
)

// How pieces of a line are put together, in mm.
const (
	leastPiece = 5.0  // shorter ones are specks
	smallGap   = 3.0  // a line that was lifted
	printGap   = 26.0 // a line that goes on under print or over a joint, aslant
	underPrint = 0.6  // of such a gap that is print
	gapTurn    = 0.9  // radians by which a line may turn at a gap
	pieceEnd   = 4.0  // of a piece's end that tells where it goes
)

// stroke follows the longest line on the sheets, and returns its pixels in order,
// in runs: between two runs the line is hidden.
func (p *plane) stroke() [][]int {
	pieces := p.pieces(p.lines())
	if len(pieces) == 0 {
		return nil
	}
	runs := [][]int{pieces[0]}
	rest := pieces[1:]
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
			return runs
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
			gap := start.minus(end)
			d := gap.length()
			if d >= nearest || d > printGap || d > smallGap && !p.hidden(end, gap) {
				continue
			}
			if d > 1 && (angle(way, gap) > gapTurn || angle(out, gap.times(-1)) > gapTurn) {
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

// hidden reports that most of a gap is print.
func (p *plane) hidden(from, gap point) bool {
	const n = 40
	print := 0
	for i := range n {
		q := from.plus(gap.times((float64(i) + 0.5) / n)).minus(p.origin)
		x, y := int(q.x*perMM), int(q.y*perMM)
		if x >= 0 && y >= 0 && x < p.w && y < p.h && p.print[y*p.w+x] {
			print++
		}
	}
	return print >= int(underPrint*n)
}

// pieces are the dark pixels that hang together, each as its longest way, the
// longest first.
func (p *plane) pieces(dark []bool) [][]int {
	var pieces [][]int
	done := make([]bool, len(dark))
	from := make([]int32, len(dark))
	for k := range dark {
		if !dark[k] || done[k] {
			continue
		}
		far := p.spread(dark, from, k, func(i int) { done[i] = true })
		other := p.spread(dark, from, far, nil)
		way := []int{other}
		for i := other; i != far; {
			i = int(from[i])
			way = append(way, i)
		}
		if float64(len(way)) >= leastPiece*perMM {
			pieces = append(pieces, way)
		}
	}
	slices.SortStableFunc(pieces, func(a, b []int) int { return len(b) - len(a) })
	return pieces
}

// spread goes over the dark pixels that hang together with start, nearest first,
// notes from where it came to each, and returns the last.
func (p *plane) spread(dark []bool, from []int32, start int, visit func(int)) int {
	queue := []int{start}
	seen := map[int]bool{start: true}
	from[start] = int32(start)
	for i := 0; i < len(queue); i++ {
		k := queue[i]
		if visit != nil {
			visit(k)
		}
		for _, d := range [8]int{1, -1, p.w, -p.w, p.w + 1, p.w - 1, -p.w + 1, -p.w - 1} {
			n := k + d
			if n >= 0 && n < len(dark) && dark[n] && !seen[n] {
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

// middles returns the middle of the line along its runs, to a part of a pixel.
func (p *plane) middles(runs [][]int) []point {
	var line []point
	for _, run := range runs {
		const stride, around = int(every * perMM), int(tangent * perMM)
		for i := stride / 2; i < len(run); i += stride {
			here := p.at(run[i])
			way := p.at(run[min(i+around, len(run)-1)]).minus(p.at(run[max(i-around, 0)]))
			if way.length() == 0 {
				continue
			}
			across := way.times(1 / way.length()).turned(math.Pi / 2)
			if !p.bare(here, across) {
				continue
			}
			line = append(line, here.plus(across.times(p.darkest(here, across))))
		}
	}
	return smoothLine(line)
}

// bare reports that there is paper on both sides of the line.
func (p *plane) bare(here, across point) bool {
	for _, d := range []float64{-breadth, -breadth / 2, 0, breadth / 2, breadth} {
		q := here.plus(across.times(d)).minus(p.origin)
		x, y := int(q.x*perMM), int(q.y*perMM)
		if x < 0 || y < 0 || x >= p.w || y >= p.h || !p.paper[y*p.w+x] {
			return false
		}
	}
	return true
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
