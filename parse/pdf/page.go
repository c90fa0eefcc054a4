package pdf

import (
	"errors"
	"fmt"
	"image"
	"math"
	"strings"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"

	"fairtape/parse/digits"
)

const (
	glyphsMost  = 20_000 // on a page; a page of close print has 6,000
	fieldsMost  = 2_000
	objectsMost = 50_000
	nestingMost = 8
	inkDPI      = 144 // two pixels a point: the thinnest stroke of 6 point print is seen
)

// glyph is one character on a page.
type glyph struct {
	char  rune
	tight box     // of its ink
	loose box     // as wide as it moves on, and of the line's height
	em    float64 // the size of its font as shown, in points
	angle float64 // of its line, in radians from level
	blank int     // blanks written before it
	seen  bool
	ink   *digits.Box // what a digit that is seen leaves on the page; nil where that is not known
}

// field is one field of a form on a page.
type field struct {
	name, tip string
	kind      enums.FPDF_FORMFIELD_TYPE
	value     string
	checked   bool
	box       box
	shown     []glyph // what is drawn inside
}

// page is what the first reader finds on one page.
type page struct {
	number  int // from 1
	ref     references.FPDF_PAGE
	view    view
	glyphs  []glyph // outside of fields, on level lines
	fields  []field
	notes   []string // text that was laid over the page with a viewer
	images  int
	shows   bool        // some of its text is drawn with ink
	covered bool        // a picture lies over some of its text and much of the page
	looked  bool        // it is known what is seen
	paper   *image.Gray // the page drawn without its text; nil where it was not drawn
}

// each calls do with every character of the page, those in fields too.
func (p *page) each(do func(*glyph)) {
	for i := range p.glyphs {
		do(&p.glyphs[i])
	}
	for i := range p.fields {
		for j := range p.fields[i].shown {
			do(&p.fields[i].shown[j])
		}
	}
}

// readPage takes one page apart, of which it is not known yet what is seen. The
// page is changed on the way: its fields become text of the page.
func (d *document) readPage(index int) (page, error) {
	loaded, err := d.pdf.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: d.ref, Index: index})
	if err != nil {
		return page{}, fmt.Errorf("load page %d: %w", index+1, err)
	}
	p := page{number: index + 1}
	ref := requests.Page{ByReference: &loaded.Page}
	if err := d.straighten(ref); err != nil {
		return page{}, fmt.Errorf("turn page %d: %w", index+1, err)
	}
	if p.view, err = d.viewOf(ref); err != nil {
		return page{}, fmt.Errorf("measure page %d: %w", index+1, err)
	}
	if _, err := d.pdf.FORM_OnAfterLoadPage(&requests.FORM_OnAfterLoadPage{Page: ref, FormHandle: d.form}); err != nil {
		return page{}, fmt.Errorf("load the fields of page %d: %w", index+1, err)
	}
	if err := d.annotations(ref, &p); err != nil {
		return page{}, fmt.Errorf("read the fields of page %d: %w", index+1, err)
	}
	if len(p.fields)+len(p.notes) > 0 {
		if loaded.Page, err = d.flatten(loaded.Page, index); err != nil {
			return page{}, fmt.Errorf("draw the fields of page %d: %w", index+1, err)
		}
	}
	if err := d.text(ref, &p); err != nil {
		return page{}, fmt.Errorf("read the text of page %d: %w", index+1, err)
	}
	if d.figures += p.figures(); d.figures > figuresMost {
		return page{}, errFigures
	}
	p.ref = loaded.Page
	if err := d.contents(&p); err != nil {
		return page{}, fmt.Errorf("look at what page %d is made of: %w", index+1, err)
	}
	p.takeFields()
	return p, nil
}

// errFigures: there are more figures up to this page than are looked at.
var errFigures = errors.New("more figures than a survey has")

// figures counts the figures of the text.
func (p *page) figures() (n int) {
	for _, g := range p.glyphs {
		if isFigure(g.char) {
			n++
		}
	}
	return n
}

func (d *document) viewOf(ref requests.Page) (view, error) {
	frame, err := d.pdf.FPDF_GetPageBoundingBox(&requests.FPDF_GetPageBoundingBox{Page: ref})
	if err != nil {
		return view{}, err
	}
	turn, err := d.pdf.FPDFPage_GetRotation(&requests.FPDFPage_GetRotation{Page: ref})
	if err != nil {
		return view{}, err
	}
	return view{frame.Rect, turn.PageRotation}, nil
}

