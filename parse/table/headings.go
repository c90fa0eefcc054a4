package table

import (
	"regexp"

	"fairtape/parse"
)

// headingReach is how many rows of headings and blanks may stand between a
// heading and the first number under it.
const headingReach = 8

// dataBelow returns the first row of numbers under headings of girths in row
// r, or 0 when row r is no heading.
func (v view) dataBelow(r int) int {
	start := 0
	for c := 0; c < v.cols(); c++ {
		it := v.at(r, c)
		if !v.girthHeading(it) && !v.plainHeading(r, it) {
			continue
		}
		for i := r + 1; i <= r+headingReach && i < v.rows(); i++ {
			below := v.at(i, c)
			if below.value() && !v.name(below) {
				if !below.used && (start == 0 || i < start) {
					start = i
				}
				break
			}
			if below.word() && !unitOnly.MatchString(below.folded) && !v.allWords(i) {
				break
			}
		}
	}
	return start
}

// plainHeading reports the heading of numbers on a sheet whose name says which
// girth they are: "Station (ft) | inches" on the sheet "Hull girth".
func (v view) plainHeading(r int, it *item) bool {
	if v.girth == noRole || it.used || !plainNumbers.MatchString(it.folded) || !v.allWords(r) {
		return false
	}
	for c := 0; c < v.cols(); c++ {
		if v.at(r, c).asRole() == roleStation {
			return true
		}
	}
	return false
}

// plainNumbers say of a column no more than that it holds numbers.
var plainNumbers = regexp.MustCompile(`^(?:(?:value|measure(?:ment|d)?|reading|girth|tape|number|result|valeur|mesure|tour)s?\b ?)?(?:[(\[]?(?:in|ins|inch|inches|"|cm|mm|po|pouces?|centimet(?:re|er)s?|millimet(?:re|er)s?)\.?[)\]]?)?$`)

func (v view) girthHeading(it *item) bool {
	if _, ok := v.meaning(it.folded); ok {
		return it.word() && !it.used
	}
	return it.word() && !it.used && !it.legend && len(it.folded) <= longestLabel && it.asRole().girth() && !it.saysGirth() && !v.answers(it) &&
		!greatestWords.MatchString(it.folded) && !transomWords.MatchString(it.folded) && stationLabel(it.folded).at == nil
}

// answers reports the answer to a question about the shape of the boat, which
// names no girth: "Deck | open X".
func (v view) answers(it *item) bool {
	label := v.leftOf(it)
	if label == nil || !label.word() {
		return false
	}
	switch label.asLabel().meta {
	case metaDeck, metaStern, metaSquare:
		return true
	}
	return false
}

// leftOf returns the next cell to the left of a cell of the sheet that holds
// anything; nil when there is none.
func (s *sheet) leftOf(it *item) *item {
	for c := it.col - 1; c >= 0; c-- {
		if left := s.items[it.row][c]; !left.empty() {
			return left
		}
	}
	return nil
}

// labelledOnce reports a number that stands right of the label of a measure
// which a boat has once, and so belongs to no station.
func (s *sheet) labelledOnce(it *item) bool {
	left := s.leftOf(it)
	if left == nil || !left.word() || len(left.folded) > longestLabel {
		return false
	}
	switch l := left.asLabel(); l.measure {
	case parse.LengthOverall, parse.BowHeight, parse.SternHeight, parse.CarryPoint:
		return !l.weak
	}
	return false
}

// allWords reports a row without numbers: one of headings.
func (v view) allWords(r int) bool {
	if v.flip {
		return !v.numberCols[r]
	}
	return !v.numberRows[r]
}

// loneNumber reports a row of one number: a station where nothing was measured,
// or a label and its number; the very tip may have its height beside it. The
// headings above stand over the rows below it too.
func (v view) loneNumber(r int) bool {
	n := 0
	for c := 0; c < v.cols(); c++ {
		if it := v.at(r, c); it.value() && !tipName.MatchString(it.folded) {
			n++
		}
	}
	return n <= 1
}

