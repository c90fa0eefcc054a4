package pdf

import (
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

// object is a piece of text, a picture or a line that a page is made of.
type object struct {
	ref   references.FPDF_PAGEOBJECT
	kind  enums.FPDF_PAGEOBJ
	outer references.FPDF_PAGEOBJECT // the drawing on the page that it is part of, or itself
	depth int                        // in how many drawings it lies
}

// objects calls do with every object of a page, the last drawn first, so that do
// may remove it.
func (d *document) objects(ref references.FPDF_PAGE, do func(object) error) error {
	on := requests.Page{ByReference: &ref}
	count, err := d.pdf.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: on})
	if err != nil {
		return err
	}
	for i := min(count.Count, objectsMost) - 1; i >= 0; i-- {
		got, err := d.pdf.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: on, Index: i})
		if err != nil {
			return err
		}
		if err := d.object(object{ref: got.PageObject, outer: got.PageObject}, do); err != nil {
			return err
		}
	}
	return nil
}

// object calls do with an object, or with all that is in it when it is a drawing.
func (d *document) object(o object, do func(object) error) error {
	kind, err := d.pdf.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: o.ref})
	if err != nil {
		return err
	}
	o.kind = kind.Type
	if o.kind != enums.FPDF_PAGEOBJ_FORM {
		return do(o)
	}
	count, err := d.pdf.FPDFFormObj_CountObjects(&requests.FPDFFormObj_CountObjects{PageObject: o.ref})
	if err != nil || o.depth == nestingMost {
		return nil // a drawing with nothing in it
	}
	for i := min(count.Count, objectsMost) - 1; i >= 0; i-- {
		got, err := d.pdf.FPDFFormObj_GetObject(&requests.FPDFFormObj_GetObject{PageObject: o.ref, Index: uint64(i)})
		if err != nil {
			return err
		}
		if err := d.object(object{ref: got.PageObject, outer: o.outer, depth: o.depth + 1}, do); err != nil {
			return err
		}
	}
	return nil
}

// coverLeast is the part of a page that a picture takes at least which may be the
// page itself: a scan.
const coverLeast = 0.5

// contents counts the pictures of a page, and tells whether its text is drawn at
// all, and whether a picture is drawn over some of it.
func (d *document) contents(p *page) error {
	over := false // a large picture is drawn after what comes next
	return d.objects(p.ref, func(o object) error {
		switch o.kind {
		case enums.FPDF_PAGEOBJ_IMAGE:
			p.images++
			if !over {
				share, err := d.share(o.outer, p.view)
				if err != nil {
					return err
				}
				over = share >= coverLeast
			}
		case enums.FPDF_PAGEOBJ_TEXT:
			p.covered = p.covered || over
			if !p.shows {
				mode, err := d.pdf.FPDFTextObj_GetTextRenderMode(&requests.FPDFTextObj_GetTextRenderMode{PageObject: o.ref})
				if err != nil {
					return err
				}
				p.shows = mode.TextRenderMode != enums.FPDF_TEXTRENDERMODE_INVISIBLE && mode.TextRenderMode != enums.FPDF_TEXTRENDERMODE_CLIP
			}
		}
		return nil
	})
}

// share is the part of the page that an object may take.
func (d *document) share(o references.FPDF_PAGEOBJECT, v view) (float64, error) {
	at, err := d.pdf.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: o})
	if err != nil {
		return 0, err
	}
	page := v.box(float64(v.frame.Left), float64(v.frame.Bottom), float64(v.frame.Right), float64(v.frame.Top))
	part := v.box(float64(at.Left), float64(at.Bottom), float64(at.Right), float64(at.Top)).meet(page)
	if page.area() <= 0 {
		return 0, nil
	}
	return part.area() / page.area(), nil
}
