package sheet

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"fairtape/reply/cover"
)

// XLSX writes the sheet as a workbook: what is on the first page of the PDF, the
// girths, and a chalk table for each panel. Allowances stand in cells of their
// own and cutting lines are formulas of them, so that a cutter can change them;
// reductions are not, since a change of them moves every mark: that takes a new
// sheet. Text is written as text and never runs as a formula.
func XLSX(s *cover.CutSheet) ([]byte, error) {
	w := &workbook{file: excelize.NewFile(), sheet: s}
	defer w.file.Close() //nolint:errcheck // nothing is open but memory
	w.styles()
	w.front()
	w.girths()
	for _, panel := range s.Panels {
		if !panel.Mirrored {
			w.chalk(panel)
		}
	}
	w.keep(w.file.SetDocProps(&excelize.DocProperties{
		Title: title(s), Creator: "fairtape",
		Created: s.Date.UTC().Format("2006-01-02T15:04:05Z"), Modified: s.Date.UTC().Format("2006-01-02T15:04:05Z"),
	}))
	if w.err != nil {
		return nil, fmt.Errorf("write xlsx: %w", w.err)
	}
	var b bytes.Buffer
	if err := w.file.Write(&b); err != nil {
		return nil, fmt.Errorf("write xlsx: %w", err)
	}
	return b.Bytes(), nil
}

const (
	frontSheet  = "Cut sheet"
	girthsSheet = "Girths"
)

// workbook writes cells and keeps the first error.
type workbook struct {
	file  *excelize.File
	sheet *cover.CutSheet
	err   error

	allowance map[cover.Seam]string // the cell of each allowance

	length, input, head, strong, wrap, warn int // styles
}

func (w *workbook) keep(err error) {
	if w.err == nil {
		w.err = err
	}
}

func (w *workbook) style(s excelize.Style) int {
	id, err := w.file.NewStyle(&s)
	w.keep(err)
	return id
}

func (w *workbook) styles() {
	format := "# ?/?" // lengths are whole eighths
	if cover.UnitName(w.sheet.Unit) == "mm" {
		format = "0"
	}
	right := &excelize.Alignment{Horizontal: "right"}
	w.length = w.style(excelize.Style{CustomNumFmt: &format, Alignment: right})
	exact := "# ?/?"
	if cover.UnitName(w.sheet.Unit) == "mm" {
		exact = "0.0" // a half inch is no whole number of millimetres
	}
	w.input = w.style(excelize.Style{CustomNumFmt: &exact, Alignment: &excelize.Alignment{Horizontal: "left"},
		Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF4C2"}}})
	w.head = w.style(excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{Horizontal: "right", WrapText: true, Vertical: "top"},
		Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"F0EADE"}}})
	w.strong = w.style(excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{Vertical: "top"}})
	w.wrap = w.style(excelize.Style{Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	w.warn = w.style(excelize.Style{Font: &excelize.Font{Bold: true, Color: "B22218"}})
}

// exactly returns inches in the sheet's unit. Formulas hold the sewing line so,
// not as it is shown, so that nothing is rounded twice.
func (w *workbook) exactly(inches float64) float64 {
	if cover.UnitName(w.sheet.Unit) == "mm" {
		return inches * mmPerInch
	}
	return inches
}

// in returns inches in the sheet's unit, to what its numbers are written to.
func (w *workbook) in(inches float64) float64 {
	if cover.UnitName(w.sheet.Unit) == "mm" {
		return math.Round(inches * mmPerInch)
	}
	return math.Round(inches*8) / 8
}

func cell(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return "A1" // columns and rows are counted from 1
	}
	return name
}

func (w *workbook) text(sheet, at, text string, style int) {
	w.keep(w.file.SetCellStr(sheet, at, text))
	w.keep(w.file.SetCellStyle(sheet, at, at, style))
}

func (w *workbook) number(sheet, at string, inches float64, style int) {
	w.keep(w.file.SetCellFloat(sheet, at, w.in(inches), -1, 64))
	w.keep(w.file.SetCellStyle(sheet, at, at, style))
}

