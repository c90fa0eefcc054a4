package photo

import (
	"cmp"
	"image"
	"math"
	"slices"

	"fairtape/parse/digits"
	"fairtape/parse/form"
)

// Many write larger than the boxes are: the head of a 9 stands above its box,
// and its tail in the row below. A stroke belongs to the box that holds most of
// it, all of the stroke and no other's.

const (
	// strokesReach is how far around the boxes strokes are followed, in mm;
	// nothing is printed within form.BoxClear.
	strokesReach = form.BoxClear - 0.2
	// ownShare is the share of a piece of ink from which it belongs to the box
	// that holds it.
	ownShare = 0.5
	// joinedShare is the share from which a box holds a piece: two that do have
	// digits that touch.
	joinedShare = 0.2
	// faintest is the least ink of pieces: less is no stroke of the page's pen.
	faintest = 1.0 / 3
	// halo is how far blur spreads a stroke's ink, in pixels.
	halo = 2
)

// strokes are the pieces of ink on and around the boxes of a straightened page,
// print taken out.
type strokes struct {
	w, h   int
	ink    []float32         // 0 paper, 1 a stroke of the pen
	least  float32           // the ink that makes pieces: more in a dim picture
	pieces []int32           // which piece each pixel is of, from 1; 0 for none
	owners []int             // by piece: the box it belongs to, or nobody
	cut    int               // from this one on, pieces are parts of larger ones
	uncut  []int32           // by piece: itself, or the larger one that it is part of
	bounds []image.Rectangle // by piece, in pixels of the page
	inside []content         // by box
}

const nobody = -1

// newStrokes finds the pieces of ink about boxes, and whose they are. usual is
// how dark outlines are on the page.
func newStrokes(straight *plane, paper *paper, boxes []placed, usual float32, l inkLevels) *strokes {
	s := &strokes{w: straight.w, h: straight.h, owners: []int{nobody}, bounds: []image.Rectangle{{}}}
	s.ink = make([]float32, s.w*s.h)
	s.pieces = make([]int32, s.w*s.h)
	for _, b := range boxes {
		x0, y0, x1, y1 := s.pixels(b.rectOf().Grow(strokesReach))
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if i := y*s.w + x; s.ink[i] == 0 {
					s.ink[i] = l.of(paper.dark(straight, x, y))
				}
			}
		}
	}
	for _, b := range boxes {
		s.takePrintOut(straight, paper, b, usual, l)
	}
	s.least = max(2*l.noise/l.pen, faintest)
	s.findPieces()
	s.findOwners(boxes)
	for i, b := range boxes {
		s.inside = append(s.inside, s.contentOf(b, i))
	}
	return s
}

// content is the ink in a box that may be its own.
type content struct {
	dark   float64         // of a stroke of the pen, on average
	bounds image.Rectangle // in pixels of the page
	pixels int
}

func (s *strokes) contentOf(b placed, box int) content {
	var c content
	s.eachOwn(b, box, func(x, y int) {
		c.dark += float64(s.ink[y*s.w+x])
		c.bounds = c.bounds.Union(image.Rect(x, y, x+1, y+1))
		c.pixels++
	})
	c.dark /= float64(max(c.pixels, 1))
	return c
}

// few reports so little ink that a box is empty.
func (c content) few() bool { return float64(c.pixels) < emptyBox*perMM*perMM }

// noStrokes reports a box that is surely empty, even if it is not clean: in a
// picture so dim that noise hides pale strokes nobody can tell.
func (s *strokes) noStrokes(box int) bool {
	const dim = 1.25 // times faintest
	return s.inside[box].few() && s.least <= dim*faintest
}

// pixels are those of a rectangle of the page, as far as there are any.
func (s *strokes) pixels(r form.Rect) (x0, y0, x1, y1 int) {
	at := func(mm float64, most int) int { return min(max(int(math.Round(mm*perMM)), 0), most) }
	return at(r.X0, s.w), at(r.Y0, s.h), at(r.X1, s.w), at(r.Y1, s.h)
}

