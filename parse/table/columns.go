package table

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// feetAndInches reports two columns that hold the feet and the inches of one
// girth, and not the girth in two units.
func (v view) feetAndInches(start int, station, feet, inches column) bool {
	fs, ins := v.columnNumbers(start, station, feet.at, inches.at)
	if len(fs) == 0 {
		return false
	}
	for i := range fs {
		if fs[i] != math.Trunc(fs[i]) || ins[i] >= 12 {
			return false
		}
	}
	return true
}

// joinHalf makes one number of a whole one and of a cell with its fraction.
func (s *sheet) joinHalf(whole, half *item) *item {
	cell := whole.Cell
	cell.Text = whole.Text + " " + half.Text
	if half.amount.Number != 0 && strings.Contains(half.folded, ".") {
		cell.Text = strings.TrimSuffix(whole.Text, ".") + strings.TrimLeft(half.folded, "0")
	}
	if half.Code != "" {
		cell.Code = half.Code
	}
	return newItem(cell, whole.row, whole.col)
}

// joinFeet makes one number of a cell of feet and a cell of inches.
func (s *sheet) joinFeet(feet, inches *item) *item {
	cell := feet.Cell
	cell.Text = feet.Text + " ft " + inches.Text + " in"
	if inches.blank() {
		cell.Text = feet.Text + " ft"
	}
	if inches.Code != "" {
		cell.Code = inches.Code
	}
	return newItem(cell, feet.row, feet.col)
}

const (
	// fewRows is the least number of rows on which columns may be told apart
	// by their numbers alone.
	fewRows = 4
	// clearRatio is what full girth over hull girth reaches somewhere on any
	// boat; two tries of the same girth never differ as much.
	clearRatio = 1.2
)

// resolveGirths settles the columns whose headings leave open which girth they
// hold, and doubts those whose numbers deny their headings.
func (v view) resolveGirths(start int, station column, cols []sorted) {
	var open []int
	for i, c := range cols {
		if c.role == roleGirth {
			open = append(open, i)
		}
	}
	unclear := parse.Fault{Code: parse.CodeColumnsUnclear, Message: "It is not clear which girth this column holds."}
	switch {
	case len(open) == 2 && !has(cols, roleHull) && !has(cols, roleFull):
		a, b := open[0], open[1]
		switch x, y := v.columnNumbers(start, station, cols[a].at, cols[b].at); {
		case hullThenFull(x, y):
			cols[a].role, cols[b].role = roleHull, roleFull
		case hullThenFull(y, x):
			cols[a].role, cols[b].role = roleFull, roleHull
		}
	case len(open) == 1 && has(cols, roleFull) && !has(cols, roleHull):
		full := slices.IndexFunc(cols, func(c sorted) bool { return c.role == roleFull })
		if x, y := v.columnNumbers(start, station, cols[open[0]].at, cols[full].at); below(x, y) {
			cols[open[0]].role = roleHull
		}
	case len(open) == 1 && has(cols, roleHull) && !has(cols, roleFull):
		hull := slices.IndexFunc(cols, func(c sorted) bool { return c.role == roleHull })
		if x, y := v.columnNumbers(start, station, cols[hull].at, cols[open[0]].at); hullThenFull(x, y) || clearlyFull(x, y) {
			cols[open[0]].role = roleFull
		}
	case len(open) == 0 && has(cols, roleFull) && !has(cols, roleHull):
		v.railToRail(start, station, cols)
		v.parted(start, station, cols)
	case len(open) == 0 && has(cols, roleHull) && !has(cols, roleFull):
		v.parted(start, station, cols)
	case len(open) == 1:
		cols[open[0]].role = roleHull
		cols[open[0]].doubt = unclear
	}
	for i, c := range cols {
		if c.role == roleHalf && v.neverHalf(start, station, c.at, cols) {
			cols[i].role = roleHull
		} else if c.role == roleHalf {
			cols[i].role, cols[i].factor = roleHull, 2
			cols[i].doubt = parse.Fault{Code: parse.CodeColumnsUnclear, Message: "The heading speaks of half the girth; twice the number is shown."}
		}
	}
	v.doubtHeadings(start, station, cols)
}

