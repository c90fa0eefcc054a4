package tracing

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// path is the line as it was followed over the sheets, its upper end last.
type path struct {
	points []point
	hidden float64 // longest stretch that was not seen but bridged, mm
	part   bool    // the line goes on where it is not seen
}

// How the ends of a line are judged.
const (
	endAhead = 8.0                // beyond an end there is paper, mm
	endBack  = 8.0                // of a line's end that tells where it goes, mm
	endDark  = 1.5 * paleLeast    // an end of a paler line may be where it pales
	endLevel = 15 * math.Pi / 180 // the flat of the bottom may run off the paper
	restMost = 0.1                // of the line's length that pieces beside it may have
)

// path follows the line.
func (p *plane) path() path {
	dark := p.lines()
	runs, rest := p.stroke(dark)
	var l path
	seen, other := 0, 0
	for _, run := range runs {
		seen += len(run)
		middles := p.middles(run)
		if len(middles) < 2 {
			continue
		}
		if n := len(l.points); n > 0 {
			last := l.points[n-1]
			if long := middles[0].minus(last).length(); long > leastBridge {
				l.points = append(l.points, bridge(l.points, middles)...)
				l.hidden = max(l.hidden, long)
			}
		}
		l.points = append(l.points, middles...)
	}
	for _, piece := range rest {
		other += len(piece)
	}
	if len(l.points) < 2 {
		return path{}
	}
	if l.points[0].y < l.points[len(l.points)-1].y {
		slices.Reverse(l.points)
		slices.Reverse(runs)
		for _, r := range runs {
			slices.Reverse(r)
		}
	}
	last := slices.Clone(runs[len(runs)-1])
	slices.Reverse(last)
	l.part = float64(other) > restMost*float64(seen) || p.goesOn(dark, runs[0], true) || p.goesOn(dark, last, false)
	return l
}

// goesOn reports that a line may go on beyond the beginning of a run of it: under
// print, or paler than can be seen, or off the paper. The flat of the bottom may
// run off the paper.
func (p *plane) goesOn(dark []float32, run []int, bottom bool) bool {
	end := run[:min(int(endBack*perMM), len(run))]
	var depth float32
	for _, k := range end {
		depth += p.darkestBy(dark, k) / float32(len(end))
	}
	if depth < endDark {
		return true
	}
	from := p.at(end[0])
	out := from.minus(p.at(end[len(end)-1]))
	level := math.Abs(math.Atan2(out.y, math.Abs(out.x))) < endLevel
	out = out.times(1 / out.length())
	hidden := false
	for ahead := 1.0; ahead <= endAhead; ahead++ {
		bare, on := p.bare(from.plus(out.times(ahead)), out)
		if !on {
			return !bottom || !level
		}
		hidden = hidden || !bare
	}
	return hidden
}

// A line is carried over gaps of this length and more, as it goes so far on both
// sides of them, mm.
const (
	leastBridge = 3.0
	bridgeFlank = 25.0
)

// bridge carries a line over a gap: the cubic nearest to its flanks, seen from the
// straight between them.
func bridge(before, after []point) []point {
	from, to := before[len(before)-1], after[0]
	gap := to.minus(from)
	long := gap.length()
	turn := math.Atan2(gap.y, gap.x)
	var flanks []point // from the middle of the gap, in units of its length
	add := func(q point) {
		d := q.minus(from).turned(-turn).times(1 / long)
		flanks = append(flanks, point{d.x - 0.5, d.y})
	}
	for i := len(before) - 1; i >= 0 && before[i].minus(from).length() < bridgeFlank; i-- {
		add(before[i])
	}
	for i := 0; i < len(after) && after[i].minus(to).length() < bridgeFlank; i++ {
		add(after[i])
	}
	powers := mat.NewDense(len(flanks), 4, nil)
	heights := mat.NewVecDense(len(flanks), nil)
	for i, q := range flanks {
		powers.SetRow(i, []float64{1, q.x, q.x * q.x, q.x * q.x * q.x})
		heights.SetVec(i, q.y)
	}
	var cubic mat.VecDense
	if cubic.SolveVec(powers, heights) != nil {
		return nil // the flanks are too short; the straight is all that is known
	}
	var points []point
	for i := 1; i < int(long/every); i++ {
		x := float64(i)*every/long - 0.5
		y := cubic.AtVec(0) + x*(cubic.AtVec(1)+x*(cubic.AtVec(2)+x*cubic.AtVec(3)))
		points = append(points, from.plus(point{x + 0.5, y}.times(long).turned(turn)))
	}
	return points
}
