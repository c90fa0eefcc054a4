package cover

import (
	"math"
)

// Mark is one row of a chalk table: where a station, or a place midway between
// two, lies on the cloth. Lengths are inches.
type Mark struct {
	At      float64 // aft of the foremost point
	Station bool    // a match mark; else midway
	Datum   float64 // along the datum
	Run     float64 // the far edge's mark: along the datum ...
	Sew     float64 // ... and square to it, to the sewing line ...
	Cut     float64 // ... and to the cutting line
	Slant   float64 // cutting line less sewing line per inch of allowance
	Across  float64 // straight over the panel, from edge to edge
	Seam    float64 // along the far edge from the station before, 0 for the first
}

// Lean returns by how much the station leans on the flat cloth, in degrees: the
// angle that the cloth has to give way to.
func (m Mark) Lean() float64 {
	return math.Abs(math.Atan2(m.Run-m.Datum, m.Sew)) * 180 / math.Pi
}

// LeanNote is the lean, in degrees, from which a note says so. Woven cloth gives
// way to 20 degrees and more before it wrinkles; from memory.
const LeanNote = 15.0

// Chalk returns the chalk table of a panel between its traced ends. On a panel
// with a middle both sides are alike.
func (p Panel) Chalk() []Mark {
	first, last := p.measured()
	var marks []Mark
	before := -1
	add := func(i int, station bool) {
		q := p.Far.Sewing[i]
		m := Mark{
			At: p.Place[i], Station: station, Datum: p.rails[0].points[i].X, Run: q.X, Sew: q.Y,
			Cut: heightAt(p.Far.Cutting, q.X), Across: distance(p.Near.Sewing[i], q),
		}
		if p.Far.Allowance > 0 {
			m.Slant = (m.Cut - m.Sew) / p.Far.Allowance
		}
		if station {
			if before >= 0 {
				m.Seam = polyline(p.Far.Sewing[before : i+1])
			}
			before = i
		}
		marks = append(marks, m)
	}
	for k, i := range p.Station {
		if i < first || i > last {
			continue
		}
		if k > 0 && p.Station[k-1] >= first {
			add(midway(p.Place, p.Station[k-1], i), false)
		}
		add(i, true)
	}
	return marks
}

// steepest returns the mark that leans most.
func (p Panel) steepest() Mark {
	var worst Mark
	for _, m := range p.Chalk() {
		if m.Station && m.Lean() > worst.Lean() {
			worst = m
		}
	}
	return worst
}

// midway returns the place nearest to the middle of two others.
func midway(x []float64, i, j int) int {
	middle := (x[i] + x[j]) / 2
	best := i
	for k := i; k <= j; k++ {
		if math.Abs(x[k]-middle) < math.Abs(x[best]-middle) {
			best = k
		}
	}
	return best
}

// heightAt returns the height of a line at x.
func heightAt(line []Point, x float64) float64 {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (a.X <= x) != (b.X <= x) {
			return a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y)
		}
	}
	return line[len(line)-1].Y
}

// Diagonal is a straight line over a panel that proves it laid out square.
type Diagonal struct {
	From, To float64 // stations, inches aft of the foremost point
	A, B     Point
	Length   float64
	Edges    [2]string // that it runs between
}

// Diagonals returns the two diagonals between the first and the last measured
// station.
func (p Panel) Diagonals() [2]Diagonal {
	first, last := p.measured()
	one := func(i, j int) Diagonal {
		a, b := p.Near.Sewing[i], p.Far.Sewing[j]
		return Diagonal{From: p.Place[i], To: p.Place[j], A: a, B: b, Length: distance(a, b), Edges: [2]string{p.Near.Name, p.Far.Name}}
	}
	return [2]Diagonal{one(first, last), one(last, first)}
}

// Measured returns the stretch that is not from tracing, in inches aft of the
// foremost point.
func (p Panel) Measured() (from, to float64) {
	first, last := p.measured()
	return p.Place[first], p.Place[last]
}

// Size returns length and width of the cloth that a panel is cut from.
func (p Panel) Size() (long, wide float64) {
	lo, hi := p.Cut[0].X, p.Cut[0].X
	for _, q := range p.Cut {
		lo, hi = min(lo, q.X), max(hi, q.X)
	}
	return hi - lo, width(p.Cut)
}
