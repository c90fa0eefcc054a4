package desk

import (
	"slices"

	"fairtape/parse"
)

// Change is a number of a survey that has become another, or is known no more.
type Change struct {
	Cell    parse.Cell
	Was, Is parse.Reading
}

// Changes lists the numbers that differ between two states of a survey, first
// those that it has now.
func Changes(before, now parse.Survey) (list []Change) {
	cells := Cells(now)
	for _, c := range Cells(before) {
		if !slices.Contains(cells, c) {
			cells = append(cells, c)
		}
	}
	for _, c := range cells {
		was, is := ReadingAt(before, c), ReadingAt(now, c)
		if was.Certain() != is.Certain() || was.Value != is.Value {
			list = append(list, Change{c, was, is})
		}
	}
	return list
}
