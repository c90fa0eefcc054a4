// Package sheet writes a cut sheet as files: a PDF for the cutting table, an xlsx
// whose allowances can be changed, SVG and DXF at true scale for a plotter or
// projector, and a PDF of the panels at full size over many pages.
//
// The same sheet gives the same bytes. Text from outside is cleaned before it is
// written, and never runs as a formula.
package sheet

import (
	"strings"
	"unicode"

	"fairtape/parse"
	"fairtape/reply/cover"
)

// Point is a place on flat cloth, in inches.
type Point = cover.Point

// Paper is a size of paper.
type Paper string

// The papers.
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// size returns width and height in millimetres, upright.
func (p Paper) size() (w, h float64) {
	if p == A4 {
		return 210, 297
	}
	return 215.9, 279.4
}

// PaperFor is the paper that people who measure in a unit have at hand.
func PaperFor(unit parse.Unit) Paper {
	if unit == parse.Centimetre {
		return A4
	}
	return Letter
}

const mmPerInch = 25.4

// longestText is how much of a text from outside is shown.
const longestText = 80

// clean makes a text from outside fit to be printed: one line, no control or
// invisible characters, not too long.
func clean(text string) string {
	text = strings.Join(strings.Fields(strings.ToValidUTF8(text, "?")), " ")
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r > 0xFFFF {
			return -1
		}
		return r
	}, text)
	if r := []rune(text); len(r) > longestText {
		return string(r[:longestText-1]) + "…"
	}
	return text
}

// CheckLine is what stands at the check line of every drawing.
const CheckLine = "measure me before cutting"

// checkLength is the length of the check lines: 8 in, or 200 mm where the
// survey is metric.
func checkLength(s *cover.CutSheet) (mm float64, words string) {
	if cover.UnitName(s.Unit) == "mm" {
		return 200, "200 mm"
	}
	return 8 * mmPerInch, "8 in"
}

// smallCheck is checkLength for pages that have no room for it: half of it.
func smallCheck(s *cover.CutSheet) (mm float64, words string) {
	if cover.UnitName(s.Unit) == "mm" {
		return 100, "100 mm"
	}
	return 4 * mmPerInch, "4 in"
}

// shown returns a point of the panel as the panel is shown and cut: its top up
// on a side, its bow to the left else, the outer face towards the eye.
func shown(p cover.Panel, q Point) Point {
	if p.Mirrored {
		q.X = -q.X
	}
	if !p.Middle {
		q.X, q.Y = -q.X, -q.Y
	}
	return q
}

func shownAll(p cover.Panel, points []Point) []Point {
	out := make([]Point, len(points))
	for i, q := range points {
		out[i] = shown(p, q)
	}
	return out
}

// bounds returns the corners of the box around points.
func bounds(points []Point) (least, most Point) {
	least, most = points[0], points[0]
	for _, q := range points {
		least = Point{X: min(least.X, q.X), Y: min(least.Y, q.Y)}
		most = Point{X: max(most.X, q.X), Y: max(most.Y, q.Y)}
	}
	return least, most
}
