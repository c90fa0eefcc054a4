// Package tracingtest renders photographs of tracing sheets with a pencil line on
// them: sheets joined edge to edge on a table, printed at any scale, before a
// camera that is tilted, bends straight lines, blurs and is noisy. What it draws
// is known to a few hundredths of a millimetre.
package tracingtest

import (
	"image"
	"math"
	"math/rand/v2"

	"fairtape/parse/form"
)

// Point is a place on the table in millimetres: X to the right, Y down.
type Point struct{ X, Y float64 }

// Sheet is a tracing sheet on the table.
type Sheet struct {
	At   Point   // its upper left corner
	Turn float64 // clockwise about that corner, degrees
}

// Scene is what lies on the table.
type Scene struct {
	Grid    form.Grid
	Paper   form.Paper // what it was printed on
	Print   float64    // scale of the print, 1 for true
	Sheets  []Sheet
	Line    []Point     // the pencil's way
	Pencil  float64     // breadth of the line, mm
	Dark    float64     // of the light that the line takes away, 0 to 1
	Table   float64     // light of the table, of 1; paper throws back 0.9
	Picture *image.Gray // the sheet as a printer has it
	Lift    Waves       // of paper that does not lie flat
}

// Waves are how paper stands off the table: up to High, in waves that run
// towards an angle.
type Waves struct{ High, Long, Towards, Begin float64 } // mm, mm, radians, radians

func (w Waves) at(q Point) float64 {
	if w.High == 0 {
		return 0
	}
	sin, cos := math.Sincos(w.Towards)
	return w.High / 2 * (1 + math.Sin(w.Begin+2*math.Pi*(q.X*cos+q.Y*sin)/w.Long))
}

const (
	perMM = 6.0  // of the table as it is drawn
	edge  = 50.0 // of table around the sheets, mm
	white = 0.9
)

// canvas is the table seen square from above.
type canvas struct {
	w, h   int
	origin Point
	light  []float32
}

// at is the light at a place, in millimetres from the canvas' upper left corner.
func (c *canvas) at(x, y float32) float32 {
	x, y = max(x*perMM-0.5, 0), max(y*perMM-0.5, 0)
	x0, y0 := min(int(x), c.w-2), min(int(y), c.h-2)
	fx, fy := min(x-float32(x0), 1), min(y-float32(y0), 1)
	k := y0*c.w + x0
	return (c.light[k]*(1-fx)+c.light[k+1]*fx)*(1-fy) + (c.light[k+c.w]*(1-fx)+c.light[k+c.w+1]*fx)*fy
}

// Place is where a point of the first sheet's print, as Grid has it, lies on the
// table.
func (s Scene) Place(sheet int, x, y float64) Point {
	pw, ph := s.Paper.Size()
	x, y = (x-s.Grid.Width/2)*s.Print+pw/2, (y-s.Grid.Height/2)*s.Print+ph/2
	sin, cos := math.Sincos(s.Sheets[sheet].Turn * math.Pi / 180)
	at := s.Sheets[sheet].At
	return Point{at.X + cos*x - sin*y, at.Y + sin*x + cos*y}
}

func (s Scene) bounds() (least, most Point) {
	least, most = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	pw, ph := s.Paper.Size()
	for _, sh := range s.Sheets {
		sin, cos := math.Sincos(sh.Turn * math.Pi / 180)
		for _, c := range []Point{{0, 0}, {pw, 0}, {0, ph}, {pw, ph}} {
			q := Point{sh.At.X + cos*c.X - sin*c.Y, sh.At.Y + sin*c.X + cos*c.Y}
			least = Point{min(least.X, q.X), min(least.Y, q.Y)}
			most = Point{max(most.X, q.X), max(most.Y, q.Y)}
		}
	}
	return least, most
}

// draw draws the table.
func (s Scene) draw(rng *rand.Rand) *canvas {
	least, most := s.bounds()
	c := &canvas{w: int((most.X - least.X + 2*edge) * perMM), h: int((most.Y - least.Y + 2*edge) * perMM), origin: Point{least.X - edge, least.Y - edge}}
	c.light = make([]float32, c.w*c.h)
	grain := make([]float32, 4096)
	for i := range grain {
		grain[i] = float32(s.Table * (1 + 0.08*rng.NormFloat64()))
	}
	for y := range c.h {
		for x := range c.w {
			c.light[y*c.w+x] = grain[(x/40+y*7)%len(grain)]
		}
	}
	for i := range s.Sheets {
		s.sheet(c, i)
	}
	s.pencil(c)
	return c
}

// printPerMM is the resolution of the sheet as it is printed.
const printPerMM = 20.0

