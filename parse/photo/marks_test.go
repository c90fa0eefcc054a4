package photo

import (
	"math"
	"testing"
)

// A page on a cutting mat: there are far more squares on the mat than patches
// are looked at, most larger than the marks of the page.
func TestMarksAmongSquares(t *testing.T) {
	const cell, line = 52, 4
	p := newPlane(1050, 1400)
	fill := func(x0, y0, x1, y1 int, light byte) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				p.pix[y*p.w+x] = light
			}
		}
	}
	fill(0, 0, p.w, p.h, 120)
	for y := line; y < p.h; y += cell {
		for x := line; x < p.w; x += cell {
			fill(x, y, min(x+cell-line, p.w), min(y+cell-line, p.h), 45)
		}
	}
	fill(200, 250, 850, 1150, 230)
	marks := []point{{260, 310}, {790, 310}, {790, 1090}, {260, 1090}}
	for _, m := range marks {
		fill(int(m.x)-11, int(m.y)-11, int(m.x)+11, int(m.y)+11, 40)
	}
	blobs := findBlobs(p, darker[0])
	for _, m := range marks {
		seen := false
		for _, b := range blobs {
			seen = seen || math.Hypot(b.centre.x-m.x, b.centre.y-m.y) < 1
		}
		if !seen {
			t.Errorf("the mark at %v is not among %d patches", m, len(blobs))
		}
	}
}