// neverHalf reports a column beside the full girths whose numbers are too large to
// be halves of the hull girth, whatever its heading says: twice a half is less than
// the full girth.
func (v view) neverHalf(start int, station column, half int, cols []sorted) bool {
	return slices.ContainsFunc(cols, func(c sorted) bool {
		x, y := v.columnNumbers(start, station, half, c.at)
		return c.role == roleFull && hullThenFull(x, y)
	})
}

// railToRail finds the hull girth under a heading that says no more than where the
// tape ends, "rail to rail": an opening is never so near to the full girth all
// along the boat.
func (v view) railToRail(start int, station column, cols []sorted) {
	full := slices.IndexFunc(cols, func(c sorted) bool { return c.role == roleFull })
	for i, c := range cols {
		heading := strings.Join(v.headings(start, c.at), " ")
		if c.role != roleOpening || openingWords.MatchString(heading) || !railWords.MatchString(heading) {
			continue
		}
		if x, y := v.columnNumbers(start, station, c.at, cols[full].at); hullThenFull(x, y) {
			cols[i].role = roleHull
		}
	}
}

// parted tells two columns apart that are both called hull girth, or both full
// girth: "under hull", "under hull, then over the top". Two tries of one girth
// never differ as much.
func (v view) parted(start int, station column, cols []sorted) {
	var two []int
	for i, c := range cols {
		if c.role == roleHull || c.role == roleFull {
			two = append(two, i)
		}
	}
	if len(two) != 2 || cols[two[0]].scale != cols[two[1]].scale {
		return
	}
	a, b := two[0], two[1]
	switch x, y := v.columnNumbers(start, station, cols[a].at, cols[b].at); {
	case hullThenFull(x, y):
		cols[a].role, cols[b].role = roleHull, roleFull
	case hullThenFull(y, x):
		cols[a].role, cols[b].role = roleFull, roleHull
	}
}

// doubtHeadings doubts columns under each other's headings. Only numbers that
// cannot be anything else count: a customer who noted the opening in place of
// the full girth is read as it stands, and judged later.
func (v view) doubtHeadings(start int, station column, cols []sorted) {
	for i := range cols {
		for j := range cols {
			if cols[i].role != roleHull || cols[j].role != roleFull || cols[i].scale != cols[j].scale || cols[i].inches >= 0 {
				continue
			}
			x, y := v.columnNumbers(start, station, cols[i].at, cols[j].at)
			if hullThenFull(y, x) {
				f := parse.Fault{Code: parse.CodeColumnsUnclear, Message: "The headings of the two girths and their numbers do not fit together."}
				cols[i].doubt, cols[j].doubt = f, f
			}
		}
	}
}

// below reports that in every row x is below y.
func below(x, y []float64) bool {
	for i := range x {
		if x[i] >= y[i] {
			return false
		}
	}
	return len(x) > 0
}

// hullThenFull reports that two columns can only be hull girth and full girth:
// always the second larger and never over twice the first (a straight line is
// the shortest way), clearly larger where it is largest, and, as on any boat,
// nearer to each other towards the ends than there. Opening and hull girth would
// lie farther apart towards the ends.
func hullThenFull(x, y []float64) bool {
	if len(x) < fewRows {
		return false
	}
	widest := 0
	for i := range x {
		if x[i] >= y[i] || y[i] > 2*x[i] {
			return false
		}
		if y[i] > y[widest] {
			widest = i
		}
	}
	most := y[widest] / x[widest]
	ends := (y[0]/x[0] + y[len(y)-1]/x[len(x)-1]) / 2
	return most >= clearRatio && most > ends
}

// clearlyFull reports that in every row the second can be the full girth beside
// the first as hull girth, and is no second try of it.
func clearlyFull(x, y []float64) bool {
	for i := range x {
		if y[i] < clearRatio*x[i] || y[i] > 2*x[i] {
			return false
		}
	}
	return len(x) > 0
}

// regular reports a column whose steps are all the same, as stations' are; a
// column of girths may rise too, but never evenly.
func regular(v view, start, c, rows int) bool {
	var last, step float64
	for r, n := start, 0; n < rows && r < v.rows(); r++ {
		it := v.at(r, c)
		if it.empty() {
			continue
		}
		name, _ := parse.ParseStation(it.Text)
		if name.Special != "" {
			continue
		}
		d := name.Amount.Number - last
		if n > 1 && math.Abs(d-step) > 1e-6 {
			return false
		}
		last, step = name.Amount.Number, d
		n++
	}
	return true
}

