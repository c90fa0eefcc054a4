package phototest

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// Camera is how a page is photographed.
type Camera struct {
	Width, Height int     // of the picture, pixels
	Tilt          float64 // between the page and the sensor, degrees
	Turn          float64 // of the page in the picture, degrees clockwise
	Share         float64 // of the picture's height or width that the page takes, about
	Curl          float64 // how far the paper rises off the table, mm
	Exposure      float64 // light of white paper in the picture, 0 to 1
	Uneven        float64 // how much light falls off across the page, 0 to 1
	Shadow        float64 // how dark the shadow of a hand is, 0 to 1
	Blur          float64 // sigma in pixels
	Shake         float64 // length of a shaken point, pixels
	Noise         float64 // of the darkest parts, in shares of white
	Warm          float64 // colour of the light: -1 blue to 1 yellow
	Quality       int     // of the JPEG
	Screen        float64 // how strongly the dots of a screen show, 0 for paper
}

// Grade is how hard a photo is to read.
type Grade string

// The grades.
const (
	Flat     Grade = "flat"     // from above, bright
	Ordinary Grade = "ordinary" // as most people do
	Steep    Grade = "steep"    // steep, dim and blurred
)

// Grades are all grades, the easiest first.
func Grades() []Grade { return []Grade{Flat, Ordinary, Steep} }

// sizes of pictures that telephones make or mail programs make of them.
var sizes = [][2]int{{1200, 1600}, {1536, 2048}, {1932, 2576}, {2448, 3264}, {3024, 4032}}

// NewCamera draws a camera of a grade.
func NewCamera(g Grade, rng *rand.Rand) Camera {
	u := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	size := sizes[rng.IntN(len(sizes))]
	c := Camera{
		Width: size[0], Height: size[1],
		Turn:    90*float64(rng.IntN(4)) + 4*rng.NormFloat64(),
		Share:   u(0.80, 0.93),
		Warm:    u(-0.4, 0.8),
		Quality: 72 + rng.IntN(22),
	}
	pixels := float64(size[1]) / 1600 // blur and noise grow with small pixels
	switch g {
	case Flat:
		c.Tilt, c.Curl, c.Exposure, c.Uneven, c.Shadow = u(0, 6), u(0, 1), u(0.75, 0.95), u(0, 0.15), 0
		c.Blur, c.Noise = u(0.5, 0.8)*math.Sqrt(pixels), u(0.002, 0.006)
	case Ordinary:
		c.Tilt, c.Curl, c.Exposure, c.Uneven, c.Shadow = u(3, 18), u(0, 4), u(0.5, 0.85), u(0.1, 0.4), u(0, 0.45)
		c.Blur, c.Noise, c.Shake = u(0.6, 1.0)*pixels, u(0.004, 0.012), u(0, 1)*pixels
	default:
		c.Tilt, c.Curl, c.Exposure, c.Uneven, c.Shadow = u(15, 30), u(1, 7), u(0.2, 0.5), u(0.2, 0.6), u(0.2, 0.6)
		c.Blur, c.Noise, c.Shake = u(0.8, 1.4)*pixels, u(0.008, 0.02), u(0, 2)*pixels
	}
	if rng.IntN(2) == 0 && int(c.Turn/90+0.5)%2 == 1 {
		c.Width, c.Height = c.Height, c.Width
	}
	return c
}

// Photo is a picture of a sheet.
type Photo struct {
	Picture *image.RGBA
	Camera  Camera
	place   *scene
}

// Place is where a point of the page, in millimetres, lies in the picture.
func (p *Photo) Place(x, y float64) (px, py float64) { return p.place.project(x, y) }

// JPEG is the picture as the telephone sends it.
func (p *Photo) JPEG() ([]byte, error) {
	var out bytes.Buffer
	err := jpeg.Encode(&out, p.Picture, &jpeg.Options{Quality: p.Camera.Quality})
	return out.Bytes(), err
}

// scene is a bent page in front of a camera.
type scene struct {
	width, height          float64 // of the page, mm
	turn                   [4]float64
	tilt                   [9]float64
	distance, focal        float64
	cx, cy                 float64
	curl, wave, phase, way float64
}

