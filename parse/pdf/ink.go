package pdf

import (
	"image"
	"math"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"

	"fairtape/parse/digits"
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

// ink draws the page with its text and without, and marks the characters that
// make a difference. Text that is hidden, white on white, covered by a picture,
// or laid invisibly over a scan makes none.
func (d *document) ink(ref references.FPDF_PAGE, p *page) error {
	if len(p.glyphs) == 0 {
		return d.countImages(ref, p)
	}
	dpi := inkDPI
	points := float64(p.view.frame.Right-p.view.frame.Left) * float64(p.view.frame.Top-p.view.frame.Bottom)
	if pixels := points * float64(dpi*dpi) / (72 * 72); pixels > pixelsMost {
		dpi = max(1, int(float64(dpi)*math.Sqrt(pixelsMost/pixels)))
	}
	with, err := d.draw(ref, dpi)
	if err != nil {
		return err
	}
	if err := d.removeText(ref, p); err != nil {
		return err
	}
	without, err := d.draw(ref, dpi)
	if err != nil {
		return err
	}
	p.paper = without
	scale := float64(dpi) / 72
	for i := range p.glyphs {
		p.glyphs[i].seen = inked(with, without, p.glyphs[i].tight, scale)
	}
	reader, err := digits.NewReader()
	if err != nil {
		return err
	}
	p.lies(reader, with, without, scale)
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

// removeText takes every text off the page, also out of drawings in drawings,
// and counts the pictures on the way.
func (d *document) removeText(ref references.FPDF_PAGE, p *page) error {
	on := requests.Page{ByReference: &ref}
	count, err := d.pdf.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: on})
	if err != nil {
		return err
	}
	for i := min(count.Count, objectsMost) - 1; i >= 0; i-- {
		object, err := d.pdf.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: on, Index: i})
		if err != nil {
			return err
		}
		kind, err := d.pdf.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: object.PageObject})
		if err != nil {
			return err
		}
		switch kind.Type {
		case enums.FPDF_PAGEOBJ_TEXT:
			if _, err := d.pdf.FPDFPage_RemoveObject(&requests.FPDFPage_RemoveObject{Page: on, PageObject: object.PageObject}); err != nil {
				return err
			}
		case enums.FPDF_PAGEOBJ_IMAGE:
			p.images++
		case enums.FPDF_PAGEOBJ_FORM:
			if err := d.removeInner(object.PageObject, p, nestingMost); err != nil {
				return err
			}
		}
	}
	return nil
}

func (d *document) removeInner(form references.FPDF_PAGEOBJECT, p *page, depth int) error {
	if depth == 0 {
		return nil
	}
	count, err := d.pdf.FPDFFormObj_CountObjects(&requests.FPDFFormObj_CountObjects{PageObject: form})
	if err != nil {
		return nil // a drawing with nothing in it
	}
	for i := min(count.Count, objectsMost) - 1; i >= 0; i-- {
		object, err := d.pdf.FPDFFormObj_GetObject(&requests.FPDFFormObj_GetObject{PageObject: form, Index: uint64(i)})
		if err != nil {
			return err
		}
		kind, err := d.pdf.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: object.PageObject})
		if err != nil {
			return err
		}
		switch kind.Type {
		case enums.FPDF_PAGEOBJ_TEXT:
			// Text inside a drawing cannot always be taken out of it.
			if _, err := d.pdf.FPDFTextObj_SetTextRenderMode(&requests.FPDFTextObj_SetTextRenderMode{
				PageObject: object.PageObject, TextRenderMode: enums.FPDF_TEXTRENDERMODE_INVISIBLE,
			}); err != nil {
				return err
			}
		case enums.FPDF_PAGEOBJ_IMAGE:
			p.images++
		case enums.FPDF_PAGEOBJ_FORM:
			if err := d.removeInner(object.PageObject, p, depth-1); err != nil {
				return err
			}
		}
	}
	return nil
}

func (d *document) countImages(ref references.FPDF_PAGE, p *page) error {
	return d.removeText(ref, p) // there is none to remove
}