// annotations reads the fields, and the notes that a viewer laid over the page.
func (d *document) annotations(ref requests.Page, p *page) error {
	count, err := d.pdf.FPDFPage_GetAnnotCount(&requests.FPDFPage_GetAnnotCount{Page: ref})
	if err != nil {
		return err
	}
	for i := range min(count.Count, fieldsMost) {
		got, err := d.pdf.FPDFPage_GetAnnot(&requests.FPDFPage_GetAnnot{Page: ref, Index: i})
		if err != nil {
			continue // an entry that is none
		}
		kind, err := d.pdf.FPDFAnnot_GetSubtype(&requests.FPDFAnnot_GetSubtype{Annotation: got.Annotation})
		if err != nil {
			continue
		}
		switch kind.Subtype {
		case enums.FPDF_ANNOT_SUBTYPE_WIDGET:
			if f, ok := d.field(got.Annotation, p.view); ok {
				p.fields = append(p.fields, f)
			}
		case enums.FPDF_ANNOT_SUBTYPE_FREETEXT, enums.FPDF_ANNOT_SUBTYPE_TEXT:
			if s, err := d.pdf.FPDFAnnot_GetStringValue(&requests.FPDFAnnot_GetStringValue{Annotation: got.Annotation, Key: "Contents"}); err == nil && s.Value != "" {
				p.notes = append(p.notes, s.Value)
			}
		}
	}
	return nil
}

func (d *document) field(a references.FPDF_ANNOTATION, v view) (field, bool) {
	kind, err := d.pdf.FPDFAnnot_GetFormFieldType(&requests.FPDFAnnot_GetFormFieldType{FormHandle: d.form, Annotation: a})
	if err != nil {
		return field{}, false
	}
	f := field{kind: kind.FormFieldType}
	if name, err := d.pdf.FPDFAnnot_GetFormFieldName(&requests.FPDFAnnot_GetFormFieldName{FormHandle: d.form, Annotation: a}); err == nil {
		f.name = name.FormFieldName
	}
	if tip, err := d.pdf.FPDFAnnot_GetFormFieldAlternateName(&requests.FPDFAnnot_GetFormFieldAlternateName{FormHandle: d.form, Annotation: a}); err == nil {
		f.tip = tip.FormFieldAlternateName
	}
	rect, err := d.pdf.FPDFAnnot_GetRect(&requests.FPDFAnnot_GetRect{Annotation: a})
	if err != nil {
		return field{}, false
	}
	f.box = v.box(float64(rect.Rect.Left), float64(rect.Rect.Bottom), float64(rect.Rect.Right), float64(rect.Rect.Top))
	switch f.kind {
	case enums.FPDF_FORMFIELD_TYPE_CHECKBOX, enums.FPDF_FORMFIELD_TYPE_RADIOBUTTON:
		if on, err := d.pdf.FPDFAnnot_IsChecked(&requests.FPDFAnnot_IsChecked{FormHandle: d.form, Annotation: a}); err == nil {
			f.checked = on.IsChecked
		}
	case enums.FPDF_FORMFIELD_TYPE_PUSHBUTTON, enums.FPDF_FORMFIELD_TYPE_SIGNATURE:
		return field{}, false
	default:
		value, err := d.pdf.FPDFAnnot_GetFormFieldValue(&requests.FPDFAnnot_GetFormFieldValue{FormHandle: d.form, Annotation: a})
		if err != nil {
			return field{}, false
		}
		f.value = strings.TrimSpace(value.FormFieldValue)
	}
	return f, true
}

// flatten makes the fields part of the page as they are drawn, and loads it
// anew.
func (d *document) flatten(was references.FPDF_PAGE, index int) (references.FPDF_PAGE, error) {
	result, err := d.pdf.FPDFPage_Flatten(&requests.FPDFPage_Flatten{Page: requests.Page{ByReference: &was}})
	if err != nil {
		return was, err
	}
	_ = result // nothing to flatten is no trouble
	if _, err := d.pdf.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: was}); err != nil {
		return was, err
	}
	again, err := d.pdf.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: d.ref, Index: index})
	if err != nil {
		return was, err
	}
	return again.Page, nil
}

