package tracingtest

import (
	"image"
	"math"
	"math/rand/v2"
)

// Photograph takes the picture.
func (s Scene) Photograph(c Camera, rng *rand.Rand) *image.Gray {
	table := s.draw(rng)
	least, most := s.bounds()
	middle := Point{(least.X + most.X) / 2, (least.Y + most.Y) / 2}
	wide, high := most.X-least.X, most.Y-least.Y
	turn, axis := c.Turn, c.Axis*math.Pi/180
	if (wide > high) != (c.Width > c.Height) {
		turn += 90
	}
	// The table's two directions and its normal, before the camera.
	ts, tc := math.Sincos(turn * math.Pi / 180)
	ex, ey := rotate([3]float64{tc, ts, 0}, axis, c.Tilt), rotate([3]float64{-ts, tc, 0}, axis, c.Tilt)
	far := 1.6 * math.Max(wide, high)
	focal := 1.0
	project := func(q Point) (x, y float64) {
		dx, dy := q.X-middle.X, q.Y-middle.Y
		z := far + dx*ex[2] + dy*ey[2]
		return focal * (dx*ex[0] + dy*ey[0]) / z, focal * (dx*ex[1] + dy*ey[1]) / z
	}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range []Point{least, {most.X, least.Y}, most, {least.X, most.Y}} {
		x, y := project(q)
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	focal = c.Share * min(float64(c.Width)/(x1-x0), float64(c.Height)/(y1-y0))
	cx, cy := float64(c.Width)/2-focal*(x0+x1)/2, float64(c.Height)/2-focal*(y0+y1)/2
	radius := math.Hypot(float64(c.Width), float64(c.Height)) / 2
	// place is the point of the table behind a pixel.
	place := func(px, py float64) (x, y float64) {
		dx, dy := px-float64(c.Width)/2, py-float64(c.Height)/2
		ux, uy := dx, dy
		for range 4 {
			r := math.Hypot(ux, uy) / radius
			ux, uy = dx/(1+c.Bend*r*r), dy/(1+c.Bend*r*r)
		}
		u, v := (ux+float64(c.Width)/2-cx)/focal, (uy+float64(c.Height)/2-cy)/focal
		// u (far + a ex.z + b ey.z) = a ex.x + b ey.x, and so for v.
		m00, m01 := ex[0]-u*ex[2], ey[0]-u*ey[2]
		m10, m11 := ex[1]-v*ex[2], ey[1]-v*ey[2]
		det := m00*m11 - m01*m10
		a, b := (u*far*m11-v*far*m01)/det, (v*far*m00-u*far*m10)/det
		return middle.X + a, middle.Y + b
	}
	light := make([]float32, c.Width*c.Height)
	gx, gy := math.Cos(axis*1.7), math.Sin(axis*1.7)
	for py := range c.Height {
		for px := range c.Width {
			x, y := place(float64(px)+0.5, float64(py)+0.5)
			fall := 1 - c.Uneven*(0.5+0.5*(gx*(float64(px)/float64(c.Width)-0.5)+gy*(float64(py)/float64(c.Height)-0.5)))
			light[py*c.Width+px] = table.at(x, y) * float32(fall)
		}
	}
	blur(light, c.Width, c.Height, c.Blur)
	out := image.NewGray(image.Rect(0, 0, c.Width, c.Height))
	for i, l := range light {
		v := 255*math.Pow(float64(max(l, 0)), 1/2.2) + c.Noise*rng.NormFloat64()
		out.Pix[i] = byte(min(max(v, 0), 255))
	}
	return out
}

// rotate turns a vector about an axis in the plane of the picture.
func rotate(v [3]float64, axis, degrees float64) [3]float64 {
	ax, ay := math.Cos(axis), math.Sin(axis)
	s, c := math.Sincos(degrees * math.Pi / 180)
	dot := ax*v[0] + ay*v[1]
	cross := [3]float64{ay * v[2], -ax * v[2], ax*v[1] - ay*v[0]}
	return [3]float64{
		v[0]*c + cross[0]*s + ax*dot*(1-c),
		v[1]*c + cross[1]*s + ay*dot*(1-c),
		v[2]*c + cross[2]*s,
	}
}

// blur smooths with a bell of the given width.
func blur(m []float32, w, h int, sigma float64) {
	half := int(math.Ceil(2.5 * sigma))
	kernel := make([]float32, 2*half+1)
	total := float32(0)
	for i := range kernel {
		d := float64(i - half)
		kernel[i] = float32(math.Exp(-d * d / (2 * sigma * sigma)))
		total += kernel[i]
	}
	line := make([]float32, max(w, h))
	pass := func(start, step, n int) {
		for i := range n {
			sum := float32(0)
			for k, weight := range kernel {
				sum += weight * m[start+step*min(max(i+k-half, 0), n-1)]
			}
			line[i] = sum / total
		}
		for i := range n {
			m[start+step*i] = line[i]
		}
	}
	for y := range h {
		pass(y*w, 1, w)
	}
	for x := range w {
		pass(x, w, h)
	}
}
