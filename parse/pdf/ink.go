package pdf

import (
	"image"
	"math"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

const (
	// inkContrast is the least difference in brightness, of 255, between a page
	// with its text and without that a person sees: light grey on white is 50.
	inkContrast = 32
	// inkShare is the least part of a character's box that must be inked. A
	// thin "1" or "/" fills a tenth of its own.
	inkShare = 0.03
	// printLeast is the height in points under which print is not read.
	printLeast = 2.5
)

// look finds out what is seen of a page. A page whose text is all drawn with
// nothing, as that which programs lay over a scan, needs no drawing for it.
func (d *document) look(p *page) error {
	if p.looked {
		return nil
	}
	p.looked = true
	if len(p.glyphs) == 0 && len(p.fields) == 0 || !p.shows {
		return nil
	}
	return d.ink(p)
}

// ink draws the page with its text and without, and marks the characters that
// make a difference. Text that is hidden, white on white, covered by a picture,
// or laid invisibly over a scan makes none.
func (d *document) ink(p *page) error {
	dpi := inkDPI
	points := float64(p.view.frame.Right-p.view.frame.Left) * float64(p.view.frame.Top-p.view.frame.Bottom)
	if pixels := points * float64(dpi*dpi) / (72 * 72); pixels > pixelsMost {
		dpi = max(1, int(float64(dpi)*math.Sqrt(pixelsMost/pixels)))
	}
	with, err := d.draw(p.ref, dpi)
	if err != nil {
		return err
	}
	if err := d.removeText(p.ref); err != nil {
		return err
	}
	without, err := d.draw(p.ref, dpi)
	if err != nil {
		return err
	}
	p.paper = without
	scale := float64(dpi) / 72
	p.each(func(g *glyph) {
		if g.seen = inked(with, without, g.tight, scale); g.lookedAt() {
			g.ink = drawing(with, without, g.tight, scale)
		}
	})
	return nil
}

func inked(with, without *image.Gray, b box, scale float64) bool {
	if b.height() < printLeast && b.width() < printLeast/4 && b.height() <= 0 {
		return false
	}
	area := image.Rect(
		int(math.Floor(b.x0*scale)), int(math.Floor(b.y0*scale)),
		int(math.Ceil(b.x1*scale)), int(math.Ceil(b.y1*scale)),
	).Intersect(with.Rect).Intersect(without.Rect)
	if area.Empty() {
		return false
	}
	n := 0
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if diff := int(with.GrayAt(x, y).Y) - int(without.GrayAt(x, y).Y); diff > inkContrast || diff < -inkContrast {
				n++
			}
		}
	}
	return float64(n) >= inkShare*float64(area.Dx()*area.Dy())
}

// removeText takes every text off the page, also out of drawings in drawings.
func (d *document) removeText(ref references.FPDF_PAGE) error {
	return d.objects(ref, func(o object) error {
		switch {
		case o.kind != enums.FPDF_PAGEOBJ_TEXT:
			return nil
		case o.depth == 0:
			_, err := d.pdf.FPDFPage_RemoveObject(&requests.FPDFPage_RemoveObject{Page: requests.Page{ByReference: &ref}, PageObject: o.ref})
			return err
		}
		// Text inside a drawing cannot always be taken out of it.
		_, err := d.pdf.FPDFTextObj_SetTextRenderMode(&requests.FPDFTextObj_SetTextRenderMode{
			PageObject: o.ref, TextRenderMode: enums.FPDF_TEXTRENDERMODE_INVISIBLE,
		})
		return err
	})
}
