package cover

import (
	"math"
	"slices"
)

// Sewn is a line of the boat, and what lies on it when the panels are sewn
// together again. Lengths are inches, from end to end.
type Sewn struct {
	Panel string
	Line  Line
	Meant float64 // the boat's line less the length reduction
	Cloth float64 // the panel's edge or fold
	// The same between the stations that the panel is cut from: beyond them it is
	// guessed until it is trimmed to the tracings.
	From, To                 float64
	MeantInside, ClothInside float64
}

// Off returns by how much the cloth is longer than meant.
func (s Sewn) Off() float64 { return s.Cloth - s.Meant }

// OffInside is Off between the stations that the panel is cut from.
func (s Sewn) OffInside() float64 { return s.ClothInside - s.MeantInside }

// Joint is a seam of two edges.
type Joint struct {
	Name  string
	Edges [2]string // the panels
	Spans []Span    // between neighbouring stations
}

// Span is a stretch of a seam between two stations.
type Span struct {
	From, To float64    // inches aft of the foremost point
	Edges    [2]float64 // lengths of the two edges, inches
}

// Difference returns the difference of the two edges as a share of the shorter.
func (s Span) Difference() float64 {
	a, b := s.Edges[0], s.Edges[1]
	return math.Abs(a-b) / math.Min(a, b)
}

// From the trade: a difference over 2 % does not go in by easing, and a seam a
// quarter inch off its line shows.
const (
	SpanNote = 0.02
	LineNote = 0.25 // inches
)

// sewn measures the lines of the boat on the panels.
func sewn(panels []Panel) []Sewn {
	var all []Sewn
	for _, p := range panels {
		if p.Mirrored {
			continue
		}
		first, last := p.measured()
		last = max(first, last)
		for _, r := range p.rails {
			all = append(all, Sewn{
				Panel: p.Name, Line: r.on, Meant: sum(r.spans), Cloth: polyline(r.points),
				From: p.Place[first], To: p.Place[last],
				MeantInside: sum(r.spans[first:last]), ClothInside: polyline(r.points[first : last+1]),
			})
		}
	}
	return all
}

// seams pairs the edges that are sewn together.
func seams(panels []Panel) []Joint {
	var joints []Joint
	for i, p := range panels {
		for _, q := range panels[i+1:] {
			for _, a := range []Edge{p.Near, p.Far} {
				for _, b := range []Edge{q.Near, q.Far} {
					if a.Name == b.Name {
						joints = append(joints, join(p, q, a, b))
					}
				}
			}
		}
	}
	return joints
}

func join(p, q Panel, a, b Edge) Joint {
	j := Joint{Name: a.Name, Edges: [2]string{p.Name, q.Name}}
	for k := 1; k < len(p.Station); k++ {
		from, to := p.Station[k-1], p.Station[k]
		j.Spans = append(j.Spans, Span{
			From: p.Place[from], To: p.Place[to],
			Edges: [2]float64{polyline(a.Sewing[from : to+1]), polyline(b.Sewing[from : to+1])},
		})
	}
	return j
}

// Worst returns the span of the greatest difference.
func (j Joint) Worst() Span {
	return slices.MaxFunc(j.Spans, func(a, b Span) int {
		switch d := a.Difference() - b.Difference(); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
}
