package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// joinStations makes one column of two that hold the feet and the inches of
// the stations: "Station ft | Station in".
func (v view) joinStations(start int, stations, others []column) (rest, unused []column) {
	for _, feet := range stations {
		isInches := func(c column) bool {
			return feet.scale == parse.ScaleFoot && c.at == feet.at+1 && c.scale == parse.ScaleInch && (c.role == roleStation || c.role == noRole)
		}
		for _, list := range []*[]column{&stations, &others} {
			if i := slices.IndexFunc(*list, isInches); i >= 0 && v.feetAndInches(start, feet, feet, (*list)[i]) {
				v.joinColumn(start, feet.at)
				*list = slices.Delete(slices.Clone(*list), i, i+1)
			}
		}
	}
	return stations, others
}

// joinColumn joins column c, of feet, with the inches to its right.
func (v view) joinColumn(start, c int) {
	for r := start; r < v.rows() && (r == start || v.dataBelow(r) == 0); r++ {
		feet, inches := v.at(r, c), v.at(r, c+1)
		if feet.numeric && feet.amount.Scale == parse.Bare && (inches.numeric || inches.blank()) {
			*feet = *v.joinFeet(feet, inches)
			inches.used = true
		}
	}
}

// A heading that says how its numbers are written, "Full girth (ft-in)", and
// such numbers: "4-8 1/2", "4-0". By boatbuilders' custom a third number is
// eighths, and the heading says so: "ft-in-8ths" (common practice, no source).
var (
	feetDashInches = regexp.MustCompile(`\b(?:ft|feet|foot|pi|pieds?) ?[-.] ?(?:in|ins|inch|inches|po|pouces?)\b`)
	dashedNumber   = regexp.MustCompile(`^(\d{1,2}) ?- ?(\d{1,2}(?: \d{1,2}/\d{1,2}|\.\d+)?)$`)
	dashedEighths  = regexp.MustCompile(`^(\d{1,2}) ?- ?(\d{1,2}) ?- ?([0-7])$`)
)

// dashedFeet reads a number of a column whose heading says that a dash parts
// feet from inches.
func dashedFeet(it *item) *item {
	text := dashedNumber.ReplaceAllString(it.folded, "$1 ft $2 in")
	text = dashedEighths.ReplaceAllString(text, "$1 ft $2 $3/8 in")
	if text == it.folded || it.Code != "" {
		return it
	}
	cell := it.Cell
	if cell.Raw == "" {
		cell.Raw = cell.Text
	}
	cell.Text = strings.Replace(text, " 0/8", "", 1)
	return newItem(cell, it.row, it.col)
}
