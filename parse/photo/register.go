package photo

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"fairtape/parse/form"
)

// perMM is the resolution of straightened pages, that of the number reader.
const perMM = 4

// Registration: how far boxes may lie from where the four marks have them.
// Paper that rises by a hand's breadth between its corners moves them by
// millimetres; the nearest other boxes are 10 mm away, but all boxes of a page
// together have their like only as far off as its rows lie, 12 mm.
const (
	farthest = 6 * perMM // pixels of the straightened page
	outlines = 0.30      // darkness that one pixel of an outline counts at most: ink must not pull
	besides  = 3         // pixels from a line to the paper that it is compared with
)

// placed is a box of a field where the photo shows it.
type placed struct {
	field, box int
	rect       form.Rect // where it should be, mm
	dx, dy     float64   // where it is, mm from there
	outline    float64   // how much of its outline is seen, 0 to 1
}

// lines is how strongly each pixel of a straightened page looks like a piece of
// a level or an upright line, summed up along rows and columns.
type lines struct {
	w, h           int
	level, upright []float32 // (h+1) x (w+1) sums
}

func newLines(p *plane) *lines {
	l := &lines{w: p.w, h: p.h, level: make([]float32, (p.w+1)*(p.h+1)), upright: make([]float32, (p.w+1)*(p.h+1))}
	at := func(x, y int) float32 {
		return float32(p.pix[min(max(y, 0), p.h-1)*p.w+min(max(x, 0), p.w-1)])
	}
	for y := range p.h {
		row := float32(0)
		for x := range p.w {
			v := at(x, y)
			row += ridge(at(x, y-besides), v, at(x, y+besides))
			i := y*(p.w+1) + x
			l.level[i+1] = row
			l.upright[i+p.w+1] = l.upright[i] + ridge(at(x-besides, y), v, at(x+besides, y))
		}
	}
	return l
}

// ridge is how much darker a pixel is than the paper at both sides of it.
func ridge(a, v, b float32) float32 {
	paper := min(a, b)
	if paper <= 0 {
		return 0
	}
	return min(max((paper-v)/paper, 0), outlines)
}

// levelSum is the sum of a level line's pixels from x0 to x1.
func (l *lines) levelSum(x0, x1, y int) float32 {
	if y < 0 || y >= l.h {
		return 0
	}
	x0, x1 = min(max(x0, 0), l.w), min(max(x1, 0), l.w)
	return l.level[y*(l.w+1)+x1] - l.level[y*(l.w+1)+x0]
}

func (l *lines) uprightSum(x, y0, y1 int) float32 {
	if x < 0 || x >= l.w {
		return 0
	}
	y0, y1 = min(max(y0, 0), l.h), min(max(y1, 0), l.h)
	return l.upright[y1*(l.w+1)+x] - l.upright[y0*(l.w+1)+x]
}

const window = 2*farthest + 1

// fit says for every shift of up to farthest pixels from one how well a box's
// outline lies on lines of the picture, as the mean darkness under it.
func (l *lines) fit(r form.Rect, from point) []float32 {
	x0, y0 := int(math.Round(r.X0*perMM+from.x)), int(math.Round(r.Y0*perMM+from.y))
	x1, y1 := int(math.Round(r.X1*perMM+from.x)), int(math.Round(r.Y1*perMM+from.y))
	around := float32(2 * (x1 - x0 + y1 - y0))
	out := make([]float32, window*window)
	for dy := -farthest; dy <= farthest; dy++ {
		for dx := -farthest; dx <= farthest; dx++ {
			// Each line's middle lies on the edge, between two pixels.
			sum := l.levelSum(x0+dx, x1+dx, y0+dy) + l.levelSum(x0+dx, x1+dx, y0+dy-1) +
				l.levelSum(x0+dx, x1+dx, y1+dy) + l.levelSum(x0+dx, x1+dx, y1+dy-1) +
				l.uprightSum(x0+dx, y0+dy, y1+dy) + l.uprightSum(x0+dx-1, y0+dy, y1+dy) +
				l.uprightSum(x1+dx, y0+dy, y1+dy) + l.uprightSum(x1+dx-1, y0+dy, y1+dy)
			out[(dy+farthest)*window+dx+farthest] = sum / around
		}
	}
	return out
}

// rounds is how registration goes from the whole page to single boxes: how far
// around a box, in mm, others vote on its shift, and how far, in pixels, the
// shift may move from that of the round before.
var rounds = []struct {
	sigma float64
	reach int
}{{60, farthest}, {25, 8}, {12, 4}, {6, 2}}

