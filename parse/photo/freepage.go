package photo

import (
	"math"
	"slices"

	"fairtape/parse/digits"
)

// freePage is a paper that is not ours, straightened by its lines and its rows
// of text, with the shapes that are written on it.
type freePage struct {
	light, straight *plane
	lie             lie
	dark            []float32 // of straight: 0 as the paper, 1 as black
	pen, noise      float32   // darkness of strokes, and what is less
	shapes          []shape   // by rows, from the left
	large           []shape   // ink that is larger than a sign: lines, and what touches them
	height          float64   // of most shapes, in pixels
	wide, standing  int       // shapes that are wider than high, and the others
}

// box is a rectangle of the straightened picture, in pixels.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) width() float64  { return b.x1 - b.x0 }
func (b box) height() float64 { return b.y1 - b.y0 }
func (b box) middle() point   { return point{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2} }

func (b box) union(o box) box {
	return box{min(b.x0, o.x0), min(b.y0, o.y0), max(b.x1, o.x1), max(b.y1, o.y1)}
}

// shape is ink that hangs together, or lies so close that it is one sign.
type shape struct {
	bounds box
	pixels []int
	cut    bool // off another, not by what the ink shows
}

const (
	leastShapes = 12   // of a table that can be read
	mostShapes  = 4000 // a picture of something else
	leastHeight = 9.0  // pixels of a digit that can be read
	leastInkAt  = 0.10 // darkness of the palest pencil
	strokeShare = 0.42 // of the strokes' darkness from which a pixel is ink
)

// newFreePage is the page of a picture; ok is false where nothing like a table is.
func newFreePage(light *plane) (*freePage, bool) {
	f := &freePage{light: light, lie: lie{w: light.w, h: light.h}}
	dark, onPaper := darkness(light)
	ink := f.mask(dark, onPaper)
	f.lie = straightLie(light.w, light.h, ink)
	f.straight = newPlane(light.w, light.h)
	for y := range light.h {
		for x := range light.w {
			q := f.lie.point(point{float64(x) + 0.5, float64(y) + 0.5})
			f.straight.pix[y*light.w+x] = byte(light.at(q.x, q.y) + 0.5)
		}
	}
	f.dark, onPaper = darkness(f.straight)
	ink = f.mask(f.dark, onPaper)
	removeLines(f.straight.w, f.straight.h, ink, func(i int) bool { return f.dark[i] > faintLine*f.noise })
	f.findShapes(ink)
	return f, len(f.shapes) >= leastShapes && len(f.shapes) <= mostShapes && f.height >= leastHeight
}

// darkness says how dark each pixel is beside the paper around it, and which
// blocks of the picture are paper.
func darkness(p *plane) (dark []float32, onPaper func(i int) bool) {
	g := newPaper(p)
	lights := slices.Clone(g.blocks)
	slices.Sort(lights)
	const bright = 0.55 // of the light of good paper
	least := bright * lights[len(lights)*9/10]
	dark = make([]float32, len(p.pix))
	for y := range p.h {
		for x := range p.w {
			around := g.at((float64(x)+0.5)/perMM, (float64(y)+0.5)/perMM)
			dark[y*p.w+x] = max(0, 1-float32(p.pix[y*p.w+x])/around)
		}
	}
	// A block is paper with its neighbours: at the edge of the page the table
	// beside it looks like ink.
	return dark, func(i int) bool {
		x, y := i%p.w/blockSide, i/p.w/blockSide
		for _, d := range [5][2]int{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			bx, by := min(max(x+d[0], 0), g.w-1), min(max(y+d[1], 0), g.h-1)
			if g.blocks[by*g.w+bx] < least {
				return false
			}
		}
		return true
	}
}

// mask says which pixels are ink, and sets the darkness of strokes.
func (f *freePage) mask(dark []float32, onPaper func(int) bool) []bool {
	var inked, all []float32
	for i := 0; i < len(dark); i += 7 {
		if onPaper(i) {
			all = append(all, dark[i])
			if dark[i] > 2*leastInkAt {
				inked = append(inked, dark[i])
			}
		}
	}
	out := make([]bool, len(dark))
	if len(inked) < leastShapes {
		return out
	}
	slices.Sort(inked)
	slices.Sort(all)
	f.pen = inked[len(inked)*3/4]
	f.noise = max(leastInkAt, 3*all[len(all)/2], strokeShare*f.pen)
	for i, d := range dark {
		out[i] = d > f.noise && onPaper(i)
	}
	return out
}

