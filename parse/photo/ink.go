package photo

import (
	"math"
	"slices"

	"fairtape/parse/digits"
	"fairtape/parse/form"
)

// paper is the light of bare paper over a straightened page: the light that
// nine tenths of the pixels around do not pass, which neither writing nor print
// pulls down.
type paper struct {
	w, h   int
	blocks []float32
}

const (
	blockSide  = 4 * perMM // pixels: wider than any stroke, narrower than shadows' edges
	paperShare = 0.85
)

func newPaper(p *plane) *paper {
	g := &paper{w: (p.w + blockSide - 1) / blockSide, h: (p.h + blockSide - 1) / blockSide}
	raw := make([]float32, g.w*g.h)
	var counts [256]int
	for j := range g.h {
		for i := range g.w {
			clear(counts[:])
			n := 0
			for y := j * blockSide; y < min((j+1)*blockSide, p.h); y++ {
				for _, v := range p.pix[y*p.w+i*blockSide : y*p.w+min((i+1)*blockSide, p.w)] {
					counts[v]++
					n++
				}
			}
			sum := 0
			for v, c := range counts {
				if sum += c; float64(sum) >= paperShare*float64(n) {
					raw[j*g.w+i] = float32(v)
					break
				}
			}
		}
	}
	// A block full of print takes the light of its neighbours.
	g.blocks = make([]float32, len(raw))
	for j := range g.h {
		for i := range g.w {
			var near []float32
			for y := max(j-1, 0); y <= min(j+1, g.h-1); y++ {
				for x := max(i-1, 0); x <= min(i+1, g.w-1); x++ {
					near = append(near, raw[y*g.w+x])
				}
			}
			slices.Sort(near)
			g.blocks[j*g.w+i] = max(raw[j*g.w+i], near[len(near)/2])
		}
	}
	return g
}

// at is the light of the paper at a place of the page, in millimetres.
func (g *paper) at(x, y float64) float32 {
	u, v := x*perMM/blockSide-0.5, y*perMM/blockSide-0.5
	i, j := min(max(int(math.Floor(u)), 0), g.w-2), min(max(int(math.Floor(v)), 0), g.h-2)
	fu, fv := float32(min(max(u-float64(i), 0), 1)), float32(min(max(v-float64(j), 0), 1))
	a, b := g.blocks[j*g.w+i], g.blocks[j*g.w+i+1]
	c, d := g.blocks[(j+1)*g.w+i], g.blocks[(j+1)*g.w+i+1]
	return max((a*(1-fu)+b*fu)*(1-fv)+(c*(1-fu)+d*fu)*fv, 1)
}

// dark is how dark a pixel of a straightened page is: 0 as the paper, 1 as black.
func (g *paper) dark(straight *plane, x, y int) float32 {
	return 1 - float32(straight.pix[y*straight.w+x])/g.at((float64(x)+0.5)/perMM, (float64(y)+0.5)/perMM)
}

// patch is how dark a box and 1 mm around it are: 0 as the paper, 1 as black.
// Its pixels are a quarter of a millimetre.
type patch struct {
	w, h  int
	dark  []float32
	grain float32     // deviation of bare paper's darkness
	whole *digits.Box // of a digit that goes on beyond it, with all its ink
	doubt float64     // that what is in it was written there
}

const (
	patchMargin = 1.0                      // mm around a box
	patchEdge   = int(patchMargin * perMM) // pixels of a patch to the middle of an outline
	lineReach   = 3                        // pixels to both sides that blur spreads an outline over
)

// look takes the picture of a box where it was found.
func (v *view) look(b placed, g *paper) *patch {
	r := b.rect.Grow(patchMargin)
	p := &patch{w: int(math.Round(r.Width() * perMM)), h: int(math.Round(r.Height() * perMM))}
	p.dark = make([]float32, p.w*p.h)
	n := max(1, min(3, int(v.scale/perMM+0.5)))
	for y := range p.h {
		for x := range p.w {
			sum := float32(0)
			for j := range n {
				for i := range n {
					mx := r.X0 + b.dx + (float64(x)+(float64(i)+0.5)/float64(n))/perMM
					my := r.Y0 + b.dy + (float64(y)+(float64(j)+0.5)/float64(n))/perMM
					sum += v.light.at(v.h.at(mx, my))
				}
			}
			cx, cy := r.X0+b.dx+(float64(x)+0.5)/perMM, r.Y0+b.dy+(float64(y)+0.5)/perMM
			p.dark[y*p.w+x] = 1 - sum/float32(n*n)/g.at(cx, cy)
		}
	}
	p.onBarePaper()
	return p
}

