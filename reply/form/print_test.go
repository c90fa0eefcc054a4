package form

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"io"
	"math"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"

	"fairtape/parse"
	"fairtape/parse/form"
)

// The papers are printed to pictures by another program than the one that drew
// them, and compared with what the layout says.

// The pictures have 200 dots an inch.
const (
	dpi   = 200
	pixel = 25.4 / dpi // mm
)

// printed is a page as a picture.
type printed struct{ *image.RGBA }

// darkness of the paper at a place in millimetres, 0 white to 255 black.
func (p printed) darkness(x, y float64) int {
	c := p.RGBAAt(int(x/pixel), int(y/pixel))
	return 255 - int(min(c.R, c.G, c.B))
}

// blank reports whether a rectangle is bare paper, and where it is not.
func (p printed) blank(r form.Rect) (x, y float64, ok bool) {
	for y := r.Y0; y < r.Y1; y += pixel {
		for x := r.X0; x < r.X1; x += pixel {
			if p.darkness(x, y) > 40 {
				return x, y, false
			}
		}
	}
	return 0, 0, true
}

// bareAround is blank for the frame of a width around a rectangle, but for half
// an outline.
func (p printed) bareAround(r form.Rect, width float64) (x, y float64, ok bool) {
	out, in := r.Grow(width), r.Grow(form.OutlineWidth/2+pixel)
	for _, side := range []form.Rect{
		{X0: out.X0, Y0: out.Y0, X1: in.X0, Y1: out.Y1}, {X0: in.X1, Y0: out.Y0, X1: out.X1, Y1: out.Y1},
		{X0: out.X0, Y0: out.Y0, X1: out.X1, Y1: in.Y0}, {X0: out.X0, Y0: in.Y1, X1: out.X1, Y1: out.Y1},
	} {
		if x, y, ok := p.blank(side); !ok {
			return x, y, false
		}
	}
	return 0, 0, true
}

// printer prints PDF files.
type printer struct {
	pdf pdfium.Pdfium
	t   *testing.T
}

