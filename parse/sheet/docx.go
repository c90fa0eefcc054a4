package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// DOCX reads the tables and the paragraphs of a text document (ECMA-376 part
// 1, 17), its text boxes, headers and footers among them. Deleted and struck
// text is no text; inserted text is. Words, unless nil, reads paragraphs that are typed
// like a mail. The error is ErrFormat, ErrLimit, ErrEncrypted or ErrOldFormat.
func DOCX(name string, data []byte, words table.Words) (parse.Document, error) {
	z, err := openZip(data)
	if err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	numbered, err := numberedLists(z)
	if err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	d := &docxReader{numbered: numbered, counts: map[string]int{}, beside: map[noteID]string{}, look: look{}}
	for _, part := range notesParts {
		if err := d.notes(z, part); err != nil {
			return parse.Document{}, fmt.Errorf("%s: %w", name, err)
		}
	}
	if err := d.read(z, "word/document.xml"); err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	for i := 1; i <= headersMost; i++ {
		for _, kind := range []string{"header", "footer"} {
			d.where = fmt.Sprintf("%s %d, ", kind, i)
			err := d.read(z, fmt.Sprintf("word/%s%d.xml", kind, i))
			if err != nil && !errors.Is(err, errNoPart) {
				return parse.Document{}, fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	line := func(g table.Grid, row int) string {
		for _, c := range g.Rows[row] {
			if c.Text != "" {
				return c.Place
			}
		}
		return g.Name
	}
	doc := table.OrWords(table.Read(name, d.grids), d.grids, words, line)
	d.unplacedNotes()
	heedNotes(&doc, d.grids)
	doc.Remarks = append(doc.Remarks, noteRemarks(name, d.grids)...)
	for _, p := range d.problems {
		p.Source.File = name
		doc.Problems = append(doc.Problems, p)
	}
	return doc, nil
}

// headersMost is how many headers and footers are looked at: three of each, for
// the first page, even and odd ones, in a few sections.
const headersMost = 9

func (d *docxReader) read(z *zip.Reader, name string) error {
	part, err := openPart(z, name)
	if err != nil {
		return err
	}
	defer part.Close()
	if err := tokens(part, d.start, d.end, d.chars); err != nil {
		return err
	}
	d.closeParagraphs()
	return nil
}

// docxReader builds grids from the elements of document.xml: one for each
// table, one for each run of paragraphs between tables.
type docxReader struct {
	grids  []table.Grid
	tables []*docxTable // open ones, the innermost last
	count  int          // tables so far
	cells  int

	loose     [][]table.Cell // paragraphs outside tables
	typed     []string       // and as they were typed
	looseLine int
	text      strings.Builder
	inText    bool
	inRun     bool
	strike    bool // the run is struck out
	vanish    bool // or hidden
	raised    bool // and stands above the line
	struck    strings.Builder
	skip      int // depth within what is not shown

	controls []bool          // open content controls: whether their text is only a prompt
	problems []parse.Problem // without the name of the file
	where    string          // before the places of a header or footer
	numbered map[string]bool // lists that are counted 1, 2, 3, by number
	counts   map[string]int
	list     string            // the list of this paragraph
	beside   map[noteID]string // comments and footnotes that no text has pointed to
	runLook  look              // of this run
	look     look              // of this paragraph, or cell
	note     string            // what those of this paragraph, or cell, say
}

type docxTable struct {
	number int
	grid   table.Grid
	row    []table.Cell
	cell   *table.Cell
	struck string // what is struck out in the cell
}

// unshown are elements whose text is not on the page, or is there twice.
var unshown = map[string]bool{"Fallback": true, "del": true, "moveFrom": true, "instrText": true}

// off is how a property says that it does not hold (ECMA-376 part 1, 17.17.4).
var off = map[string]bool{"0": true, "false": true, "off": true}

func (d *docxReader) start(e xml.StartElement) error {
	name := e.Name.Local
	if unshown[name] || d.skip > 0 {
		d.skip++
		return nil
	}
	switch name {
	case "tbl":
		title := d.lastParagraph()
		d.closeParagraphs()
		d.count++
		d.tables = append(d.tables, &docxTable{number: d.count, grid: table.Grid{Name: fmt.Sprintf("table %d", d.count), Title: title}})
	case "tr":
		if t := d.top(); t != nil {
			if len(t.grid.Rows) >= 2*maxRows {
				return ErrLimit
			}
			t.row = nil
		}
	case "tc":
		if t := d.top(); t != nil {
			if d.cells++; d.cells > maxCells || len(t.row) > maxCols {
				return ErrLimit
			}
			t.row = append(t.row, table.Cell{Place: fmt.Sprintf("table %d, row %d, column %d", t.number, len(t.grid.Rows)+1, len(t.row)+1)})
			t.cell = &t.row[len(t.row)-1]
		}
	case "txbxContent": // a box stands by itself, whatever paragraph holds it
		d.endParagraph()
	case "numId":
		d.list = attr(e, "val")
	case "gridBefore": // the row begins further right
		if t := d.top(); t != nil && t.cell == nil {
			n, _ := strconv.Atoi(attr(e, "val"))
			for range min(max(n, 0), maxCols) {
				t.row = append(t.row, table.Cell{})
			}
		}
	case "sdt":
		d.controls = append(d.controls, false)
	case "showingPlcHdr":
		if n := len(d.controls); n > 0 {
			d.controls[n-1] = !off[attr(e, "val")]
		}
	case "gridSpan":
		if t := d.top(); t != nil && t.cell != nil {
			t.cell.Across, _ = strconv.Atoi(attr(e, "val"))
			t.cell.Across = min(max(t.cell.Across, 1), maxCols)
		}
	case "t":
		d.inText = true
	case "r":
		d.inRun, d.strike, d.raised, d.vanish, d.runLook = true, false, false, false, look{}
	case "highlight", "shd", "color", "b", "i", "u":
		d.seeLook(name, e)
	case "strike", "dstrike":
		d.strike = d.inRun && !off[attr(e, "val")]
	case "vanish":
		d.vanish = d.inRun && !off[attr(e, "val")]
	case "vertAlign":
		d.raised = d.inRun && attr(e, "val") == "superscript"
	case "tab", "ptab":
		if d.inRun { // elsewhere it is a tab stop
			d.text.WriteByte('\t')
		}
	case "br", "cr":
		d.text.WriteByte('\n')
	case "noBreakHyphen":
		d.text.WriteByte('-')
	case "commentReference", "footnoteReference", "endnoteReference":
		d.pointTo(noteID{strings.TrimSuffix(name, "Reference"), attr(e, "id")})
	case "sym":
		d.text.WriteString(symbol(attr(e, "char")))
	}
	return nil
}

func (d *docxReader) chars(s []byte) {
	text := &d.text
	if d.strike {
		text = &d.struck
	}
	if !d.inText || d.skip > 0 || text.Len() >= maxCell || slices.Contains(d.controls, true) {
		return
	}
	if d.vanish {
		d.hidden(string(s))
		return
	}
	for word := range d.runLook {
		d.look.add(word)
	}
	if d.raised {
		text.WriteString(raised(string(s)))
		return
	}
	text.Write(s)
}

func (d *docxReader) end(e xml.EndElement) {
	if d.skip > 0 {
		d.skip--
		return
	}
	t := d.top()
	switch e.Name.Local {
	case "t":
		d.inText = false
	case "sdt":
		d.controls = d.controls[:max(len(d.controls)-1, 0)]
	case "r":
		d.inRun, d.strike, d.raised, d.vanish = false, false, false, false
	case "p":
		d.endParagraph()
	case "tc":
		if t == nil || t.cell == nil {
			return
		}
		t.cell.Text, t.cell.Code = unstruck(t.cell.Text, t.struck)
		t.struck = ""
		t.cell.Note, t.cell.Look = d.note, d.look.String()
		d.note, d.look = "", look{}
		// A cell over several columns stands in the first of them.
		for i := 1; i < t.cell.Across && len(t.row) < maxCols; i++ {
			t.row = append(t.row, table.Cell{})
		}
		t.cell = nil
	case "tr":
		if t != nil {
			t.grid.Rows = append(t.grid.Rows, t.row)
		}
	case "tbl":
		if t != nil {
			d.grids = append(d.grids, t.grid)
			d.tables = d.tables[:len(d.tables)-1]
		}
	}
}

func (d *docxReader) endParagraph() {
	text, struck := lowered(d.text.String()), d.struck.String()
	d.text.Reset()
	d.struck.Reset()
	if d.list != "" && d.numbered[d.list] && strings.TrimSpace(text) != "" {
		d.counts[d.list]++
		text = fmt.Sprintf("%d. %s", d.counts[d.list], text)
	}
	d.list = ""
	if t := d.top(); t != nil {
		if t.cell != nil && strings.TrimSpace(text+struck) != "" {
			t.cell.Text = short(strings.TrimSpace(t.cell.Text + "\n" + strings.ReplaceAll(text, "\t", " ")))
			t.struck = short(t.struck + " " + struck)
		}
		return
	}
	text, code := unstruck(text, struck)
	for _, line := range strings.Split(text, "\n") {
		d.looseLine++
		if len(d.loose) >= maxRows {
			continue
		}
		place := fmt.Sprintf("%sparagraph %d", d.where, d.looseLine)
		cells := paragraphCells(line, place)
		cells[0].Code = code
		for i := range cells {
			cells[i].Note, cells[i].Look = d.note, d.look.String()
		}
		d.loose = append(d.loose, cells)
		d.typed = append(d.typed, short(strings.ReplaceAll(line, "\t", "   ")))
	}
	d.note, d.look = "", look{}
}

// A paragraph is divided at tabs, runs of spaces and the dots or lines of a form,
// and after a number at a comma or semicolon that words follow: "Bow height 18
// 1/2, stern height 17".
var (
	paragraphGap  = regexp.MustCompile(`(?:\t| {3,}|[ \t]*(?:_{3,}|\.{4,}|…{2,})[ \t]*)+`)
	paragraphItem = regexp.MustCompile(`(\d[^;,\t]*)[;,]\s+(\pL)`)
)

func paragraphCells(line, place string) []table.Cell {
	line = paragraphItem.ReplaceAllString(line, "$1\t$2")
	var cells []table.Cell
	for i, text := range paragraphGap.Split(line, maxCols) {
		p := place
		if i > 0 {
			p = fmt.Sprintf("%s, part %d", place, i+1)
		}
		cells = append(cells, table.Cell{Text: short(text), Place: p})
	}
	return cells
}

// closeParagraphs makes a grid of the paragraphs so far.
func (d *docxReader) closeParagraphs() {
	if len(d.tables) > 0 || len(d.loose) == 0 {
		return
	}
	d.grids = append(d.grids, table.Grid{Name: "the text", Rows: d.loose, Typed: d.typed})
	d.loose, d.typed = nil, nil
}
