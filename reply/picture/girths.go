package picture

import (
	"fmt"
	"math"
	"strings"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// mark is one girth on a panel.
type mark struct {
	at       parse.Length
	value    parse.Length
	measure  parse.Measure
	greatest bool // of the greatest pair, drawn as a square
	odd      *validate.Finding
}

// oddFindings are the findings that the picture rings: everything that is asked
// of the customer about girths.
func oddFindings(report validate.Report) []validate.Finding {
	var odd []validate.Finding
	for _, f := range report.Findings {
		girths := f.Cell.Measure == "" || girthName(f.Cell.Measure) != "girths" || isPair(f.Cell.Measure)
		if (f.Kind == validate.Recheck || f.Kind == validate.Confirm) && girths {
			odd = append(odd, f)
		}
	}
	return odd
}

func isPair(m parse.Measure) bool {
	return m == parse.MeasurePair || m == parse.GreatestPair || m == parse.TransomPair
}

// cellPlace is where along the boat a cell lies.
func cellPlace(c parse.Cell, s parse.Survey) (parse.Length, bool) {
	switch c.Measure {
	case parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestPair:
		return s.Greatest.At.Value, s.Greatest.At.Known
	case parse.TransomHullGirth, parse.TransomFullGirth, parse.TransomPair:
		return s.LengthOverall.Value, s.LengthOverall.Known
	}
	return c.At, c.At > 0
}

// mostRows is how many rows a finding may be about and still be ringed; one
// about the whole column is told in the title alone.
const mostRows = 3

func wholeColumn(f validate.Finding) bool {
	return len(f.Rows) > mostRows && f.Slip != slip.RowSkipped
}

// concerns reports whether a finding is about a girth.
func concerns(f validate.Finding, at parse.Length, m parse.Measure) bool {
	if wholeColumn(f) {
		return false
	}
	for _, row := range f.Rows {
		// Of skipped rows the first marks the place.
		if row == at && (f.Slip != slip.RowSkipped || row == f.Rows[0]) {
			return m == parse.HullGirth || m == parse.FullGirth
		}
	}
	if f.Cell.Measure == m {
		return f.Cell.At == at || m != parse.HullGirth && m != parse.FullGirth
	}
	switch f.Cell.Measure {
	case parse.MeasurePair:
		return f.Cell.At == at && (m == parse.HullGirth || m == parse.FullGirth)
	case parse.GreatestPair:
		return m == parse.GreatestHullGirth || m == parse.GreatestFullGirth
	case parse.TransomPair:
		return m == parse.TransomHullGirth || m == parse.TransomFullGirth
	}
	return false
}

// marks are the girths of one panel, from bow to stern.
func marks(report validate.Report, full bool) []mark {
	s := report.Survey
	odd := oddFindings(report)
	var all []mark
	add := func(at parse.Length, p parse.Pair, hullName, fullName parse.Measure) {
		r, m := p.HullGirth, hullName
		if full {
			r, m = p.FullGirth, fullName
		}
		if !r.Known || math.IsNaN(float64(r.Value)) || math.IsInf(float64(r.Value), 0) {
			return
		}
		k := mark{at: at, value: r.Value, measure: m, greatest: m == parse.GreatestHullGirth || m == parse.GreatestFullGirth}
		for i := range odd {
			if concerns(odd[i], at, m) {
				k.odd = &odd[i]
				break
			}
		}
		all = append(all, k)
	}
	for _, station := range s.Stations {
		add(station.At, station.Pair, parse.HullGirth, parse.FullGirth)
	}
	if s.LengthOverall.Known {
		add(s.LengthOverall.Value, s.Transom, parse.TransomHullGirth, parse.TransomFullGirth)
	}
	if s.Greatest.At.Known {
		add(s.Greatest.At.Value, s.Greatest.Pair, parse.GreatestHullGirth, parse.GreatestFullGirth)
	}
	return all
}

func countGirths(s parse.Survey) int {
	n := 0
	for _, station := range s.Stations {
		for _, r := range []parse.Reading{station.HullGirth, station.FullGirth} {
			if r.Known {
				n++
			}
		}
	}
	return n
}

// Sizes in pixels. A telephone shows the picture at about a third of its width,
// so that 36 becomes 12.
const (
	shopWidth   = 1200
	shopHeight  = 1320
	marginLeft  = 120
	marginRight = 40
	titleSize   = 50
	labelSize   = 36
	tickSize    = 34
	dotRadius   = 9
	ringRadius  = 24
)

// ForShop draws the girths along the boat in two panels, with the fair curve,
// its band of two standard deviations, and every odd point ringed and named. It
// shows expected values and must never reach a customer.
func ForShop(report validate.Report) (Picture, error) {
	c, err := newCanvas(shopWidth, shopHeight)
	if err != nil {
		return Picture{}, err
	}
	head := title(report)
	if err := c.headline(head, 40, 80); err != nil {
		return Picture{}, err
	}
	if countGirths(report.Survey) == 0 {
		if err := c.typeface(regular, labelSize); err != nil {
			return Picture{}, err
		}
		c.write("There is nothing to draw yet.", 40, 150, 0, grey)
		return finish(c, head+".")
	}
	if err := c.typeface(regular, labelSize); err != nil {
		return Picture{}, err
	}
	axis := newAxis(report)
	top := &panel{canvas: c, report: report, axis: axis, full: true, top: 130, bottom: 640}
	low := &panel{canvas: c, report: report, axis: axis, top: 700, bottom: 1210}
	for _, p := range []*panel{top, low} {
		p.draw()
	}
	axis.names(c, low.bottom)
	return finish(c, shopAlt(report, head))
}

// headline writes the title, smaller where it would not fit.
func (c *canvas) headline(text string, x, y float64) error {
	if err := c.typeface(bold, titleSize); err != nil {
		return err
	}
	if w, _ := c.MeasureString(text); w > shopWidth-2*x {
		if err := c.typeface(bold, titleSize*(shopWidth-2*x)/w); err != nil {
			return err
		}
	}
	c.write(text, x, y, 0, ink)
	return nil
}

// shopAlt is the picture in words, for the shop.
func shopAlt(report validate.Report, head string) string {
	s := report.Survey
	var b strings.Builder
	fmt.Fprintf(&b, "%s. Chart of full girth and hull girth along the boat at %d stations", strings.TrimRight(head, "?."), len(s.Stations))
	if report.Curve != nil {
		b.WriteString(", with the fair curve")
	}
	b.WriteString(".")
	for _, f := range oddFindings(report) {
		if len(f.Rows) > 0 && !wholeColumn(f) {
			fmt.Fprintf(&b, " Ringed: the row at %s, %s.", place(f.Rows[0], s.Unit, "en"), slipWords(f.Slip))
		}
		if where, ok := cellPlace(f.Cell, s); ok {
			fmt.Fprintf(&b, " Ringed: %s at %s, %s.", girthName(f.Cell.Measure), place(where, s.Unit, "en"),
				strings.Join(labelLines(f, f.Read, s.Unit), ", "))
		}
	}
	return b.String()
}

// labelLines say what is odd about a point.
func labelLines(f validate.Finding, read *parse.Length, unit parse.Unit) []string {
	var numbers []string
	if read != nil {
		numbers = append(numbers, "read "+number(*read, unit))
	}
	if f.Expected != nil {
		numbers = append(numbers, "expected "+number(nearest(*f.Expected, unit), unit))
	}
	var lines []string
	if len(numbers) > 0 {
		lines = append(lines, strings.Join(numbers, ", "))
	}
	if words := slipWords(f.Slip); words != "" {
		lines = append(lines, words+"?")
	}
	return lines
}