// register finds where the photo shows each box of the page.
func register(straight *plane, l form.Layout, page int) []placed {
	var boxes []placed
	for i, f := range l.Fields {
		if f.Page != page || f.Kind == form.Text {
			continue
		}
		for j, b := range f.Boxes {
			boxes = append(boxes, placed{field: i, box: j, rect: b})
		}
	}
	seen := newLines(straight)
	bend := make([]point, len(boxes)) // of the sheet, as far as it is known, in pixels
	for range passes {
		if bend = place(boxes, seen, bend); !bent(bend) {
			break
		}
	}
	return boxes
}

// passes is how often the boxes of a bent page are looked for, each time about
// where the bend of the sheet has them that the time before showed.
const passes = 4

// bent reports a sheet that rises so much that boxes may have been out of reach.
func bent(bend []point) bool {
	return slices.ContainsFunc(bend, func(p point) bool { return p.from(point{}) > farthest/2 })
}

// place finds each box about where the bend of the sheet has it, and returns the
// bend that the boxes which are seen well lie on.
func place(boxes []placed, seen *lines, bend []point) []point {
	fits := make([][]float32, len(boxes))
	for i, b := range boxes {
		bend[i] = point{math.Round(bend[i].x), math.Round(bend[i].y)}
		fits[i] = seen.fit(b.rect, bend[i])
	}
	shifts := make([]point, len(boxes)) // from there, in pixels
	votes := make([]float32, window*window)
	for _, r := range rounds {
		next := make([]point, len(boxes))
		for i := range boxes {
			clear(votes)
			for j := range boxes {
				vote(votes, fits[j], float32(nearness(boxes[i].rect, boxes[j].rect, r.sigma)), shifts[i], shifts[j])
			}
			next[i] = peak(votes, shifts[i], r.reach)
		}
		shifts = next
	}
	shifts = straighten(boxes, shifts, fits)
	for i := range boxes {
		b := &boxes[i]
		b.dx, b.dy = (bend[i].x+shifts[i].x)/perMM, (bend[i].y+shifts[i].y)/perMM
		b.outline = seenAt(fits[i], shifts[i])
	}
	return bendOf(boxes)
}

// seenAt is how well an outline is seen at a shift, by the fits of its box.
func seenAt(fit []float32, shift point) float64 {
	x, y := int(math.Round(shift.x)), int(math.Round(shift.y))
	if max(x, -x) > farthest || max(y, -y) > farthest {
		return 0
	}
	return float64(fit[(y+farthest)*window+x+farthest])
}

const (
	// nearby is how far around a box, in mm, others say where it should be: paper
	// bends smoothly over that.
	nearby = 15.0
	// astray is how far, in pixels, a box may be from there. Beyond, its outline
	// was taken for that of its neighbour, 2 mm off.
	astray = 1.2
	// leastVotes is how many neighbours, weighed by nearness, may say so.
	leastVotes = 1.0
	// steepest is how much, in pixels, shifts change over nearby in a bent sheet.
	steepest = 4.0
	// asWell is how well, as a share, the outline of a box is seen where its
	// neighbours expect it, if that is its place: ink hides a part of it.
	asWell = 0.5
)

// straighten holds the shift of each box against a plane through those of its
// neighbours, and puts boxes that went astray onto it, if their outline is seen
// there.
func straighten(boxes []placed, shifts []point, fits [][]float32) []point {
	out := slices.Clone(shifts)
	for i := range boxes {
		expected, ok := expectedAt(boxes, shifts, i)
		if ok && expected.from(shifts[i]) > astray && seenAt(fits[i], expected) >= asWell*seenAt(fits[i], shifts[i]) {
			out[i] = expected
		}
	}
	return out
}

// expectedAt is where the neighbours of box i expect it: first the middle one of
// their shifts, then the weighted least squares plane through those near to
// that, and again through those near to the plane. ok is false for a box that
// has too few.
func expectedAt(boxes []placed, shifts []point, i int) (at point, ok bool) {
	var near []neighbour
	votes := 0.0
	x0, y0 := boxes[i].rect.Centre()
	for j := range boxes {
		w := nearness(boxes[i].rect, boxes[j].rect, nearby)
		if j == i || w < 0.01 {
			continue
		}
		x, y := boxes[j].rect.Centre()
		near = append(near, neighbour{(x - x0) / nearby, (y - y0) / nearby, w, shifts[j]})
		votes += w
	}
	if votes < leastVotes {
		return point{}, false
	}
	sheet := leaning{at: point{median(near, votes, func(n neighbour) float64 { return n.shift.x }), median(near, votes, func(n neighbour) float64 { return n.shift.y })}}
	for _, reach := range []float64{steepest, 2 * astray} {
		if sheet, ok = planeThrough(near, sheet, reach); !ok {
			return point{}, false
		}
	}
	return sheet.at, true
}

