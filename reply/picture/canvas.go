package picture

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// The colours, all at least 3:1 on white (WCAG 2.2, 1.4.11); the tint lies
// under a line that is. Blue and vermilion are of the palette of Okabe and Ito
// (2008), which people with any kind of colour sight can tell apart; they differ
// in lightness, so that they do in grey too.
var (
	white     = color.RGBA{0xff, 0xff, 0xff, 0xff}
	ink       = color.RGBA{0x1a, 0x1a, 0x1a, 0xff}
	grey      = color.RGBA{0x59, 0x59, 0x59, 0xff}
	light     = color.RGBA{0x8c, 0x8c, 0x8c, 0xff}
	blue      = color.RGBA{0x00, 0x72, 0xb2, 0xff}
	vermilion = color.RGBA{0xd5, 0x5e, 0x00, 0xff}
	tint      = color.RGBA{0xd3, 0xe6, 0xf1, 0xff} // of blue, for the band alone
)

// weight is a weight of type.
type weight int

const (
	regular weight = iota
	bold
)

// canvas is a drawing with type on it. It belongs to one drawing: faces keep a
// buffer of their own and may not be shared.
type canvas struct {
	*gg.Context
	image *image.RGBA
	fonts [2]*opentype.Font
	face  font.Face
}

// newCanvas returns a white canvas of the given size in pixels.
func newCanvas(width, height int) (*canvas, error) {
	ground := image.NewRGBA(image.Rect(0, 0, width, height))
	c := &canvas{Context: gg.NewContextForRGBA(ground), image: ground}
	for i, data := range [][]byte{liberationsansregular.TTF, liberationsansbold.TTF} {
		f, err := opentype.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("picture: font: %w", err)
		}
		c.fonts[i] = f
	}
	c.SetColor(white)
	c.Clear()
	c.SetLineCapRound()
	c.SetLineJoinRound()
	return c, nil
}

// typeface sets weight and size, in pixels, of the type that follows.
func (c *canvas) typeface(w weight, size float64) error {
	face, err := opentype.NewFace(c.fonts[w], &opentype.FaceOptions{Size: size, DPI: 72})
	if err != nil {
		return fmt.Errorf("picture: font: %w", err)
	}
	c.SetFontFace(face) // for its measuring
	c.face = face
	return nil
}

// write puts a line of text with its baseline at y; ax is 0 for text that
// begins at x, 0.5 for text centred on it, 1 for text that ends there.
func (c *canvas) write(text string, x, y, ax float64, colour color.Color) {
	// Letters are set here on whole pixels: gg would resample, and blur, them.
	width := font.MeasureString(c.face, text)
	drawer := font.Drawer{
		Dst: c.image, Src: image.NewUniform(colour), Face: c.face,
		Dot: fixed.P(int(math.Round(x-ax*float64(width)/64)), int(math.Round(y))),
	}
	drawer.DrawString(text)
}

// halo writes like write, on a white edge that keeps lines off the letters.
func (c *canvas) halo(text string, x, y, ax float64, colour color.Color) {
	const edge = 5
	for i := range 12 {
		a := float64(i) * math.Pi / 6
		c.write(text, x+edge*math.Cos(a), y+edge*math.Sin(a), ax, white)
	}
	c.write(text, x, y, ax, colour)
}

// line draws a straight line.
func (c *canvas) line(x0, y0, x1, y1, width float64, colour color.Color, dashes ...float64) {
	c.stroke(width, colour, dashes, point{x0, y0}, point{x1, y1})
}

type point struct{ x, y float64 }

// stroke draws a line through points.
func (c *canvas) stroke(width float64, colour color.Color, dashes []float64, points ...point) {
	if len(points) < 2 {
		return
	}
	c.trace(points)
	c.SetDash(dashes...)
	c.SetLineWidth(width)
	c.SetColor(colour)
	c.Stroke()
	c.SetDash()
}

// fill fills the area within points.
func (c *canvas) fill(colour color.Color, points ...point) {
	if len(points) < 3 {
		return
	}
	c.trace(points)
	c.ClosePath()
	c.SetColor(colour)
	c.Fill()
}

func (c *canvas) trace(points []point) {
	c.MoveTo(points[0].x, points[0].y)
	for _, p := range points[1:] {
		c.LineTo(p.x, p.y)
	}
}

// ring draws an ellipse's outline on a white edge.
func (c *canvas) ring(x, y, rx, ry, width float64, colour color.Color) {
	for _, pass := range []struct {
		width  float64
		colour color.Color
	}{{width + 5, white}, {width, colour}} {
		c.DrawEllipse(x, y, rx, ry)
		c.SetLineWidth(pass.width)
		c.SetColor(pass.colour)
		c.Stroke()
	}
}

// dot draws a filled circle.
func (c *canvas) dot(x, y, r float64, colour color.Color) {
	c.DrawCircle(x, y, r)
	c.SetColor(colour)
	c.Fill()
}

// arrow draws a line with a head at its end.
func (c *canvas) arrow(from, to point, width float64, colour color.Color) {
	const head = 18
	a := math.Atan2(to.y-from.y, to.x-from.x)
	neck := point{to.x - head*math.Cos(a), to.y - head*math.Sin(a)}
	c.stroke(width, colour, nil, from, neck)
	side := func(s float64) point {
		return point{neck.x - s*head*0.38*math.Sin(a), neck.y + s*head*0.38*math.Cos(a)}
	}
	c.fill(colour, to, side(1), side(-1))
}
