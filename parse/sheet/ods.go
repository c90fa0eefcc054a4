package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// ODS reads an OpenDocument spreadsheet (OASIS OpenDocument 1.3, part 3). The
// error is ErrFormat, ErrLimit or ErrEncrypted. Words, unless nil, reads sentences
// in cells.
func ODS(name string, data []byte, words table.Words) (parse.Document, error) {
	fail := func(err error) (parse.Document, error) {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	z, err := openZip(data)
	if err != nil {
		return fail(err)
	}
	part, err := openPart(z, "content.xml")
	if err != nil {
		return fail(err)
	}
	defer part.Close()
	if encryptedODF(z) {
		return fail(ErrEncrypted)
	}
	o := &odsReader{file: name, hidden: map[string]bool{}, raised: map[string]bool{}, looks: map[string]look{}}
	if err := tokens(part, o.start, o.end, o.text); err != nil {
		return fail(err)
	}
	if !o.spreadsheet {
		return fail(ErrFormat)
	}
	doc := readGrids(name, o.grids, words)
	doc.Problems = append(doc.Problems, o.problems...)
	return doc, nil
}

// encryptedODF reports a manifest that lists encrypted parts (OpenDocument
// 1.3, part 2, 4.4).
func encryptedODF(z *zip.Reader) bool {
	manifest, err := openPart(z, "META-INF/manifest.xml")
	if err != nil {
		return false
	}
	defer manifest.Close()
	text, err := io.ReadAll(manifest)
	return err == nil && bytes.Contains(text, []byte("encryption-data"))
}

// odsReader builds grids from the elements of content.xml.
type odsReader struct {
	file        string
	spreadsheet bool
	grids       []table.Grid
	problems    []parse.Problem

	style   string          // the table style being read
	hidden  map[string]bool // table styles that hide their sheet
	raised  map[string]bool // text styles above the line
	looks   map[string]look // of styles
	grid    *table.Grid
	skip    bool         // the sheet is hidden
	rows    int          // rows so far, repeats counted
	columns []hiddenSpan // hidden columns

	row       []table.Cell
	rowRepeat int
	rowHidden bool
	col       int // columns so far, repeats counted
	cells     int // of all sheets

	cell       *odsCell
	raisedSpan bool
	annotation int // depth within a note
	note       strings.Builder
}

type hiddenSpan struct{ from, to int }

type odsCell struct {
	kind, number, formula string
	repeat                int
	across, down          int
	look                  string
	text                  strings.Builder
	paragraphs            int
}

func (o *odsReader) start(e xml.StartElement) error {
	name := e.Name.Local
	switch {
	case e.Name.Space == "office" && name == "spreadsheet":
		o.spreadsheet = true
	case e.Name.Space == "office" && name == "annotation":
		o.annotation++
	case name == "style" && e.Name.Space == "style":
		o.style = attr(e, "name")
		o.looks[o.style] = look{}
	case name == "table-cell-properties" && o.looks[o.style] != nil:
		o.looks[o.style].fill(attr(e, "background-color"))
	case name == "table-properties" && attr(e, "display") == "false":
		o.hidden[o.style] = true
	case name == "text-properties" && strings.HasPrefix(attr(e, "text-position"), "super"):
		o.raised[o.style] = true
	case name == "text-properties" && o.looks[o.style] != nil:
		o.looks[o.style].text(e)
	case e.Name.Space == "table":
		return o.startTable(e)
	case e.Name.Space == "text" && o.cell != nil && o.annotation == 0:
		switch name {
		case "p":
			if o.cell.paragraphs++; o.cell.paragraphs > 1 {
				o.cell.text.WriteByte('\n')
			}
		case "line-break":
			o.cell.text.WriteByte('\n')
		case "s", "tab":
			o.cell.text.WriteByte(' ')
		case "span":
			o.raisedSpan = o.raised[attr(e, "style-name")]
		}
	}
	return nil
}

func (o *odsReader) startTable(e xml.StartElement) error {
	switch e.Name.Local {
	case "table":
		if len(o.grids) >= maxSheets {
			return ErrLimit
		}
		o.grid = &table.Grid{Name: attr(e, "name")}
		o.skip = o.hidden[attr(e, "style-name")]
		o.rows, o.columns, o.col = 0, nil, 0
	case "table-column":
		n := repeats(attr(e, "number-columns-repeated"))
		if v := attr(e, "visibility"); v != "" && v != "visible" {
			o.columns = append(o.columns, hiddenSpan{o.col, o.col + n})
		}
		o.col += n
	case "table-row":
		o.row, o.col = nil, 0
		o.rowRepeat = repeats(attr(e, "number-rows-repeated"))
		v := attr(e, "visibility")
		o.rowHidden = v != "" && v != "visible"
	case "table-cell", "covered-table-cell":
		o.cell = &odsCell{
			kind:    attr(e, "value-type"),
			number:  attr(e, "value"),
			formula: attr(e, "formula"),
			repeat:  repeats(attr(e, "number-columns-repeated")),
			across:  repeats(attr(e, "number-columns-spanned")),
			down:    repeats(attr(e, "number-rows-spanned")),
			look:    o.looks[attr(e, "style-name")].String(),
		}
	}
	return nil
}

// repeats reads a repeat count; at most what one sheet can have.
func repeats(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		return 1
	}
	return min(n, 1<<20)
}

