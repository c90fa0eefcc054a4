package sheet

import (
	"fmt"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"fairtape/reply/cover"
)

// colour is a colour in red, green and blue.
type colour struct{ r, g, b int }

// The colours: dark for what is cut and read, a blue for what is sewn, a red for
// what must not be overlooked, a sand ground under headings.
func ink() colour  { return colour{28, 32, 36} }
func grey() colour { return colour{120, 126, 132} }
func pale() colour { return colour{205, 209, 213} }
func blue() colour { return colour{0, 92, 148} }
func red() colour  { return colour{178, 34, 24} }
func sand() colour { return colour{240, 234, 222} }

const (
	regular = ""
	bold    = "B"
	font    = "sheet"
	margin  = 14.0 // mm, the least that any printer leaves
)

// The sizes of type, in points, and what a line of body type takes, in mm.
const (
	sizeTitle = 17.0
	sizeHead  = 11.0
	sizeBody  = 9.0
	sizeSmall = 7.5
	lineBody  = 4.4
)

// pen draws on pages of a PDF, in millimetres from the top left.
type pen struct {
	pdf   *fpdf.Fpdf
	sheet *cover.CutSheet
	paper Paper
	w, h  float64 // of the present page
}

func newPen(s *cover.CutSheet, paper Paper, title string) *pen {
	w, h := paper.size()
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: w, Ht: h}})
	pdf.SetCatalogSort(true)
	at := s.Date
	if at.IsZero() {
		at = time.Unix(0, 0).UTC()
	}
	pdf.SetCreationDate(at)
	pdf.SetModificationDate(at)
	pdf.SetTitle(title, true)
	pdf.SetProducer("fairtape", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(margin, margin, margin)
	pdf.AddUTF8FontFromBytes(font, regular, liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(font, bold, liberationsansbold.TTF)
	pdf.AliasNbPages("{pages}")
	return &pen{pdf: pdf, sheet: s, paper: paper}
}

// page begins a page, upright or lying, with its head and foot.
func (p *pen) page(title string, lying bool) (top, bottom float64) {
	w, h := p.paper.size()
	orientation := "P"
	if lying {
		orientation = "L"
	}
	p.pdf.AddPageFormat(orientation, fpdf.SizeType{Wd: w, Ht: h})
	p.w, p.h = w, h
	if lying {
		p.w, p.h = h, w
	}
	p.watermark()
	s := p.sheet
	p.text(margin, margin+4, sizeHead, bold, ink(), title)
	p.right(p.w-margin, margin+4, sizeHead, bold, ink(), heading(s))
	p.line(margin, margin+6.5, p.w-margin, margin+6.5, 0.5, ink())
	foot := p.h - margin + 4
	p.line(margin, foot-4, p.w-margin, foot-4, 0.2, grey())
	p.text(margin, foot, sizeSmall, regular, grey(), clean(s.Shop)+"  ·  "+s.Date.Format("2 January 2006")+"  ·  "+clothName(s))
	p.text(p.w-margin-p.width(sizeSmall, regular, "page 9 of 9"), foot, sizeSmall, regular, grey(), fmt.Sprintf("page %d of {pages}", p.pdf.PageNo()))
	if void := voidWords(s); void != "" {
		p.centre(p.w/2+20, foot, sizeSmall, bold, red(), void)
	}
	return margin + 12, p.h - margin - 3
}

// heading names job and sheet.
func heading(s *cover.CutSheet) string {
	text := fmt.Sprintf("Sheet %d", s.Sheet)
	if s.Job != "" {
		text = "Job " + clean(s.Job) + ", s" + text[1:]
	}
	return text
}

func voidWords(s *cover.CutSheet) string {
	if s.Replaces == 0 {
		return ""
	}
	return fmt.Sprintf("Sheet %d is void: destroy it", s.Replaces)
}

func clothName(s *cover.CutSheet) string {
	name := clean(s.Order.Cloth.Name)
	if c := clean(s.Order.Cloth.Colour); c != "" {
		name += ", " + c
	}
	return name
}

// watermark writes DRAFT across the page of a sheet that must not be cut.
func (p *pen) watermark() {
	if p.sheet.Settled {
		return
	}
	p.pdf.SetFont(font, bold, 110)
	p.ink(colour{244, 214, 208})
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(35, p.w/2, p.h/2)
	p.pdf.Text(p.w/2-p.pdf.GetStringWidth("DRAFT")/2, p.h/2+14, "DRAFT")
	p.pdf.SetFont(font, bold, 16)
	words := "not settled: not for cutting"
	p.pdf.Text(p.w/2-p.pdf.GetStringWidth(words)/2, p.h/2+26, words)
	p.pdf.TransformEnd()
}

func (p *pen) ink(c colour) { p.pdf.SetTextColor(c.r, c.g, c.b) }

func (p *pen) text(x, y, size float64, style string, c colour, text string) {
	p.pdf.SetFont(font, style, size)
	p.ink(c)
	p.pdf.Text(x, y, text)
}

func (p *pen) width(size float64, style, text string) float64 {
	p.pdf.SetFont(font, style, size)
	return p.pdf.GetStringWidth(text)
}

func (p *pen) right(x, y, size float64, style string, c colour, text string) {
	p.text(x-p.width(size, style, text), y, size, style, c, text)
}

func (p *pen) centre(x, y, size float64, style string, c colour, text string) {
	p.text(x-p.width(size, style, text)/2, y, size, style, c, text)
}

// paragraph breaks text into lines and returns where the next one begins.
func (p *pen) paragraph(x, y, wide, size float64, style string, c colour, text string) float64 {
	p.pdf.SetFont(font, style, size)
	lineHeight := size / sizeBody * lineBody
	for _, line := range p.pdf.SplitText(text, wide) {
		p.text(x, y, size, style, c, line)
		y += lineHeight
	}
	return y
}

func (p *pen) stroke(wide float64, c colour) {
	p.pdf.SetLineWidth(wide)
	p.pdf.SetDrawColor(c.r, c.g, c.b)
}

func (p *pen) line(x0, y0, x1, y1, wide float64, c colour) {
	p.stroke(wide, c)
	p.pdf.Line(x0, y0, x1, y1)
}

func (p *pen) dashed(x0, y0, x1, y1, wide float64, c colour) {
	p.pdf.SetDashPattern([]float64{1.6, 1.1}, 0)
	p.line(x0, y0, x1, y1, wide, c)
	p.pdf.SetDashPattern(nil, 0)
}

func (p *pen) box(x, y, w, h float64, fill colour) {
	p.pdf.SetFillColor(fill.r, fill.g, fill.b)
	p.pdf.Rect(x, y, w, h, "F")
}

func (p *pen) dot(x, y, r float64, c colour) {
	p.pdf.SetFillColor(c.r, c.g, c.b)
	p.pdf.Circle(x, y, r, "F")
}

// path draws a line through points given in millimetres of the page.
func (p *pen) path(points []Point, closed bool, wide float64, c colour) {
	p.stroke(wide, c)
	for i, q := range points {
		if i == 0 {
			p.pdf.MoveTo(q.X, q.Y)
		} else {
			p.pdf.LineTo(q.X, q.Y)
		}
	}
	if closed {
		p.pdf.ClosePath()
	}
	p.pdf.DrawPath("D")
}

func (p *pen) dashedPath(points []Point, wide float64, c colour) {
	p.pdf.SetDashPattern([]float64{1.6, 1.1}, 0)
	p.path(points, false, wide, c)
	p.pdf.SetDashPattern(nil, 0)
}

// fill draws a filled shape.
func (p *pen) fill(points []Point, f colour) {
	list := make([]fpdf.PointType, len(points))
	for i, q := range points {
		list[i] = fpdf.PointType{X: q.X, Y: q.Y}
	}
	p.pdf.SetFillColor(f.r, f.g, f.b)
	p.pdf.Polygon(list, "F")
}

// check draws a check line with its left end at x, y.
func (p *pen) check(x, y float64) {
	mm, words := smallCheck(p.sheet)
	p.line(x, y, x+mm, y, 0.3, ink())
	p.line(x, y-1.5, x, y+1.5, 0.3, ink())
	p.line(x+mm, y-1.5, x+mm, y+1.5, 0.3, ink())
	p.text(x, y-2.2, sizeSmall, bold, ink(), words+" on this paper: "+CheckLine)
}

// head writes a heading on its ground and returns where the text below begins.
func (p *pen) head(x, y, wide float64, text string) float64 {
	p.box(x, y, wide, 6.2, sand())
	p.text(x+1.5, y+4.4, sizeHead-1, bold, ink(), text)
	return y + 10.6
}

func sizeOf(w, h float64) fpdf.SizeType { return fpdf.SizeType{Wd: w, Ht: h} }
