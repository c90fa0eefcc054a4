package sheet

import (
	"bytes"
	"fmt"
	"strings"

	"fairtape/reply/cover"
)

// DXF draws the panels at true scale as DXF of release 12 (AC1009), the unit a
// millimetre, with a check line. Release 12 has no entry for the unit, so a
// comment and a text say it.
func DXF(s *cover.CutSheet) ([]byte, error) {
	all, w, h := figures(s)
	return dxfOf(all, w, h), nil
}

func dxfOf(all []figure, w, h float64) []byte {
	d := &dxf{}
	d.pair(999, "Unit: millimetre, scale 1:1")
	d.pair(0, "SECTION")
	d.pair(2, "HEADER")
	d.pair(9, "$ACADVER")
	d.pair(1, "AC1009")
	d.pair(9, "$EXTMIN")
	d.point(Point{})
	d.pair(9, "$EXTMAX")
	d.point(Point{X: w, Y: h})
	d.pair(0, "ENDSEC")
	d.tables()
	d.pair(0, "SECTION")
	d.pair(2, "ENTITIES")
	for _, f := range all {
		d.figure(f, h)
	}
	d.pair(0, "ENDSEC")
	d.pair(0, "EOF")
	return d.b.Bytes()
}

// dxf writes pairs of a group code and a value, each on a line of its own.
type dxf struct{ b bytes.Buffer }

func (d *dxf) pair(code int, value string) {
	fmt.Fprintf(&d.b, "%3d\r\n%s\r\n", code, value)
}

func (d *dxf) number(code int, v float64) { d.pair(code, fmt.Sprintf("%.3f", v)) }

func (d *dxf) point(q Point) {
	d.number(10, q.X)
	d.number(20, q.Y)
	d.number(30, 0)
}

// tables names the line type and the layers with their colours (AutoCAD's
// colour numbers: 7 black or white, 5 blue, 1 red).
func (d *dxf) tables() {
	layers := []struct {
		name   string
		colour string
	}{{layerCut, "7"}, {layerSew, "5"}, {layerGuess, "5"}, {layerMark, "1"}, {layerText, "7"}, {layerCheck, "1"}}
	d.pair(0, "SECTION")
	d.pair(2, "TABLES")
	d.pair(0, "TABLE")
	d.pair(2, "LTYPE")
	d.pair(70, "1")
	d.pair(0, "LTYPE")
	d.pair(2, "CONTINUOUS")
	d.pair(70, "0")
	d.pair(3, "Solid line")
	d.pair(72, "65")
	d.pair(73, "0")
	d.number(40, 0)
	d.pair(0, "ENDTAB")
	d.pair(0, "TABLE")
	d.pair(2, "LAYER")
	d.pair(70, fmt.Sprint(len(layers)))
	for _, l := range layers {
		d.pair(0, "LAYER")
		d.pair(2, l.name)
		d.pair(70, "0")
		d.pair(62, l.colour)
		d.pair(6, "CONTINUOUS")
	}
	d.pair(0, "ENDTAB")
	d.pair(0, "ENDSEC")
}

// figure writes a line or a text; the drawing is turned over, since Y rises in
// DXF.
func (d *dxf) figure(f figure, h float64) {
	turned := func(q Point) Point { return Point{X: q.X, Y: h - q.Y} }
	if f.text != "" {
		d.pair(0, "TEXT")
		d.pair(8, f.layer)
		d.point(turned(f.line[0]))
		d.number(40, f.size*capHeight)
		d.pair(1, ascii(f.text))
		return
	}
	if len(f.line) == 2 {
		a, b := turned(f.line[0]), turned(f.line[1])
		d.pair(0, "LINE")
		d.pair(8, f.layer)
		d.point(a)
		d.number(11, b.X)
		d.number(21, b.Y)
		d.number(31, 0)
		return
	}
	d.pair(0, "POLYLINE")
	d.pair(8, f.layer)
	d.pair(66, "1")
	d.point(Point{})
	closed := "0"
	if f.closed {
		closed = "1"
	}
	d.pair(70, closed)
	for _, q := range f.line {
		d.pair(0, "VERTEX")
		d.pair(8, f.layer)
		d.point(turned(q))
	}
	d.pair(0, "SEQEND")
	d.pair(8, f.layer)
}

// capHeight is the height of capitals over the size of type; DXF texts are
// given by the former.
const capHeight = 0.7

// ascii writes other characters as the release has them, \U+ and four digits; a
// percent sign would begin a control code.
func ascii(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '%':
			b.WriteString("%%%")
		case r < 0x20 || r == 0x7F:
			b.WriteByte(' ')
		case r > 0x7E:
			fmt.Fprintf(&b, "\\U+%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
