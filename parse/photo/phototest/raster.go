package phototest

import (
	"image"
	"math"
)

// Scale is the resolution of a sheet, in pixels a millimetre.
const Scale = 12.0

// raster is a picture of three floats a pixel, the share of red, green and blue
// light that is thrown back, 0 to 1.
type raster struct {
	w, h int
	pix  []float32
}

func newRaster(w, h int, r, g, b float32) *raster {
	m := &raster{w, h, make([]float32, 3*w*h)}
	for i := 0; i < len(m.pix); i += 3 {
		m.pix[i], m.pix[i+1], m.pix[i+2] = r, g, b
	}
	return m
}

// stain lays a colour over a pixel as ink does: the light that is left is
// multiplied.
func (m *raster) stain(x, y int, amount float32, ink [3]float32) {
	if x < 0 || y < 0 || x >= m.w || y >= m.h || amount <= 0 {
		return
	}
	i := 3 * (y*m.w + x)
	for c := range 3 {
		m.pix[i+c] *= 1 - amount*(1-ink[c])
	}
}

// at samples between pixels, bilinearly; pixel centres are at half numbers.
func (m *raster) at(x, y float64) (r, g, b float32) {
	x, y = min(max(x-0.5, 0), float64(m.w)-1.001), min(max(y-0.5, 0), float64(m.h)-1.001)
	x0, y0 := int(x), int(y)
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	p, q := m.pix[3*(y0*m.w+x0):], m.pix[3*((y0+1)*m.w+x0):]
	mix := func(c int) float32 {
		return (p[c]*(1-fx)+p[c+3]*fx)*(1-fy) + (q[c]*(1-fx)+q[c+3]*fx)*fy
	}
	return mix(0), mix(1), mix(2)
}

// image makes bytes of the shares, as a screen shows them (IEC 61966-2-1, with
// the plain exponent).
func (m *raster) image() *image.RGBA {
	var table [lightSteps + 1]byte
	for i := range table {
		table[i] = toByte(float32(i) / lightSteps)
	}
	out := image.NewRGBA(image.Rect(0, 0, m.w, m.h))
	for i := range m.w * m.h {
		p, o := m.pix[3*i:3*i+3], out.Pix[4*i:4*i+4]
		for c, v := range p {
			o[c] = table[int(min(max(v, 0), 1)*lightSteps+0.5)]
		}
		o[3] = 255
	}
	return out
}

// lightSteps is how finely light is told apart before it becomes a byte.
const lightSteps = 1 << 14

const gamma = 2.2

func toByte(v float32) byte {
	return byte(255*math.Pow(float64(min(max(v, 0), 1)), 1/gamma) + 0.5)
}

func fromByte(v byte) float32 { return float32(math.Pow(float64(v)/255, gamma)) }

// blur smooths along rows and columns with a bell of the given width in pixels.
func (m *raster) blur(sigma float64) {
	if sigma < 0.1 {
		return
	}
	kernel := bell(sigma)
	half := len(kernel) / 2
	line := make([]float32, 3*(max(m.w, m.h)+2*half))
	pass := func(start, step, n int) {
		for i := range n + 2*half {
			from := start + min(max(i-half, 0), n-1)*step
			copy(line[3*i:3*i+3], m.pix[from:from+3])
		}
		for i := range n {
			var a, b, c float32
			for k, w := range kernel {
				p := line[3*(i+k) : 3*(i+k)+3]
				a, b, c = a+w*p[0], b+w*p[1], c+w*p[2]
			}
			p := m.pix[start+i*step : start+i*step+3]
			p[0], p[1], p[2] = a, b, c
		}
	}
	for y := range m.h {
		pass(3*y*m.w, 3, m.w)
	}
	for x := range m.w {
		pass(3*x, 3*m.w, m.h)
	}
}

func bell(sigma float64) []float32 {
	half := int(math.Ceil(2.5 * sigma))
	kernel := make([]float32, 2*half+1)
	total := float32(0)
	for i := range kernel {
		d := float64(i - half)
		kernel[i] = float32(math.Exp(-d * d / (2 * sigma * sigma)))
		total += kernel[i]
	}
	for i := range kernel {
		kernel[i] /= total
	}
	return kernel
}
