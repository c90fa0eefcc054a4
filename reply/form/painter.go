package form

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"fairtape/parse/form"
)

// Type in points, lines and measures of the page in millimetres. No text for
// the customer is under 12 points.
const (
	bodySize    = 12.0
	headingSize = 14.0
	titleSize   = 19.0

	millimetresPerPoint = 25.4 / 72
	leading             = 5.0  // from line to line of the body
	capHeight           = 3.05 // of the body
	descent             = 0.9  // of the body, below the baseline

	hairline = 0.18 // 0.5 pt
	drawn    = 0.35
	heavy    = 0.75
)

// Black and grey: what a printer at home has always.
const (
	black = 0x1A
	grey  = form.OutlineGrey
)

// ErrNoRoom is the error of words that do not fit where they belong: an address
// may be too long for its lines.
var ErrNoRoom = errors.New("the words do not fit on the page")

// painter draws a layout. The first error stays, as with fpdf itself.
type painter struct {
	pdf    *fpdf.Fpdf
	layout form.Layout
	words  phrasebook
	err    error
}

// font is the family of both weights.
const font = "sans"

func newPainter(l form.Layout, words phrasebook) *painter {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: l.Width, Ht: l.Height}})
	pdf.AddUTF8FontFromBytes(font, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(font, "B", liberationsansbold.TTF)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCellMargin(0)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(time.Unix(0, 0)) // taken out again when the fields are added
	pdf.SetModificationDate(time.Unix(0, 0))
	pdf.SetLineCapStyle("round")
	pdf.SetLineJoinStyle("round")
	pdf.SetTitle(words.documentTitle(l), true)
	pdf.SetLang(words.language)
	return &painter{pdf: pdf, layout: l, words: words}
}

// page begins a page with its marks, its code and the boxes that lie on it.
func (p *painter) page(n int) {
	p.pdf.AddPage()
	page := p.layout.Pages[n-1]
	p.ink(0)
	for _, m := range page.Marks {
		p.fillRect(m.Box)
		if !m.Solid {
			x, y := m.Box.Centre()
			p.pdf.SetFillColor(255, 255, 255)
			p.pdf.Circle(x, y, form.EyeDiameter/2, "F")
			p.ink(0)
		}
	}
	p.code(page)
	p.ink(black)
	for _, f := range p.layout.Fields {
		if f.Page == n {
			p.boxes(f)
		}
	}
}

// boxes draws the outlines of a field.
func (p *painter) boxes(f form.Field) {
	p.stroke(grey, form.OutlineWidth)
	p.pdf.SetLineJoinStyle("miter")
	for _, b := range f.Boxes {
		p.pdf.Rect(b.X0, b.Y0, b.Width(), b.Height(), "D")
	}
	p.pdf.SetLineJoinStyle("round")
	p.stroke(black, drawn)
}

func (p *painter) code(page form.Page) { p.modules(page.CodeText, page.Code) }

// modules draws a QR code.
func (p *painter) modules(text string, at form.Rect) {
	modules, err := form.Modules(text)
	if err != nil {
		p.fail(err)
		return
	}
	side := at.Width() / float64(len(modules))
	for y, row := range modules {
		// Runs of modules in one piece: no hairline shows between them.
		for x := 0; x < len(row); x++ {
			first := x
			for x < len(row) && row[x] {
				x++
			}
			if x > first {
				p.fillRect(form.Rect{
					X0: at.X0 + float64(first)*side, Y0: at.Y0 + float64(y)*side,
					X1: at.X0 + float64(x)*side, Y1: at.Y0 + float64(y+1)*side,
				})
			}
		}
	}
}

func (p *painter) fillRect(r form.Rect) { p.pdf.Rect(r.X0, r.Y0, r.Width(), r.Height(), "F") }

func (p *painter) ink(level int) {
	p.pdf.SetFillColor(level, level, level)
	p.pdf.SetTextColor(level, level, level)
}

func (p *painter) stroke(level int, width float64) {
	p.pdf.SetDrawColor(level, level, level)
	p.pdf.SetLineWidth(width)
}

