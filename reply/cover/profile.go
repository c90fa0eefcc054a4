package cover

import (
	"fmt"
	"math"
	"slices"

	"fairtape/parse"
)

// Profile is an end of a boat as it was traced, from the flat of the bottom up
// to the top, in inches: X from the end inwards (aft of the foremost point, or
// forward of the aftmost one), Y up from the flat of the bottom.
type Profile struct {
	Points []Point
	Error  float64 // how far they may be off, inches
}

// leastProfile is the height, in inches, from which a line may be the end of a
// boat; a lower one is a line of something else.
const leastProfile = 4.0

// ProfileOf lays a tracing as the end of a boat lies. The error is a *Refusal
// when the line cannot be one.
func ProfileOf(t parse.Tracing) (*Profile, error) {
	var no Refusal
	no.unless(len(t.Line) > 2, "tracing", "there is no line on it")
	if err := no.orNil(); err != nil {
		return nil, err
	}
	flat, end := t.Line[0], t.Line[0]
	for _, q := range t.Line {
		if math.Abs(q.X-flat.X) > math.Abs(end.X-flat.X) {
			end = q
		}
	}
	way := 1.0
	if end.X < flat.X {
		way = -1
	}
	p := &Profile{Error: t.Error / millimetresPerInch}
	for _, q := range t.Line {
		p.Points = append(p.Points, Point{X: way * (end.X - q.X) / millimetresPerInch, Y: (q.Y - flat.Y) / millimetresPerInch})
	}
	no.unless(p.top().Y >= leastProfile, "tracing", "its line rises by only %.1f in: that is no end of a boat, from the flat of the bottom up to the top", p.top().Y)
	return p, no.orNil()
}

// top is the last point of the profile, at the height of the end.
func (p *Profile) top() Point { return p.Points[len(p.Points)-1] }

// endHeight is how far the height of a traced end may be from the one in the
// survey, in inches: each is taken to half an inch. Common practice, no source.
const endHeight = 0.75

// against says where a profile and the survey's height of that end differ.
func (p *Profile) against(end string, height float64, say func(float64) string) []string {
	if height <= 0 || math.Abs(p.top().Y-height) <= endHeight {
		return nil
	}
	return []string{fmt.Sprintf("The %s is %s high on the tracing and %s in the survey: see which is right before cutting that end.", end, say(p.top().Y), say(height))}
}

// leaves is how far above the keel, in inches, a profile begins to be the end:
// below it the panel's own edge goes on.
const leaves = 0.25

// onCloth lays a profile on a panel: each of its points lies between keel and
// gunwale as it does on the boat. The line runs from the keel to the top.
func (p Panel) onCloth(h Hull, profile *Profile, stern bool) (line []Point) {
	gunwale, keel := p.line(GunwaleLine), p.line(KeelLine)
	for _, q := range profile.Points {
		x := q.X
		if stern {
			x = h.Length() - q.X
		}
		i, f := h.between(x)
		at := func(list []float64) float64 { return list[i] + f*(list[i+1]-list[i]) }
		sheer, bottom := at(h.Sheer), at(h.Keel)
		if len(line) == 0 && q.Y <= bottom+leaves || sheer-bottom <= 0 {
			continue
		}
		up := min(max((q.Y-bottom)/(sheer-bottom), 0), 1)
		on := func(l []Point) Point {
			return Point{X: l[i].X + f*(l[i+1].X-l[i].X), Y: l[i].Y + f*(l[i+1].Y-l[i].Y)}
		}
		k, g := on(keel), on(gunwale)
		line = append(line, Point{X: k.X + up*(g.X-k.X), Y: k.Y + up*(g.Y-k.Y)})
	}
	return line
}

// line returns where a line of the boat lies on the panel, nil where it does not.
func (p Panel) line(name Line) []Point {
	for _, r := range p.rails {
		if r.on == name {
			return r.points
		}
	}
	return nil
}

// between returns the place before x and how far on the way to the next it is.
func (h Hull) between(x float64) (i int, f float64) {
	i, _ = slices.BinarySearch(h.X, x)
	i = min(max(i-1, 0), len(h.X)-2)
	return i, min(max((x-h.X[i])/(h.X[i+1]-h.X[i]), 0), 1)
}

