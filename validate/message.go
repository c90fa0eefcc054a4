package validate

import (
	"fmt"
	"strconv"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// message is what the shop reads of a finding.
func message(f Finding, unit parse.Unit) string {
	m := place(f.Cell, unit)
	if f.Cell.Measure == "" && len(f.Rows) > 0 {
		m = "the row at " + distance(f.Rows[0], unit)
	}
	if f.Read != nil {
		m += " reads " + number(*f.Read, unit)
	}
	if f.Expected != nil {
		m += fmt.Sprintf(", expected about %s", number(*f.Expected, unit))
	}
	if w, ok := likely[f.Slip]; ok {
		m += "; likely " + w
	}
	return m
}

// likely says each slip in the trade's words.
var likely = map[slip.Kind]string{
	slip.OffByTen:         "a ten dropped or added",
	slip.Transposed:       "two digits changed places",
	slip.OffByFoot:        "read from the wrong foot mark",
	slip.Digit:            "one digit misread or miswritten",
	slip.MisreadTape:      "the tape twisted, slack or hung on something",
	slip.SwappedPair:      "hull girth and full girth swapped",
	slip.RowRepeated:      "the row before written twice",
	slip.RowSkipped:       "a station skipped here",
	slip.MetricEdge:       "read from the other edge of the tape",
	slip.DecimalLost:      "a decimal point lost",
	slip.FeetInchesJoined: "feet and inches run together",
	slip.FromStern:        "stations counted from the stern",
	slip.OpeningForFull:   "the opening noted in place of the full girth",
	slip.HalfGirth:        "girth to the keel only",
	slip.TapeOffset:       "the tape's end is cut off",
	slip.TapeLength:       "the tape too short and its length not added",
	slip.Unknown:          "a slip of no known kind",
}

var names = map[parse.Measure]string{
	parse.HullGirth:         "hull girth",
	parse.FullGirth:         "full girth",
	parse.MeasurePair:       "hull girth and full girth",
	parse.LengthOverall:     "length overall",
	parse.BowHeight:         "bow height",
	parse.SternHeight:       "stern height",
	parse.CarryPoint:        "carry point",
	parse.GreatestAt:        "place of the greatest girth",
	parse.GreatestHullGirth: "hull girth at the greatest",
	parse.GreatestFullGirth: "full girth at the greatest",
	parse.GreatestPair:      "pair at the greatest girth",
	parse.GreatestOpening:   "opening at the greatest girth",
	parse.TransomHullGirth:  "hull girth at the transom",
	parse.TransomFullGirth:  "full girth at the transom",
	parse.TransomPair:       "pair at the transom",
}

// place names a number: "hull girth at 7 ft".
func place(c parse.Cell, unit parse.Unit) string {
	if c.At > 0 {
		return names[c.Measure] + " at " + distance(c.At, unit)
	}
	return names[c.Measure]
}

// distance writes a station's distance: "7 ft", "7 ft 6 in", "210 cm".
func distance(l parse.Length, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return number(l, unit)
	}
	const inchesPerFoot = 12
	in := l.In(parse.Inch)
	feet := int(in) / inchesPerFoot
	rest := in - float64(feet*inchesPerFoot)
	if rest == 0 {
		return fmt.Sprintf("%d ft", feet)
	}
	return fmt.Sprintf("%d ft %s", feet, number(parse.Inches(rest), parse.Inch))
}

// number writes a length to the tenth in the customer's unit.
func number(l parse.Length, unit parse.Unit) string {
	if unit != parse.Centimetre {
		unit = parse.Inch
	}
	return strconv.FormatFloat(float64(int(l.In(unit)*10+0.5))/10, 'f', -1, 64) + " " + string(unit)
}
