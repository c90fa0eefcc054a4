package table

import (
	"slices"

	"fairtape/parse"
)

// found is what a sheet holds, before units are known.
type found struct {
	whole    map[parse.Measure][]entry // every try
	blocks   []block
	singles  []row // girths of one station that stand beside a label of their own
	texts    map[meta]string
	declared []parse.Scale
	measured []parse.Unit // that the words say was measured, of two
	spacing  *item
	decked   bool
	square   bool
	problems []parse.Problem
}

// entry is a number as it stands in a cell, with what its heading says.
type entry struct {
	*item
	heading parse.Scale
	doubt   parse.Fault // why it may be something else
	factor  float64     // the measure is that many times the number; 0 is 1
	spot    bool        // the label names a place: its distance, or its breadth
	end     bool        // the label names an end of the boat, and no height
	kept    bool        // it counts before others of the same girth
}

// block is a table of stations, with one column of names.
type block struct {
	heading parse.Scale // of the names
	astern  bool        // the distances are from the stern
	kept    bool        // its title says that it counts, and another of the same stations does not
	dropped bool        // its title says that it does not
	shifted bool        // there are more girths than names of stations
	rows    []row
}

// row is one station: all tries of each girth.
type row struct {
	name       parse.Name
	label      *item
	hull, full []entry
	opening    []entry
}

func (r row) cells() []*item {
	var cells []*item
	for _, list := range [][]entry{r.hull, r.full, r.opening} {
		for _, e := range list {
			cells = append(cells, e.item)
		}
	}
	return cells
}

// add adds a row. One whose station is there already is another try of it.
func (b *block) add(line row) {
	i := slices.IndexFunc(b.rows, func(r row) bool { return r.name == line.name })
	if i < 0 {
		b.rows = append(b.rows, line)
		return
	}
	same := &b.rows[i]
	same.hull, same.full, same.opening = append(same.hull, line.hull...), append(same.full, line.full...), append(same.opening, line.opening...)
}

// summary reports a row "Max" that only repeats the largest numbers of the
// table, as a spreadsheet does at its foot. Among averages and counts a row
// "Greatest" that does so is one as well.
func (b block) summary(r row, among bool) bool {
	if !bareMaximum.MatchString(r.label.folded) && !(among && bareGreatest.MatchString(r.label.folded)) {
		return false
	}
	of := func(list func(row) []entry) bool {
		greatest := 0.0
		for _, other := range b.rows {
			for _, e := range list(other) {
				if e.fault.Some() {
					return true // nobody can tell
				}
				greatest = max(greatest, e.amount.Number)
			}
		}
		for _, e := range list(r) {
			if e.amount.Number != greatest {
				return false
			}
		}
		return true
	}
	return of(func(r row) []entry { return r.hull }) && of(func(r row) []entry { return r.full })
}

// column is a column of a table with what its heading says.
type column struct {
	at      int
	role    role
	scale   parse.Scale
	astern  bool          // distances from the stern
	dashed  bool          // feet, a dash, inches: "4-8 1/2"
	guessed bool          // no heading says that these are stations
	kept    bool          // its numbers count before others of the same girth
	rough   bool          // its heading says that the numbers are not sure
	denied  bool          // by its numbers and those of a column without a heading it is the other girth
	name    *parse.Name   // the station that the heading of a card names
	place   parse.Special // the one place that the table is of, where its heading names one
}

// readBlocks reads the tables of stations that have headings, as the sheet
// lies and on its side.
func (s *sheet) readBlocks() {
	for _, v := range []view{{s, false}, {s, true}} {
		for r := 0; r < v.rows(); r++ {
			if start := v.dataBelow(r); start > 0 {
				v.readTable(start)
			}
		}
	}
}