func (d *document) text(ref requests.Page, p *page) error {
	loaded, err := d.pdf.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: ref})
	if err != nil {
		return err
	}
	text := loaded.TextPage
	count, err := d.pdf.FPDFText_CountChars(&requests.FPDFText_CountChars{TextPage: text})
	if err != nil {
		return err
	}
	blanks := 0
	for i := range min(count.Count, glyphsMost) {
		code, err := d.pdf.FPDFText_GetUnicode(&requests.FPDFText_GetUnicode{TextPage: text, Index: i})
		if err != nil {
			return err
		}
		char := rune(code.Unicode)
		if char <= ' ' || char == '\u00a0' {
			made, err := d.pdf.FPDFText_IsGenerated(&requests.FPDFText_IsGenerated{TextPage: text, Index: i})
			if err == nil && !made.IsGenerated {
				blanks++
			}
			continue
		}
		if g, ok := d.glyph(text, i, p.view); ok && !g.turned() {
			g.char, g.blank = char, blanks
			p.glyphs = append(p.glyphs, g)
		}
		blanks = 0
	}
	_, err = d.pdf.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text})
	return err
}

// Parts of a font's size that a line of its print reaches above and below the
// line it stands on; common practice of type.
const (
	ascent  = 0.75
	descent = 0.2
)

// glyph measures one character. A character that the reader made up has no
// size, and ok is false.
func (d *document) glyph(text references.FPDF_TEXTPAGE, index int, v view) (g glyph, ok bool) {
	tight, err := d.pdf.FPDFText_GetCharBox(&requests.FPDFText_GetCharBox{TextPage: text, Index: index})
	if err != nil {
		return glyph{}, false
	}
	loose, err := d.pdf.FPDFText_GetLooseCharBox(&requests.FPDFText_GetLooseCharBox{TextPage: text, Index: index})
	if err != nil {
		return glyph{}, false
	}
	size, err := d.pdf.FPDFText_GetFontSize(&requests.FPDFText_GetFontSize{TextPage: text, Index: index})
	if err != nil {
		return glyph{}, false
	}
	turn, err := d.pdf.FPDFText_GetMatrix(&requests.FPDFText_GetMatrix{TextPage: text, Index: index})
	if err != nil {
		return glyph{}, false
	}
	origin, err := d.pdf.FPDFText_GetCharOrigin(&requests.FPDFText_GetCharOrigin{TextPage: text, Index: index})
	if err != nil {
		return glyph{}, false
	}
	r := loose.Rect
	g.tight = v.box(tight.Left, tight.Bottom, tight.Right, tight.Top)
	g.loose = v.box(float64(r.Left), float64(r.Bottom), float64(r.Right), float64(r.Top))
	g.em = size.FontSize * math.Hypot(float64(turn.Matrix.C), float64(turn.Matrix.D))
	ax, ay := v.point(0, 0)
	bx, by := v.point(float64(turn.Matrix.A), float64(turn.Matrix.B))
	g.angle = math.Atan2(by-ay, bx-ax)
	_, y := v.point(origin.X, origin.Y)
	g.loose.y0, g.loose.y1 = y-ascent*g.em, y+descent*g.em
	return g, true
}

// baseline is where the character stands, from the top of the page.
func (g glyph) baseline() float64 { return g.loose.y1 - descent*g.em }

// uprightWithin is how far in radians a line may slope and still be read as
// one: 3 degrees.
const uprightWithin = 0.05

func (g glyph) turned() bool { return math.Abs(g.angle) > uprightWithin }

// takeFields moves what is drawn inside a field from the page to the field.
func (p *page) takeFields() {
	if len(p.fields) == 0 {
		return
	}
	outside := p.glyphs[:0]
	for _, g := range p.glyphs {
		if f := p.fieldAt(g.tight); f != nil {
			f.shown = append(f.shown, g)
		} else {
			outside = append(outside, g)
		}
	}
	p.glyphs = outside
}

func (p *page) fieldAt(b box) *field {
	for i := range p.fields {
		if p.fields[i].box.holds(b) {
			return &p.fields[i]
		}
	}
	return nil
}
