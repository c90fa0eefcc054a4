package table

import (
	"slices"

	"fairtape/parse"
)

// splitNumbers reports a row of a text divided by commas in which a decimal
// comma may have split a number: there are whole numbers outside the columns
// that have a heading, or a full girth of one figure.
func (v view) splitNumbers(r int, station column, girths, others []column) bool {
	headed := map[int]column{station.at: station}
	for _, col := range append(slices.Clone(girths), others...) {
		if col.role != noRole {
			headed[col.at] = col
		}
	}
	for c := 0; c < v.cols(); c++ {
		it := v.at(r, c)
		col, known := headed[c]
		whole := it.numeric && !it.fault.Some() && it.amount.Scale == parse.Bare && it.amount.Number == float64(int(it.amount.Number))
		switch {
		case !whole || it.used, !known && (c < station.at || v.isNoTail(r, c) || v.ofOther(r, c, station.at)): // to the left: running numbers
		case !known:
			return true
		case v.pointed:
		case col.role == roleNotes:
			return true
		case (col.role == roleFull || col.role == roleGirth) && it.amount.Number < 10:
			return true
		}
	}
	return false
}

// isNoTail reports a number under a heading that can be no decimals of the
// number before it.
func (v view) isNoTail(r, c int) bool {
	n := v.at(r, c).amount.Number
	for up := r; up >= 0 && !v.at(up, c).empty(); up-- {
		if v.at(up, c).word() {
			return n >= 10 && !usualTail[n]
		}
	}
	return false
}

// ofOther reports a cell of another table that lies beside the one whose
// stations are in the given column: it has a station and a girth in this row.
func (v view) ofOther(r, c, station int) bool {
	heading := r
	for heading > 0 && !v.allWords(heading) {
		heading--
	}
	for ; c > station; c-- {
		switch it := v.at(heading, c); {
		case it.empty():
			return false
		case it.asRole() == roleStation:
			return v.at(r, c).numeric && v.at(r, c+1).numeric
		}
	}
	return false
}

// usualTail are the decimals of two figures and more that a tape gives: quarters
// and eighths.
var usualTail = map[float64]bool{25: true, 50: true, 75: true, 125: true, 375: true, 625: true, 875: true}

func (v view) line(r int) []*item {
	var cells []*item
	for c := 0; c < v.cols(); c++ {
		cells = append(cells, v.at(r, c))
	}
	return cells
}

// longLines reports lines of girths that go on beyond the line of stations: which
// belongs to which is not clear, and where commas divide the cells a decimal one
// may have split a number.
func (v view) longLines(station column, girths []column) bool {
	end := 0
	for r := 0; r < v.rows(); r++ {
		if !v.at(r, station.at).empty() {
			end = r
		}
	}
	some := false
	for _, g := range girths {
		var cells []*item
		long := false
		for r := 0; r < v.rows(); r++ {
			it := v.at(r, g.at)
			cells = append(cells, it)
			long = long || r > end && it.value()
		}
		if some = some || long; long && v.commas {
			v.spoil(cells)
		}
	}
	return some
}

// spoil says of the numbers among the cells that a decimal comma may have
// split them. A station's name is left alone.
func (v view) spoil(cells []*item) {
	for _, it := range cells[1:] {
		if it.value() && !it.used {
			it.numeric, it.Code = true, parse.CodeDecimalComma
			it.fault = parse.Fault{Code: it.Code, Message: messageOf(it.Code)}
		}
	}
}
