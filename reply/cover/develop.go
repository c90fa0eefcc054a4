package cover

import (
	"math"

	"fairtape/reply/cover/nest"
)

// Point is a place on flat cloth, in inches: X along the panel's datum from its
// bow end, Y square to it.
type Point = nest.Point

func distance(a, b Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// polyline returns the length of a line.
func polyline(line []Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += distance(line[i-1], line[i])
	}
	return sum
}

// Develop lays strips of cloth flat. spans[r] holds the lengths of rail r
// between one place and the next, rungs[s] the widths between rails s and s+1
// at each place. Rail 0 comes to lie on the X axis from 0 on, the others on the
// side of rising Y. Laying begins at place from, where the rungs meet both their
// rails at the same angle.
//
// Where a rung changes by more than its rails can follow, the rung is kept and
// the rail comes out longer: a cover that is too narrow does not go on.
func Develop(spans, rungs [][]float64, from int) [][]Point {
	first := make([]Point, len(spans[0])+1)
	for i, d := range spans[0] {
		first[i+1].X = first[i].X + d
	}
	rails := [][]Point{first}
	for s := range rungs {
		rails = append(rails, layRail(rails[s], spans[s+1], rungs[s], from))
	}
	return rails
}

func layRail(near []Point, span, rung []float64, from int) []Point {
	far := make([]Point, len(near))
	far[from] = firstRung(near, span, rung, from)
	for i := from; i+1 < len(near); i++ {
		far[i+1] = meet(far[i], span[i], near[i+1], rung[i+1], 1)
	}
	for i := from; i > 0; i-- {
		far[i-1] = meet(far[i], span[i-1], near[i-1], rung[i-1], -1)
	}
	return far
}

// firstRung lays the rung at place i so that the diagonals to its neighbour are
// equal.
func firstRung(near []Point, span, rung []float64, i int) Point {
	j, along, ahead := i+1, i, 1.0
	if j == len(near) {
		j, along, ahead = i-1, i-1, -1
	}
	angle := math.Atan2(near[j].Y-near[i].Y, near[j].X-near[i].X)
	square := angle + ahead*math.Pi/2
	at := func(lean float64) Point {
		sin, cos := math.Sincos(square + lean)
		return Point{X: near[i].X + rung[i]*cos, Y: near[i].Y + rung[i]*sin}
	}
	longer := func(lean float64) float64 {
		p := at(lean)
		q := meet(p, span[along], near[j], rung[j], ahead)
		return distance(near[i], q) - distance(near[j], p)
	}
	lo, hi := -mostLean, mostLean
	rising := longer(hi) > longer(lo)
	for range 60 {
		mid := (lo + hi) / 2
		if longer(mid) > 0 == rising {
			hi = mid
		} else {
			lo = mid
		}
	}
	return at((lo + hi) / 2)
}

// mostLean is the most that the first rung leans, in radians. It is laid where
// the girth is greatest, and leans by nothing on a boat that is alike before and
// behind.
const mostLean = 0.6

// meet returns the point at distance span from a and rung from b that lies
// ahead: with the greater X when ahead is 1, the lesser when it is -1. Where
// there is none the rung is kept.
func meet(a Point, span float64, b Point, rung, ahead float64) Point {
	d := distance(a, b)
	if d == 0 {
		return Point{X: b.X, Y: b.Y + rung}
	}
	ux, uy := (a.X-b.X)/d, (a.Y-b.Y)/d // from b to a
	along := (d*d + rung*rung - span*span) / (2 * d)
	square := rung*rung - along*along
	if square <= 0 {
		along, square = math.Copysign(rung, along), 0
	}
	off := math.Sqrt(square)
	p := Point{X: b.X + along*ux - off*uy, Y: b.Y + along*uy + off*ux}
	q := Point{X: b.X + along*ux + off*uy, Y: b.Y + along*uy - off*ux}
	if (p.X-q.X)*ahead > 0 {
		return p
	}
	return q
}
