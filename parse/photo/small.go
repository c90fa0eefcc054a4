package photo

import (
	"image"
	"math"

	"fairtape/parse/form"
)

// smallPage reports a page of ours that is seen as a whole, but so small that
// its marks are no squares any more: a light sheet with something dark near at
// least three of its corners.
func smallPage(p *plane) bool {
	const (
		sheetMin  = 0.02 // of the picture
		sheetMost = 0.45
	)
	corners, share, ok := plainSheet(p)
	if !ok || share < sheetMin || share > sheetMost {
		return false
	}
	long := 0.0
	for i, a := range corners {
		long = max(long, a.from(corners[(i+1)%4]))
	}
	_, height := form.A4.Size()
	return long <= leastScale*height && cornerMarks(p, corners) >= 3
}

// plainSheet is the lightest sheet of a picture: its corners, clockwise from that
// at the top left, and its share of the picture. ok is false where what is light
// does not fill the four sides between its corners.
func plainSheet(p *plane) (corners [4]point, share float64, ok bool) {
	const (
		sideMost = 500 // pixels are enough to see a sheet
		filled   = 0.8 // of the area between its corners that is light
	)
	k := max(1, max(p.w, p.h)/sideMost)
	small := p.shrink(k)
	corners, area := lightSheet(small)
	ok = area >= filled*areaOf(corners)
	for i, c := range corners {
		corners[i] = point{c.x * float64(k), c.y * float64(k)}
	}
	return corners, area / float64(small.w*small.h), ok
}

// lightSheet is the largest light patch of a picture: its corners, clockwise
// from that at the top left, and its pixels.
func lightSheet(p *plane) (corners [4]point, area float64) {
	least := partingLight(p.pix)
	light := make([]bool, len(p.pix))
	for i, v := range p.pix {
		light[i] = v > least
	}
	seen := make([]bool, len(light))
	var largest, patch []int
	for start := range light {
		if light[start] && !seen[start] {
			if patch = flood(p.w, p.h, light, seen, start, nil); len(patch) > len(largest) {
				largest = patch
			}
		}
	}
	for i, way := range [4]image.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}} {
		most := math.MinInt
		for _, at := range largest {
			x, y := at%p.w, at/p.w
			if far := way.X*x + way.Y*y; far > most {
				most, corners[i] = far, point{float64(x) + 0.5, float64(y) + 0.5}
			}
		}
	}
	return corners, float64(len(largest))
}

// partingLight is the light that parts a picture's light and dark pixels best (Otsu
// 1979).
func partingLight(pix []byte) byte {
	var counts [256]float64
	sum := 0.0
	for _, v := range pix {
		counts[v]++
		sum += float64(v)
	}
	n, below, under := float64(len(pix)), 0.0, 0.0
	best, at := -1.0, 0
	for v, c := range counts {
		below += c
		under += c * float64(v)
		if below == 0 || below == n {
			continue
		}
		apart := under/below - (sum-under)/(n-below)
		if spread := below * (n - below) * apart * apart; spread > best {
			best, at = spread, v
		}
	}
	return byte(at)
}

// areaOf is the area between four corners.
func areaOf(c [4]point) float64 {
	sum := 0.0
	for i, a := range c {
		b := c[(i+1)%4]
		sum += a.x*b.y - b.x*a.y
	}
	return math.Abs(sum) / 2
}

// cornerMarks counts the corners of a sheet beside which something is clearly
// darker than the paper.
func cornerMarks(p *plane, corners [4]point) int {
	const (
		dark   = 0.75 // of the paper's light
		reach  = 5.0  // mm around where a mark should be
		beside = 22.0 // mm from the corner, where paper is bare
	)
	w, h := form.A4.Size()
	if corners[0].from(corners[1]) > corners[1].from(corners[2]) {
		w, h = h, w
	}
	page, err := solveHomography([4]point{{0, 0}, {w, 0}, {w, h}, {0, h}}, corners)
	if err != nil {
		return 0
	}
	at := func(i int, x, y float64) float32 { // x and y in mm, inwards from corner i
		if i == 1 || i == 2 {
			x = w - x
		}
		if i >= 2 {
			y = h - y
		}
		return p.at(page.at(x, y))
	}
	const middle = form.MarkInset + form.MarkSide/2
	n := 0
	for i := range corners {
		darkest := float32(math.Inf(1))
		for y := middle - reach; y <= middle+reach; y++ {
			for x := middle - reach; x <= middle+reach; x++ {
				darkest = min(darkest, at(i, x, y))
			}
		}
		if darkest < dark*at(i, beside, beside) {
			n++
		}
	}
	return n
}
