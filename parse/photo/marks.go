package photo

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// blob is a dark patch that may be a mark of the page, in pixels of the picture
// that is worked on.
type blob struct {
	corners [4]point // clockwise, from any
	centre  point    // where the diagonals cross
	side    float64  // the mean one
	eye     float64  // how light its middle is: 0 as the rest, 1 as the paper
	bare    float64  // how light the darkest paper around it is: 0 as the mark, 1 as the rest of the paper
}

const (
	// marksSide is the least longer side of the picture in which marks are sought:
	// a mark of 7 mm on a page that fills half of it is still 16 pixels wide.
	marksSide = 1400

	// A mark measures between 1/250 and 1/15 of the picture's longer side: a page
	// that fills a third of it, and one that overfills it.
	leastMark    = 1.0 / 250
	greatestMark = 1.0 / 15

	blobsMost = 40 // that are put together to pages, those on the barest paper first
)

// darker is how much darker than its surroundings a mark is, as shares of their
// mean light; the first that shows a page is used. Black print throws back a
// tenth of the paper's light, but blur and haze lift it.
var darker = []float64{0.68, 0.80, 0.52}

// findBlobs returns the patches of a picture that look like marks: dark, with
// four corners, about as wide as high, with a small hole or none, on bare paper.
func findBlobs(light *plane, share float64) []blob {
	k := max(1, max(light.w, light.h)/marksSide)
	small := light.shrink(k)
	dark := darkPixels(small, share)
	long := float64(max(small.w, small.h))
	least, most := leastMark*long, greatestMark*long
	var blobs []blob
	seen := make([]bool, len(dark))
	var patch []int
	for start := range dark {
		if !dark[start] || seen[start] {
			continue
		}
		patch = flood(small.w, small.h, dark, seen, start, patch[:0])
		if n := float64(len(patch)); n < 0.6*least*least || n > 1.2*most*most {
			continue
		}
		b, ok := asMark(small, patch)
		if !ok || b.side < least || b.side > most {
			continue
		}
		for i := range b.corners {
			b.corners[i].x *= float64(k)
			b.corners[i].y *= float64(k)
		}
		b.centre.x, b.centre.y, b.side = b.centre.x*float64(k), b.centre.y*float64(k), b.side*float64(k)
		blobs = append(blobs, b)
	}
	slices.SortFunc(blobs, func(a, b blob) int { return cmp.Compare(b.bare, a.bare) })
	return blobs[:min(len(blobs), blobsMost)]
}

// darkPixels compares each pixel with the mean around it, by a table of sums.
func darkPixels(p *plane, share float64) []bool {
	const around = 12 // of the longer side: the window is far wider than a mark
	half := max(p.w, p.h) / (2 * around)
	sums := make([]int32, (p.w+1)*(p.h+1))
	for y := range p.h {
		row := int32(0)
		for x := range p.w {
			row += int32(p.pix[y*p.w+x])
			sums[(y+1)*(p.w+1)+x+1] = sums[y*(p.w+1)+x+1] + row
		}
	}
	dark := make([]bool, p.w*p.h)
	for y := range p.h {
		y0, y1 := max(y-half, 0), min(y+half+1, p.h)
		for x := range p.w {
			x0, x1 := max(x-half, 0), min(x+half+1, p.w)
			sum := sums[y1*(p.w+1)+x1] - sums[y0*(p.w+1)+x1] - sums[y1*(p.w+1)+x0] + sums[y0*(p.w+1)+x0]
			dark[y*p.w+x] = float64(p.pix[y*p.w+x])*float64((x1-x0)*(y1-y0)) < share*float64(sum)
		}
	}
	return dark
}

// flood gathers the dark pixels that hang together with start.
func flood(w, h int, dark, seen []bool, start int, patch []int) []int {
	patch = append(patch, start)
	seen[start] = true
	for next := 0; next < len(patch); next++ {
		i := patch[next]
		x, y := i%w, i/w
		for _, n := range [4]struct {
			ok bool
			at int
		}{{x > 0, i - 1}, {x < w-1, i + 1}, {y > 0, i - w}, {y < h-1, i + w}} {
			if n.ok && dark[n.at] && !seen[n.at] {
				seen[n.at] = true
				patch = append(patch, n.at)
			}
		}
	}
	return patch
}

// What a mark's patch looks like at most and at least.
const (
	leastFill   = 0.70 // of its four corners' area that is dark; an eye takes 0.16
	mostFill    = 1.25 // corners are found half a pixel too far in
	mostOblique = 2.2  // of two sides: a page tilted by 60 degrees
	// leastBare is how bare the paper around it is. Of 917 marks in 80 photographs
	// by three renderers three cut by the edge of a shadow had 0, two that it
	// touched 0.54 and the others 0.73 and more; four of five patches of tables,
	// print and writing have less.
	leastBare = 0.4
)