func newPrinter(t *testing.T) printer {
	t.Helper()
	pool, err := webassembly.Init(webassembly.Config{
		Context: context.Background(), MaxIdle: 1, MaxTotal: 1,
		FSConfig: wazero.NewFSConfig(), Stdout: io.Discard, Stderr: io.Discard,
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { pool.Close() }) //nolint:errcheck // the test is over
	instance, err := pool.GetInstance(time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	return printer{instance, t}
}

func (p printer) pages(file []byte, count int) []printed {
	p.t.Helper()
	doc, err := p.pdf.OpenDocument(&requests.OpenDocument{File: &file})
	if err != nil {
		p.t.Fatal(err)
	}
	var pages []printed
	for i := range count {
		page, err := p.pdf.RenderPageInDPI(&requests.RenderPageInDPI{
			DPI: dpi, Page: requests.Page{ByIndex: &requests.PageByIndex{Document: doc.Document, Index: i}},
		})
		if err != nil {
			p.t.Fatal(err)
		}
		copied := image.NewRGBA(page.Result.RenderedImage.Bounds())
		draw.Draw(copied, copied.Bounds(), page.Result.RenderedImage, image.Point{}, draw.Src)
		page.Cleanup()
		pages = append(pages, printed{copied})
	}
	return pages
}

// TestPrint compares what is printed with the layout.
func TestPrint(t *testing.T) {
	print := newPrinter(t)
	station := func(n float64, m parse.Measure) parse.Cell { return parse.Cell{At: parse.Inches(12 * n), Measure: m} }
	type paper struct {
		name string
		file []byte
		l    form.Layout
	}
	var papers []paper
	for _, tt := range []struct {
		paper    form.Paper
		unit     parse.Unit
		rows     int
		language string
	}{
		{form.Letter, parse.Inch, 15, "en"}, {form.Letter, parse.Inch, 20, "fr"}, {form.A4, parse.Centimetre, 20, "fr"}, {form.A4, parse.Inch, 31, "en"},
	} {
		file, l, err := PDF(form.Spec{Paper: tt.paper, Unit: tt.unit, Rows: tt.rows, Job: 14}, Words{Language: tt.language, Post: "Pinfold Cover Loft, 12 Harbour Lane, Halifax"})
		if err != nil {
			t.Fatal(err)
		}
		papers = append(papers, paper{fmt.Sprint("form ", tt), file, l})
	}
	for _, language := range []string{"en", "fr"} {
		file, l, err := Slip(form.SlipSpec{Paper: form.Letter, Unit: parse.Inch, Job: 14, Places: []parse.Cell{
			station(7, parse.MeasurePair), {Measure: parse.LengthOverall}, station(3, parse.FullGirth), {Measure: parse.GreatestAt}, {Measure: parse.TransomPair},
			{Measure: parse.BowHeight}, {Measure: parse.GreatestPair}, {Measure: parse.GreatestOpening},
		}}, Words{Language: language})
		if err != nil {
			t.Fatal(err)
		}
		papers = append(papers, paper{"slip " + language, file, l})
	}
	for _, p := range papers {
		t.Run(p.name, func(t *testing.T) {
			for i, page := range print.pages(p.file, len(p.l.Pages)) {
				checkBoxes(t, page, p.l, i+1)
				checkMarks(t, page, p.l.Pages[i])
				code, err := form.FindCode(page)
				if err != nil || code.String() != p.l.Pages[i].CodeText {
					t.Errorf("page %d: the code says %v, %v", i+1, code, err)
				}
				if x, y, ok := page.bareAround(p.l.Pages[i].Code, form.CodeClear-0.2); !ok {
					t.Errorf("page %d: something is printed beside the code, at %.1f, %.1f", i+1, x, y)
				}
				edge := form.Rect{X0: 0.2, Y0: 0.2, X1: p.l.Width - 0.2, Y1: form.MarkInset - 0.3}
				if x, y, ok := page.blank(edge); !ok {
					t.Errorf("page %d: something is printed at the edge, at %.1f, %.1f", i+1, x, y)
				}
			}
		})
	}
}

// checkBoxes looks for the outline of every box, and for bare paper inside it
// and around it.
func checkBoxes(t *testing.T, page printed, l form.Layout, number int) {
	t.Helper()
	for _, f := range l.Fields {
		if f.Page != number {
			continue
		}
		for _, b := range f.Boxes {
			x, y := b.Centre()
			for side, off := range map[string]float64{
				"left": outline(page, b.X0, y, 1, 0), "right": outline(page, b.X1, y, 1, 0),
				"top": outline(page, x, b.Y0, 0, 1), "bottom": outline(page, x, b.Y1, 0, 1),
			} {
				if math.Abs(off) > 0.2 {
					t.Errorf("%s: the %s side is printed %.2f mm from where the layout has it", f.Name, side, off)
				}
			}
			if x, y, ok := page.blank(b.Grow(-0.4)); !ok {
				t.Errorf("%s: something is printed in the box, at %.1f, %.1f", f.Name, x, y)
			}
		}
		if x, y, ok := page.bareAround(f.Bounds(), form.BoxClear-form.OutlineWidth/2-2*pixel); !ok {
			t.Errorf("page %d, %s: something is printed nearer than %v mm, at %.1f, %.1f", number, f.Name, form.BoxClear, x, y)
		}
	}
}

// outline is how far from a place the middle of a line lies that crosses the
// direction (dx, dy) there; NaN for no line within half a millimetre.
func outline(page printed, x, y, dx, dy float64) float64 {
	const reach, step = 0.5, 0.02
	sum, weight := 0.0, 0.0
	for off := -reach; off <= reach; off += step {
		d := float64(page.darkness(x+off*dx, y+off*dy))
		sum += off * d
		weight += d
	}
	if weight < 20/step*form.OutlineWidth { // paler than any outline
		return math.Inf(1)
	}
	return sum / weight
}

// checkMarks looks for the four marks and their eyes.
func checkMarks(t *testing.T, page printed, p form.Page) {
	t.Helper()
	for i, m := range p.Marks {
		x, y := m.Box.Centre()
		if dark := page.darkness(x, y) > 200; dark != m.Solid {
			t.Errorf("mark %d: the middle is dark: %v, want %v", i, dark, m.Solid)
		}
		for _, corner := range []form.Rect{{X0: m.Box.X0, Y0: m.Box.Y0}, {X0: m.Box.X1, Y0: m.Box.Y0}, {X0: m.Box.X1, Y0: m.Box.Y1}, {X0: m.Box.X0, Y0: m.Box.Y1}} {
			inX, inY := corner.X0+math.Copysign(0.3, x-corner.X0), corner.Y0+math.Copysign(0.3, y-corner.Y0)
			outX, outY := corner.X0-math.Copysign(0.3, x-corner.X0), corner.Y0-math.Copysign(0.3, y-corner.Y0)
			if page.darkness(inX, inY) < 200 || page.darkness(outX, outY) > 40 {
				t.Errorf("mark %d: its corner is not at %.1f, %.1f", i, corner.X0, corner.Y0)
			}
		}
		if x, y, ok := page.bareAround(m.Box, form.MarkClear-0.2); !ok {
			t.Errorf("mark %d: something is printed beside it, at %.1f, %.1f", i, x, y)
		}
	}
}

// TestContrast computes the contrast of what is printed with white paper, after
// WCAG 2.2: text at least 4.5, outlines that have to be seen at least 3.
func TestContrast(t *testing.T) {
	if c := contrast(color.Gray{Y: black}); c < 4.5 {
		t.Errorf("words have a contrast of %.2f", c)
	}
	if c := contrast(color.Gray{Y: grey}); c < 3 {
		t.Errorf("outlines have a contrast of %.2f", c)
	}
}

// contrast of a grey with white: relative luminance by WCAG 2.2's definition.
func contrast(c color.Gray) float64 {
	v := float64(c.Y) / 255
	luminance := v / 12.92
	if v > 0.04045 {
		luminance = math.Pow((v+0.055)/1.055, 2.4)
	}
	return 1.05 / (luminance + 0.05)
}
