package cover

import (
	"math"
	"slices"
)

// Seam says what is done with an edge.
type Seam string

// The seams.
const (
	Seamed Seam = "seam"
	Hemmed Seam = "hem with cord casing"
)

// Edge is one long side of a panel.
type Edge struct {
	Name      string
	Seam      Seam
	Allowance float64 // inches
	Sewing    []Point // at each place of the boat
	Cutting   []Point // the same, an allowance outside
}

// Length returns the length of the sewing line.
func (e Edge) Length() float64 { return polyline(e.Sewing) }

// Slit is a slit athwart, faced, its ends barred.
type Slit struct {
	At       float64 // inches aft of the foremost point
	Length   float64 // of the whole slit on the finished cover
	From, To Point   // on this panel
}

// Panel is one piece of the cover, flat, seen from its outer face. Near is the
// edge of lesser Y. On a panel that lies alike to both sides of its datum, the
// datum is the middle.
type Panel struct {
	Name     string
	Datum    string // what the X axis is
	Place    []float64
	Station  []int // places that are stations
	Near     Edge
	Far      Edge
	Fold     []Point // the gunwale, where it runs inside the panel; nil for none
	Middle   bool    // the panel lies alike to both sides of its datum
	Mirrored bool    // cut as the mirror of what is drawn: X to the other side
	Slit     *Slit
	Joins    []float64  // heights at which the panel is joined of two widths of cloth
	Sewn     []Point    // outline of the sewing lines, counter-clockwise
	Cut      []Point    // outline to cut, with rough ends where tracings lack
	Ends     [2][]Point // sewing lines of bow and stern where they were traced, from keel to top
	rails    []rail     // the lines of the boat that lie on the panel, datum first
}

// rail is a line of the boat on a panel.
type rail struct {
	on     Line
	points []Point   // on the cloth
	spans  []float64 // what they are meant to be apart
}

// Line names a line of the boat that a cover touches.
type Line string

// The lines.
const (
	TopLine     Line = "top"
	GunwaleLine Line = "gunwale"
	KeelLine    Line = "keel"
	SkirtLine   Line = "skirt"
)

// on is a line of the boat as a rail that is still to be laid.
func (p plan) on(name Line, l line) rail {
	return rail{on: name, spans: p.hull.reduceSpans(l.spans(), p.cloth.LengthReduction)}
}

// lay lays rails out, the widths between them given.
func (p plan) lay(rails []rail, widths ...[]float64) []rail {
	var spans, rungs [][]float64
	for _, r := range rails {
		spans = append(spans, r.spans)
	}
	for _, w := range widths {
		rungs = append(rungs, p.hull.reduceGirths(w, p.cloth.GirthReduction))
	}
	for i, points := range Develop(spans, rungs, p.hull.greatest()) {
		rails[i].points = points
	}
	return rails
}

// side makes one of two mirrored panels: top, gunwale, keel.
func (p plan) side() Panel {
	h, allow := p.hull, inches(p.cloth.SeamAllowance)
	rails := p.lay([]rail{p.on(TopLine, h.topLine()), p.on(GunwaleLine, h.gunwaleLine()), p.on(KeelLine, h.keelLine())},
		half(h.Opening), half(h.Girth))
	panel := Panel{
		Datum: "top seam",
		Near:  Edge{Name: "top seam", Seam: Seamed, Allowance: allow, Sewing: rails[0].points},
		Far:   Edge{Name: "keel seam", Seam: Seamed, Allowance: allow, Sewing: rails[2].points},
		Fold:  rails[1].points,
		rails: rails,
	}
	if s := p.slit; s != nil {
		at := rails[0].points[h.index(s.At)]
		panel.Slit = &Slit{At: s.At, Length: s.Length, From: at, To: Point{X: at.X, Y: s.Length / 2}}
	}
	return panel
}

// double makes a panel that lies alike to both sides of a straight datum, the
// first rail.
func (p plan) double(name, datum string, rails []rail, widths ...[]float64) Panel {
	rails = p.lay(rails, widths...)
	last := rails[len(rails)-1].points
	panel := Panel{Name: name, Datum: datum, Middle: true, rails: rails}
	panel.Far.Sewing, panel.Near.Sewing = last, mirror(last)
	if len(rails) > 2 {
		panel.Fold = rails[1].points
	}
	return panel
}

func mirror(line []Point) []Point {
	m := make([]Point, len(line))
	for i, q := range line {
		m[i] = Point{X: q.X, Y: -q.Y}
	}
	return m
}

// edged says what is done with both edges.
func (p Panel) edged(near, far string, seam Seam, allowance float64) Panel {
	p.Near.Name, p.Far.Name = near, far
	for _, e := range []*Edge{&p.Near, &p.Far} {
		e.Seam, e.Allowance = seam, allowance
	}
	return p
}

// athwart puts a slit across the middle of a panel.
func (p Panel) athwart(h Hull, s *Slit) Panel {
	if s != nil {
		x := p.rails[0].points[h.index(s.At)].X
		p.Slit = &Slit{At: s.At, Length: s.Length, From: Point{X: x, Y: -s.Length / 2}, To: Point{X: x, Y: s.Length / 2}}
	}
	return p
}