// formula writes a formula of our own, rounded as lengths are, and the value that
// it has now.
func (w *workbook) formula(sheet, at, formula string, inches float64) {
	w.number(sheet, at, inches, w.length)
	rounded := fmt.Sprintf("ROUND((%s)*8,0)/8", formula)
	if cover.UnitName(w.sheet.Unit) == "mm" {
		rounded = fmt.Sprintf("ROUND(%s,0)", formula)
	}
	w.keep(w.file.SetCellFormula(sheet, at, rounded))
}

// printable makes a sheet lie on paper, all columns on one page.
func (w *workbook) printable(sheet string) {
	yes, lying, one, any := true, "landscape", 1, 0
	w.keep(w.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &yes}))
	w.keep(w.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &lying, FitToWidth: &one, FitToHeight: &any}))
}

// How much text a line of the first sheet holds, and how high it is in points.
const (
	perLine    = 85
	lineHeight = 15
)

// front is the first sheet.
func (w *workbook) front() {
	s := w.sheet
	w.keep(w.file.SetSheetName("Sheet1", frontSheet))
	w.printable(frontSheet)
	w.keep(w.file.SetColWidth(frontSheet, "A", "A", 34))
	w.keep(w.file.SetColWidth(frontSheet, "B", "B", 100))
	row := 1
	put := func(name, text string) {
		w.text(frontSheet, cell(1, row), name, w.strong)
		w.text(frontSheet, cell(2, row), text, w.wrap)
		lines := 1 + len([]rune(text))/perLine
		w.keep(w.file.SetRowHeight(frontSheet, row, float64(lines)*lineHeight))
		row++
	}
	w.text(frontSheet, cell(1, row), title(s), w.strong)
	row++
	if !s.Settled {
		w.text(frontSheet, cell(1, row), "DRAFT: the survey is not settled. Do not cut from this sheet.", w.warn)
		row++
		for _, text := range s.Open {
			put("open", clean200(text))
		}
	}
	for _, f := range facts(s) {
		put(f.name, f.text)
	}
	put("Unit", unitWords(s)+" ("+cover.UnitName(s.Unit)+")")
	w.allowance = map[cover.Seam]string{}
	for _, a := range []struct {
		seam cover.Seam
		name string
	}{{cover.Seamed, "Seam allowance"}, {cover.Hemmed, "Hem"}} {
		inches := in(s.Order.Cloth.SeamAllowance)
		if a.seam == cover.Hemmed {
			inches = in(s.Order.Cloth.Hem)
		}
		w.text(frontSheet, cell(1, row), a.name+", "+cover.UnitName(s.Unit)+" (may be changed)", w.strong)
		w.keep(w.file.SetCellFloat(frontSheet, cell(2, row), w.exactly(inches), -1, 64))
		w.keep(w.file.SetCellStyle(frontSheet, cell(2, row), cell(2, row), w.input))
		w.allowance[a.seam] = fmt.Sprintf("'%s'!$B$%d", frontSheet, row)
		row++
	}
	for _, text := range s.Notes {
		put("note", clean200(text))
	}
	for _, l := range s.Lines {
		put("sewn back", fmt.Sprintf("%s panel, %s line from %s to %s: %s on the cloth, %s on the boat less the reduction; from end to end, as guessed, %s and %s",
			l.Panel, l.Line, s.Station(l.From), s.Station(l.To), s.Say(l.ClothInside), s.Say(l.MeantInside), s.Say(l.Cloth), s.Say(l.Meant)))
	}
	for _, n := range s.Notions {
		put(n.What, quantity(s, n)+", "+n.For)
	}
	for _, text := range cover.Cautions() {
		put("caution", text)
	}
}

