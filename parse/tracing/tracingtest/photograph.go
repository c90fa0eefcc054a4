package tracingtest

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// Photograph takes the picture. The error is that of the JPEG's coder.
func (s Scene) Photograph(c Camera, rng *rand.Rand) (*image.Gray, error) {
	table := s.draw(rng)
	light := make([]float32, c.Width*c.Height)
	s.expose(light, table, c)
	blur(light, c.Width, c.Height, c.Blur)
	if c.Sharpen > 0 {
		sharpen(light, c.Width, c.Height, c.Sharpen)
	}
	return develop(light, c, rng)
}

// node is what is behind a corner of a small square of the picture.
type node struct{ x, y, light float32 }

// expose gives every pixel the light of what is behind it. Places are reckoned at
// every eighth pixel; between them they change evenly to a hundredth of a pixel.
func (s Scene) expose(light []float32, table *canvas, c Camera) {
	const every = 8
	v := s.view(c)
	gx, gy := math.Cos(c.Axis*math.Pi/180*1.7), math.Sin(c.Axis*math.Pi/180*1.7)
	at := func(px, py int) node {
		q := v.place(float64(px)+0.5, float64(py)+0.5)
		if s.Lift.High > 0 {
			q = v.below(q, s.Lift.at(q))
		}
		fall := 1 - c.Uneven*(0.5+0.5*(gx*(float64(px)/float64(c.Width)-0.5)+gy*(float64(py)/float64(c.Height)-0.5)))
		fall *= c.Shadow.light(Point{q.X - v.middle.X, q.Y - v.middle.Y})
		return node{float32(q.X - table.origin.X), float32(q.Y - table.origin.Y), float32(fall)}
	}
	for y := 0; y < c.Height; y += every {
		upper, lower := at(0, y), at(0, y+every)
		for x := 0; x < c.Width; x += every {
			nextUpper, nextLower := at(x+every, y), at(x+every, y+every)
			for py := y; py < min(y+every, c.Height); py++ {
				f := float32(py-y) / every
				q, right := upper.towards(lower, f), nextUpper.towards(nextLower, f)
				for px := x; px < min(x+every, c.Width); px++ {
					n := q.towards(right, float32(px-x)/every)
					light[py*c.Width+px] = table.at(n.x, n.y) * n.light
				}
			}
			upper, lower = nextUpper, nextLower
		}
	}
}

// towards is the node a part of the way to another.
func (n node) towards(m node, f float32) node {
	return node{n.x + f*(m.x-n.x), n.y + f*(m.y-n.y), n.light + f*(m.light-n.light)}
}

// develop gives the light the tones, the noise and the losses of a telephone's
// file.
func develop(light []float32, c Camera, rng *rand.Rand) (*image.Gray, error) {
	const steps = 4096
	var tones [steps + 1]float64
	for i := range tones {
		tones[i] = 255 * math.Pow(float64(i)/steps, 1/2.2)
	}
	out := image.NewGray(image.Rect(0, 0, c.Width, c.Height))
	grain := make([]float64, 1<<16)
	for i := range grain {
		grain[i] = c.Noise*rng.NormFloat64() + 0.5
	}
	for i, l := range light {
		tone := tones[int(min(max(l, 0), 1)*steps)]
		// The same grain comes again after 65,521 pixels: a prime, so never below.
		out.Pix[i] = byte(min(max(tone+grain[i%65521], 0), 255))
	}
	if c.Quality == 0 {
		return out, nil
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, out, &jpeg.Options{Quality: c.Quality}); err != nil {
		return nil, err
	}
	m, err := jpeg.Decode(&file)
	if err != nil {
		return nil, err
	}
	return m.(*image.Gray), nil // what was grey stays so
}

// view is where a camera stands over the table.
type view struct {
	camera Camera
	middle Point      // of the sheets
	ex, ey [3]float64 // the table's directions before the camera
	far    float64    // mm
	focal  float64    // pixels
	cx, cy float64    // where the middle of the sheets is seen, pixels
	radius float64    // half of the picture's diagonal
	over   [3]float64 // the camera's place: from middle, and above the table
}