func (o *odsReader) text(s []byte) {
	switch {
	case o.annotation > 0:
		if o.note.Len() < maxCell {
			o.note.Write(s)
		}
	case o.cell != nil && o.cell.paragraphs > 0 && o.cell.text.Len() < maxCell:
		if o.raisedSpan {
			o.cell.text.WriteString(raised(string(s)))
		} else {
			o.cell.text.Write(s)
		}
	}
}

func (o *odsReader) end(e xml.EndElement) {
	switch {
	case e.Name.Space == "office" && e.Name.Local == "annotation":
		o.annotation--
	case e.Name.Space == "text" && e.Name.Local == "span":
		o.raisedSpan = false
	case e.Name.Space != "table" || o.grid == nil:
	case e.Name.Local == "table-cell" || e.Name.Local == "covered-table-cell":
		o.endCell()
	case e.Name.Local == "table-row":
		o.endRow()
	case e.Name.Local == "table":
		if o.skip {
			if holdsNumbers(*o.grid) {
				o.problems = append(o.problems, hiddenSheet(o.file, o.grid.Name))
			}
		} else {
			o.grids = append(o.grids, *o.grid)
		}
		o.grid = nil
	}
}

func (o *odsReader) endCell() {
	if o.cell == nil {
		return
	}
	place := cellName(o.grid.Name, o.rows, o.col)
	c := o.cell.made(place)
	if o.rowHidden || o.columnHidden(o.col) {
		if strings.ContainsAny(c.Text, "0123456789") {
			c.Code = parse.CodeHidden
		}
	}
	c.Note = short(o.note.String())
	o.note.Reset()
	n := o.cell.repeat
	empty := c.Text == "" && c.Code == "" && c.Note == ""
	for i := 0; i < n && o.col+i < maxCols; i++ {
		c.Place = cellName(o.grid.Name, o.rows, o.col+i)
		o.row = append(o.row, c)
		if empty {
			c.Across, c.Down = 0, 0
		}
	}
	o.col += n
	o.cell = nil
}

func (o *odsReader) columnHidden(c int) bool {
	for _, s := range o.columns {
		if c >= s.from && c < s.to {
			return true
		}
	}
	return false
}

func (c *odsCell) made(place string) table.Cell {
	shown := short(lowered(c.text.String()))
	out := table.Cell{Text: shown, Place: place}
	switch c.kind {
	case "float", "currency":
		if number, err := strconv.ParseFloat(c.number, 64); err == nil && shown != "" {
			out = numberCell(shown, number, place)
		}
	case "date", "time":
		out.Code = parse.CodeDate
	case "":
		if c.formula != "" && shown == "" {
			out.Text, out.Code = short("="+strings.TrimPrefix(c.formula, "of:=")), parse.CodeFormula
		}
	}
	out.Across, out.Down, out.Look = c.across, c.down, c.look
	return out
}

// endRow adds the row, as often as it is repeated; empty rows at the end of a
// sheet are repeated a million times and are dropped.
func (o *odsReader) endRow() {
	for len(o.row) > 0 && o.row[len(o.row)-1].Text == "" && o.row[len(o.row)-1].Code == "" && o.row[len(o.row)-1].Note == "" {
		o.row = o.row[:len(o.row)-1]
	}
	if len(o.row) == 0 {
		for i := 0; i < o.rowRepeat && o.rows+i < maxRow && i < maxRows; i++ {
			o.grid.Rows = append(o.grid.Rows, nil)
		}
		o.rows += o.rowRepeat
		return
	}
	for i := 0; i < o.rowRepeat; i++ {
		if o.cells += len(o.row); o.cells > maxCells || o.rows >= maxRow || len(o.grid.Rows) >= 2*maxRows || i >= maxRows {
			o.problems = append(o.problems, tooLarge(o.file, o.grid.Name))
			break
		}
		row := make([]table.Cell, len(o.row))
		for c, cell := range o.row {
			cell.Place = cellName(o.grid.Name, o.rows, c)
			row[c] = cell
		}
		o.grid.Rows = append(o.grid.Rows, row)
		o.rows++
	}
}