func (p *painter) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// align says which end of a line is given.
type align int

const (
	left align = iota
	middle
	right
)

func (p *painter) body() { p.pdf.SetFont(font, "", bodySize) }
func (p *painter) bold() { p.pdf.SetFont(font, "B", bodySize) }

// line writes one line in the font that is set, its baseline at y.
func (p *painter) line(text string, x, y float64, from align) {
	width := p.pdf.GetStringWidth(text)
	switch from {
	case middle:
		x -= width / 2
	case right:
		x -= width
	}
	if x < 0 || x+width > p.layout.Width {
		p.fail(fmt.Errorf("%w: %q", ErrNoRoom, text))
	}
	p.pdf.Text(x, y, text)
}

// fitted is line for a text that must not be wider than given.
func (p *painter) fitted(text string, x, y, width float64, from align) {
	if w := p.pdf.GetStringWidth(text); w > width {
		p.fail(fmt.Errorf("%w: %q is %.1f mm wide, there are %.1f mm", ErrNoRoom, text, w, width))
	}
	p.line(text, x, y, from)
}

// paragraph writes a text in lines of the given width, the first baseline at y,
// and returns the baseline that follows. A text that needs more than most lines
// is an error. What stands between asterisks is bold.
func (p *painter) paragraph(text string, x, y, width float64, most int) float64 {
	lines := p.wrap(text, width)
	if len(lines) > most {
		p.fail(fmt.Errorf("%w: %d lines of %.0f mm, there is room for %d: %.40s", ErrNoRoom, len(lines), width, most, text))
	}
	for _, words := range lines {
		at := x
		for i, w := range words {
			if i > 0 {
				at += p.space()
			}
			p.weight(w.bold)
			p.pdf.Text(at, y, w.text)
			at += p.pdf.GetStringWidth(w.text)
		}
		y += leading
	}
	p.body()
	return y
}

type word struct {
	text string
	bold bool
}

func (p *painter) weight(bold bool) {
	if bold {
		p.bold()
		return
	}
	p.body()
}

func (p *painter) space() float64 {
	p.body()
	return p.pdf.GetStringWidth(" ")
}

// wrap breaks a text into lines.
func (p *painter) wrap(text string, width float64) [][]word {
	var lines [][]word
	var line []word
	used := 0.0
	bold := false
	for _, w := range strings.Split(text, " ") {
		if strings.HasPrefix(w, "*") {
			bold = true
		}
		next := word{strings.ReplaceAll(w, "*", ""), bold}
		if len(w) > 1 && strings.Contains(w[1:], "*") {
			bold = false
		}
		p.weight(next.bold)
		wide := p.pdf.GetStringWidth(next.text)
		gap := p.space()
		if len(line) > 0 && used+gap+wide > width {
			lines = append(lines, line)
			line, used = nil, 0
		}
		if len(line) > 0 {
			used += gap
		}
		line = append(line, next)
		used += wide
	}
	return append(lines, line)
}

// heading writes the title of a part with its number in a ring, 0 for none.
func (p *painter) heading(number int, text string, x, y, width float64) {
	p.pdf.SetFont(font, "B", headingSize)
	if number > 0 {
		const radius = 3.4
		p.stroke(black, 0.5)
		p.pdf.Circle(x+radius, y-1.75, radius, "D")
		p.line(fmt.Sprint(number), x+radius, y, middle)
		x += 2*radius + 2.4
		width -= 2*radius + 2.4
	}
	p.fitted(text, x, y, width, left)
	p.body()
	p.stroke(black, drawn)
}

// title writes the title of a page between the upper marks, and the job.
func (p *painter) title(text string, to float64) {
	const x, y = form.MarkInset + form.MarkSide + 4.5, 16.3
	p.pdf.SetFont(font, "B", titleSize)
	p.fitted(text, x, y, to-x, left)
	p.body()
}

// rule draws a thin line across.
func (p *painter) rule(x0, x1, y float64) {
	p.stroke(grey, hairline)
	p.pdf.Line(x0, y, x1, y)
	p.stroke(black, drawn)
}
