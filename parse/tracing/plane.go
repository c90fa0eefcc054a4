package tracing

import (
	"math"

	"fairtape/parse/form"
)

// perMM is the resolution, in pixels a millimetre, at which the pencil line is
// sought; a line of 0.5 mm is one and a half pixels wide.
const perMM = 3.0

// plane is the sheets of a photo seen square from above, and where on it a line
// can be seen.
type plane struct {
	w, h   int
	origin point     // of its first pixel, millimetres of the first sheet
	light  []float32 // smoothed
	paper  []bool    // bare paper
	print  []bool    // print, a joint, the edge of the paper: a line goes on under it
}

func (p *plane) at(i int) point {
	return p.origin.plus(point{(float64(i%p.w) + 0.5) / perMM, (float64(i/p.w) + 0.5) / perMM})
}

// index is the pixel at a place; ok is false off the sheets.
func (p *plane) index(q point) (k int, ok bool) {
	q = q.minus(p.origin)
	x, y := int(math.Floor(q.x*perMM)), int(math.Floor(q.y*perMM))
	return y*p.w + x, x >= 0 && y >= 0 && x < p.w && y < p.h
}

// bare reports that there is bare paper at a place and beside a line that goes
// through it; on is false where that is off the sheets.
func (p *plane) bare(q, way point) (bare, on bool) {
	aside := way.times(besides / way.length()).turned(math.Pi / 2)
	bare = true
	for _, at := range []point{q, q.plus(aside), q.minus(aside)} {
		k, ok := p.index(at)
		if !ok {
			return false, false
		}
		bare = bare && p.paper[k]
	}
	return bare, true
}

// What is not looked at: about print, and about edges of the paper, mm.
const (
	aboutPrint = 1.0
	aboutEdge  = 2.5
)

// square draws the sheets square from above.
func (f *fitted) square(pic picture) *plane {
	least, most := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for i, g := range f.grids {
		for _, c := range []point{{0, 0}, {g.Width, 0}, {0, g.Height}, {g.Width, g.Height}} {
			q := f.poses[i].out(c)
			least = point{min(least.x, q.x), min(least.y, q.y)}
			most = point{max(most.x, q.x), max(most.y, q.y)}
		}
	}
	p := &plane{w: int((most.x-least.x)*perMM) + 1, h: int((most.y-least.y)*perMM) + 1, origin: least}
	n := p.w * p.h
	raw := make([]float32, n)
	p.paper, p.print = make([]bool, n), make([]bool, n)
	printed := make([][]form.Rect, len(f.grids))
	for i, g := range f.grids {
		printed[i] = g.Printed()
	}
	for k := range n {
		here := p.at(k)
		light, ok := pic.at(f.camera.pixel(here))
		raw[k] = float32(light)
		if !ok {
			continue
		}
		for i, g := range f.grids {
			on := f.poses[i].in(here)
			inside := min(on.x, on.y, g.Width-on.x, g.Height-on.y)
			if inside < -aboutEdge {
				continue
			}
			p.print[k] = p.print[k] || inside < aboutEdge || anyHolds(printed[i], on)
			p.paper[k] = true
		}
		p.paper[k] = p.paper[k] && !p.print[k]
	}
	p.light = smooth(raw, p.w, p.h)
	return p
}

func anyHolds(list []form.Rect, q point) bool {
	for _, r := range list {
		if q.x > r.X0-aboutPrint && q.x < r.X1+aboutPrint && q.y > r.Y0-aboutPrint && q.y < r.Y1+aboutPrint {
			return true
		}
	}
	return false
}

// smooth takes the mean of each pixel and its neighbours, the nearer ones twice.
func smooth(raw []float32, w, h int) []float32 {
	pass := func(from []float32, step, count, stride int) []float32 {
		to := append([]float32{}, from...)
		for line := range len(from) / count {
			base := line * stride
			for i := 1; i < count-1; i++ {
				k := base + i*step
				to[k] = (from[k-step] + 2*from[k] + from[k+step]) / 4
			}
		}
		return to
	}
	return pass(pass(raw, 1, w, w), w, h, 1)
}

// A line is darker than the paper on both of its sides. Where it is pale it still
// goes on from where it is not.
const (
	besides   = 1.7   // from the middle of a line to the paper beside it, mm
	darkLeast = 0.06  // of the paper's light that a line takes away somewhere
	paleLeast = 0.035 // and everywhere
)

// lines is by how much each pixel is darker than the paper on both sides of it, of
// the paper's light: the edge of a shadow has paper as dark on one side.
func (p *plane) lines() []float32 {
	reach := int(math.Round(besides * perMM))
	diagonal := int(math.Round(besides * perMM / math.Sqrt2))
	ways := [4]int{reach, reach * p.w, diagonal*p.w + diagonal, diagonal*p.w - diagonal}
	dark := make([]float32, len(p.light))
	for y := reach; y < p.h-reach; y++ {
		for x := reach; x < p.w-reach; x++ {
			k := y*p.w + x
			if !p.paper[k] {
				continue
			}
			for _, d := range ways {
				if p.paper[k-d] && p.paper[k+d] {
					a := min(p.light[k-d], p.light[k+d])
					dark[k] = max(dark[k], (a-p.light[k])/max(a, 1))
				}
			}
		}
	}
	return dark
}