// faintLine is the darkness, in shares of that of ink, from which a line goes on:
// where it is pale it comes apart, and its pieces look like strokes.
const faintLine = 0.6

// removeLines takes long level and upright lines out, which goOn follows. Where a
// stroke crosses a line it stays.
func removeLines(w, h int, ink []bool, goOn func(pixel int) bool) {
	long := max(w/28, 50)
	thick := max(w/300, 4)
	const bend = 2 // pixels that a line may rise within its length
	take := func(length, lines int, at func(along, across int) int) {
		near := make([]int, length+1)
		var found [][2]int
		for line := range lines {
			for i := range length {
				n := 0
				for d := -bend; d <= bend; d++ {
					if l := line + d; l >= 0 && l < lines && goOn(at(i, l)) {
						n = 1
					}
				}
				near[i+1] = near[i] + n
			}
			end := 0 // of the last stretch that is a line
			for i := range length {
				if to := min(i+long, length); 100*(near[to]-near[i]) >= 93*long {
					end = to
				}
				if i < end && ink[at(i, line)] {
					found = append(found, [2]int{i, line})
				}
			}
		}
		var gone []int
		for _, p := range found {
			run := 1
			for l := p[1] - 1; l >= 0 && ink[at(p[0], l)]; l-- {
				run++
			}
			for l := p[1] + 1; l < lines && ink[at(p[0], l)]; l++ {
				run++
			}
			if run <= thick {
				gone = append(gone, at(p[0], p[1]))
			}
		}
		for _, i := range gone {
			ink[i] = false
		}
	}
	take(w, h, func(along, across int) int { return across*w + along })
	take(h, w, func(along, across int) int { return along*w + across })
}

// pieces gathers the ink that hangs together.
func (f *freePage) pieces(ink []bool) []shape {
	w, h := f.straight.w, f.straight.h
	seen := make([]bool, len(ink))
	var out []shape
	for start := range ink {
		if !ink[start] || seen[start] {
			continue
		}
		s := shape{pixels: flood(w, h, ink, seen, start, nil), bounds: box{math.Inf(1), math.Inf(1), 0, 0}}
		for _, i := range s.pixels {
			x, y := float64(i%w), float64(i/w)
			s.bounds = s.bounds.union(box{x, y, x + 1, y + 1})
		}
		if len(s.pixels) >= 3 {
			out = append(out, s)
		}
	}
	return out
}

// findShapes gathers the ink and puts the pieces of one sign together.
func (f *freePage) findShapes(ink []bool) {
	shapes := f.pieces(ink)
	var heights []float64
	for _, s := range shapes {
		if b := s.bounds; b.height() >= leastHeight && b.height() < float64(f.straight.h)/10 && b.width() < 2*b.height() && 4*b.width() > b.height()/2 {
			heights = append(heights, b.height())
		}
	}
	if len(heights) < leastShapes {
		return
	}
	slices.Sort(heights)
	f.height = heights[len(heights)*6/10]
	for _, s := range shapes {
		switch b := s.bounds; {
		case max(b.width(), b.height()) < 0.6*f.height || max(b.width(), b.height()) > 2*f.height:
		case b.width() > b.height():
			f.wide++
		default:
			f.standing++
		}
	}
	f.shapes = f.joined(shapes)
}