const (
	// farFromPaper is how far, in deviations, what is no bare paper lies from it.
	farFromPaper = 2.5
	// mostUneven is how much darker the paper of a box is at most than it is taken
	// to be about there: more is ink all over the box.
	mostUneven = 0.15
)

// onBarePaper makes the darkness of a patch that over the bare paper in its own
// box, and notes how much the paper's grain and the picture's noise make of it.
func (p *patch) onBarePaper() {
	var inside []float32
	p.each(0.75, func(d float32) { inside = append(inside, d) })
	slices.Sort(inside)
	var bare float32
	for range 4 {
		middle := len(inside) / 2
		bare = inside[middle]
		p.grain = 1.48 * (bare - inside[middle/2]) // the lower quarter of a bell lies 0.67 deviations off
		n, _ := slices.BinarySearch(inside, bare+farFromPaper*p.grain)
		inside = inside[:max(n, middle)]
	}
	if bare > mostUneven {
		bare = 0
	}
	for i, d := range p.dark {
		p.dark[i] = over(bare, d)
	}
}

// side is one side of a box's outline: the pixels about it by how far along the
// line and how far across it they lie.
type side struct {
	length, first, last int // pixels along it; the first and the last across
	at                  func(along, across int) *float32
}

func (p *patch) sides() [4]side {
	column := func(along, across int) *float32 { return &p.dark[along*p.w+across] }
	row := func(along, across int) *float32 { return &p.dark[across*p.w+along] }
	about := func(n, length int, at func(along, across int) *float32, middle int) side {
		return side{length, max(middle-lineReach, 0), min(middle+lineReach, n), at}
	}
	return [4]side{
		about(p.w, p.h, column, patchEdge), about(p.w, p.h, column, p.w-patchEdge),
		about(p.h, p.w, row, patchEdge), about(p.h, p.w, row, p.h-patchEdge),
	}
}

// print is the darkness that most pixels of a side have in common, so far across.
func (s side) print(across int) float32 {
	const skip = 3 // pixels at the corners, where lines meet
	common := make([]float32, 0, s.length)
	for along := patchEdge + skip; along < s.length-patchEdge-skip; along++ {
		common = append(common, *s.at(along, across))
	}
	slices.Sort(common)
	return common[len(common)*2/5]
}

const (
	darkerPrint = 1.25 // times the usual: no outline of one page is darker
	darkestLine = 0.95 // darkness; what is darker lets no ink shine through
)

