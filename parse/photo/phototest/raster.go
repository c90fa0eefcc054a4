package phototest

import (
	"image"
	"math"

	"gonum.org/v1/gonum/blas/blas32"
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
	m.blurRows(kernel)
	m.blurColumns(kernel)
}

func (m *raster) blurRows(kernel []float32) {
	half := len(kernel) / 2
	line := make([]float32, 3*(m.w+2*half))
	for y := range m.h {
		row := m.pix[3*y*m.w : 3*(y+1)*m.w]
		copy(line[3*half:], row)
		for i := range half {
			copy(line[3*i:3*i+3], row[:3])
			copy(line[3*(m.w+half+i):], row[len(row)-3:])
		}
		clear(row)
		for k, weight := range kernel {
			add(row, line[3*k:], weight)
		}
	}
}

// blurColumns goes down whole rows at a time and keeps those above as they were.
func (m *raster) blurColumns(kernel []float32) {
	half := len(kernel) / 2
	row := func(y int) []float32 { return m.pix[3*y*m.w : 3*(y+1)*m.w] }
	before := make([][]float32, half+1) // row y at y modulo their number
	for i := range before {
		before[i] = make([]float32, 3*m.w)
	}
	first := append([]float32(nil), row(0)...)
	for y := range m.h {
		out := row(y)
		copy(before[y%len(before)], out)
		clear(out)
		for k, weight := range kernel {
			switch from := min(y+k-half, m.h-1); {
			case from < 0:
				add(out, first, weight)
			case from <= y:
				add(out, before[from%len(before)], weight)
			default:
				add(out, row(from), weight)
			}
		}
	}
}

// add adds a multiple of the first len(to) of from.
func add(to, from []float32, weight float32) {
	blas32.Axpy(weight, blas32.Vector{N: len(to), Inc: 1, Data: from}, blas32.Vector{N: len(to), Inc: 1, Data: to})
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
