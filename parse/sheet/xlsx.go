package sheet

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
	"fairtape/parse/table"
)

// XLSX reads a workbook. The error is ErrFormat, ErrLimit, ErrEncrypted or
// ErrOldFormat. Formulas are never calculated: their results are read where
// the file has them. Words, unless nil, reads sentences in cells.
func XLSX(name string, data []byte, words table.Words) (doc parse.Document, err error) {
	// The library has paniced on malformed files before.
	defer func() {
		if r := recover(); r != nil {
			doc, err = parse.Document{}, fmt.Errorf("%s: %w", name, ErrFormat)
		}
	}()
	if _, err := openZip(data); err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	// Equal limits keep every part in memory, and off the disk.
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked})
	if err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, ErrFormat)
	}
	defer f.Close()
	b := book{file: name, f: f}
	var grids []table.Grid
	for i, sheet := range f.GetSheetList() {
		if i == maxSheets {
			b.problems = append(b.problems, tooLarge(name, sheet))
			break
		}
		g, err := b.grid(sheet)
		if err != nil {
			return parse.Document{}, fmt.Errorf("%s: %w", name, ErrFormat)
		}
		f.Sheet.Clear() // what the library keeps of a sheet that was read
		if visible, err := f.GetSheetVisible(sheet); err == nil && !visible {
			if holdsNumbers(g) {
				b.problems = append(b.problems, hiddenSheet(name, sheet))
			}
			continue
		}
		grids = append(grids, g)
	}
	doc = readGrids(name, grids, words)
	doc.Problems = append(doc.Problems, b.problems...)
	return doc, nil
}

func hiddenSheet(file, sheet string) parse.Problem {
	return parse.Problem{
		Code:    CodeHiddenSheet,
		Source:  parse.Source{File: file, Place: sheet},
		Message: fmt.Sprintf("The sheet %q is hidden and was not read.", sheet),
	}
}

func holdsNumbers(g table.Grid) bool {
	for _, row := range g.Rows {
		for _, c := range row {
			if strings.ContainsAny(c.Text, "0123456789") {
				return true
			}
		}
	}
	return false
}

// book is a workbook while it is read.
type book struct {
	file     string
	f        *excelize.File
	problems []parse.Problem
}

// grid reads one sheet, as far as the limits go.
func (b *book) grid(sheet string) (table.Grid, error) {
	shown, cut, err := b.values(sheet, false)
	if err != nil {
		return table.Grid{}, err
	}
	raw, _, err := b.values(sheet, true)
	if err != nil {
		return table.Grid{}, err
	}
	if cut {
		b.problems = append(b.problems, tooLarge(b.file, sheet))
	}
	g := table.Grid{Name: sheet}
	formats := map[int]format{}
	hiddenCols := map[int]bool{}
	for r, row := range shown {
		hiddenRow := false
		if len(row) > 0 {
			visible, err := b.f.GetRowVisible(sheet, r+1)
			hiddenRow = err == nil && !visible
		}
		cells := make([]table.Cell, len(row))
		for c, text := range row {
			cells[c] = b.cell(sheet, r, c, text, raw[r], formats)
			hidden, seen := hiddenCols[c]
			if !seen {
				column, _ := excelize.ColumnNumberToName(c + 1)
				visible, err := b.f.GetColVisible(sheet, column)
				hidden = err == nil && !visible
				hiddenCols[c] = hidden
			}
			if (hidden || hiddenRow) && strings.ContainsAny(cells[c].Text, "0123456789") {
				cells[c].Code = parse.CodeHidden
			}
		}
		g.Rows = append(g.Rows, cells)
	}
	b.merges(sheet, g)
	return b.notes(sheet, g), nil
}

// values streams the cells of a sheet, with number formats applied or not.
func (b *book) values(sheet string, raw bool) (rows [][]string, cut bool, err error) {
	stream, err := b.f.Rows(sheet)
	if err != nil {
		return nil, false, err
	}
	defer stream.Close()
	filled, cells := 0, 0
	for n := 0; stream.Next(); n++ {
		if n == maxRow || filled == maxRows || cells > maxCells {
			return rows, true, nil
		}
		cols, err := stream.Columns(excelize.Options{RawCellValue: raw})
		if err != nil {
			return nil, false, err
		}
		if len(cols) > maxCols {
			for _, c := range cols[maxCols:] {
				cut = cut || c != ""
			}
			cols = cols[:maxCols]
		}
		row := make([]string, len(cols))
		for i, c := range cols {
			row[i] = short(c)
		}
		if len(row) > 0 {
			filled++
			cells += len(row)
		}
		rows = append(rows, row)
	}
	return rows, cut, stream.Error()
}

func (b *book) cell(sheet string, r, c int, shown string, rawRow []string, formats map[int]format) table.Cell {
	place := cellName(sheet, r, c)
	axis, _ := excelize.CoordinatesToCellName(c+1, r+1)
	if shown == "" {
		if formula, err := b.f.GetCellFormula(sheet, axis); err == nil && formula != "" {
			return table.Cell{Text: "=" + short(formula), Place: place, Code: parse.CodeFormula}
		}
		return table.Cell{Place: place}
	}
	raw := shown
	if c < len(rawRow) {
		raw = rawRow[c]
	}
	style, _ := b.f.GetCellStyle(sheet, axis)
	known, ok := formats[style]
	if !ok {
		known = b.format(style)
		formats[style] = known
	}
	cell := b.shownCell(sheet, axis, shown, raw, place, known)
	cell.Look = known.look
	return cell
}