// view places the camera so that the sheets fill its share of the picture.
func (s Scene) view(c Camera) view {
	least, most := s.bounds()
	v := view{camera: c, middle: Point{(least.X + most.X) / 2, (least.Y + most.Y) / 2}}
	wide, high := most.X-least.X, most.Y-least.Y
	turn, axis := c.Turn, c.Axis*math.Pi/180
	if (wide > high) != (c.Width > c.Height) {
		turn += 90
	}
	ts, tc := math.Sincos(turn * math.Pi / 180)
	v.ex, v.ey = rotate([3]float64{tc, ts, 0}, axis, c.Tilt), rotate([3]float64{-ts, tc, 0}, axis, c.Tilt)
	v.far = c.Far * math.Max(wide, high)
	up := [3]float64{v.ex[1]*v.ey[2] - v.ex[2]*v.ey[1], v.ex[2]*v.ey[0] - v.ex[0]*v.ey[2], v.ex[0]*v.ey[1] - v.ex[1]*v.ey[0]}
	// The camera lies at far along its own view, seen from the table's middle.
	v.over = [3]float64{-v.far * v.ex[2], -v.far * v.ey[2], v.far * math.Abs(up[2])}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range []Point{least, {most.X, least.Y}, most, {least.X, most.Y}} {
		dx, dy := q.X-v.middle.X, q.Y-v.middle.Y
		z := v.far + dx*v.ex[2] + dy*v.ey[2]
		x, y := (dx*v.ex[0]+dy*v.ey[0])/z, (dx*v.ex[1]+dy*v.ey[1])/z
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	v.focal = c.Share * min(float64(c.Width)/(x1-x0), float64(c.Height)/(y1-y0))
	v.cx, v.cy = float64(c.Width)/2-v.focal*(x0+x1)/2, float64(c.Height)/2-v.focal*(y0+y1)/2
	v.radius = math.Hypot(float64(c.Width), float64(c.Height)) / 2
	return v
}

// place is the point of the table behind a pixel.
func (v *view) place(px, py float64) Point {
	mx, my := float64(v.camera.Width)/2+v.camera.Astray.X, float64(v.camera.Height)/2+v.camera.Astray.Y
	dx, dy := (px-mx)/v.radius, (py-my)/v.radius
	ux, uy := dx, dy
	for range 4 {
		rr := ux*ux + uy*uy
		out := 1 / (1 + v.camera.Bend*rr + v.camera.Rebend*rr*rr)
		ux, uy = dx*out, dy*out
	}
	a, b := (ux*v.radius+mx-v.cx)/v.focal, (uy*v.radius+my-v.cy)/v.focal
	// a (far + x ex.z + y ey.z) = x ex.x + y ey.x, and so for b.
	m00, m01 := v.ex[0]-a*v.ex[2], v.ey[0]-a*v.ey[2]
	m10, m11 := v.ex[1]-b*v.ex[2], v.ey[1]-b*v.ey[2]
	det := m00*m11 - m01*m10
	x, y := (a*v.far*m11-b*v.far*m01)/det, (b*v.far*m00-a*v.far*m10)/det
	return Point{v.middle.X + x, v.middle.Y + y}
}

// below is the point of paper, lifted so far, that hides a point of the table.
func (v *view) below(q Point, lift float64) Point {
	share := lift / v.over[2]
	return Point{q.X + share*(v.over[0]+v.middle.X-q.X), q.Y + share*(v.over[1]+v.middle.Y-q.Y)}
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

// sharpen adds a share of what a blur of one pixel takes away.
func sharpen(m []float32, w, h int, share float64) {
	soft := append([]float32{}, m...)
	blur(soft, w, h, 1)
	for i := range m {
		m[i] += float32(share) * (m[i] - soft[i])
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