// finish adds allowances and outlines. Ends that were not traced are cut rough,
// so that any tracing of an end of the given heights fits on the cloth.
func (p Panel) finish(h Hull, stations []int, ends [2]float64, profiles [2]*Profile) Panel {
	p.Place, p.Station = h.X, stations
	p.Near.Cutting = offset(p.Near.Sewing, -p.Near.Allowance)
	p.Far.Cutting = offset(p.Far.Sewing, p.Far.Allowance)
	p.Sewn = append(p.Sewn, p.Near.Sewing...)
	for i := len(p.Far.Sewing) - 1; i >= 0; i-- {
		p.Sewn = append(p.Sewn, p.Far.Sewing[i])
	}
	first, last := p.Station[0], p.Station[len(p.Station)-1]
	var traced [2]bool
	for k, profile := range profiles {
		traced[k] = profile != nil && p.profiles()
	}
	near, far := p.rough(first, last, ends, traced)
	near, far = p.trace(h, profiles, near, far)
	p.Cut = append(near, reversed(far)...)
	return p
}

// measured returns the places between which the panel is cut as measured.
func (p Panel) measured() (first, last int) {
	stations := make([]float64, len(p.Station))
	for k, i := range p.Station {
		stations[k] = p.Place[i]
	}
	first, last = FromCurve(stations, p.Place[len(p.Place)-1])
	if first > last {
		first, last = len(stations)-1, 0
	}
	return p.Station[first], p.Station[last]
}

// FromCurve returns between which of the stations, rising, panels are cut as the
// curve has them: the first one a foot from the bow, the last one a foot from the
// stern. The rest is from tracing. Where no station is, last lies before first.
func FromCurve(stations []float64, length float64) (first, last int) {
	first, last = len(stations), -1
	for i, x := range stations {
		if x >= fade-step && x <= length-fade+step {
			first, last = min(first, i), max(last, i)
		}
	}
	return first, last
}

// roughMargin is the cloth left beyond a rough end, in inches, beside the
// allowance.
const roughMargin = 0.5

// rough returns both edges to cut, from bow to stern: parallel to the sewing lines from the first
// station to the last. Beyond them it holds the curve carried on, and the
// straight line from the station's width to the end's height: no end rises
// above both, since sheers are hollow and stems rise from below. Ends that were
// traced are left as the curve has them.
func (p Panel) rough(first, last int, ends [2]float64, traced [2]bool) (near, far []Point) {
	n := len(p.Place)
	bow, stern := p.Near.Cutting[0].X, p.Near.Cutting[n-1].X
	for _, line := range [][]Point{p.Near.Cutting, p.Far.Cutting, p.rails[0].points} {
		for i := range line {
			bow, stern = math.Min(bow, line[i].X), math.Max(stern, line[i].X)
		}
	}
	margin := math.Max(p.Near.Allowance, p.Far.Allowance) + roughMargin
	bow, stern = bow-margin, stern+margin
	side := func(e Edge, way float64) []Point {
		top := [2]float64{}
		for k, i := range []int{0, n - 1} {
			top[k] = way * e.Cutting[i].Y
			if p.profiles() && (way > 0 || p.Middle) {
				top[k] = math.Max(top[k], ends[k]+e.Allowance)
			}
		}
		line, tail := slices.Clone(e.Cutting[:first+1]), reversed(e.Cutting[last:])
		if !traced[0] {
			line = above(line, Point{X: bow, Y: way * top[0]}, way)
		}
		if !traced[1] {
			tail = above(tail, Point{X: stern, Y: way * top[1]}, way)
		}
		line = append(line, e.Cutting[first+1:last]...)
		return append(line, reversed(tail)...)
	}
	return side(p.Near, -1), side(p.Far, 1)
}

// above returns the outline of an end from its tip to the last point of the
// line: what lies farther out (up for way 1), the line or the straight from tip
// to station.
func above(line []Point, tip Point, way float64) []Point {
	station := line[len(line)-1]
	out := []Point{tip}
	for _, q := range line {
		f := (q.X - tip.X) / (station.X - tip.X)
		straight := tip.Y + f*(station.Y-tip.Y)
		if f > 0 && f < 1 && (q.Y-straight)*way > 0 {
			if len(out) == 1 {
				out = append(out, Point{X: tip.X, Y: q.Y})
				out[0].Y = way * math.Max(way*out[0].Y, way*q.Y)
			}
			out = append(out, q)
		}
	}
	return append(out, station)
}

func reversed(line []Point) []Point {
	r := slices.Clone(line)
	slices.Reverse(r)
	return r
}

// profiles reports that the profile of the boat's ends lies on the panel.
func (p Panel) profiles() bool {
	for _, r := range p.rails {
		if r.on == KeelLine {
			return true
		}
	}
	return false
}

// offset returns the line so far to its left (negative: right), going on with
// it. The corner at each point is mitred.
func offset(line []Point, by float64) []Point {
	out := make([]Point, len(line))
	for i, q := range line {
		before, after := i-1, i+1
		if before < 0 {
			before = 0
		}
		if after == len(line) {
			after = i
		}
		a, b := unit(line[before], line[i]), unit(line[i], line[after])
		if before == i {
			a = b
		}
		if after == i {
			b = a
		}
		nx, ny := -(a.Y + b.Y), a.X+b.X
		norm := math.Hypot(nx, ny)
		if norm == 0 {
			nx, ny, norm = -a.Y, a.X, 1
		}
		nx, ny = nx/norm, ny/norm
		mitre := math.Max(nx*-a.Y+ny*a.X, leastMitre)
		out[i] = Point{X: q.X + by*nx/mitre, Y: q.Y + by*ny/mitre}
	}
	return out
}

// leastMitre keeps the corner of a sharp turn within twice the allowance.
const leastMitre = 0.5

func unit(a, b Point) Point {
	d := distance(a, b)
	if d == 0 {
		return Point{}
	}
	return Point{X: (b.X - a.X) / d, Y: (b.Y - a.Y) / d}
}