// usualPrint is how dark the outlines on a page are at most: the median.
func usualPrint(patches []*patch) float32 {
	var all []float32
	for _, p := range patches {
		for _, s := range p.sides() {
			most := float32(0)
			for across := s.first; across < s.last; across++ {
				most = max(most, s.print(across))
			}
			all = append(all, most)
		}
	}
	if len(all) == 0 {
		return darkestLine
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// removeOutline takes the printed lines out. What most pixels along a line have
// in common is print, unless it is darker than print is on this page: the foot
// of a 2 may lie on the line all along.
func (p *patch) removeOutline(usual float32) {
	for _, s := range p.sides() {
		for across := s.first; across < s.last; across++ {
			line := min(s.print(across), darkerPrint*usual, darkestLine)
			for along := patchEdge - lineReach; along < s.length-patchEdge+lineReach; along++ {
				d := s.at(along, across)
				*d = over(line, *d)
			}
		}
	}
}

// over is the darkness of what lies on a ground, by how dark both are together:
// the ground lets a share of the light through, and what is on it a share of that.
func over(ground, both float32) float32 { return max(0, 1-(1-both)/(1-ground)) }

// inkLevels says what counts as ink on a page: darkness from which it is no
// noise, and that of the pen's strokes; and what share of its ink a pixel gives
// to each neighbour before the number reader sees it.
type inkLevels struct{ noise, pen, spread float32 }

const (
	leastNoise = 0.06 // darkness that even a clean page has from grain and pale print
	overGrain  = 4.0  // deviations of bare paper that are no ink
	palestPen  = 0.20 // a pencil in a blurred picture
	aPen       = 0.70 // where nothing is written
)

// levels judges the page's boxes together: noise from their paler half, which
// is mostly paper, and the pen from their darkest pixels.
func levels(patches []*patch) inkLevels {
	var inside, grain []float32
	for _, p := range patches {
		p.each(0.75, func(d float32) { inside = append(inside, d) })
		grain = append(grain, p.grain)
	}
	l := inkLevels{noise: leastNoise, pen: aPen}
	if len(inside) == 0 {
		return l
	}
	slices.Sort(inside)
	slices.Sort(grain)
	l.noise = max(leastNoise, overGrain*grain[len(grain)/2])
	first, _ := slices.BinarySearch(inside, 2*l.noise)
	if inked := inside[first:]; len(inked) > 30 {
		l.pen = max(palestPen, inked[len(inked)*3/4])
	}
	return l
}

// each goes over the pixels of a patch that lie inside its box by so many
// millimetres.
func (p *patch) each(inset float64, f func(dark float32)) {
	edge := int((patchMargin + inset) * perMM)
	for y := edge; y < p.h-edge; y++ {
		for x := edge; x < p.w-edge; x++ {
			f(p.dark[y*p.w+x])
		}
	}
}

// ink is the area of ink inside a box, in square millimetres of full darkness.
func (p *patch) ink(l inkLevels, inset float64) float64 {
	sum := float32(0)
	p.each(inset, func(d float32) {
		if d > l.noise {
			sum += min(d/l.pen, 1)
		}
	})
	return float64(sum) / (perMM * perMM)
}

// lineRemains is the share of a stroke's darkness that may be left of an
// outline after it was taken out, where it does not run quite straight.
const lineRemains = 0.15

// box is what the number reader sees.
func (p *patch) box(l inkLevels) *digits.Box {
	b := new(digits.Box)
	if p.whole != nil {
		*b = *p.whole
	} else {
		for y := range min(p.h, digits.Height) {
			for x := range min(p.w, digits.Width) {
				b[y*digits.Width+x] = p.inkAt(x, y, l)
			}
		}
	}
	spread(b[:], 1, digits.Width, digits.Width, digits.Height, l.spread)
	spread(b[:], digits.Width, digits.Height, 1, digits.Width, l.spread)
	return b
}

// inkAt is the ink in a pixel, less what may be left of an outline.
func (p *patch) inkAt(x, y int, l inkLevels) float32 {
	near := func(at, length int) bool {
		at = min(at, length-1-at)
		return at >= patchEdge-lineReach && at < patchEdge+lineReach
	}
	ink := l.of(p.dark[y*p.w+x])
	if near(x, p.w) || near(y, p.h) {
		ink = max(ink-lineRemains, 0) / (1 - lineRemains)
	}
	return ink
}

// of is the ink that makes paper so dark: 1 a stroke of the pen.
func (l inkLevels) of(dark float32) float32 {
	if dark <= l.noise/2 {
		return 0
	}
	return min(dark/l.pen, 1)
}

// spread gives a share of each pixel to its two neighbours along n lines of so
// many pixels, which lie step apart; the lines lie next apart.
func spread(pixels []float32, step, length, next, n int, share float32) {
	for line := range n {
		before := float32(0)
		for i := range length {
			at := line*next + i*step
			here, after := pixels[at], float32(0)
			if i+1 < length {
				after = pixels[at+step]
			}
			pixels[at] = here + share*(before+after-2*here)
			before = here
		}
	}
}

// usualEdge is the width of edges, in mm, in most of what the number reader
// learnt from; it misjudges what is sharper.
const usualEdge = 0.65

// spreadFor is the share that makes edges of a width as soft as usual.
func spreadFor(edge float64) float32 {
	// An edge blurred by a bell is sqrt(2 pi) of its sigmas wide; giving a share
	// to both sides adds twice the share to its variance, in square pixels.
	variance := func(width float64) float64 { return width * width / (2 * math.Pi) * perMM * perMM }
	const most = 1.0 / 3 // all three alike
	return float32(min(max((variance(usualEdge)-variance(edge))/2, 0), most))
}

// rectOf is where a box lies on the page as it was found.
func (b placed) rectOf() form.Rect {
	return form.Rect{X0: b.rect.X0 + b.dx, Y0: b.rect.Y0 + b.dy, X1: b.rect.X1 + b.dx, Y1: b.rect.Y1 + b.dy}
}
