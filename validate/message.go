package validate

import (
	"math"
	"strconv"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// message is what the shop reads of a finding from the fair curve: one
// sentence.
func message(f Finding, unit parse.Unit) string {
	m := place(f.Cell, unit)
	if f.Cell.Measure == "" {
		m = rows(f.Rows, unit)
	}
	if f.Read != nil {
		m += " reads " + number(*f.Read, unit)
	}
	if f.Expected != nil {
		m += ", expected about " + number(*f.Expected, unit)
	}
	if f.Cell.Measure == "" || f.Cell.Measure == parse.MeasurePair {
		return m + ": likely " + likely(f.Slip)
	}
	if f.Suggest != nil {
		return m + "; likely " + likely(f.Slip) + ", " + number(*f.Suggest, unit) + " meant"
	}
	return m + "; likely " + likely(f.Slip)
}

// rows names stations.
func rows(at []parse.Length, unit parse.Unit) string {
	switch len(at) {
	case 0:
		return "the rows"
	case 1:
		return "the row at " + at[0].Along(unit)
	}
	return "the rows from " + at[0].Along(unit) + " to " + at[len(at)-1].Along(unit)
}

// likely says a slip in the trade's words.
func likely(k slip.Kind) string {
	switch k {
	case slip.OffByTen:
		return "a ten dropped or added"
	case slip.Transposed:
		return "two digits changed places"
	case slip.OffByFoot:
		return "the tape read from the wrong foot mark"
	case slip.Digit:
		return "one digit misread or miswritten"
	case slip.MisreadTape:
		return "the tape twisted, slack or hung on something"
	case slip.SwappedPair:
		return "hull girth and full girth exchanged"
	case slip.RowRepeated:
		return "the row before written twice"
	case slip.RowSkipped:
		return "a station passed over, so that every row from here belongs one place farther aft"
	case slip.MetricEdge:
		return "the other edge of the tape, in the other unit"
	case slip.DecimalLost:
		return "a decimal point lost"
	case slip.FeetInchesJoined:
		return "feet and inches run together"
	case slip.FromStern:
		return "stations counted from the stern"
	case slip.OpeningForFull:
		return "the opening noted in place of the full girth"
	case slip.HalfGirth:
		return "the girth taken to the keel only"
	case slip.TapeOffset:
		return "a tape that does not begin at nought"
	case slip.TapeLength:
		return "a tape too short for the girth, its length not added"
	}
	return "a slip of no known kind"
}

// names says a measure in the trade's words.
func names(m parse.Measure) string {
	switch m {
	case parse.HullGirth:
		return "hull girth"
	case parse.FullGirth:
		return "full girth"
	case parse.MeasurePair:
		return "both girths"
	case parse.LengthOverall:
		return "length overall"
	case parse.BowHeight:
		return "bow height"
	case parse.SternHeight:
		return "stern height"
	case parse.CarryPoint:
		return "carry point"
	case parse.GreatestAt:
		return "place of the greatest girth"
	case parse.GreatestHullGirth:
		return "hull girth at the greatest"
	case parse.GreatestFullGirth:
		return "full girth at the greatest"
	case parse.GreatestPair:
		return "pair at the greatest girth"
	case parse.GreatestOpening:
		return "opening at the greatest girth"
	case parse.TransomHullGirth:
		return "hull girth at the transom"
	case parse.TransomFullGirth:
		return "full girth at the transom"
	case parse.TransomPair:
		return "pair at the transom"
	}
	return string(m)
}

// place names a number: "hull girth at 7 ft".
func place(c parse.Cell, unit parse.Unit) string {
	if c.At > 0 {
		return names(c.Measure) + " at " + c.At.Along(unit)
	}
	return names(c.Measure)
}

// number writes a length to the tenth in the customer's unit.
func number(l parse.Length, unit parse.Unit) string {
	if unit != parse.Centimetre {
		unit = parse.Inch
	}
	return strconv.FormatFloat(math.Round(l.In(unit)*10)/10, 'f', -1, 64) + " " + string(unit)
}
