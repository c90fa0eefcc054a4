package photo

import (
	"image"
	"image/color"
)

// Picture is a photo as the reader looks at it: its light alone, made smaller
// by a whole factor where it is larger than a page needs.
type Picture struct {
	Width, Height int // of the upright picture before it was made smaller, in pixels
	Page          int // of its file, from 1; 0 where its place among the pictures tells
	factor        int
	light         *plane
}

// NewPicture takes a picture that was decoded elsewhere, such as a page of a
// scanned PDF, as upright.
func NewPicture(m image.Image) *Picture { return newPicture(m, upright) }

// Light returns the picture as it is read, in grey, and by what factor it was
// made smaller.
func (p *Picture) Light() (grey *image.Gray, factor int) {
	l := p.light
	return &image.Gray{Pix: l.pix, Stride: l.w, Rect: image.Rect(0, 0, l.w, l.h)}, p.factor
}

// plane is a picture of bytes without padding.
type plane struct {
	w, h int
	pix  []byte
}

func newPlane(w, h int) *plane { return &plane{w, h, make([]byte, w*h)} }

// at returns the light between pixels, bilinearly; beyond the edge the edge
// goes on. Pixel centres are at half numbers.
func (p *plane) at(x, y float64) float32 {
	x, y = x-0.5, y-0.5
	x0, y0 := int(x), int(y)
	if x < 0 || y < 0 || x0 >= p.w-1 || y0 >= p.h-1 {
		x0, y0 = min(max(x0, 0), p.w-2), min(max(y0, 0), p.h-2)
		x, y = min(max(x, 0), float64(p.w-1)), min(max(y, 0), float64(p.h-1))
	}
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	i := y0*p.w + x0
	top := float32(p.pix[i])*(1-fx) + float32(p.pix[i+1])*fx
	low := float32(p.pix[i+p.w])*(1-fx) + float32(p.pix[i+p.w+1])*fx
	return top*(1-fy) + low*fy
}

// shrink returns the mean of every k x k pixels.
func (p *plane) shrink(k int) *plane {
	if k == 1 {
		return p
	}
	out := newPlane(max(p.w/k, 2), max(p.h/k, 2))
	for y := range out.h {
		for x := range out.w {
			sum, n := 0, 0
			for j := y * k; j < min((y+1)*k, p.h); j++ {
				for _, v := range p.pix[min(j*p.w+x*k, (j+1)*p.w):min(j*p.w+(x+1)*k, (j+1)*p.w)] {
					sum += int(v)
					n++
				}
			}
			if n > 0 {
				out.pix[y*out.w+x] = byte(sum / n)
			}
		}
	}
	return out
}

// workMost is how many pixels are looked at: a page that fills three quarters
// of them shows ten pixels a millimetre, twice what the number reader sees.
const workMost = 16 << 20

// smallestSide keeps arithmetic on neighbours simple: pictures have at least so
// many pixels a side, the rest repeated.
const smallestSide = 8

// gather builds a picture from rows of light, asked for from the top down once
// each, and turns it upright. It is nil when a row cannot be had.
func gather(w, h int, o orientation, row func(y int, light []byte) bool) *Picture {
	factor := 1
	for w/factor*(h/factor) > workMost {
		factor++
	}
	out := newPlane(max(w/factor, smallestSide), max(h/factor, smallestSide))
	sums, light := make([]int, out.w), make([]byte, w)
	area := factor * factor
	for y := range h {
		if !row(y, light) {
			return nil
		}
		if y/factor >= out.h {
			break
		}
		for x := range min(out.w, w/factor) {
			for _, v := range light[x*factor : (x+1)*factor] {
				sums[x] += int(v)
			}
		}
		if y%factor == factor-1 {
			for x, s := range sums {
				out.pix[y/factor*out.w+x] = byte(s / area)
			}
			clear(sums)
		}
	}
	p := &Picture{Width: w, Height: h, factor: factor, light: out}
	return p.turn(o)
}