// asMark measures a patch as a mark.
func asMark(p *plane, patch []int) (blob, bool) {
	var middle point
	for _, i := range patch {
		middle.x += float64(i%p.w) + 0.5
		middle.y += float64(i/p.w) + 0.5
	}
	n := float64(len(patch))
	middle.x, middle.y = middle.x/n, middle.y/n
	corners, ok := cornersOf(p.w, patch, middle)
	if !ok {
		return blob{}, false
	}
	var b blob
	b.corners = corners
	shortest, longest := math.Inf(1), 0.0
	for i := range 4 {
		l := math.Hypot(corners[i].x-corners[(i+1)%4].x, corners[i].y-corners[(i+1)%4].y)
		shortest, longest = min(shortest, l), max(longest, l)
		b.side += l / 4
	}
	if longest > mostOblique*shortest {
		return blob{}, false
	}
	area := math.Abs(quadArea(corners))
	if fill := n / (area + b.side); fill < leastFill || fill > mostFill {
		return blob{}, false
	}
	b.centre = crossing(corners)
	b.eye = eyeOf(p, corners)
	b.bare = bareAround(p, corners)
	return b, b.bare >= leastBare
}

// cornersOf finds the four corners of a patch: the point farthest from its
// middle, the one farthest from that, and those farthest off the line between.
func cornersOf(w int, patch []int, middle point) ([4]point, bool) {
	pixel := func(i int) point { return point{float64(i%w) + 0.5, float64(i/w) + 0.5} }
	farthest := func(measure func(p point) float64) point {
		best, at := math.Inf(-1), point{}
		for _, i := range patch {
			if m := measure(pixel(i)); m > best {
				best, at = m, pixel(i)
			}
		}
		return at
	}
	from := func(o point) func(point) float64 {
		return func(p point) float64 { return (p.x-o.x)*(p.x-o.x) + (p.y-o.y)*(p.y-o.y) }
	}
	a := farthest(from(middle))
	c := farthest(from(a))
	off := func(sign float64) func(point) float64 {
		return func(p point) float64 { return sign * ((c.x-a.x)*(p.y-a.y) - (c.y-a.y)*(p.x-a.x)) }
	}
	b, d := farthest(off(-1)), farthest(off(1))
	corners := [4]point{a, b, c, d}
	if quadArea(corners) < 0 {
		corners = [4]point{a, d, c, b}
	}
	return corners, quadArea(corners) > 1
}

// quadArea is positive for corners that go clockwise, with y downwards.
func quadArea(q [4]point) float64 {
	sum := 0.0
	for i := range 4 {
		a, b := q[i], q[(i+1)%4]
		sum += a.x*b.y - b.x*a.y
	}
	return sum / 2
}

// crossing is where the diagonals of four corners meet: the picture of a
// square's middle, however it is tilted.
func crossing(q [4]point) point {
	dx, dy := q[2].x-q[0].x, q[2].y-q[0].y
	ex, ey := q[3].x-q[1].x, q[3].y-q[1].y
	det := dx*ey - dy*ex
	if det == 0 {
		return q[0]
	}
	t := ((q[1].x-q[0].x)*ey - (q[1].y-q[0].y)*ex) / det
	return point{q[0].x + t*dx, q[0].y + t*dy}
}

// eyeOf compares the light of a mark's middle, between those of its dark ring
// and of the paper around it.
func eyeOf(p *plane, q [4]point) float64 {
	mean := func(share float64) float64 { return stat.Mean(lightAround(p, q, share), nil) }
	ring, paper := mean(darkRing), mean(1.35)
	inner := (mean(0.0) + mean(0.15)) / 2
	if paper-ring < 1 {
		return 0
	}
	return (inner - ring) / (paper - ring)
}

// bareAround compares the darkest of the paper around a mark, between the light
// of its dark ring and of all that paper: squares of a cutting mat and letters have
// others beside them.
func bareAround(p *plane, q [4]point) float64 {
	const beside = 1.4 // 1.4 mm off, where nothing is printed
	light := lightAround(p, q, beside)
	paper, ring := stat.Mean(light, nil), stat.Mean(lightAround(p, q, darkRing), nil)
	if paper-ring < 1 {
		return 0
	}
	return (slices.Min(light) - ring) / (paper - ring)
}

// darkRing is the share of the way from a mark's middle to its edge where every
// mark is dark.
const darkRing = 0.72

// lightAround is the light of a picture around four corners, at a share of the way
// from their middle to the lines between them.
func lightAround(p *plane, q [4]point, share float64) []float64 {
	c := crossing(q)
	light := make([]float64, 32)
	for i := range light {
		t := float64(i) / float64(len(light)) * 4
		a, b := q[int(t)], q[(int(t)+1)%4]
		f := t - float64(int(t))
		x, y := a.x+(b.x-a.x)*f, a.y+(b.y-a.y)*f
		light[i] = float64(p.at(c.x+(x-c.x)*share, c.y+(y-c.y)*share))
	}
	return light
}
