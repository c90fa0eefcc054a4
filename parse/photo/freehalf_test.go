package photo

import (
	"image"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// A half is read as such when it is one small sign, or comes apart; a number of
// digits that look alike is none.
func TestHalfSigns(t *testing.T) {
	parsed, err := opentype.Parse(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: 44, DPI: 72})
	if err != nil {
		t.Fatal(err)
	}
	defer face.Close()
	texts := []string{"44½", "112", "38½", "412", "50½", "72", "63½", "42"}
	page := image.NewGray(image.Rect(0, 0, 500, 80*(len(texts)+2)))
	for i := range page.Pix {
		page.Pix[i] = 220
	}
	for i, text := range texts {
		d := font.Drawer{Dst: page, Src: image.Black, Face: face, Dot: fixed.P(150, 80*(i+1)+60)}
		for _, sign := range text {
			d.DrawString(string(sign))
			d.Dot.X += fixed.I(3) // so that none touch
		}
	}
	f, ok := newFreePage(&plane{w: page.Rect.Dx(), h: page.Rect.Dy(), pix: page.Pix})
	if !ok {
		t.Fatal("no page is seen")
	}
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	glances := 0
	lines, ok := reader.lines(f, &glances)
	if !ok || len(lines) != len(texts) {
		t.Fatalf("%d lines, want %d", len(lines), len(texts))
	}
	for i, line := range lines {
		want := strings.Replace(texts[i], "½", " 1/2", 1)
		if got := cellOf(line).text; got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The numbers of a sheet's rows are no stations, whether those are read or not.
func TestRowNumbers(t *testing.T) {
	const heads = 5 // rows above the table
	stations := []string{"1", "2", "3", "4", "5", "6", "7"}
	for name, c := range map[string]struct {
		stations bool
		read     bool
	}{"with stations": {true, true}, "without": {false, false}} {
		var lines [][]freeGlyph
		for i := range heads {
			lines = append(lines, append(signs(stations[i], 10, float64(i)), signs("~~~~", 80, float64(i))...))
		}
		for i, s := range stations {
			y := float64(heads + i)
			line := signs([]string{"6", "7", "8", "9", "10", "11", "12"}[i], 10, y)
			if c.stations {
				line = append(line, signs(s, 80, y)...)
			}
			line = append(append(line, signs("4"+s, 160, y)...), signs("6"+s, 240, y)...)
			lines = append(lines, line)
		}
		table, ok := tableFrom(lines, 20, asRead{})
		if ok != c.read {
			t.Errorf("%s: a table is read: %v", name, ok)
		}
		if ok && (table.stations != 0 || table.cells[0][0].text != "1" || table.cells[0][1].text != "41") {
			t.Errorf("%s: read %+v", name, table.cells)
		}
	}
}
