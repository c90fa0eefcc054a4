package table

import (
	"math"
	"slices"

	"fairtape/parse"
)

// A table that no heading explains is read by its numbers, where they leave no
// choice: one column that can only be the stations, and two others that can
// only be hull girth and full girth there.

const (
	// mostBareCols is how many columns a table without headings may have.
	mostBareCols = 60
	// mostSteps is how many steps the last station lies from the bow at most.
	mostSteps = 60
	// slipRows is from how many rows on one of them may be a slip.
	slipRows = 8
)

// readBare reads such a table, as the sheet lies or on its side.
func (s *sheet) readBare() {
	for _, v := range []view{{s, false}, {s, true}} {
		if v.cols() > mostBareCols {
			continue
		}
		for c := 0; c < v.cols(); c++ {
			for r := 0; r < v.rows(); r++ {
				if it := v.at(r, c); it.used || !it.value() && !it.word() {
					continue
				}
				run := v.risingFrom(r, c)
				if run >= fewRows && v.readBareAt(r, c) {
					return
				}
				r += max(run-1, 0) // a later start is no other table
			}
		}
	}
}

func (v view) readBareAt(start, c int) bool {
	names := v.risingFrom(start, c)
	if !v.places(start, c, names) {
		return false
	}
	for i := range v.cols() {
		if i != c && v.namesPlaces(start, i) {
			return false // that column says where the rows are; this one counts them
		}
	}
	st := column{at: c, role: roleStation, scale: v.column(start, c).scale}
	var girths, others []column
	for i := 0; i < v.cols(); i++ {
		if i == c || !v.mostlyFilled(start, i, v.rowsOf(start, c, names), names) {
			continue
		}
		col := v.column(start, i)
		col.at = i
		switch counts := v.risingFrom(start, i) >= names && regular(v, start, i, names); {
		case counts && v.runsFromOne(start, i): // running numbers, or the same stations again
			col.role = roleIndex
			others = append(others, col)
		case counts:
			return false // either may hold the stations
		case col.role == noRole || col.role == roleHull || col.role == roleFull || col.role == roleGirth:
			girths = append(girths, col)
		default:
			others = append(others, col)
		}
	}
	pair, ok := v.onlyPair(start, st, girths)
	if !ok || v.anyLabelledOnce(start, v.rowsOf(start, c, names), pair) {
		return false
	}
	v.readRows(start, st, pair, others)
	return true
}

// anyLabelledOnce reports a number in some columns that has a label of its own:
// "4 | Carry point | 21".
func (v view) anyLabelledOnce(start, end int, columns []column) bool {
	for r := start; r < end; r++ {
		if slices.ContainsFunc(v.rowCells(r, columns), v.labelledOnce) {
			return true
		}
	}
	return false
}

// places reports a column of numbers that can only be stations: they rise by
// even steps from the first or the second step on, or each has its unit.
func (v view) places(start, c, names int) bool {
	if !regular(v, start, c, names) {
		return false
	}
	var at []parse.Amount
	for r := start; r < v.rows() && len(at) < names; r++ {
		if name, f := parse.ParseStation(v.at(r, c).Text); !f.Some() && name.Special == "" && !v.at(r, c).empty() {
			at = append(at, name.Amount)
		}
	}
	if len(at) < fewRows {
		return false
	}
	if at[0].Scale != parse.Bare {
		return true
	}
	step := at[1].Number - at[0].Number
	whole := at[0].Number / step
	return math.Abs(whole-math.Round(whole)) < sameStep && at[len(at)-1].Number <= mostSteps*step
}

// rowsOf returns the row after the last of so many names.
func (v view) rowsOf(start, c, names int) int {
	r := start
	for ; r < v.rows() && names > 0; r++ {
		if !v.at(r, c).empty() {
			names--
		}
	}
	return r
}

// mostlyFilled reports a column with numbers beside more than half of the names.
func (v view) mostlyFilled(start, c, end, names int) bool {
	n := 0
	for r := start; r < end; r++ {
		if it := v.at(r, c); it.value() && !it.used {
			n++
		}
	}
	return 2*n > names
}

// onlyPair finds the two columns that can be hull girth and full girth; ok is
// false where there are none, or others too of which none has a column of their
// differences beside it. Such a column comes along as the opening.
func (v view) onlyPair(start int, station column, columns []column) (pair []column, ok bool) {
	var pairs, proven [][]column
	for _, hull := range columns {
		for _, full := range columns {
			if hull.at == full.at || hull.role == roleFull || full.role == roleHull {
				continue
			}
			x, y := v.columnNumbers(start, station, hull.at, full.at)
			if !hullThenFull(withoutSlip(x, y)) {
				continue
			}
			hull.role, full.role = roleHull, roleFull
			found := []column{hull, full}
			for _, c := range columns {
				if c.at != hull.at && c.at != full.at && v.differences(start, station, found, c) {
					c.role = roleOpening
					found = append(found, c)
				}
			}
			pairs = append(pairs, found)
			if len(found) > 2 {
				proven = append(proven, found)
			}
		}
	}
	switch {
	case len(pairs) == 1:
		return pairs[0], true
	case len(proven) == 1:
		return proven[0], true
	}
	return nil, false
}

// differences reports a column that holds full girth less hull girth in all
// rows but one in eight, or one of few.
func (v view) differences(start int, station column, pair []column, c column) bool {
	numbers := v.numbersOf(start, station, pair[0].at, pair[1].at, c.at)
	hull, full, w := numbers[0], numbers[1], numbers[2]
	off := 0
	for i := range w {
		if math.Abs(full[i]-hull[i]-w[i]) > sameStep {
			off++
		}
	}
	return len(w) >= fewRows && off <= max(1, len(w)/slipRows)
}

// withoutSlip leaves out the one row in which the first number is not below the
// second, or less than half of it, where there are rows enough to tell.
func withoutSlip(x, y []float64) (a, b []float64) {
	odd := -1
	for i := range x {
		if x[i] < y[i] && y[i] <= 2*x[i] {
			continue
		}
		if odd >= 0 || len(x) < slipRows {
			return x, y
		}
		odd = i
	}
	if odd < 0 {
		return x, y
	}
	return slices.Delete(slices.Clone(x), odd, odd+1), slices.Delete(slices.Clone(y), odd, odd+1)
}