// joined puts pieces together that lie above each other, as the top of a 5 that
// was written by itself.
func (f *freePage) joined(shapes []shape) []shape {
	slices.SortFunc(shapes, func(a, b shape) int { return int(a.bounds.x0 - b.bounds.x0) })
	var out []shape
	for _, s := range shapes {
		if s.bounds.height() > 3*f.height || s.bounds.width() > 8*f.height {
			f.large = append(f.large, s)
			continue
		}
		if len(s.pixels) < max(3, int(f.height*f.height/280)) {
			continue
		}
		mate := -1
		for i := len(out) - 1; i >= 0; i-- {
			o := out[i].bounds
			if o.x1 < s.bounds.x0-3*f.height {
				break
			}
			over := min(o.x1, s.bounds.x1) - max(o.x0, s.bounds.x0)
			apart := max(o.y0, s.bounds.y0) - min(o.y1, s.bounds.y1)
			above := over > 0.55*min(o.width(), s.bounds.width()) && apart < 0.2*f.height
			if (above || f.isBar(o, s.bounds) || f.isBar(s.bounds, o)) && o.union(s.bounds).height() < 1.5*f.height {
				mate = i
				break
			}
		}
		if mate >= 0 {
			out[mate].bounds = out[mate].bounds.union(s.bounds)
			out[mate].pixels = append(out[mate].pixels, s.pixels...)
			continue
		}
		out = append(out, s)
	}
	return out
}

// isBar reports the upper stroke of a 5 that was written by itself, right of the rest.
func (f *freePage) isBar(five, bar box) bool {
	return bar.height() < 0.35*f.height && bar.width() > 1.3*bar.height() && bar.x1 > five.x1 &&
		bar.x0-five.x1 < 0.15*f.height && bar.x0 > five.x0 && five.union(bar).width() < 1.3*f.height &&
		bar.y1 < five.y0+0.4*five.height() && bar.y1 > five.y0-0.35*f.height
}

// widestDigit is the width of the widest digit, in heights of the page's digits.
const widestDigit = 1.35

// isGlyph reports a shape of a digit's size.
func (f *freePage) isGlyph(s shape) bool {
	b := s.bounds
	return b.height() > 0.55*f.height && b.height() < 1.8*f.height && b.width() < widestDigit*f.height
}

// lying reports a page whose signs are wider than high.
func (f *freePage) lying() bool { return f.wide > f.standing }

// box is what the number reader sees of a shape: its own ink and none of its
// neighbours', a digit 28 of the box's pixels high.
func (f *freePage) box(s shape) *digits.Box {
	const tall = 28.0
	b := s.bounds
	scale := max(f.height, b.height(), b.width()) / tall // pixels of the page for one of the box
	w := f.straight.w
	// Around its ink a shape fades out; pixels of other shapes are left out.
	const fades = 1 // pixels
	left, top := int(b.x0)-fades, int(b.y0)-fades
	wide, high := int(b.width())+2*fades, int(b.height())+2*fades
	own := make([]bool, wide*high)
	for _, i := range s.pixels {
		for y := i/w - top - fades; y <= i/w-top+fades; y++ {
			for x := i%w - left - fades; x <= i%w-left+fades; x++ {
				own[y*wide+x] = true
			}
		}
	}
	ink := func(x, y int) float32 {
		u, v := x-left, y-top
		if x < 0 || y < 0 || x >= w || y >= f.straight.h || u < 0 || v < 0 || u >= wide || v >= high || !own[v*wide+u] {
			return 0
		}
		if dark := f.dark[y*w+x]; dark >= f.noise/3 {
			return min(dark/f.pen, 1)
		}
		return 0
	}
	at := func(x, y float64) float32 {
		x, y = x-0.5, y-0.5
		x0, y0 := int(math.Floor(x)), int(math.Floor(y))
		fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
		return (ink(x0, y0)*(1-fx)+ink(x0+1, y0)*fx)*(1-fy) + (ink(x0, y0+1)*(1-fx)+ink(x0+1, y0+1)*fx)*fy
	}
	out := new(digits.Box)
	m := b.middle()
	n := max(1, int(math.Ceil(scale)))
	for y := range digits.Height {
		for x := range digits.Width {
			sum := float32(0)
			for k := range n * n {
				u := (float64(x) + (float64(k%n)+0.5)/float64(n) - digits.Width/2) * scale
				v := (float64(y) + (float64(k/n)+0.5)/float64(n) - digits.Height/2) * scale
				sum += at(m.x+u, m.y+v)
			}
			out[y*digits.Width+x] = sum / float32(n*n)
		}
	}
	return out
}