// girths lists the stations: as measured, as the curve has them, as cut.
func (w *workbook) girths() {
	s := w.sheet
	_, err := w.file.NewSheet(girthsSheet)
	w.keep(err)
	w.heads(girthsSheet, []string{"Station", "Hull girth, measured", "Hull girth, curve", "Full girth, measured", "Full girth, curve",
		"Full girth, finished", "Width to cut, all panels together", "Remark"})
	allowances := w.sum()
	for i, r := range s.Rows {
		row := i + 2
		w.text(girthsSheet, cell(1, row), s.Station(r.At), w.strong)
		for k := range r.Read {
			if r.Read[k] > 0 {
				w.number(girthsSheet, cell(2+2*k, row), r.Read[k], w.length)
			}
			w.number(girthsSheet, cell(3+2*k, row), r.Curve[k], w.length)
		}
		w.number(girthsSheet, cell(6, row), r.Finished, w.length)
		w.formula(girthsSheet, cell(7, row), fmt.Sprintf("%.9f+%s", w.exactly(r.Finished), allowances), r.Cut)
		for k := range r.Read {
			if r.Read[k] > 0 && math.Abs(r.Read[k]-r.Curve[k]) > cover.FairDiffers {
				w.text(girthsSheet, cell(8, row), "measured and curve differ by over "+s.Say(cover.FairDiffers), w.warn)
			}
		}
	}
}

// sum is the formula of all allowances over the girth.
func (w *workbook) sum() string {
	var terms []string
	for _, p := range w.sheet.Panels {
		terms = append(terms, w.allowance[p.Near.Seam], w.allowance[p.Far.Seam])
	}
	return strings.Join(terms, "+")
}

func (w *workbook) heads(sheet string, heads []string) {
	for i, head := range heads {
		w.text(sheet, cell(i+1, 1), head+", "+cover.UnitName(w.sheet.Unit), w.head)
		if head == "Station" || head == "Mark" || head == "Remark" {
			w.text(sheet, cell(i+1, 1), head, w.head)
		}
	}
	w.keep(w.file.SetRowHeight(sheet, 1, 3*lineHeight))
	w.keep(w.file.SetColWidth(sheet, "A", "G", 15))
	w.printable(sheet)
	w.keep(w.file.SetColWidth(sheet, "H", "H", 40))
	w.keep(w.file.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}

// chalk is the chalk table of a panel.
func (w *workbook) chalk(panel cover.Panel) {
	s := w.sheet
	name := "Chalk " + panel.Name
	_, err := w.file.NewSheet(name)
	w.keep(err)
	w.heads(name, []string{"Mark", "Along the " + panel.Datum, "Edge: along the " + panel.Datum, "Edge: offset to sewing line",
		"Edge: offset to cutting line", "Straight across, edge to edge", "Along the edge from the last station", "Remark"})
	row := 2
	for _, m := range panel.Chalk() {
		mark := s.Station(m.At)
		if !m.Station {
			mark = "between"
		}
		w.text(name, cell(1, row), mark, w.strong)
		w.number(name, cell(2, row), m.Datum, w.length)
		w.number(name, cell(3, row), m.Run, w.length)
		w.number(name, cell(4, row), m.Sew, w.length)
		w.formula(name, cell(5, row), fmt.Sprintf("%.9f+%s*%.9f", w.exactly(m.Sew), w.allowance[panel.Far.Seam], m.Slant), m.Cut)
		w.number(name, cell(6, row), m.Across, w.length)
		if m.Seam > 0 {
			w.number(name, cell(7, row), m.Seam, w.length)
		}
		row++
	}
	from, to := panel.Measured()
	remarks := []string{
		fmt.Sprintf("Forward of %s and abaft %s the outline is FROM TRACING.", s.Station(from), s.Station(to)),
	}
	if panel.Middle {
		remarks = append(remarks, "Offsets go to both sides of the line.")
	}
	for _, d := range panel.Diagonals() {
		remarks = append(remarks, fmt.Sprintf("Diagonal, %s at %s to %s at %s: %s", d.Edges[0], s.Station(d.From), d.Edges[1], s.Station(d.To), s.Say(d.Length)))
	}
	for i, text := range remarks {
		w.text(name, cell(1, row+1+i), text, w.strong)
	}
}
