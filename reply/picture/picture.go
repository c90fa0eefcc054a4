// Package picture draws what a survey looks like: girths along the boat for the
// shop, the boat from the side for the customer, and a chat post for people who
// cannot see the chat. Every function is safe to call from several goroutines
// and gives the same bytes for the same input.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
)

// Picture is a PNG on an opaque white ground with the words that stand for it.
type Picture struct {
	PNG []byte
	Alt string // plain text, one paragraph
}

// finish encodes a canvas.
func finish(c *canvas, alt string) (Picture, error) {
	var b bytes.Buffer
	if err := png.Encode(&b, reduce(c.image)); err != nil {
		return Picture{}, fmt.Errorf("picture: %w", err)
	}
	return Picture{b.Bytes(), alt}, nil
}

// shades is how many steps lie between a colour and white: more than the eye
// tells apart at the edge of a letter.
const shades = 40

// palette is the drawing's colours with their shades toward white, and the
// tint's toward the line on it.
func palette() color.Palette {
	colours := color.Palette{white}
	mix := func(a, b color.RGBA, share float64) color.RGBA {
		part := func(x, y uint8) uint8 { return uint8(float64(x)*share + float64(y)*(1-share) + 0.5) }
		return color.RGBA{part(a.R, b.R), part(a.G, b.G), part(a.B, b.B), 0xff}
	}
	for _, c := range []color.RGBA{ink, grey, light, blue, vermilion} {
		for i := range shades {
			colours = append(colours, mix(c, white, float64(i+1)/shades))
		}
	}
	for i := range shades {
		colours = append(colours, mix(blue, tint, float64(i)/shades))
	}
	return colours
}

// reduce maps a drawing to its palette, which makes the file several times
// smaller.
func reduce(full *image.RGBA) *image.Paletted {
	small := image.NewPaletted(full.Bounds(), palette())
	known := map[color.RGBA]uint8{white: 0}
	last, index := white, uint8(0)
	for i := range small.Pix {
		c := color.RGBA{full.Pix[4*i], full.Pix[4*i+1], full.Pix[4*i+2], 0xff}
		if c != last { // mostly the ground goes on
			var ok bool
			if index, ok = known[c]; !ok {
				index = uint8(small.Palette.Index(c))
				known[c] = index
			}
			last = c
		}
		small.Pix[i] = index
	}
	return small
}
