package table

import "fairtape/parse"

// MeasureOf is the measure of the whole boat that words ask for beyond doubt, as
// the label of a number in a grid does; "" for none. Text is folded.
func MeasureOf(folded string) parse.Measure {
	switch l := labelOf(folded); {
	case l.weak:
	case l.measure == parse.LengthOverall, l.measure == parse.BowHeight, l.measure == parse.SternHeight:
		return l.measure
	}
	return ""
}