// columnNumbers returns the numbers of two columns in the rows where both have
// one, from row start to the end of the run.
func (v view) columnNumbers(start int, station column, a, b int) (as, bs []float64) {
	both := v.numbersOf(start, station, a, b)
	return both[0], both[1]
}

// numbersOf returns the numbers of some columns in the rows where all have one.
func (v view) numbersOf(start int, station column, columns ...int) [][]float64 {
	out := make([][]float64, len(columns))
	for r := start; r < v.rows(); r++ {
		if _, f := parse.ParseStation(v.at(r, station.at).Text); f.Some() && !v.at(r, station.at).empty() {
			continue
		}
		if slices.ContainsFunc(columns, func(c int) bool { it := v.at(r, c); return !it.numeric || it.fault.Some() }) {
			continue
		}
		for i, c := range columns {
			out[i] = append(out[i], v.at(r, c).amount.Number)
		}
	}
	return out
}

// sorted is a column of girths when it is known which.
type sorted struct {
	column
	doubt  parse.Fault
	factor float64
	inches int // the column that holds the inches of these feet, or -1
	halves int // the column that holds the fractions of these numbers, or -1
}

// sortGirths decides which girth each column holds.
func (v view) sortGirths(start int, station column, girths []column) []sorted {
	var out []sorted
	for i := 0; i < len(girths); i++ {
		g := sorted{column: girths[i], inches: -1, halves: -1}
		if i+1 < len(girths) && v.fractions(start, girths[i+1].at) {
			g.halves = girths[i+1].at
			i++
		}
		if i+1 < len(girths) && girths[i+1].role == g.role && g.scale == parse.ScaleFoot && girths[i+1].scale == parse.ScaleInch && v.feetAndInches(start, station, girths[i], girths[i+1]) {
			g.inches = girths[i+1].at
			i++
		}
		out = append(out, g)
	}
	v.resolveGirths(start, station, out)
	for i, g := range out {
		if g.rough {
			out[i].doubt = parse.Fault{Code: parse.CodeApproximate, Message: "The heading says that these numbers may not be right."}
		}
		if g.denied {
			out[i].doubt = parse.Fault{Code: parse.CodeColumnsUnclear, Message: "The headings do not seem to stand over their own columns."}
		}
		if g.scale == parse.ScaleFoot && g.inches < 0 && v.wholeFeet(start, g.at) {
			out[i].doubt = parse.Fault{Code: parse.CodeColumnsUnclear, Message: "These are whole feet; the inches may stand elsewhere."}
		}
	}
	return out
}

// fractions reports a column that holds nothing but the fractions of a tape, of
// the numbers before it: "whole | half".
func (v view) fractions(start, c int) bool {
	n := 0
	if texts := v.headings(start, c); len(texts) > 0 && !fractionHead.MatchString(texts[0]) {
		return false
	}
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		switch it := v.at(r, c); {
		case it.blank():
		case !it.numeric || it.fault.Some() || it.amount.Scale != parse.Bare || it.amount.Number >= 1 || 16*it.amount.Number != math.Trunc(16*it.amount.Number):
			return false
		default:
			n++
		}
	}
	return n > 0
}

var fractionHead = regexp.MustCompile(`^(?:(?:and )?(?:a )?hal(?:f|ves)|1/2|frac\w*|parts?|quarters?|eighths?|\+)(?: (?:in|inch|inches))?$|\bfractions?\b`)

// wholeFeet reports a column without parts of a foot, as no column of girths is.
func (v view) wholeFeet(start, c int) bool {
	n := 0
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		it := v.at(r, c)
		if it.amount.Scale != parse.Bare || it.amount.Number != math.Trunc(it.amount.Number) {
			return false
		}
		if it.numeric {
			n++
		}
	}
	return n > 1
}

func has(columns []sorted, r role) bool {
	return slices.ContainsFunc(columns, func(c sorted) bool { return c.role == r })
}
