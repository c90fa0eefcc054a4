package table

import "fairtape/parse"

// LabelOf is the measure that a label asks for, of the whole boat or of its greatest
// girth or transom, where it leaves no doubt; "" for none. Text is folded.
func LabelOf(folded string) parse.Measure {
	l := labelOf(folded)
	if l.weak || l.spot || l.at != nil {
		return ""
	}
	return l.measure
}

// MeasureOf is the measure of the whole boat that words ask for beyond doubt, even
// in a sentence; "" for none. Text is folded.
func MeasureOf(folded string) parse.Measure {
	switch m := LabelOf(folded); m {
	case parse.LengthOverall, parse.BowHeight, parse.SternHeight:
		return m
	}
	return ""
}
