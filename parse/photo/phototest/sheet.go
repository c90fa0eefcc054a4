package phototest

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"

	"golang.org/x/image/draw"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"fairtape/parse/form"
)

// Sheet is one page of paper.
type Sheet struct {
	Layout form.Layout
	Page   int // from 1
	paper  *raster
}

// Blank prints a page from its layout alone: marks, code, outlines, and words
// that stand about where a form has them.
func Blank(l form.Layout, page int) (*Sheet, error) {
	s := &Sheet{Layout: l, Page: page, paper: newRaster(px(l.Width), px(l.Height), paperLight, paperLight, paperLight)}
	p := l.Pages[page-1]
	for _, m := range p.Marks {
		s.fill(m.Box, printBlack)
		if !m.Solid {
			s.eye(m.Box)
		}
	}
	modules, err := form.Modules(p.CodeText)
	if err != nil {
		return nil, err
	}
	side := p.Code.Width() / float64(len(modules))
	for y, row := range modules {
		for x, black := range row {
			if black {
				x0, y0 := p.Code.X0+float64(x)*side, p.Code.Y0+float64(y)*side
				s.fill(form.Rect{X0: x0, Y0: y0, X1: x0 + side, Y1: y0 + side}, printBlack)
			}
		}
	}
	if err := s.words(); err != nil {
		return nil, err
	}
	for _, f := range l.Fields {
		if f.Page == page {
			for _, b := range f.Boxes {
				s.outline(b)
			}
		}
	}
	return s, nil
}

// Print is a page that was drawn elsewhere, ready to be written on many times.
type Print struct {
	layout form.Layout
	page   int
	light  []byte // of each pixel of a sheet, as drawn
}

// NewPrint takes a page's picture of any resolution.
func NewPrint(l form.Layout, page int, picture image.Image) *Print {
	p := &Print{layout: l, page: page}
	grey := image.NewGray(image.Rect(0, 0, px(l.Width), px(l.Height)))
	draw.ApproxBiLinear.Scale(grey, grey.Rect, picture, picture.Bounds(), draw.Src, nil)
	p.light = grey.Pix
	return p
}

// Sheet prints the page.
func (p *Print) Sheet() *Sheet {
	s := &Sheet{Layout: p.layout, Page: p.page, paper: newRaster(px(p.layout.Width), px(p.layout.Height), 0, 0, 0)}
	var table [256]float32
	for i := range table {
		table[i] = paperLight * fromByte(byte(i))
	}
	for i, v := range p.light {
		light := table[v]
		s.paper.pix[3*i], s.paper.pix[3*i+1], s.paper.pix[3*i+2] = light, light, light
	}
	return s
}

// Image is the sheet as a scanner would see it.
func (s *Sheet) Image() *image.RGBA { return s.paper.image() }

// Light of paper and of print, of 1.
const (
	paperLight = 0.85
	printBlack = 0.03
)

func px(mm float64) int { return int(math.Round(mm * Scale)) }

func (s *Sheet) fill(r form.Rect, light float32) {
	for y := px(r.Y0); y < px(r.Y1); y++ {
		for x := px(r.X0); x < px(r.X1); x++ {
			copy(s.paper.pix[3*(y*s.paper.w+x):], []float32{light, light, light})
		}
	}
}

func (s *Sheet) eye(mark form.Rect) {
	cx, cy := mark.Centre()
	radius := form.EyeDiameter / 2
	for y := px(mark.Y0); y < px(mark.Y1); y++ {
		for x := px(mark.X0); x < px(mark.X1); x++ {
			if math.Hypot((float64(x)+0.5)/Scale-cx, (float64(y)+0.5)/Scale-cy) < radius {
				copy(s.paper.pix[3*(y*s.paper.w+x):], []float32{paperLight, paperLight, paperLight})
			}
		}
	}
}

func (s *Sheet) outline(b form.Rect) {
	const half = form.OutlineWidth / 2
	light := fromByte(form.OutlineGrey) * paperLight
	for _, line := range []form.Rect{
		{X0: b.X0 - half, Y0: b.Y0 - half, X1: b.X1 + half, Y1: b.Y0 + half},
		{X0: b.X0 - half, Y0: b.Y1 - half, X1: b.X1 + half, Y1: b.Y1 + half},
		{X0: b.X0 - half, Y0: b.Y0 - half, X1: b.X0 + half, Y1: b.Y1 + half},
		{X0: b.X1 - half, Y0: b.Y0 - half, X1: b.X1 + half, Y1: b.Y1 + half},
	} {
		s.fill(line, light)
	}
}

// words prints the name of each row at its left, and a line of text at the head.
func (s *Sheet) words() error {
	parsed, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return err
	}
	const points = 11.0
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: points, DPI: Scale * 25.4})
	if err != nil {
		return err
	}
	defer face.Close()
	s.text(face, 26, 16, "Survey of a boat, page "+string(rune('0'+s.Page)))
	for _, f := range s.Layout.Fields {
		if f.Page != s.Page {
			continue
		}
		b := f.Bounds()
		switch {
		case f.Part == form.Half:
			s.text(face, b.X1+1.5, b.Y1-0.5, "1/2")
		case f.Kind == form.Text:
			s.text(face, b.X0, b.Y0-3.2, f.Name)
		}
	}
	return nil
}

// text prints a line that begins at x and stands on y, in millimetres.
func (s *Sheet) text(face font.Face, x, y float64, text string) {
	mask := image.NewAlpha(image.Rect(0, 0, s.paper.w, px(8)))
	d := font.Drawer{Dst: mask, Src: image.Opaque, Face: face, Dot: fixed.P(px(x), px(6))}
	d.DrawString(text)
	top := px(y) - px(6)
	for j := range mask.Rect.Dy() {
		for i := range mask.Rect.Dx() {
			if a := mask.Pix[j*mask.Stride+i]; a > 0 {
				s.paper.stain(i, top+j, float32(a)/255, [3]float32{printBlack, printBlack, printBlack})
			}
		}
	}
}

// Grain gives the paper its fibres, and the print the unevenness of a home
// printer.
func (s *Sheet) Grain(rng *rand.Rand) {
	noise := newNoise(rng)
	for i := 0; i < len(s.paper.pix); i += 3 {
		v := 1 + 0.012*noise.next(i/3)
		for c := range 3 {
			s.paper.pix[i+c] *= v
		}
	}
}

func colour(c color.RGBA) [3]float32 { return [3]float32{fromByte(c.R), fromByte(c.G), fromByte(c.B)} }