// Printed is the sheet without words, as a printer has it.
func Printed(g form.Grid) (*image.Gray, error) {
	modules, err := form.Modules(g.CodeText)
	if err != nil {
		return nil, err
	}
	m := image.NewGray(image.Rect(0, 0, int(math.Round(g.Width*printPerMM)), int(math.Round(g.Height*printPerMM))))
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	fill := func(r form.Rect) {
		for y := int(math.Round(r.Y0 * printPerMM)); y < int(math.Round(r.Y1*printPerMM)); y++ {
			row := m.Pix[y*m.Stride:]
			clear(row[int(math.Round(r.X0*printPerMM)):int(math.Round(r.X1*printPerMM))])
		}
	}
	for _, r := range g.Marks {
		fill(r)
	}
	fill(form.Rect{X0: g.Line.X0 - 0.2, X1: g.Line.X0 + 0.2, Y0: g.Line.Y0, Y1: g.Line.Y1})
	side := g.Code.Width() / float64(len(modules))
	for y, row := range modules {
		for x, black := range row {
			if black {
				x0, y0 := g.Code.X0+float64(x)*side, g.Code.Y0+float64(y)*side
				fill(form.Rect{X0: x0, Y0: y0, X1: x0 + side, Y1: y0 + side})
			}
		}
	}
	return m, nil
}

// sheet draws one sheet.
func (s Scene) sheet(c *canvas, i int) {
	pw, ph := s.Paper.Size()
	sin, cos := math.Sincos(s.Sheets[i].Turn * math.Pi / 180)
	for y := range c.h {
		for x := range c.w {
			dx, dy := c.origin.X+(float64(x)+0.5)/perMM-s.Sheets[i].At.X, c.origin.Y+(float64(y)+0.5)/perMM-s.Sheets[i].At.Y
			px, py := cos*dx+sin*dy, -sin*dx+cos*dy
			if px >= 0 && py >= 0 && px < pw && py < ph {
				c.light[y*c.w+x] = s.print((px-pw/2)/s.Print+s.Grid.Width/2, (py-ph/2)/s.Print+s.Grid.Height/2)
			}
		}
	}
}

// print is the light of the printed sheet at a place of it.
func (s Scene) print(x, y float64) float32 {
	const black = 0.06
	w, h := s.Picture.Rect.Dx(), s.Picture.Rect.Dy()
	px, py := int(math.Floor(x/s.Grid.Width*float64(w))), int(math.Floor(y/s.Grid.Height*float64(h)))
	if px < 0 || py < 0 || px >= w || py >= h {
		return white
	}
	return black + (white-black)*float32(s.Picture.Pix[py*s.Picture.Stride+px])/255
}

// pencil draws the line.
func (s Scene) pencil(c *canvas) {
	half := s.Pencil / 2
	cover := make([]float32, len(c.light))
	for i := 1; i < len(s.Line); i++ {
		a, b := s.Line[i-1], s.Line[i]
		x0, x1 := min(a.X, b.X)-half-0.5, max(a.X, b.X)+half+0.5
		y0, y1 := min(a.Y, b.Y)-half-0.5, max(a.Y, b.Y)+half+0.5
		for y := max(int((y0-c.origin.Y)*perMM), 0); y <= min(int((y1-c.origin.Y)*perMM), c.h-1); y++ {
			for x := max(int((x0-c.origin.X)*perMM), 0); x <= min(int((x1-c.origin.X)*perMM), c.w-1); x++ {
				q := Point{c.origin.X + (float64(x)+0.5)/perMM, c.origin.Y + (float64(y)+0.5)/perMM}
				// Covered from the middle of the line outwards, soft over a pixel.
				d := half - apart(q, a, b)
				k := y*c.w + x
				cover[k] = max(cover[k], float32(min(max(d*perMM+0.5, 0), 1)))
			}
		}
	}
	for k, in := range cover {
		c.light[k] *= 1 - in*float32(s.Dark)
	}
}

// apart is how far a point lies from the straight line between two.
func apart(q, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((q.X-a.X)*dx+(q.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(q.X-a.X-t*dx, q.Y-a.Y-t*dy)
}

// End is an end of a boat: from the flat of the bottom, level, around the turn to
// the top, wide and high, its lowest foremost corner at x and y.
func End(x, y, wide, high float64) []Point { return Turn(x, y, wide, high, 2) }

// Turn is an end whose turn is as full as the exponent says: 2 is a quarter of an
// ellipse, more is nearer to the corner.
func Turn(x, y, wide, high, full float64) (line []Point) {
	const points = 240
	for i := range points {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / (points - 1))
		line = append(line, Point{x + wide*(1-math.Pow(s, 2/full)), y - high*(1-math.Pow(max(c, 0), 2/full))})
	}
	return line
}

// Off is how far from the pencil's line a place lies, in millimetres. The place
// is right and down from the upper left corner of the first sheet's print, as a
// ruler has it.
func (s Scene) Off(q Point) float64 {
	at := s.Place(0, q.X/s.Print, q.Y/s.Print)
	best := math.Inf(1)
	for i := 1; i < len(s.Line); i++ {
		best = min(best, apart(at, s.Line[i-1], s.Line[i]))
	}
	return best
}