// shownCell makes the cell of what is shown and what the file keeps.
func (b *book) shownCell(sheet, axis, shown, raw, place string, known format) table.Cell {
	if known.struck && strings.ContainsAny(shown, "0123456789") {
		return table.Cell{Text: shown, Place: place, Code: parse.CodeStruck}
	}
	kind, _ := b.f.GetCellType(sheet, axis)
	number, err := strconv.ParseFloat(raw, 64)
	if err != nil || kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString || kind == excelize.CellTypeFormula || kind == excelize.CellTypeBool {
		return b.textCell(sheet, axis, shown, place)
	}
	if known.date || kind == excelize.CellTypeDate {
		return table.Cell{Text: shown, Place: place, Code: parse.CodeDate}
	}
	cell := numberCell(shown, number, place)
	if cell.Scale == parse.Bare {
		cell.Scale = known.scale
	}
	return cell
}

// textCell makes the cell of a text, less what is struck out in it.
func (b *book) textCell(sheet, axis, shown, place string) table.Cell {
	cell := table.Cell{Text: shown, Place: place}
	runs, err := b.f.GetCellRichText(sheet, axis)
	if err != nil || !slices.ContainsFunc(runs, func(r excelize.RichTextRun) bool { return struckRun(r) || raisedRun(r) }) {
		return cell
	}
	var text, struck strings.Builder
	for _, r := range runs {
		switch {
		case struckRun(r):
			struck.WriteString(r.Text)
		case raisedRun(r):
			text.WriteString(raised(r.Text))
		default:
			text.WriteString(r.Text)
		}
	}
	cell.Text, cell.Code = unstruck(short(lowered(text.String())), short(struck.String()))
	return cell
}

func struckRun(r excelize.RichTextRun) bool { return r.Font != nil && r.Font.Strike }

func raisedRun(r excelize.RichTextRun) bool {
	return r.Font != nil && r.Font.VertAlign == "superscript"
}

// format is what the style of a cell says of its numbers.
type format struct {
	date   bool
	struck bool
	scale  parse.Scale
	look   string
}

func (b *book) format(style int) format {
	s, err := b.f.GetStyle(style)
	if err != nil || s == nil {
		return format{}
	}
	struck := s.Font != nil && s.Font.Strike
	if s.CustomNumFmt != nil {
		f := customFormat(*s.CustomNumFmt)
		f.struck, f.look = struck, lookOf(s)
		return f
	}
	// The built-in formats of dates and times: ECMA-376 part 1, 18.8.30.
	n := s.NumFmt
	return format{struck: struck, look: lookOf(s), date: n >= 14 && n <= 22 || n >= 27 && n <= 36 || n >= 45 && n <= 47 || n >= 50 && n <= 58}
}

func lookOf(s *excelize.Style) string {
	l := look{}
	if s.Fill.Type == "pattern" && s.Fill.Pattern != 0 && len(s.Fill.Color) > 0 {
		l.fill(s.Fill.Color[0])
	}
	if f := s.Font; f != nil {
		l.add(colourName(f.Color))
		for word, is := range map[string]bool{"bold": f.Bold, "italic": f.Italic, "underlined": f.Underline != "" && f.Underline != "none"} {
			if is {
				l.add(word)
			}
		}
	}
	return l.String()
}

var (
	formatLiteral = regexp.MustCompile(`"([^"]*)"|\\(.)|[_*].`)
	formatColour  = regexp.MustCompile(`\[[^\]]*\]`)
	formatDate    = regexp.MustCompile(`[ydhsm]`)
)

// customFormat finds what a number format shows beside the digits: a unit in
// quotes or after backslashes, or the parts of a date.
func customFormat(code string) format {
	code, _, _ = strings.Cut(code, ";") // positive numbers only
	code = formatColour.ReplaceAllString(code, "")
	literal := ""
	for _, m := range formatLiteral.FindAllStringSubmatch(code, -1) {
		literal += m[1] + m[2]
	}
	rest := strings.ToLower(formatLiteral.ReplaceAllString(code, ""))
	rest = strings.ReplaceAll(strings.ReplaceAll(rest, "general", ""), "standard", "")
	if formatDate.MatchString(rest) {
		return format{date: true}
	}
	a, f := parse.ParseLength("1 " + literal)
	if f.Some() {
		return format{}
	}
	return format{scale: a.Scale}
}

func (b *book) merges(sheet string, g table.Grid) {
	merged, err := b.f.GetMergeCells(sheet, true)
	if err != nil {
		return
	}
	for _, m := range merged {
		c0, r0, err0 := excelize.CellNameToCoordinates(m.GetStartAxis())
		c1, r1, err1 := excelize.CellNameToCoordinates(m.GetEndAxis())
		if err0 != nil || err1 != nil || r0 > len(g.Rows) || c0 > len(g.Rows[r0-1]) {
			continue
		}
		g.Rows[r0-1][c0-1].Across = c1 - c0 + 1
		g.Rows[r0-1][c0-1].Down = r1 - r0 + 1
	}
}

// notes hangs the notes of a sheet on their cells: a person may have written a
// doubt or a second try there.
func (b *book) notes(sheet string, g table.Grid) table.Grid {
	comments, err := b.f.GetComments(sheet)
	if err != nil {
		return g
	}
	for _, c := range comments {
		text := c.Text
		for _, run := range c.Paragraph {
			text += run.Text
		}
		col, row, err := excelize.CellNameToCoordinates(c.Cell)
		if err != nil || row > maxRow || col > maxCols {
			continue
		}
		for len(g.Rows) < row {
			g.Rows = append(g.Rows, nil)
		}
		for line := len(g.Rows[row-1]); line < col; line++ {
			g.Rows[row-1] = append(g.Rows[row-1], table.Cell{Place: cellName(sheet, row-1, line)})
		}
		g.Rows[row-1][col-1].Note = short(text)
	}
	return g
}
