package phototest

import (
	"math"
	"math/rand/v2"
)

// gridStep is how many pixels apart the page is sought behind the picture;
// between them it is smooth.
const gridStep = 16

// Photograph takes a picture of the sheet on a table.
func (s *Sheet) Photograph(c Camera, rng *rand.Rand) *Photo {
	sc := newScene(c, s.Layout.Width, s.Layout.Height, rng)
	m := newRaster(c.Width, c.Height, 0, 0, 0)
	l := newLight(c, rng)
	t := newTable(rng)
	back := sc.backwards(c)
	// How many samples a pixel takes: the sheet is finer than small pictures.
	x0, y0 := sc.project(s.Layout.Width/2, s.Layout.Height/2)
	x1, y1 := sc.project(s.Layout.Width/2+1, s.Layout.Height/2)
	n := max(1, min(3, int(Scale/math.Hypot(x1-x0, y1-y0)+0.5)))
	for py := range c.Height {
		for px := range c.Width {
			p := m.pix[3*(py*c.Width+px) : 3*(py*c.Width+px)+3]
			at, shade := back.at(float64(px)+0.5, float64(py)+0.5)
			light := l.at(px, py)
			if at.x < 0 || at.y < 0 || at.x >= s.Layout.Width || at.y >= s.Layout.Height {
				p[0], p[1], p[2] = t.at(at.x, at.y, s.Layout.Width, s.Layout.Height)
			} else {
				p[0], p[1], p[2] = s.sample(back, px, py, n)
				light *= shade
			}
			for i := range 3 {
				p[i] *= light * l.colour[i]
			}
			if c.Screen > 0 {
				dots(p, at.x, at.y, float32(c.Screen))
			}
		}
	}
	if c.Shake > 0 {
		shake(m, c.Shake, 2*math.Pi*rng.Float64())
	}
	m.blur(c.Blur)
	sharpen(m)
	noise := newNoise(rng)
	sigma := float32(c.Noise * math.Sqrt(0.5/c.Exposure))
	for i, v := range m.pix {
		m.pix[i] = v + sigma*(0.55+0.45*max(v, 0))*noise.next(i)
	}
	return &Photo{Picture: m.image(), Camera: c, place: sc}
}

// sample is the mean of n x n places of the sheet within a pixel.
func (s *Sheet) sample(back *backdrop, px, py, n int) (r, g, b float32) {
	for k := range n * n {
		at, _ := back.at(float64(px)+(float64(k%n)+0.5)/float64(n), float64(py)+(float64(k/n)+0.5)/float64(n))
		x, y, z := s.paper.at(at.x*Scale, at.y*Scale)
		r, g, b = r+x, g+y, b+z
	}
	all := float32(n * n)
	return r / all, g / all, b / all
}

// backdrop says for pixels of a picture which place of the page's plane they
// show, and how light the paper's slope makes it there.
type backdrop struct {
	w      int
	places []point
	shades []float32
}

func (s *scene) backwards(c Camera) *backdrop {
	b := &backdrop{w: c.Width/gridStep + 2}
	h := c.Height/gridStep + 2
	b.places, b.shades = make([]point, b.w*h), make([]float32, b.w*h)
	for j := range h {
		for i := range b.w {
			from := point{s.width / 2, s.height / 2}
			if i > 0 {
				from = b.places[j*b.w+i-1]
			} else if j > 0 {
				from = b.places[(j-1)*b.w]
			}
			x, y := s.unproject(float64(i*gridStep), float64(j*gridStep), from.x, from.y)
			b.places[j*b.w+i] = point{x, y}
			const darkest = 1.6 // how much a slope of 45 degrees takes
			_, slope := s.rise(x, y)
			b.shades[j*b.w+i] = float32(1 - darkest*slope)
		}
	}
	return b
}

func (b *backdrop) at(px, py float64) (point, float32) {
	u, v := px/gridStep, py/gridStep
	i, j := int(u), int(v)
	fx, fy := u-float64(i), v-float64(j)
	k := j*b.w + i
	upper, lower := b.places[k:k+2], b.places[k+b.w:k+b.w+2]
	return point{
		(upper[0].x*(1-fx)+upper[1].x*fx)*(1-fy) + (lower[0].x*(1-fx)+lower[1].x*fx)*fy,
		(upper[0].y*(1-fx)+upper[1].y*fx)*(1-fy) + (lower[0].y*(1-fx)+lower[1].y*fx)*fy,
	}, b.shades[k]
}

// light is how the scene is lit, over the picture.
type light struct {
	c                        Camera
	colour                   [3]float32
	gx, gy                   float64 // where it falls off to
	sx, sy, sa, soft, second float64 // the edge of a shadow
}