// takePrintOut puts what is written in a box and close to it in the place of
// what is seen there.
func (s *strokes) takePrintOut(straight *plane, paper *paper, b placed, usual float32, l inkLevels) {
	r := b.rectOf().Grow(patchMargin)
	x0, y0 := int(math.Round(r.X0*perMM)), int(math.Round(r.Y0*perMM))
	p := &patch{w: int(math.Round(r.Width() * perMM)), h: int(math.Round(r.Height() * perMM))}
	if x0 < 0 || y0 < 0 || x0+p.w > s.w || y0+p.h > s.h {
		return
	}
	p.dark = make([]float32, p.w*p.h)
	for y := range p.h {
		for x := range p.w {
			p.dark[y*p.w+x] = paper.dark(straight, x0+x, y0+y)
		}
	}
	p.onBarePaper()
	p.removeOutline(usual)
	for y := range p.h {
		for x := range p.w {
			s.ink[(y0+y)*s.w+x0+x] = p.inkAt(x, y, l)
		}
	}
}

// findPieces numbers the pieces of ink that is darker than paper gets.
func (s *strokes) findPieces() {
	dark, seen := make([]bool, len(s.ink)), make([]bool, len(s.ink))
	for i, v := range s.ink {
		dark[i] = v > s.least
	}
	var piece []int
	for start := range dark {
		if !dark[start] || seen[start] {
			continue
		}
		piece = flood(s.w, s.h, dark, seen, start, piece[:0])
		var bounds image.Rectangle
		for _, i := range piece {
			s.pieces[i] = int32(len(s.owners))
			bounds = bounds.Union(image.Rect(i%s.w, i/s.w, i%s.w+1, i/s.w+1))
		}
		s.owners, s.bounds = append(s.owners, nobody), append(s.bounds, bounds)
	}
}

func (s *strokes) findOwners(boxes []placed) {
	total := make([]float32, len(s.owners))
	for i, n := range s.pieces {
		total[n] += s.ink[i]
	}
	holders := make([][]holder, len(s.owners))
	for box, b := range boxes {
		held := map[int32]float32{}
		x0, y0, x1, y1 := s.pixels(b.rectOf())
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if n := s.pieces[y*s.w+x]; n > 0 {
					held[n] += s.ink[y*s.w+x]
				}
			}
		}
		for n, ink := range held {
			if share := ink / total[n]; share >= joinedShare {
				holders[n] = append(holders[n], holder{box, share})
			}
		}
	}
	joined := map[int32][]holder{}
	for n, h := range holders {
		switch {
		case len(h) == 1 && h[0].share >= ownShare:
			s.owners[n] = h[0].box
		case len(h) > 1:
			joined[int32(n)] = h
		}
	}
	s.cut = len(s.owners)
	for n := range s.owners {
		s.uncut = append(s.uncut, int32(n))
	}
	s.part(joined, boxes)
}

// holder is a box that holds a share of a piece.
type holder struct {
	box   int
	share float32
}

// part cuts pieces that several boxes hold half way between these: the tail of a
// digit touches the head of that below.
func (s *strokes) part(joined map[int32][]holder, boxes []placed) {
	parts := map[[2]int]int32{} // by piece and box
	for i, n := range s.pieces {
		holders, ok := joined[n]
		if !ok {
			continue
		}
		at := point{(float64(i%s.w) + 0.5) / perMM, (float64(i/s.w) + 0.5) / perMM}
		nearest := slices.MinFunc(holders, func(a, b holder) int {
			return cmp.Compare(distance(at, boxes[a.box].rectOf()), distance(at, boxes[b.box].rectOf()))
		})
		part, ok := parts[[2]int{int(n), nearest.box}]
		if !ok {
			part = int32(len(s.owners))
			parts[[2]int{int(n), nearest.box}] = part
			s.owners, s.uncut = append(s.owners, nearest.box), append(s.uncut, n)
		}
		s.pieces[i] = part
	}
}

// distance is how far a place lies outside a rectangle, along the farther way.
func distance(p point, r form.Rect) float64 {
	return max(r.X0-p.x, p.x-r.X1, r.Y0-p.y, p.y-r.Y1)
}

