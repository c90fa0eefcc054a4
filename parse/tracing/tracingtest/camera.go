package tracingtest

import (
	"math"
	"math/rand/v2"
)

// Camera is how a scene is photographed.
type Camera struct {
	Width, Height int     // pixels
	Tilt, Axis    float64 // degrees
	Turn          float64 // degrees
	Far           float64 // from the table, of the longer side of what lies there
	Share         float64 // of the picture that the sheets fill
	Bend, Rebend  float64 // of the lens at the corner of the picture, as fractions: with the square of the distance from the middle, and with its fourth power
	Astray        Point   // middle of the lens from that of the picture, pixels
	Blur          float64 // pixels
	Sharpen       float64 // how much of what was blurred the telephone puts back
	Noise         float64 // of 255
	Uneven        float64 // how much the light falls off, 0 to 1
	Shadow        Shadow
	Quality       int // of the JPEG, 1 to 100; 0 for none
}

// Shadow is that of the telephone and the hands that hold it: a rounded patch on
// the table with soft edges.
type Shadow struct {
	Deep  float64 // of the light that it takes away, 0 to 1
	At    Point   // its middle, from the middle of the sheets, mm
	Wide  float64 // half of its breadth, mm
	High  float64 // half of its height, mm
	Edge  float64 // over which it fades, mm
	Twist float64 // radians
}

// light is what a shadow leaves of the light at a place from the middle of the
// sheets.
func (s Shadow) light(q Point) float64 {
	if s.Deep == 0 {
		return 1
	}
	sin, cos := math.Sincos(s.Twist)
	dx, dy := q.X-s.At.X, q.Y-s.At.Y
	u, v := math.Abs(cos*dx+sin*dy)/s.Wide, math.Abs(-sin*dx+cos*dy)/s.High
	out := (math.Sqrt(math.Sqrt(u*u*u*u+v*v*v*v)) - 1) * min(s.Wide, s.High)
	in := min(max(0.5-out/s.Edge, 0), 1)
	return 1 - s.Deep*in*in*(3-2*in)
}

// Ordinary draws a camera of an ordinary telephone, tilted up to the given angle,
// held over sheets that are long millimetres long. How far lenses bend straight
// lines after the telephone's own correction, and how much it sharpens, is from
// memory.
func Ordinary(rng *rand.Rand, tilt, long float64) Camera {
	u := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	c := Camera{
		Width: 4032, Height: 3024, Tilt: u(0, tilt), Axis: u(0, 360), Turn: u(-6, 6), Far: u(0.95, 1.7), Share: u(0.75, 0.88),
		Bend: 0.004 * rng.NormFloat64(), Rebend: 0.001 * rng.NormFloat64(), Astray: Point{12 * rng.NormFloat64(), 12 * rng.NormFloat64()},
		Blur: u(0.6, 1.2), Sharpen: u(0, 0.6), Noise: u(1, 4), Uneven: u(0, 0.4), Quality: 80 + rng.IntN(16),
	}
	if rng.IntN(2) == 0 {
		c.Width, c.Height, c.Blur = 3264, 2448, c.Blur*0.9
	}
	if rng.IntN(2) == 0 {
		c.Shadow = Shadow{
			Deep: u(0.15, 0.5), At: Point{u(-0.4, 0.4) * long, u(-0.4, 0.4) * long},
			Wide: u(0.1, 0.4) * long, High: u(0.1, 0.4) * long, Edge: u(5, 80), Twist: u(0, math.Pi),
		}
	}
	return c
}