// tipName is the station where the boat begins.
var tipName = regexp.MustCompile(`^0(?:[.,]0+)?(?: ?(?:ft|in|cm|m|pi|po|'|"))?(?: ?\([^()0-9]*\))?$`)

// headsGirths reports a row with the heading of a column of girths.
func (v view) headsGirths(r int) bool {
	for c := range v.cols() {
		if v.girthHeading(v.at(r, c)) {
			return true
		}
	}
	return false
}

func (v view) emptyRow(r int) bool {
	for c := 0; c < v.cols(); c++ {
		if !v.at(r, c).empty() {
			return false
		}
	}
	return true
}

// readTable reads the tables whose numbers begin in the given row: each column
// of stations with the columns of girths beside it.
func (v view) readTable(start int) {
	var stations, girths, others []column
	for c := 0; c < v.cols(); c++ {
		if v.at(start-1, c).empty() && v.at(start, c).empty() && !v.fractions(start, c) {
			continue // under a merged heading, with nothing of its own
		}
		col := v.column(start, c)
		switch {
		case col.role == roleStation:
			stations = append(stations, col)
		case col.role == roleGirth && v.nothingUnder(start, c):
			// the heading of what stands beside it
		case col.role.girth() && (col.role == roleHalf || !v.onlyWords(start, c)):
			girths = append(girths, col)
		default:
			others = append(others, col)
		}
	}
	stations, others = v.joinStations(start, stations, others)
	stations, girths, others = v.untangle(start, stations, girths, others)
	girths, others = v.withSum(start, girths, others)
	girths = v.withoutHidden(start, v.withoutHalves(start, girths))
	if len(girths) == 0 || v.onlyTotals(start, girths) {
		return
	}
	for i, st := range stations {
		if mine := nearestTo(stations, i, girths); len(mine) > 0 {
			st.place = v.onePlace(start, mine)
			mine = v.byNumbers(start, st, mine, nearestTo(stations, i, others))
			mine = v.denied(start, st, mine, nearestTo(stations, i, others))
			mine = v.withMeans(start, mine, nearestTo(stations, i, others))
			v.readRows(start, st, mine, append(others, withoutGirths(stations, girths)...))
		}
	}
}

// onlyWords reports a column of words in the rows of a table: it holds no girths,
// but the labels of others.
func (v view) onlyWords(start, c int) bool {
	words := false
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		it := v.at(r, c)
		if it.value() {
			return false
		}
		words = words || it.word()
	}
	return words
}

// nothingUnder reports a column that is empty in the rows of a table.
func (v view) nothingUnder(start, c int) bool {
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		if !v.at(r, c).empty() {
			return false
		}
	}
	return true
}

// onePlace names the place of a table whose heading speaks of the greatest
// girth, or of the transom, and that has one row.
func (v view) onePlace(start int, girths []column) parse.Special {
	for r := start + 1; r < v.rows() && !v.emptyRow(r) && !v.allWords(r); r++ {
		if len(v.rowCells(r, girths)) > 0 && !v.labelled(r) {
			return ""
		}
	}
	for r := start - 1; r >= 0 && r >= start-headingReach && v.allWords(r) && !v.emptyRow(r); r-- {
		for c := 0; c < v.cols(); c++ {
			switch it := v.at(r, c); {
			case !it.word() || firstDigit(it.folded) >= 0: // with its own numbers
			case it.asLabel().group == groupGreatest:
				return parse.NamedGreatest
			case it.asLabel().group == groupTransom:
				return parse.NamedTransom
			}
		}
	}
	return ""
}

// useHeadings marks the words over a table as read.
func (v view) useHeadings(start int) {
	seen := false
	for r := start - 1; r >= 0 && r >= start-headingReach && (v.allWords(r) || !seen && v.loneNumber(r)); r-- {
		if !v.allWords(r) {
			continue
		}
		for c := 0; c < v.cols(); c++ {
			it := v.at(r, c)
			sentence := len(it.folded) > longestNumber && v.reportable(it)
			if !it.saysGirth() && !sentence && (it.asRole() != noRole || unitOnly.MatchString(it.folded)) && it.asLabel().none() {
				it.used, seen = true, true
			}
		}
	}
}
