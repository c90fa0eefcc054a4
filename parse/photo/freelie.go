package photo

import "math"

// lie is how a page lies in its picture: rows rise by a slope that changes down
// the page, columns lean by one that changes across it, as on any flat paper
// that is seen a little from the side.
type lie struct {
	w, h       int
	rise, fan  float64 // slope of the rows in the middle, and how much more at the lower edge
	lean, part float64 // that of the columns, and how much more at the right edge
}

// point is where the picture shows a point of the straightened page.
func (l lie) point(p point) point {
	cx, cy := float64(l.w)/2, float64(l.h)/2
	u, v := p.x-cx, p.y-cy
	x, y := u, v
	for range 8 {
		x, y = u+y*(l.lean+l.part*x/cx), v+x*(l.rise+l.fan*y/cy)
	}
	return point{x + cx, y + cy}
}

// straightLie finds the lie in which the ink is gathered into the sharpest rows
// and columns.
func straightLie(w, h int, ink []bool) lie {
	const most = 12000 // pixels that are looked at
	n := 0
	for _, inked := range ink {
		if inked {
			n++
		}
	}
	l := lie{w: w, h: h}
	if n == 0 {
		return l
	}
	cx, cy := float64(w)/2, float64(h)/2
	var points []point
	every, k := n/most+1, 0
	for i, inked := range ink {
		if !inked {
			continue
		}
		if k++; k%every == 0 {
			points = append(points, point{float64(i%w) - cx, float64(i/w) - cy})
		}
	}
	l.rise, l.fan = sharpest(points, h, func(p point, slope, more float64) float64 { return p.y - p.x*(slope+more*p.y/cy) })
	// Columns are found among the straightened rows.
	for i, p := range points {
		points[i].y = p.y - p.x*(l.rise+l.fan*p.y/cy)
	}
	l.lean, l.part = sharpest(points, w, func(p point, slope, more float64) float64 { return p.x - p.y*(slope+more*p.x/cx) })
	return l
}

// sharpest finds the slope, and how much more it is at the edge, for which the
// places of points pile up most.
func sharpest(points []point, size int, place func(p point, slope, more float64) float64) (slope, more float64) {
	const bin = 2.0
	counts := make([]float64, int(float64(2*size)/bin)+1)
	score := func(slope, more float64) float64 {
		clear(counts)
		for _, p := range points {
			i := int((place(p, slope, more) + float64(size)) / bin)
			if i >= 0 && i < len(counts) {
				counts[i]++
			}
		}
		sum := 0.0
		for _, c := range counts {
			sum += c * c
		}
		return sum
	}
	best := math.Inf(-1)
	search := func(around, aroundMore, reach, reachMore, step, stepMore float64) {
		for s := around - reach; s <= around+reach+1e-9; s += step {
			for m := aroundMore - reachMore; m <= aroundMore+reachMore+1e-9; m += stepMore {
				// What is nearly straight is rather taken as straight.
				if v := score(s, m) * (1 - 0.3*math.Abs(s) - 0.3*math.Abs(m)); v > best {
					best, slope, more = v, s, m
				}
			}
		}
	}
	search(0, 0, 0.2, 0.16, 0.005, 0.016)
	search(slope, more, 0.005, 0.016, 0.001, 0.004)
	return slope, more
}