// newScene puts the page where it fills the picture as the camera says.
func newScene(c Camera, width, height float64, rng *rand.Rand) *scene {
	s := &scene{width: width, height: height, distance: 1.5 * height, curl: c.Curl}
	a := c.Turn * math.Pi / 180
	s.turn = [4]float64{math.Cos(a), -math.Sin(a), math.Sin(a), math.Cos(a)}
	tilt, axis := c.Tilt*math.Pi/180, 2*math.Pi*rng.Float64()
	s.tilt = rotation(math.Cos(axis), math.Sin(axis), tilt)
	s.wave = 0.5 + 0.9*rng.Float64() // bends over the page
	s.phase, s.way = 2*math.Pi*rng.Float64(), 0.5*rng.NormFloat64()
	if rng.IntN(2) == 0 {
		s.way += math.Pi / 2
	}
	// Focal length and centre follow from where the corners come to lie.
	s.focal = 1
	x0, y0, x1, y1 := s.bounds()
	s.focal = c.Share * min(float64(c.Width)/(x1-x0), float64(c.Height)/(y1-y0))
	x0, y0, x1, y1 = s.bounds()
	s.cx = float64(c.Width)/2 - (x0+x1)/2
	s.cy = float64(c.Height)/2 - (y0+y1)/2
	room := func(size float64, low, high float64) float64 {
		return 0.6 * (size - (high - low)) / 2 * (2*rng.Float64() - 1)
	}
	s.cx += room(float64(c.Width), x0, x1)
	s.cy += room(float64(c.Height), y0, y1)
	return s
}

func (s *scene) bounds() (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range 5 {
		for j := range 5 {
			x, y := s.project(s.width*float64(i)/4, s.height*float64(j)/4)
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
	}
	return x0, y0, x1, y1
}

func rotation(x, y, angle float64) [9]float64 {
	c, s := math.Cos(angle), math.Sin(angle)
	return [9]float64{
		c + x*x*(1-c), x * y * (1 - c), y * s,
		x * y * (1 - c), c + y*y*(1-c), -x * s,
		-y * s, x * s, c,
	}
}

// rise is how far the paper lies above the table, and its slope along the bend.
func (s *scene) rise(x, y float64) (z, slope float64) {
	u := ((x-s.width/2)*math.Cos(s.way) + (y-s.height/2)*math.Sin(s.way)) / s.height
	a := 2*math.Pi*s.wave*u + s.phase
	return s.curl / 2 * (1 + math.Sin(a)), s.curl / 2 * math.Cos(a) * 2 * math.Pi * s.wave / s.height
}

func (s *scene) project(x, y float64) (px, py float64) {
	z, _ := s.rise(x, y)
	return s.flat(x, y, z)
}

func (s *scene) flat(x, y, z float64) (px, py float64) {
	x, y = x-s.width/2, y-s.height/2
	x, y = s.turn[0]*x+s.turn[1]*y, s.turn[2]*x+s.turn[3]*y
	z = -z // towards the camera
	t := &s.tilt
	X, Y, Z := t[0]*x+t[1]*y+t[2]*z, t[3]*x+t[4]*y+t[5]*z, t[6]*x+t[7]*y+t[8]*z
	f := s.focal * s.distance / (s.distance + Z) / 1
	return f*X + s.cx, f*Y + s.cy
}

// unproject finds the point of the page that is seen at a pixel: Newton's
// method on a numerical derivative, from a guess.
func (s *scene) unproject(px, py, x, y float64) (float64, float64) {
	for range 12 {
		u, v := s.project(x, y)
		const h = 0.5
		ux, vx := s.project(x+h, y)
		uy, vy := s.project(x, y+h)
		a, b, c, d := (ux-u)/h, (uy-u)/h, (vx-v)/h, (vy-v)/h
		det := a*d - b*c
		du, dv := px-u, py-v
		dx, dy := (d*du-b*dv)/det, (a*dv-c*du)/det
		if math.IsNaN(dx+dy) || math.Abs(dx)+math.Abs(dy) > 1e4 {
			break
		}
		x, y = x+dx, y+dy
		if math.Abs(du)+math.Abs(dv) < 0.01 {
			break
		}
	}
	return x, y
}
