package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/reply/replytest"
)

// Whatever customer, boat, shop and colour are called, a cut sheet has the
// structure of any other.
func TestHostileNames(t *testing.T) {
	s := sample(t, cover.Sides, parse.Inch, false)
	all, w, h := figures(s)
	wantPairs := bytes.Count(dxfOf(all, w, h), []byte("\n"))
	for _, name := range replytest.Hostile() {
		s.Customer, s.Boat, s.Shop, s.Order.Cloth.Name, s.Order.Cloth.Colour = name, name, name, name, name
		drawing, err := DXF(s)
		if err != nil {
			t.Fatal(err)
		}
		if got := bytes.Count(drawing, []byte("\n")); got != wantPairs {
			t.Errorf("%.60q: the DXF has %d lines, want %d", name, got, wantPairs)
		}
		for _, c := range drawing {
			if c > 0x7E || c < 0x20 && c != '\n' && c != '\r' {
				t.Errorf("%.60q: the DXF holds the character %#x", name, c)
				break
			}
		}
		picture, err := SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		wellFormed(t, name, picture)
	}
	for _, name := range replytest.Hostile() {
		if strings.Contains(name, strings.Repeat("word ", 100)) || len(name) > 200 {
			continue // cut to the same few words; a workbook takes its time
		}
		s.Customer, s.Boat, s.Shop, s.Order.Cloth.Name, s.Order.Cloth.Colour = name, name, name, name, name
		book, err := XLSX(s)
		if err != nil {
			t.Fatal(err)
		}
		noFormulas(t, name, book)
	}
}

// wellFormed asserts that a picture is XML of shapes and texts only.
func wellFormed(t *testing.T, name string, picture []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(picture))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Errorf("%.60q: the SVG is broken: %v", name, err)
			return
		}
		if start, ok := token.(xml.StartElement); ok {
			switch start.Name.Local {
			case "svg", "title", "desc", "g", "polyline", "polygon", "text":
			default:
				t.Errorf("%.60q: the SVG holds <%s>", name, start.Name.Local)
			}
		}
	}
}

// noFormulas asserts that on the first sheet, which holds the names, nothing is
// computed.
func noFormulas(t *testing.T, name string, book []byte) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Errorf("%.60q: %v", name, err)
		return
	}
	defer f.Close() //nolint:errcheck // it was read from memory
	rows, err := f.GetRows(frontSheet)
	if err != nil {
		t.Fatal(err)
	}
	for r := range rows {
		for c := range rows[r] {
			at := cell(c+1, r+1)
			if formula, err := f.GetCellFormula(frontSheet, at); err != nil || formula != "" {
				t.Errorf("%.60q: %s holds the formula %q, %v", name, at, formula, err)
			}
		}
	}
}