func (p *Picture) turn(o orientation) *Picture {
	if o == upright {
		return p
	}
	from := p.light
	to := newPlane(from.w, from.h)
	if o.swaps() {
		to.w, to.h = from.h, from.w
		p.Width, p.Height = p.Height, p.Width
	}
	for y := range to.h {
		for x := range to.w {
			sx, sy := o.source(x, y, from.w, from.h)
			to.pix[y*to.w+x] = from.pix[sy*from.w+sx]
		}
	}
	p.light = to
	return p
}

// lightOf is how light a colour is for ink: half its luma (ITU-R BT.601) and
// half its darkest channel, so that red and blue pens are dark too.
func lightOf(r, g, b byte) byte {
	luma := (19595*int(r) + 38470*int(g) + 7471*int(b) + 1<<15) >> 16
	return byte((luma + int(min(r, g, b))) / 2)
}

func overWhite(light, alpha byte) byte {
	return byte(255 - (255-int(light))*int(alpha)/255)
}

func newPicture(m image.Image, o orientation) *Picture {
	b := m.Bounds()
	row := lightRows(m)
	return gather(b.Dx(), b.Dy(), o, func(y int, light []byte) bool {
		row(y, light)
		return true
	})
}

// lightRows reads rows of light off the kinds of pictures that decoders make.
func lightRows(m image.Image) func(y int, light []byte) {
	b := m.Bounds()
	switch m := m.(type) {
	case *image.YCbCr:
		chroma := newChroma()
		return func(y int, light []byte) { chroma.row(m, y, light) }
	case *image.Gray:
		return func(y int, light []byte) { copy(light, m.Pix[y*m.Stride:]) }
	case *image.RGBA:
		return func(y int, light []byte) {
			for x := range light {
				p := m.Pix[y*m.Stride+4*x:]
				light[x] = lightOf(p[0], p[1], p[2]) + 255 - p[3] // colours are premultiplied
			}
		}
	case *image.NRGBA:
		return func(y int, light []byte) {
			for x := range light {
				p := m.Pix[y*m.Stride+4*x:]
				light[x] = overWhite(lightOf(p[0], p[1], p[2]), p[3])
			}
		}
	case *image.CMYK:
		return func(y int, light []byte) {
			for x := range light {
				p := m.Pix[y*m.Stride+4*x:]
				light[x] = lightOf(color.CMYKToRGB(p[0], p[1], p[2], p[3]))
			}
		}
	}
	return func(y int, light []byte) {
		for x := range light {
			c := color.NRGBAModel.Convert(m.At(b.Min.X+x, b.Min.Y+y)).(color.NRGBA)
			light[x] = overWhite(lightOf(c.R, c.G, c.B), c.A)
		}
	}
}

// chroma holds, for each value of Cb and Cr, what it adds to the channels
// (JFIF 1.02, conversion from YCbCr).
type chroma struct{ red, greenCb, greenCr, blue [256]int }

func newChroma() *chroma {
	c := new(chroma)
	for i := range 256 {
		v := float64(i - 128)
		c.red[i], c.blue[i] = int(1.402*v), int(1.772*v)
		c.greenCb[i], c.greenCr[i] = int(-0.34414*v), int(-0.71414*v)
	}
	return c
}

func (c *chroma) row(m *image.YCbCr, y int, light []byte) {
	x0, y0 := m.Rect.Min.X, m.Rect.Min.Y+y
	luma := m.Y[m.YOffset(x0, y0):]
	at := m.COffset(x0, y0)
	shift := 0
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420:
		shift = 1
	case image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410:
		shift = 2
	}
	for x := range light {
		i := at + x>>shift
		cb, cr := m.Cb[i], m.Cr[i]
		// Half of what the darkest channel lies under the luma.
		under := min(c.red[cr], c.greenCb[cb]+c.greenCr[cr], c.blue[cb]) / 2
		light[x] = byte(min(max(int(luma[x])+under, 0), 255))
	}
}
