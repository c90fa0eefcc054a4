package picture

import (
	"cmp"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"

	"golang.org/x/image/draw"

	"fairtape/parse"
)

// Doubt is a number that could not be read surely, as a person of the shop sees
// it: what stands on the paper beside what was made of it.
type Doubt struct {
	Label string     // "7 ft, hull girth"
	Crop  parse.Crop // what the paper shows
	Read  string     // the likeliest reading, "" for none
	Or    []string   // others, the likelier first
}

// Sizes of a contact sheet in pixels.
const (
	sheetMargin = 40.0
	sheetTitle  = 36.0
	sheetRow    = 176.0 // of one number
	sheetCrop   = 150.0 // its picture is at most so high
	sheetWide   = 520.0 // and so wide
	sheetLabel  = 32.0
	sheetWords  = 28.0
	// sheetMost is how many numbers one sheet shows; a page with more is better
	// read from the paper.
	sheetMost = 14
	orMost    = 2
)

// OfDoubts draws a contact sheet of doubtful numbers. The likeliest reading
// stands on a filled bar, the others on open ones: no colour says anything
// alone.
func OfDoubts(doubts []Doubt) (Picture, error) {
	shown := doubts[:min(len(doubts), sheetMost)]
	height := 2*sheetMargin + sheetTitle*1.6 + sheetRow*float64(len(shown))
	more := len(doubts) - len(shown)
	if more > 0 {
		height += sheetWords * 1.6
	}
	c, err := newCanvas(postWidth, int(height))
	if err != nil {
		return Picture{}, err
	}
	if err := c.typeface(bold, sheetTitle); err != nil {
		return Picture{}, err
	}
	y := sheetMargin + sheetTitle
	c.write("Please look: what do these numbers say?", sheetMargin, y, 0, ink)
	y += sheetTitle * 0.6
	for _, d := range shown {
		if err := c.doubt(d, y); err != nil {
			return Picture{}, err
		}
		y += sheetRow
	}
	if more > 0 {
		if err := c.typeface(regular, sheetWords); err != nil {
			return Picture{}, err
		}
		c.write(andMore(more), sheetMargin, y+sheetWords*1.3, 0, grey)
	}
	return finish(c, doubtsAlt(shown, more))
}

// doubt draws one row: the picture, its name, and the readings.
func (c *canvas) doubt(d Doubt, y float64) error {
	c.line(sheetMargin, y, postWidth-sheetMargin, y, 2, light)
	c.crop(d.Crop, sheetMargin, y+(sheetRow-sheetCrop)/2)
	x := sheetMargin + sheetWide + 36
	if err := c.typeface(bold, sheetLabel); err != nil {
		return err
	}
	c.write(d.Label, x, y+sheetRow*0.36, 0, ink)
	base := y + sheetRow*0.74
	if err := c.typeface(regular, sheetWords); err != nil {
		return err
	}
	if d.Read == "" && len(d.Or) == 0 {
		c.write("not readable", x, base, 0, grey)
		return nil
	}
	if d.Read != "" {
		x = c.pill(d.Read, x, base, true)
	}
	for _, or := range d.Or[:min(len(d.Or), orMost)] {
		c.write("or", x, base, 0, grey)
		x = c.pill(or, x+44, base, false)
	}
	return nil
}

// pill writes a value on a filled or an open bar and returns where the next
// thing may begin.
func (c *canvas) pill(text string, x, base float64, filled bool) float64 {
	const pad = 16.0
	w, _ := c.MeasureString(text)
	c.DrawRoundedRectangle(x, base-sheetWords*1.15, w+2*pad, sheetWords*1.6, 10)
	colour := ink
	if filled {
		c.SetColor(blue)
		c.Fill()
		colour = white
	} else {
		c.SetColor(blue)
		c.SetLineWidth(3)
		c.Stroke()
	}
	c.write(text, x+pad, base, 0, colour)
	return x + w + 2*pad + 18
}

// crop draws a piece of a photo with its paper made white and its ink black.
func (c *canvas) crop(p parse.Crop, x, y float64) {
	if !p.Sound() {
		return
	}
	scale := min(sheetWide/float64(p.Width), sheetCrop/float64(p.Height))
	w, h := int(float64(p.Width)*scale), int(float64(p.Height)*scale)
	at := image.Rect(int(x), int(y), int(x)+w, int(y)+h)
	draw.CatmullRom.Scale(c.image, at, stretched(p), image.Rect(0, 0, p.Width, p.Height), draw.Src, nil)
	c.DrawRectangle(x, y, float64(w), float64(h))
	c.SetColor(light)
	c.SetLineWidth(2)
	c.Stroke()
}

// stretched spreads the light of a crop from its darkest to its paper.
func stretched(p parse.Crop) *image.Gray {
	sorted := slices.Clone(p.Grey)
	slices.Sort(sorted)
	low, high := float64(sorted[len(sorted)/100]), float64(sorted[len(sorted)*3/4])
	out := image.NewGray(image.Rect(0, 0, p.Width, p.Height))
	for i, v := range p.Grey {
		share := 1 - (high-float64(v))/max(high-low, 30)
		out.Pix[i] = uint8(math.Round(255 * min(max(share, 0), 1)))
	}
	return out
}

func andMore(n int) string {
	if n == 1 {
		return "One more number is in doubt: please read the paper."
	}
	return fmt.Sprintf("%d more numbers are in doubt: please read the paper.", n)
}

func doubtsAlt(doubts []Doubt, more int) string {
	var parts []string
	for _, d := range doubts {
		values := slices.DeleteFunc(append([]string{d.Read}, d.Or...), func(s string) bool { return s == "" })
		parts = append(parts, d.Label+": "+cmp.Or(strings.Join(values[:min(len(values), orMost+1)], " or "), "not readable"))
	}
	alt := "Pictures of numbers that could not be read surely. " + strings.Join(parts, "; ") + "."
	if more > 0 {
		alt += " " + andMore(more)
	}
	return alt
}