func newLight(c Camera, rng *rand.Rand) *light {
	a := 2 * math.Pi * rng.Float64()
	warm := float32(c.Warm)
	return &light{
		c: c, colour: [3]float32{1 + 0.06*warm, 1, 1 - 0.22*warm},
		gx: math.Cos(a), gy: math.Sin(a),
		sx: rng.Float64(), sy: rng.Float64(), sa: 2 * math.Pi * rng.Float64(),
		soft: 0.01 + 0.08*rng.Float64(), second: 0.2 + 0.4*rng.Float64(),
	}
}

func (l *light) at(px, py int) float32 {
	size := float64(max(l.c.Width, l.c.Height))
	u, v := float64(px)/size, float64(py)/size
	light := l.c.Exposure / paperLight
	light *= 1 - l.c.Uneven*(0.5+0.7*((u-0.5)*l.gx+(v-0.5)*l.gy))
	r := math.Hypot(u-0.5*float64(l.c.Width)/size, v-0.5*float64(l.c.Height)/size)
	light *= 1 - 0.35*r*r // the lens
	if l.c.Shadow > 0 {
		// A band, as of an arm: one edge here, the other some way off.
		d := (u-l.sx)*math.Cos(l.sa) + (v-l.sy)*math.Sin(l.sa) + 0.03*math.Sin(9*(u+v))
		inside := 1/(1+math.Exp(-d/l.soft)) - 1/(1+math.Exp(-(d-l.second)/(2*l.soft)))
		light *= 1 - l.c.Shadow*inside
	}
	return float32(light)
}

// table is what the page lies on.
type table struct {
	base        [3]float32
	grain, fine grain
	way, plank  float64
}

var tables = [][3]float32{{0.28, 0.16, 0.08}, {0.45, 0.33, 0.2}, {0.05, 0.05, 0.06}, {0.5, 0.5, 0.48}, {0.12, 0.17, 0.25}, {0.62, 0.6, 0.55}}

func newTable(rng *rand.Rand) *table {
	return &table{tables[rng.IntN(len(tables))], newGrain(rng), newGrain(rng), 2 * math.Pi * rng.Float64(), 60 + 80*rng.Float64()}
}

func (t *table) at(x, y, width, height float64) (r, g, b float32) {
	u := x*math.Cos(t.way) + y*math.Sin(t.way)
	v := -x*math.Sin(t.way) + y*math.Cos(t.way)
	along := t.grain.at(int(u/6), int(3*v))
	light := float32(0.75 + 0.4*along + 0.15*t.fine.at(int(4*x), int(4*y)))
	if math.Mod(math.Abs(v), t.plank) < 0.8 {
		light *= 0.5
	}
	// The page's own shadow lies close to its edges.
	off := max(-x, x-width, -y, y-height)
	light *= float32(1 - 0.5*math.Exp(-off/3))
	return t.base[0] * light, t.base[1] * light, t.base[2] * light
}

// dots lays the stripes of a screen's colours over a pixel.
func dots(p []float32, x, y float64, strength float32) {
	const pitch = 0.27 // mm: 94 dots an inch
	phase := math.Mod(x/pitch+1e4, 1) * 3
	row := float32(1)
	if math.Mod(y/pitch+1e4, 1) < 0.25 {
		row = 1 - strength
	}
	for i := range 3 {
		if int(phase) != i {
			p[i] *= 1 - strength
		}
		p[i] *= row * (1 + strength)
	}
}

// shake draws every point out along a line.
func shake(m *raster, length, angle float64) {
	n := int(math.Ceil(length)) + 1
	from := &raster{m.w, m.h, append([]float32(nil), m.pix...)}
	dx, dy := math.Cos(angle)*length, math.Sin(angle)*length
	for y := range m.h {
		for x := range m.w {
			var sum [3]float32
			for k := range n {
				t := float64(k)/float64(n-1) - 0.5
				r, g, b := from.at(float64(x)+0.5+t*dx, float64(y)+0.5+t*dy)
				sum[0], sum[1], sum[2] = sum[0]+r, sum[1]+g, sum[2]+b
			}
			p := m.pix[3*(y*m.w+x):]
			for i := range 3 {
				p[i] = sum[i] / float32(n)
			}
		}
	}
}

// sharpen does what telephones do to every picture: edges get a halo.
func sharpen(m *raster) {
	const amount, radius = 0.5, 1.2
	soft := &raster{m.w, m.h, append([]float32(nil), m.pix...)}
	soft.blur(radius)
	for i, v := range m.pix {
		m.pix[i] = max(0, v+amount*(v-soft.pix[i]))
	}
}

// noise is a store of normal numbers, read from a new place for every run of
// pixels: drawing each anew takes longer than the rest of the picture.
type noise struct {
	rng   *rand.Rand
	store []float32
	at    int
}

func newNoise(rng *rand.Rand) *noise {
	n := &noise{rng: rng, store: make([]float32, 1<<16)}
	for i := range n.store {
		n.store[i] = float32(rng.NormFloat64())
	}
	return n
}

func (n *noise) next(i int) float32 {
	const run = 256
	if i%run == 0 {
		n.at = n.rng.IntN(len(n.store) - run)
	}
	n.at++
	return n.store[n.at-1]
}
