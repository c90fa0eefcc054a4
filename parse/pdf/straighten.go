package pdf

import (
	"math"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

// sampleMost is how many characters tell how a page lies.
const sampleMost = 200

// straighten turns a page on which most print stands on its side, or upside
// down, as a person turns the paper.
func (d *document) straighten(ref requests.Page) error {
	was, err := d.pdf.FPDFPage_GetRotation(&requests.FPDFPage_GetRotation{Page: ref})
	if err != nil {
		return err
	}
	text, err := d.pdf.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: ref})
	if err != nil {
		return err
	}
	turns, ok, err := d.turnsOf(text.TextPage)
	if _, closed := d.pdf.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text.TextPage}); err == nil {
		err = closed
	}
	if err != nil || !ok || turns == was.PageRotation {
		return err
	}
	_, err = d.pdf.FPDFPage_SetRotation(&requests.FPDFPage_SetRotation{Page: ref, Rotate: turns})
	return err
}

// turnsOf is how a page has to be turned for most of its print to be upright;
// ok is false where there is no print, or no more of one sort than of others.
func (d *document) turnsOf(text references.FPDF_TEXTPAGE) (turns enums.FPDF_PAGE_ROTATION, ok bool, err error) {
	count, err := d.pdf.FPDFText_CountChars(&requests.FPDFText_CountChars{TextPage: text})
	if err != nil {
		return 0, false, err
	}
	var votes [4]int
	cast := 0
	for i := 0; i < count.Count; i += 1 + count.Count/sampleMost {
		turn, err := d.pdf.FPDFText_GetMatrix(&requests.FPDFText_GetMatrix{TextPage: text, Index: i})
		if err != nil {
			continue // a character that the reader made up
		}
		quarters := math.Atan2(float64(turn.Matrix.B), float64(turn.Matrix.A)) / (math.Pi / 2)
		votes[(int(math.Round(quarters))+len(votes))%len(votes)]++
		cast++
	}
	for q, n := range votes {
		if 2*n > cast {
			return enums.FPDF_PAGE_ROTATION(q), true, nil
		}
	}
	return 0, false, nil
}
