package phototest

import (
	"image/color"
	"math"
	"math/rand/v2"

	"fairtape/parse/form"
)

// Hand is how one person writes.
type Hand struct {
	digits *Digits // nil: strokes of our own

	variant [10]int // of the strokes
	height  float64 // of a digit, mm
	spread  float64 // how unequal digits are, as a share
	slant   float64
	narrow  float64
	jitter  float64 // how far from the middle of a box, mm
	pen     Pen
}

// Pen is what a hand holds.
type Pen struct {
	Width  float64 // of a line, mm
	Cover  float64 // how much of the paper's light a line takes, 0 to 1
	Patchy float64 // how unevenly, 0 to 1
	Colour color.RGBA
}

// Pens are what lies beside a telephone: ball-points, a fine liner, a felt pen
// and a pencil.
var pens = []Pen{
	{0.45, 0.93, 0.15, color.RGBA{28, 40, 120, 255}},
	{0.40, 0.92, 0.15, color.RGBA{30, 30, 34, 255}},
	{0.55, 0.95, 0.05, color.RGBA{20, 20, 24, 255}},
	{0.45, 0.90, 0.12, color.RGBA{40, 66, 160, 255}},
	{0.80, 0.97, 0.03, color.RGBA{16, 24, 70, 255}},
	{0.45, 0.90, 0.12, color.RGBA{168, 30, 36, 255}},
	{0.50, 0.75, 0.35, color.RGBA{72, 72, 76, 255}},
}

// NewHand draws a writer. With digits it writes those that people wrote, each
// in its own way; without, strokes of our own.
func NewHand(digits *Digits, rng *rand.Rand) *Hand {
	h := &Hand{
		digits: digits,
		height: 4.6 + 2.2*rng.Float64(),
		spread: 0.03 + 0.06*rng.Float64(),
		slant:  0.08 + 0.10*rng.NormFloat64(),
		narrow: math.Exp(0.10 * rng.NormFloat64()),
		jitter: 0.2 + 0.4*rng.Float64(),
		pen:    pens[rng.IntN(len(pens))],
	}
	if digits != nil {
		h.slant = 0.04 * rng.NormFloat64() // beside that of the people who wrote them
	}
	for d := range h.variant {
		h.variant[d] = rng.IntN(len(skeletons[d]))
	}
	return h
}

// digit writes one digit around a point, in millimetres.
func (s *Sheet) digit(h *Hand, d int, x, y float64, rng *rand.Rand) {
	x += h.jitter * rng.NormFloat64()
	y += h.jitter * rng.NormFloat64()
	height := h.height * (1 + h.spread*rng.NormFloat64())
	if h.digits != nil {
		s.picture(h, h.digits[d][rng.IntN(len(h.digits[d]))], x, y, height, rng)
		return
	}
	sk := skeletons[d][h.variant[d]]
	if rng.Float64() < 0.05 {
		sk = skeletons[d][rng.IntN(len(skeletons[d]))]
	}
	width := height * sk.width * h.narrow * (1 + 0.08*rng.NormFloat64())
	wave := [4]float64{rng.NormFloat64(), rng.NormFloat64(), rng.Float64() * 6, rng.Float64() * 6}
	for _, stroke := range sk.strokes {
		points := smooth(stroke, 24)
		for i, p := range points {
			u, v := p.x-0.5, p.y-0.5
			u += 0.03 * wave[0] * math.Sin(3*v+wave[2])
			v += 0.03 * wave[1] * math.Sin(3*u+wave[3])
			points[i] = point{x + u*width - (v*height)*(h.slant+0.04*wave[0]), y + v*height}
		}
		s.Line(h.pen, points, rng)
	}
}

// picture writes a digit that somebody wrote, scaled to the hand's height. Its
// soft pixels are made a line of ink again.
func (s *Sheet) picture(h *Hand, bitmap []byte, x, y, height float64, rng *rand.Rand) {
	const inked = 20.0 // pixels of 28 that a digit of MNIST fills
	// A threshold between 0.3 and 0.45 makes wide and narrow lines of it; from
	// 0.5 on, fine lines that the writer joined would come apart.
	threshold := 0.45 - 0.35*(h.pen.Width-0.4)
	step := inked / height // of the bitmap's pixels a millimetre
	half := px(0.75 * height)
	grain := newGrain(rng)
	ink := colour(h.pen.Colour)
	for j := -half; j <= half; j++ {
		for i := -half; i <= half; i++ {
			v := float64(j) / Scale
			u := (float64(i)/Scale + v*h.slant) / h.narrow
			value := bitmapAt(bitmap, u*step+mnistSide/2, v*step+mnistSide/2)
			cover := 1 / (1 + math.Exp(-(value-threshold)/0.05))
			px, py := px(x)+i, px(y)+j
			s.paper.stain(px, py, float32(cover*h.pen.Cover*(1-h.pen.Patchy*grain.at(px, py))), ink)
		}
	}
}

