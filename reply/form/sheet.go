package form

import (
	"bytes"
	"fmt"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Widths of the columns of the sheet, in characters.
const (
	nameWidth   = 36
	numberWidth = 22
)

// paperSizes are the numbers that spreadsheets have for papers (ECMA-376, part
// 1, 18.3.1.63).
var paperSizes = map[form.Paper]int{form.Letter: 1, form.A4: 9}

// sheetFont is a font that every office program has or stands in for.
const sheetFont = "Arial"

// excelText is the number format of a cell that stays as it was typed: 1/2 in a
// plain cell becomes the first of February.
const excelText = 49

// XLSX makes the empty sheet for those who type. Its cells for numbers are of
// text, so that no program turns 35 1/2 into a date. The same sheet is always
// the same bytes. Errors wrap those of the layout.
func XLSX(spec form.Spec, words Words) ([]byte, error) {
	l, err := form.New(spec)
	if err != nil {
		return nil, err
	}
	s := &blank{file: excelize.NewFile(), words: phrases(words.Language, l.Unit, l.Spacing)}
	defer s.file.Close() //nolint:errcheck // nothing was written to disk
	if err := s.fill(l); err != nil {
		return nil, fmt.Errorf("make the sheet: %w", err)
	}
	var out bytes.Buffer
	if err := s.file.Write(&out); err != nil {
		return nil, fmt.Errorf("make the sheet: %w", err)
	}
	return out.Bytes(), nil
}

type blank struct {
	file  *excelize.File
	words phrasebook
	row   int
	err   error

	title, label, head, input int // styles
}

// sheetName is the name of the only sheet.
const sheetName = "Survey"

func (s *blank) fill(l form.Layout) error {
	s.do(s.file.SetSheetName("Sheet1", sheetName))
	s.do(s.file.SetColWidth(sheetName, "A", "A", nameWidth))
	s.do(s.file.SetColWidth(sheetName, "B", "C", numberWidth))
	s.do(s.file.SetDocProps(&excelize.DocProperties{Title: s.words.guideTitle, Language: s.words.language, Created: sheetDate, Modified: sheetDate}))
	s.do(s.file.SetSheetProps(sheetName, &excelize.SheetPropsOptions{FitToPage: new(true)}))
	s.do(s.file.SetPageLayout(sheetName, &excelize.PageLayoutOptions{Size: new(paperSizes[l.Paper]), FitToWidth: new(1), FitToHeight: new(1)}))
	s.styles()

	w := s.words
	s.put("A", w.guideTitle, s.title)
	s.row++
	s.pair(w.unitName, string(l.Unit))
	s.row++
	for _, label := range []string{w.customer, w.telephone, w.boat, w.underCover} {
		s.ask(label, "", 1)
	}
	s.choose(w.deckedQuestion, w.no, w.yes)
	s.choose(w.sternQuestion, w.pointed, w.square)
	s.row++
	steps := w.steps
	s.ask(w.sheetNames[parse.LengthOverall], steps[0].how, 1)
	s.ask(w.sheetNames[parse.BowHeight], steps[0].how, 1)
	s.ask(w.sheetNames[parse.CarryPoint], steps[0].how, 1)
	s.ask(w.sheetNames[parse.SternHeight], steps[2].how, 1)
	s.row++
	s.row++
	s.put("A", w.station, s.head)
	s.put("B", w.hullColumn, s.head)
	s.put("C", w.fullColumn, s.head)
	for _, f := range l.Fields {
		if f.Part == form.Whole && f.Cell.Measure == parse.HullGirth {
			s.ask(w.place(f.Cell.At), steps[1].how, 2)
		}
	}
	s.ask(w.names[parse.TransomPair], steps[2].how, 2)
	s.row++
	s.ask(w.sheetNames[parse.GreatestAt], steps[3].how, 1)
	s.ask(w.sheetNames[parse.GreatestHullGirth], steps[3].how, 1)
	s.ask(w.sheetNames[parse.GreatestFullGirth], steps[3].how, 1)
	s.ask(w.sheetNames[parse.GreatestOpening], steps[3].how, 1)
	return s.err
}

// sheetDate stands for no date: the file says nothing of when it was made.
const sheetDate = "2000-01-01T00:00:00Z"

func (s *blank) do(err error) {
	if s.err == nil {
		s.err = err
	}
}

func (s *blank) styles() {
	border := []excelize.Border{}
	for _, side := range []string{"left", "right", "top", "bottom"} {
		border = append(border, excelize.Border{Type: side, Color: fmt.Sprintf("%02X%02X%02X", grey, grey, grey), Style: 1})
	}
	style := func(st excelize.Style) int {
		id, err := s.file.NewStyle(&st)
		s.do(err)
		return id
	}
	middle := &excelize.Alignment{Vertical: "center"}
	s.title = style(excelize.Style{Font: &excelize.Font{Family: sheetFont, Bold: true, Size: titleSize}})
	s.label = style(excelize.Style{Font: &excelize.Font{Family: sheetFont, Size: bodySize}, Alignment: middle})
	s.head = style(excelize.Style{Font: &excelize.Font{Family: sheetFont, Bold: true, Size: bodySize}, Alignment: middle})
	s.input = style(excelize.Style{Font: &excelize.Font{Family: sheetFont, Size: bodySize}, Alignment: middle, Border: border, NumFmt: excelText})
}

// put writes a text into the row at hand; the first row is 1.
func (s *blank) put(column, text string, style int) {
	cell := fmt.Sprintf("%s%d", column, s.row+1)
	s.do(s.file.SetCellStr(sheetName, cell, text))
	s.do(s.file.SetCellStyle(sheetName, cell, cell, style))
}

func (s *blank) pair(label, value string) {
	s.row++
	s.put("A", label, s.label)
	s.put("B", value, s.label)
}

// ask makes a row with cells to type into. How it is measured is shown when the
// cell is chosen.
func (s *blank) ask(label, how string, cells int) {
	s.row++
	s.put("A", label, s.label)
	last := string(rune('A' + cells))
	from, to := fmt.Sprintf("B%d", s.row+1), fmt.Sprintf("%s%d", last, s.row+1)
	s.do(s.file.SetCellStyle(sheetName, from, to, s.input))
	s.do(s.file.SetRowHeight(sheetName, s.row+1, 21))
	if how == "" {
		return
	}
	hint := excelize.NewDataValidation(true)
	hint.SetSqref(from + ":" + to)
	hint.SetInput(label, clipped(unstarred(how)))
	s.do(s.file.AddDataValidation(sheetName, hint))
}

// choose makes a row with a cell that offers two answers.
func (s *blank) choose(label string, answers ...string) {
	s.ask(label, "", 1)
	cell := fmt.Sprintf("B%d", s.row+1)
	list := excelize.NewDataValidation(true)
	list.SetSqref(cell)
	s.do(list.SetDropList(answers))
	s.do(s.file.AddDataValidation(sheetName, list))
}
