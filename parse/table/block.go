package table

import (
	"math"

	"fairtape/parse"
)

// found is what a sheet holds, before units are known.
type found struct {
	whole    map[parse.Measure][]entry // every try
	blocks   []block
	singles  []row // girths of one station that stand beside a label of their own
	texts    map[meta]string
	declared []parse.Scale
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
	end     bool        // the label names an end of the boat, and no height
}

// block is a table of stations, with one column of names.
type block struct {
	heading parse.Scale // of the names
	astern  bool        // the distances are from the stern
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

// summary reports a row "Max" that only repeats the largest numbers of the
// table, as a spreadsheet does at its foot.
func (b block) summary(r row) bool {
	if !bareMaximum.MatchString(r.label.folded) {
		return false
	}
	of := func(list func(row) []entry) bool {
		greatest := 0.0
		for _, other := range b.rows {
			for _, e := range list(other) {
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
	at     int
	role   role
	scale  parse.Scale
	astern bool // distances from the stern
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

// sameStep is how much two steps between stations may differ as numbers.
const sameStep = 1e-6

// readRows reads one table: its rows end where another table begins, or where
// after a gap the stations no longer rise.
func (v view) readRows(start int, station column, girths, others []column) {
	b := block{heading: station.scale, astern: station.astern}
	columns := v.sortGirths(start, station, girths)
	var greatest, transom []row
	if v.commas && v.flip {
		v.spoilLong(station, girths)
	}
	gap, last, step := false, -1.0, 0.0
	for r := start; r < v.rows(); r++ {
		label := v.at(r, station.at)
		if label.used || v.dataBelow(r) > 0 && r > start {
			break
		}
		cells := v.rowCells(r, girths)
		if label.empty() && len(cells) == 0 {
			gap = true
			continue
		}
		name, at, where, ok := v.rowName(label, r, others)
		switch {
		case summaryNames.MatchString(label.folded):
			v.passOver(parse.CodeUnplaced, "This row is made from the rows above and is not read.", append(cells, label))
			continue
		case !ok && len(cells) > 0 && (label.empty() || label.value()) && v.onlyNumbers(r, girths) && !v.labelled(r):
			v.unplacedRow(label, cells)
			continue
		case !ok || len(cells) == 0 && !label.value():
			gap = true
			continue
		case len(cells) == 0: // a row that was left blank, or a stray number
			if name.Special != "" || last < 0 || step == 0 || math.Abs(name.Amount.Number-last-step) < sameStep {
				label.used = true
				v.useIndex(r, others)
				last = max(last, name.Amount.Number)
			}
			continue
		}
		if name.Special != "" && len(cells) == 1 {
			// "greatest full girth 92" below the table is no pair: in the hull
			// column it would be the wrong one. It is read by its label.
			gap = true
			continue
		}
		if name.Special == "" {
			if gap && name.Amount.Number <= last && name.Amount.Scale == parse.Bare {
				break
			}
			if last >= 0 {
				step = name.Amount.Number - last
			}
			last = name.Amount.Number
		}
		if !v.onlyNumbers(r, girths) {
			gap = true
			continue
		}
		gap = false
		if v.commas && !v.flip && v.splitNumbers(r, station, girths, others) {
			v.spoil(v.line(r))
		}
		line := v.rowOf(r, name, label, columns)
		switch name.Special {
		case parse.NamedGreatest:
			greatest = append(greatest, line)
			if at != nil {
				s := entry{item: at, heading: station.scale}
				v.addWhole(parse.GreatestAt, s)
			}
		case parse.NamedTransom:
			transom = append(transom, line)
		default:
			b.rows = append(b.rows, line)
		}
		label.used, where.used = true, true
		v.useIndex(r, others)
	}
	for _, line := range greatest {
		v.addGreatest(b, line)
	}
	for _, line := range transom {
		v.addTransom(line)
	}
	if len(b.rows) > 0 {
		v.found.blocks = append(v.found.blocks, b)
	}
	if len(b.rows) > 0 || len(greatest)+len(transom) > 0 {
		v.useHeadings(start)
	}
}

// addGreatest records the row of the greatest girth below a table.
func (v view) addGreatest(b block, line row) {
	if b.summary(line) {
		v.passOver(parse.CodeUnplaced, "This row is made from the rows above and is not read.", line.cells())
		return
	}
	v.addWhole(parse.GreatestHullGirth, line.hull...)
	v.addWhole(parse.GreatestFullGirth, line.full...)
	v.addWhole(parse.GreatestOpening, line.opening...)
}

// addTransom records the row of the transom; an opening there only says again
// what the girths say.
func (v view) addTransom(line row) {
	v.found.square = true
	v.addWhole(parse.TransomHullGirth, line.hull...)
	v.addWhole(parse.TransomFullGirth, line.full...)
	for _, e := range line.opening {
		if len(line.hull) != 1 || len(line.full) != 1 || !isOpening([]entry{{}, line.hull[0], line.full[0], e}) {
			v.problem(parse.CodeUnplaced, e.item, "An opening is given at the transom; it is asked for at the greatest girth only.")
		}
	}
}

func (v view) addWhole(m parse.Measure, entries ...entry) {
	if len(entries) > 0 {
		v.found.whole[m] = append(v.found.whole[m], entries...)
	}
}

// rowCells returns the girths of a row that hold anything.
func (v view) rowCells(r int, girths []column) []*item {
	var cells []*item
	for _, g := range girths {
		if it := v.at(r, g.at); !it.blank() && !it.used {
			cells = append(cells, it)
		}
	}
	return cells
}

// labelled reports a row that holds the label of a number of its own.
func (v view) labelled(r int) bool {
	for c := 0; c < v.cols(); c++ {
		if it := v.at(r, c); it.word() && it.asLabel().measure != "" {
			return true
		}
	}
	return false
}

// onlyNumbers reports a row whose girths are not the labels of something else.
func (v view) onlyNumbers(r int, girths []column) bool {
	for _, it := range v.rowCells(r, girths) {
		if it.word() && (!it.asLabel().none() || it.asRole() != noRole) {
			return false
		}
	}
	return true
}

// rowName reads the name of a row; at is the cell that tells where the
// greatest girth lies, and where the one that names the place.
func (v view) rowName(label *item, r int, others []column) (name parse.Name, at, where *item, ok bool) {
	special := parse.Special("")
	where = label
	for _, it := range append([]*item{label}, v.otherCells(r, others)...) {
		if it.numeric || len(it.folded) > longestLabel || it != label && v.ownNumber(it, label) {
			continue
		}
		switch {
		case greatestWords.MatchString(it.folded) && it.asLabel().meta == "":
			special, where = parse.NamedGreatest, it
		case transomWords.MatchString(it.folded):
			special, where = parse.NamedTransom, it
		default:
			continue
		}
		break
	}
	if special != "" {
		name = parse.Name{Special: special}
		if special == parse.NamedGreatest {
			at = v.greatestPlace(where, label)
		}
		return name, at, where, true
	}
	if label.Code != "" && label.Code != parse.CodeHidden {
		return name, nil, where, false
	}
	name, f := parse.ParseStation(label.Text)
	if !f.Some() && name.Amount.Scale == parse.Bare && !name.Ordinal {
		name.Amount.Scale = label.Scale
	}
	return name, nil, where, !f.Some()
}

func (v view) otherCells(r int, others []column) []*item {
	var cells []*item
	for _, o := range others {
		if it := v.at(r, o.at); it.word() && !it.used {
			cells = append(cells, it)
		}
	}
	return cells
}

// greatestPlace finds the distance in "Greatest girth at 8 ft 1 in", or in the
// column of stations when the word stands in another.
func (v view) greatestPlace(where, label *item) *item {
	if where != label {
		if label.numeric {
			return label
		}
		return nil
	}
	return tailNumber(where)
}

// tailNumber returns the number that ends a label, as an item of its own; nil
// when there is none.
func tailNumber(it *item) *item {
	text := parse.Plain(it.Text)
	i := firstDigit(text)
	if i < 0 {
		return nil
	}
	cell := it.Cell
	cell.Text = trimTail(text[i:])
	tail := newItem(cell, it.row, it.col)
	tail.folded = parse.Fold(cell.Text)
	if !tail.value() {
		return nil
	}
	return tail
}

// rowOf sorts the girths of a row by what their columns hold.
func (v view) rowOf(r int, name parse.Name, label *item, columns []sorted) row {
	line := row{name: name, label: label}
	for _, col := range columns {
		it := v.at(r, col.at)
		if it.blank() || it.used {
			continue
		}
		e := entry{item: it, heading: col.scale, doubt: col.doubt, factor: col.factor}
		if col.inches >= 0 {
			e.item = v.joinFeet(it, v.at(r, col.inches))
			e.heading = parse.Bare
			v.at(r, col.inches).used = true
		}
		it.used = true
		switch col.role {
		case roleHull:
			line.hull = append(line.hull, e)
		case roleFull:
			line.full = append(line.full, e)
		case roleOpening:
			line.opening = append(line.opening, e)
		default:
			v.problem(parse.CodeColumnsUnclear, it, "It is not clear which girth this column holds.")
		}
	}
	return line
}

// useIndex passes over the running numbers of the rows, and marks the notes.
func (v view) useIndex(r int, others []column) {
	for _, o := range others {
		switch it := v.at(r, o.at); o.role {
		case roleIndex:
			it.used = it.used || !it.fault.Some() && it.amount.Number == math.Trunc(it.amount.Number)
		case roleNotes:
			it.note = true
		}
	}
}

func (v view) unplacedRow(label *item, cells []*item) {
	if label.value() {
		label.used = true
		v.problem(parse.CodeStationUnclear, label, "It is not clear which station this row belongs to.")
	}
	v.passOver(parse.CodeStationUnclear, "It is not clear which station this number belongs to.", cells)
}

// passOver puts the numbers among the cells into problems.
func (v view) passOver(code parse.Code, message string, cells []*item) {
	for _, it := range cells {
		it.used = true
		if it.value() || v.reportable(it) {
			v.problem(code, it, message)
		}
	}
}

func (s *sheet) problem(code parse.Code, it *item, message string) {
	s.found.problems = append(s.found.problems, parse.Problem{Code: code, Source: it.source(s.file), Message: message})
}
