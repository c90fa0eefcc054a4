package tracing

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

type point struct{ x, y float64 }

func (p point) minus(q point) point   { return point{p.x - q.x, p.y - q.y} }
func (p point) length() float64       { return math.Hypot(p.x, p.y) }
func (p point) plus(q point) point    { return point{p.x + q.x, p.y + q.y} }
func (p point) times(f float64) point { return point{p.x * f, p.y * f} }
func (p point) dot(q point) float64   { return p.x*q.x + p.y*q.y }
func (p point) turned(a float64) point {
	s, c := math.Sincos(a)
	return point{c*p.x - s*p.y, s*p.x + c*p.y}
}

// camera maps the plane of the sheets, in millimetres of the first sheet, to
// pixels: a homography, then the lens, which moves a point at distance r from
// the middle of the picture outwards by bend r², r counted in half diagonals.
type camera struct {
	h      [8]float64
	bend   float64
	middle point
	radius float64 // pixels
}

func (c *camera) pixel(p point) point {
	w := c.h[6]*p.x + c.h[7]*p.y + 1
	q := point{(c.h[0]*p.x + c.h[1]*p.y + c.h[2]) / w, (c.h[3]*p.x + c.h[4]*p.y + c.h[5]) / w}.minus(c.middle)
	r := q.length() / c.radius
	return q.times(1 + c.bend*r*r).plus(c.middle)
}

// place is the point of the plane that is seen at a pixel.
func (c *camera) place(px point) point {
	q := px.minus(c.middle)
	straight := q
	for range 8 {
		r := straight.length() / c.radius
		straight = q.times(1 / (1 + c.bend*r*r))
	}
	u, v := straight.x+c.middle.x, straight.y+c.middle.y
	// Two linear equations in x and y.
	a, b, e := c.h[0]-u*c.h[6], c.h[1]-u*c.h[7], u-c.h[2]
	d, f, g := c.h[3]-v*c.h[6], c.h[4]-v*c.h[7], v-c.h[5]
	det := a*f - b*d
	return point{(e*f - b*g) / det, (a*g - e*d) / det}
}

// pose is where a sheet lies in the plane: turned by angle, then moved.
type pose struct {
	angle float64
	at    point
}

func (p pose) out(q point) point { return q.turned(p.angle).plus(p.at) }
func (p pose) in(q point) point  { return q.minus(p.at).turned(-p.angle) }

// seen is a point of a sheet and the pixel where it is seen.
type seen struct {
	sheet int
	on    point // millimetres of the sheet
	at    point // pixels
}

// view is a camera and the sheets before it. The first lies at the origin.
type view struct {
	camera camera
	poses  []pose
}

func (v *view) pixel(sheet int, on point) point { return v.camera.pixel(v.poses[sheet].out(on)) }

// off is by how much a mark is seen from where it should be, mm.
func (v *view) off(m seen) point {
	return v.camera.place(m.at).minus(v.poses[m.sheet].out(m.on))
}

// cameraNumbers is how many numbers a camera is: the homography and the lens.
const cameraNumbers = 9

// params and with turn a view into numbers and back: the camera's, and three for
// each further sheet.
func (v *view) params() []float64 {
	p := append(append([]float64{}, v.camera.h[:]...), v.camera.bend)
	for _, s := range v.poses[1:] {
		p = append(p, s.angle, s.at.x, s.at.y)
	}
	return p
}

func (v *view) with(p []float64) *view {
	out := &view{camera: v.camera, poses: make([]pose, len(v.poses))}
	copy(out.camera.h[:], p)
	out.camera.bend = p[8]
	for i := range out.poses[1:] {
		q := p[cameraNumbers+3*i:]
		out.poses[i+1] = pose{q[0], point{q[1], q[2]}}
	}
	return out
}

// steps are how far each number is moved to see what it does: about a tenth of a
// pixel over a sheet.
func steps(n int) []float64 {
	s := []float64{1e-4, 1e-4, 1e-2, 1e-4, 1e-4, 1e-2, 1e-8, 1e-8, 1e-5}
	for len(s) < n {
		s = append(s, 1e-5, 1e-3, 1e-3)
	}
	return s
}

// What is known of a view before anything is seen, as spreads. The lens of a
// telephone bends lines by 1 % at most after its own correction; a sheet tilted
// by 45 degrees and taken from arm's length has perspective numbers of 1e-3 a
// millimetre. A mark is found to a fraction of a pixel.
const (
	bendSpread        = 0.01
	perspectiveSpread = 2e-3
	pixelSpread       = 0.3
)

var errFlat = errors.New("the marks do not fix the camera")

// fit brings a view nearest to what is seen, in the sense of least squares
// (Levenberg, Marquardt).
func (v *view) fit(marks []seen) (*view, error) {
	p := v.params()
	n := len(p)
	damp := 1e-3
	residuals := func(v *view) []float64 {
		r := make([]float64, 0, 2*len(marks)+3)
		for _, m := range marks {
			d := v.pixel(m.sheet, m.on).minus(m.at)
			r = append(r, d.x/pixelSpread, d.y/pixelSpread)
		}
		return append(r, v.camera.bend/bendSpread, v.camera.h[6]/perspectiveSpread, v.camera.h[7]/perspectiveSpread)
	}
	cost := func(r []float64) (c float64) {
		for _, x := range r {
			c += x * x
		}
		return c
	}
	now := v
	r := residuals(now)
	normal := mat.NewSymDense(n, nil)
	for range 60 {
		jacobian := mat.NewDense(len(r), n, nil)
		for k, h := range steps(n) {
			q := append([]float64{}, p...)
			q[k] += h
			for i, x := range residuals(now.with(q)) {
				jacobian.Set(i, k, (x-r[i])/h)
			}
		}
		normal.SymOuterK(1, jacobian.T())
		var gradient mat.VecDense
		gradient.MulVec(jacobian.T(), mat.NewVecDense(len(r), r))
		better := false
		for range 12 {
			damped := mat.NewSymDense(n, nil)
			damped.CopySym(normal)
			for k := range n {
				damped.SetSym(k, k, normal.At(k, k)*(1+damp))
			}
			var chol mat.Cholesky
			var step mat.VecDense
			if !chol.Factorize(damped) || chol.SolveVecTo(&step, &gradient) != nil {
				damp *= 10
				continue
			}
			q := append([]float64{}, p...)
			for k := range q {
				q[k] -= step.AtVec(k)
			}
			next := now.with(q)
			nr := residuals(next)
			if c := cost(nr); c < cost(r) {
				better = cost(r)-c > 1e-9*(1+c)
				p, now, r = q, next, nr
				damp = max(damp/10, 1e-9)
				break
			}
			damp *= 10
		}
		if !better {
			break
		}
	}
	for _, x := range p {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, errFlat
		}
	}
	return now, nil
}