// ownerAt is the box that the ink in a pixel belongs to, or nobody.
func (s *strokes) ownerAt(x, y int) int {
	if x < 0 || y < 0 || x >= s.w || y >= s.h {
		return nobody
	}
	return s.owners[s.pieces[y*s.w+x]]
}

// inkIn is the ink of pieces in a rectangle of the page, less that of some
// owners, in square millimetres.
func (s *strokes) inkIn(r form.Rect, less func(owner int) bool) float64 {
	x0, y0, x1, y1 := s.pixels(r)
	sum := float32(0)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if n := s.pieces[y*s.w+x]; n > 0 && !less(s.owners[n]) {
				sum += s.ink[y*s.w+x]
			}
		}
	}
	return float64(sum) / (perMM * perMM)
}

// near reports the ink of a box, or with others that of any other, within the
// blur about a pixel.
func (s *strokes) near(x, y, box int, others bool) bool {
	for j := y - halo; j <= y+halo; j++ {
		for i := x - halo; i <= x+halo; i++ {
			if o := s.ownerAt(i, j); o != nobody && (o == box) != others {
				return true
			}
		}
	}
	return false
}

// kept reports a pixel that shows ink of a box, if any, of those that may.
func (s *strokes) kept(x, y, box int) bool {
	return s.near(x, y, box, false) || !s.near(x, y, box, true)
}

// clear takes the ink of other boxes out of the patch of one.
func (s *strokes) clear(p *patch, b placed, box int) {
	x0, y0 := int(math.Round((b.rectOf().X0-patchMargin)*perMM)), int(math.Round((b.rectOf().Y0-patchMargin)*perMM))
	for y := range p.h {
		for x := range p.w {
			if !s.kept(x0+x, y0+y, box) {
				p.dark[y*p.w+x] = 0
			}
		}
	}
}

// extent is the rectangle of pixels that a box's own ink takes, of pieces from
// the first on; ok is false where there is none.
func (s *strokes) extent(b placed, box, first int) (left, top, right, bottom int, ok bool) {
	left, top = s.w, s.h
	x0, y0, x1, y1 := s.pixels(b.rectOf().Grow(strokesReach + form.BoxClear))
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if s.ownerAt(x, y) == box && int(s.pieces[y*s.w+x]) >= first {
				left, right = min(left, x), max(right, x+1)
				top, bottom = min(top, y), max(bottom, y+1)
			}
		}
	}
	return left, top, right, bottom, right > 0
}

// whole is the picture of a digit that goes on beyond the patch of its box; nil
// for others. What is larger than the picture is made smaller.
func (s *strokes) whole(b placed, box int) *digits.Box {
	left, top, right, bottom, ok := s.extent(b, box, 1)
	x0, y0, x1, y1 := s.pixels(b.rectOf().Grow(patchMargin))
	if !ok || left >= x0-1 && top >= y0-1 && right <= x1+1 && bottom <= y1+1 {
		return nil
	}
	shrunk := max(1, float64(right-left)/digits.Width, float64(bottom-top)/digits.Height)
	middleX, middleY := float64(left+right)/2, float64(top+bottom)/2
	value := func(x, y int) float32 {
		within := x >= x0 && x < x1 && y >= y0 && y < y1
		if x < 0 || y < 0 || x >= s.w || y >= s.h || !s.near(x, y, box, false) && (!within || s.near(x, y, box, true)) {
			return 0
		}
		return s.ink[y*s.w+x]
	}
	out := new(digits.Box)
	for y := range digits.Height {
		for x := range digits.Width {
			u := middleX + (float64(x)+0.5-digits.Width/2.0)*shrunk - 0.5
			v := middleY + (float64(y)+0.5-digits.Height/2.0)*shrunk - 0.5
			i, j := int(math.Floor(u)), int(math.Floor(v))
			fu, fv := float32(u-float64(i)), float32(v-float64(j))
			out[y*digits.Width+x] = (value(i, j)*(1-fu)+value(i+1, j)*fu)*(1-fv) + (value(i, j+1)*(1-fu)+value(i+1, j+1)*fu)*fv
		}
	}
	return out
}