func bitmapAt(bitmap []byte, x, y float64) float64 {
	x, y = x-0.5, y-0.5
	x0, y0 := int(math.Floor(x)), int(math.Floor(y))
	get := func(i, j int) float64 {
		if i < 0 || j < 0 || i >= mnistSide || j >= mnistSide {
			return 0
		}
		return float64(bitmap[j*mnistSide+i]) / 255
	}
	fx, fy := x-float64(x0), y-float64(y0)
	fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
	return (get(x0, y0)*(1-fx)+get(x0+1, y0)*fx)*(1-fy) + (get(x0, y0+1)*(1-fx)+get(x0+1, y0+1)*fx)*fy
}

// Line draws along points, in millimetres.
func (s *Sheet) Line(pen Pen, points []point, rng *rand.Rand) {
	radius := pen.Width / 2
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range points {
		x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
	}
	grain := newGrain(rng)
	ink := colour(pen.Colour)
	for j := px(y0 - 1); j <= px(y1+1); j++ {
		for i := px(x0 - 1); i <= px(x1+1); i++ {
			d := distance(points, (float64(i)+0.5)/Scale, (float64(j)+0.5)/Scale)
			cover := 1 / (1 + math.Exp((d-radius)/0.035))
			if cover > 0.01 {
				s.paper.stain(i, j, float32(cover*pen.Cover*(1-pen.Patchy*grain.at(i, j))), ink)
			}
		}
	}
}

func distance(points []point, x, y float64) float64 {
	best := math.Inf(1)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		dx, dy := b.x-a.x, b.y-a.y
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = min(max(((x-a.x)*dx+(y-a.y)*dy)/l, 0), 1)
		}
		best = min(best, math.Hypot(x-a.x-t*dx, y-a.y-t*dy))
	}
	return best
}

// grain is soft noise, 0 to 1, with cells of a few pixels.
type grain struct{ seed uint64 }

func newGrain(rng *rand.Rand) grain { return grain{rng.Uint64()} }

func (g grain) at(x, y int) float64 {
	return (g.cell(x/3, y/3) + g.cell(x/7+1000, y/7)) / 2
}

func (g grain) cell(x, y int) float64 {
	v := g.seed ^ uint64(uint32(x))*0x9e3779b97f4a7c15 ^ uint64(uint32(y))*0xc2b2ae3d27d4eb4f
	v ^= v >> 29
	v *= 0xbf58476d1ce4e5b9
	v ^= v >> 32
	return float64(v>>11) / (1 << 53)
}

// tick marks a small box with a tick, a cross or a stroke.
func (s *Sheet) tick(h *Hand, box form.Rect, rng *rand.Rand) {
	cx, cy := box.Centre()
	cx, cy = cx+0.3*rng.NormFloat64(), cy+0.3*rng.NormFloat64()
	r := 1.6 + 1.2*rng.Float64()
	switch rng.IntN(3) {
	case 0:
		s.Line(h.pen, []point{{cx - r, cy}, {cx - 0.3*r, cy + 0.8*r}, {cx + 1.3*r, cy - 1.2*r}}, rng)
	case 1:
		s.Line(h.pen, []point{{cx - r, cy - r}, {cx + r, cy + r}}, rng)
		s.Line(h.pen, []point{{cx + r, cy - r}, {cx - r, cy + r}}, rng)
	default:
		s.Line(h.pen, []point{{cx - r, cy + r}, {cx + r, cy - r}}, rng)
	}
}

// strike crosses out what stands in a rectangle.
func (s *Sheet) strike(h *Hand, box form.Rect, rng *rand.Rand) {
	for range 2 + rng.IntN(3) {
		y := box.Y0 + box.Height()*(0.25+0.5*rng.Float64())
		tilt := box.Height() * 0.3 * rng.NormFloat64()
		s.Line(h.pen, smooth([]point{
			{box.X0 + 0.5, y - tilt}, {(box.X0 + box.X1) / 2, y + 0.3*rng.NormFloat64()}, {box.X1 - 0.5, y + tilt},
		}, 12), rng)
	}
}

// Note scribbles a word of some millimetres at a place: ink that belongs to no
// box.
func (s *Sheet) Note(h *Hand, x, y, width float64, rng *rand.Rand) {
	points := []point{{x, y}}
	for at := x; at < x+width; {
		at += 0.7 + 0.5*rng.Float64()
		points = append(points, point{at, y - 3*rng.Float64()}, point{at + 0.3, y + 0.6*rng.Float64()})
	}
	s.Line(h.pen, smooth(points, 12*len(points)), rng)
}