// neighbour is a box as another sees it: how far it is, in units of nearby, what
// it counts and how it is shifted.
type neighbour struct {
	x, y, weight float64
	shift        point
}

// leaning is a plane through shifts: that at the box itself, and by how much it
// changes over nearby, across and down the page.
type leaning struct{ at, across, down point }

func (l leaning) shift(n neighbour) point {
	return point{l.at.x + n.x*l.across.x + n.y*l.down.x, l.at.y + n.x*l.across.y + n.y*l.down.y}
}

// median is the weighted median of a coordinate of the neighbours' shifts.
func median(near []neighbour, total float64, of func(neighbour) float64) float64 {
	sorted := slices.SortedFunc(slices.Values(near), func(a, b neighbour) int { return cmp.Compare(of(a), of(b)) })
	sum := 0.0
	for _, n := range sorted {
		if sum += n.weight; sum >= total/2 {
			return of(n)
		}
	}
	return 0
}

// planeThrough lays the weighted least squares plane through the shifts of the
// neighbours that are within reach of another.
func planeThrough(near []neighbour, about leaning, reach float64) (leaning, bool) {
	const level = 0.3 // the weight of a plane that does not lean: boxes in one line leave its slope open
	fit, votes := newShiftFit(3), 0.0
	for _, n := range near {
		if n.shift.from(about.shift(n)) > reach {
			continue
		}
		fit.add(mat.NewVecDense(3, []float64{1, n.x, n.y}), n.weight, n.shift)
		votes += n.weight
	}
	if votes < leastVotes {
		return leaning{}, false
	}
	fit.stiffen(1, level)
	fit.stiffen(2, level)
	x, y, ok := fit.solve()
	if !ok {
		return leaning{}, false
	}
	return leaning{point{x.AtVec(0), y.AtVec(0)}, point{x.AtVec(1), y.AtVec(1)}, point{x.AtVec(2), y.AtVec(2)}}, true
}

func nearness(a, b form.Rect, sigma float64) float64 {
	ax, ay := a.Centre()
	bx, by := b.Centre()
	return math.Exp(-((ax-bx)*(ax-bx) + (ay-by)*(ay-by)) / (2 * sigma * sigma))
}

// vote adds the fit of another box, moved by how the two boxes' shifts differ so
// far.
func vote(votes, fit []float32, weight float32, mine, other point) {
	if weight < 0.01 {
		return
	}
	mx, my := int(math.Round(other.x-mine.x)), int(math.Round(other.y-mine.y))
	for y := range window {
		v := y + my
		if v < 0 || v >= window {
			continue
		}
		x0, x1 := max(0, -mx), min(window, window-mx)
		if x0 >= x1 {
			continue
		}
		from := fit[v*window+x0+mx : v*window+x1+mx]
		to := votes[y*window+x0 : y*window+x1]
		for i, f := range from {
			to[i] += weight * f
		}
	}
}

// peak is the best shift within reach of the one before, between pixels by a
// parabola through its neighbours.
func peak(votes []float32, before point, reach int) point {
	bx, by := int(math.Round(before.x))+farthest, int(math.Round(before.y))+farthest
	best, x, y := float32(-1), bx, by
	for j := max(by-reach, 1); j <= min(by+reach, window-2); j++ {
		for i := max(bx-reach, 1); i <= min(bx+reach, window-2); i++ {
			if v := votes[j*window+i]; v > best {
				best, x, y = v, i, j
			}
		}
	}
	x, y = min(max(x, 1), window-2), min(max(y, 1), window-2)
	at := func(i, j int) float64 { return float64(votes[j*window+i]) }
	return point{
		float64(x-farthest) + vertex(at(x-1, y), at(x, y), at(x+1, y)),
		float64(y-farthest) + vertex(at(x, y-1), at(x, y), at(x, y+1)),
	}
}

func vertex(a, b, c float64) float64 {
	if d := a - 2*b + c; d < 0 {
		return min(max((a-c)/(2*d), -0.5), 0.5)
	}
	return 0
}