// trace gives the panel the ends that were traced: near and far are its edges to
// cut, from bow to stern, with rough ends. Only a panel on which the ends lie has
// them.
func (p *Panel) trace(h Hull, profiles [2]*Profile, near, far []Point) ([]Point, []Point) {
	if !p.profiles() || p.line(GunwaleLine) == nil {
		return near, far
	}
	for k, profile := range profiles {
		if profile == nil {
			continue
		}
		line := p.onCloth(h, profile, k == 1)
		if len(line) < 2 {
			continue
		}
		if !p.Middle { // from the gunwale on to the seam along the top
			top := line[len(line)-1]
			line = append(line, Point{X: top.X})
		}
		p.Ends[k] = line
		// A side's far edge is the keel: the end goes on from it. On a panel with a
		// middle the end goes on from the gunwale.
		if p.Middle == (k == 1) {
			line = reversed(line)
		}
		if k == 1 {
			far = endWith(far, p.Far.Sewing, line, p.Far.Allowance)
		} else {
			far = reversed(endWith(reversed(far), reversed(p.Far.Sewing), reversed(line), -p.Far.Allowance))
		}
		near = p.trim(near, far, k)
	}
	if p.Middle { // both halves meet in the notch between the ends
		far = reversed(aboveMiddle(reversed(aboveMiddle(far))))
		near = mirror(far)
	}
	return near, far
}

// endWith lets an edge to cut end with a traced end: cut and sewing run to the
// end that is replaced, and the line goes on from them.
func endWith(cut, sewing, line []Point, allow float64) []Point {
	from := line[0].X
	before := func(q Point) bool { return (q.X-from)*(line[0].X-sewing[0].X) < 0 }
	var sewn []Point
	for _, q := range sewing {
		if before(q) {
			sewn = append(sewn, q)
		}
	}
	kept := len(sewn)
	offs := offset(append(sewn, line...), allow)[kept:]
	var out []Point
	for _, q := range cut {
		if (q.X-offs[0].X)*(line[0].X-sewing[0].X) < 0 {
			out = append(out, q)
		}
	}
	return append(out, offs...)
}

// aboveMiddle lets an edge begin on the middle of the panel where it begins
// below.
func aboveMiddle(edge []Point) []Point {
	i := slices.IndexFunc(edge, func(q Point) bool { return q.Y >= 0 })
	if i <= 0 {
		return edge
	}
	a, b := edge[i-1], edge[i]
	f := -a.Y / (b.Y - a.Y)
	return append([]Point{{X: a.X + f*(b.X-a.X)}}, edge[i:]...)
}

// trim lets the near edge of a side end where its traced end does.
func (p *Panel) trim(near, far []Point, end int) []Point {
	if p.Middle {
		return near
	}
	corner := far[0]
	if end == 1 {
		corner = far[len(far)-1]
	}
	var out []Point
	for _, q := range near {
		if end == 0 && q.X > corner.X || end == 1 && q.X < corner.X {
			out = append(out, q)
		}
	}
	if len(out) == 0 {
		return near
	}
	if end == 0 {
		return append([]Point{{X: corner.X, Y: out[0].Y}}, out...)
	}
	return append(out, Point{X: corner.X, Y: out[len(out)-1].Y})
}

// EndSewing returns the sewing lines beyond the last measured station at an end,
// 0 for the bow: as the curve has them where the end was not traced, else its
// edges as far as they go and the end itself.
func (p Panel) EndSewing(end int) [][]Point {
	first, last := p.measured()
	line := p.Ends[end]
	piece := func(e Edge, until float64) []Point {
		part := e.Sewing[:first+1]
		if end == 1 {
			part = e.Sewing[last:]
		}
		return slices.DeleteFunc(slices.Clone(part), func(q Point) bool {
			return line != nil && (end == 0 && q.X < until || end == 1 && q.X > until)
		})
	}
	if line == nil {
		return [][]Point{piece(p.Near, 0), piece(p.Far, 0)}
	}
	keel, top := line[0].X, line[len(line)-1].X
	if p.Middle {
		return [][]Point{piece(p.Near, top), piece(p.Far, top), line, mirror(line)}
	}
	return [][]Point{piece(p.Near, top), piece(p.Far, keel), line}
}

// EndMarks returns places of a traced end for a chalk table, about so many: run
// along the datum, and square to it.
func (p Panel) EndMarks(end, count int) []Point {
	line := p.Ends[end]
	if len(line) < count {
		return line
	}
	long := polyline(line)
	marks := []Point{line[0]}
	run := 0.0
	for i := 1; i < len(line); i++ {
		run += distance(line[i-1], line[i])
		if run >= long*float64(len(marks))/float64(count-1)-1e-9 {
			marks = append(marks, line[i])
		}
	}
	return marks
}
