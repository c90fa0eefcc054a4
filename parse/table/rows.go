package table

import (
	"math"
	"regexp"
	"slices"

	"fairtape/parse"
)

// sameStep is how much two steps between stations may differ as numbers.
const sameStep = 1e-6

// tableRows is one table while its rows are read.
type tableRows struct {
	view
	start             int // the first row
	station           column
	girths, others    []column
	sorted            []sorted
	block             block
	greatest, transom []row
	gap               bool    // something else stands between the rows
	summed            bool    // rows made from those above stand at the foot
	last, step        float64 // of the stations, as they are written
}

// readRows reads one table: its rows end where another table begins, or where
// after a gap the stations turn back.
func (v view) readRows(start int, station column, girths, others []column) {
	t := tableRows{view: v, start: start, station: station, girths: girths, others: others, sorted: v.sortGirths(start, station, girths), last: -1}
	t.block = block{heading: station.scale, astern: station.astern}
	t.block.kept, t.block.dropped = v.countsByTitle(start)
	if v.flip {
		t.block.shifted = v.longLines(station, girths)
	}
	if tip := v.at(start-1, station.at); start > 0 && tip.numeric && !tip.fault.Some() && tip.amount.Number == 0 {
		tip.used = true // where nothing can be measured
	}
	for r := start; r < v.rows(); r++ {
		if v.at(r, station.at).used || v.dataBelow(r) > 0 && r > start || !t.read(r) {
			break
		}
	}
	for _, line := range t.greatest {
		t.addGreatest(line)
	}
	for _, line := range t.transom {
		v.addTransom(line)
	}
	if len(t.block.rows) > 0 {
		v.found.blocks = append(v.found.blocks, t.block)
	}
	if len(t.block.rows)+len(t.greatest)+len(t.transom) > 0 {
		v.useHeadings(start)
	}
}

// read reads one row; it returns false where the table has ended.
func (t *tableRows) read(r int) bool {
	label, cells := t.at(r, t.station.at), t.rowCells(r, t.girths)
	if label.empty() && len(cells) == 0 {
		t.gap = true
		return true
	}
	name, at, where, ok := t.rowName(label, r, t.others)
	if may := label.fault.May; !ok && label.fault.Code == parse.CodeThousands && t.station.scale == parse.ScaleM && len(may) > 0 {
		name, ok = parse.Name{Amount: may[0]}, true // 1,20 in a column of metres
	}
	if special := t.station.place; special != "" && name.Special == "" && (ok || label.blank()) {
		name, ok = parse.Name{Special: special}, true
		if label.numeric {
			at = label
		}
	}
	if t.station.name != nil && label.blank() && len(t.block.rows) == 0 {
		name, ok = *t.station.name, true
	}
	if t.station.guessed && (label.value() && t.labelledOnce(label) || slices.ContainsFunc(cells, t.labelledOnce)) {
		ok = false
	}
	switch {
	case summaryNames.MatchString(label.folded) && label.asLabel().measure == "":
		t.summed = true
		t.passOver(parse.CodeUnplaced, "This row is made from the rows above and is not read.", append(cells, label))
	case !ok && len(cells) > 0 && (label.empty() || label.value()) && t.onlyNumbers(r, t.girths) && !t.labelled(r) && !t.girthNamed(r):
		t.unplacedRow(label, cells)
	case !ok || len(cells) == 0 && !label.value():
		t.gap = true
	case len(cells) == 0 && t.labelledOnce(label): // "Length overall | 15 ft", in the column of stations
		t.gap = true
	case len(cells) == 0: // a row that was left blank, or a stray number
		if name.Special != "" || t.last < 0 || t.step == 0 || t.dashed(r) || t.oneStepOn(name) {
			label.used = true
			t.useIndex(r, t.others)
			t.last = max(t.last, name.Amount.Number)
		}
	case name.Special != "" && (len(cells) == 1 || anyWord(cells)):
		// "greatest full girth 92" below the table is no pair: in the hull
		// column it would be the wrong one. It is read by its label, as is
		// "Greatest girth | at | 8 ft 1 in".
		t.gap = true
	case t.gap && !t.goesOn(r, name) && t.underLabels(label, cells):
		return false
	case name.Special == "" && t.gap && name.Amount.Scale == parse.Bare && t.turnsBack(r, name):
		return false
	case !t.onlyNumbers(r, t.girths) && !t.next(name, cells):
		t.gap = true
	default:
		t.add(r, name, label, at)
		label.used, where.used = true, true
		t.useIndex(r, t.others)
	}
	return true
}

// next reports the next station, whose girths are in their columns whatever stands
// beside one of them or in its place: "5 | (yoke) 40 | 61" gives no carry point.
func (t *tableRows) next(name parse.Name, cells []*item) bool {
	label := func(it *item) bool { return firstDigit(it.folded) < 0 && !bracketed.MatchString(it.Text) }
	if name.Special != "" || slices.ContainsFunc(cells, label) {
		return false
	}
	return t.oneStepOn(name) ||
		!t.gap && name.Amount.Number > t.last && slices.ContainsFunc(cells, func(it *item) bool { return it.numeric })
}

var bracketed = regexp.MustCompile(`^\s*\([^()]*\)\s*$`)

// turnsBack reports a station, in row r, that does not go on the way that those
// before it went, from the bow as a rule. After the first row the one below
// tells.
func (t *tableRows) turnsBack(r int, name parse.Name) bool {
	step, at := t.step, name.Amount.Number
	if below := t.at(r+1, t.station.at); step == 0 && below.numeric && !below.fault.Some() && math.Abs(t.last-2*at+below.amount.Number) < sameStep {
		step = at - t.last
	}
	if step < 0 {
		return at >= t.last
	}
	return at <= t.last
}

// goesOn reports a station that is the next in its table, below a line that says
// what lies between: "yoke".
func (t *tableRows) goesOn(r int, name parse.Name) bool {
	return t.alone(r-1) != nil && name.Special == "" && t.oneStepOn(name)
}

// oneStepOn reports a station that lies as far from the last as that does from
// the one before.
func (t *tableRows) oneStepOn(name parse.Name) bool {
	return t.step != 0 && math.Abs(name.Amount.Number-t.last-t.step) < sameStep
}

// dashed reports a row whose girths are said not to be there, by a dash in each.
func (t *tableRows) dashed(r int) bool {
	return !slices.ContainsFunc(t.girths, func(c column) bool { return t.at(r, c.at).empty() })
}

// underLabels reports numbers below a table that stand under the labels of
// other measures: "Length overall | Bow height" over "12 ft 6 in | 18".
func (t *tableRows) underLabels(label *item, cells []*item) bool {
	return slices.ContainsFunc(append(slices.Clone(cells), label), func(it *item) bool {
		r, c := it.row, it.col
		if t.flip {
			r, c = c, r
		}
		over := t.at(r-1, c)
		if it == label && !t.allWords(r-1) {
			return false // "Carry point | 22 in" has its number beside it
		}
		l := over.asLabel()
		return over.word() && !l.weak && (l.measure != "" || l.group != "") // "Stern" over rows is a part of the boat
	})
}

// add records a row that is understood.
func (t *tableRows) add(r int, name parse.Name, label, at *item) {
	t.gap = false
	if t.commas && !t.flip && t.splitNumbers(r, t.station, t.girths, t.others) {
		t.spoil(t.line(r))
	}
	line := t.rowOf(r, name, label, t.sorted)
	t.doubtRow(r, line)
	switch name.Special {
	case parse.NamedGreatest:
		t.greatest = append(t.greatest, line)
		if at != nil {
			t.addWhole(parse.GreatestAt, entry{item: at, heading: t.station.scale})
		}
	case parse.NamedTransom:
		t.transom = append(t.transom, line)
	default:
		if t.last >= 0 {
			t.step = name.Amount.Number - t.last
		}
		t.last = name.Amount.Number
		t.block.add(line)
	}
}

func anyWord(cells []*item) bool {
	return slices.ContainsFunc(cells, (*item).word)
}

// addGreatest records the row of the greatest girth below a table.
func (t *tableRows) addGreatest(line row) {
	if t.block.summary(line, t.summed) {
		t.passOver(parse.CodeUnplaced, "This row is made from the rows above and is not read.", line.cells())
		return
	}
	t.addWhole(parse.GreatestHullGirth, line.hull...)
	t.addWhole(parse.GreatestFullGirth, line.full...)
	t.addWhole(parse.GreatestOpening, line.opening...)
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
	for _, e := range entries {
		v.found.whole[m] = append(v.found.whole[m], e.plain(m))
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

// rowOf sorts the girths of a row by what their columns hold.
func (v view) rowOf(r int, name parse.Name, label *item, columns []sorted) row {
	line := row{name: name, label: label}
	for _, col := range columns {
		it := v.at(r, col.at)
		if it.blank() || it.used {
			continue
		}
		e := entry{item: it, heading: col.scale, doubt: col.doubt, factor: col.factor, kept: col.kept}
		if col.dashed {
			e.item = dashedFeet(it)
		}
		if col.inches >= 0 {
			e.item = v.joinFeet(it, v.at(r, col.inches))
			e.heading = parse.Bare
			v.at(r, col.inches).used = true
		}
		if col.halves >= 0 {
			if half := v.at(r, col.halves); !half.blank() && half.amount.Number != 0 {
				e.item = v.joinHalf(it, half)
			}
			v.at(r, col.halves).used = true
		}
		e = e.withoutRemark(besideGirth)
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
	line.hull, line.full, line.opening = v.kept(line.hull), v.kept(line.full), v.kept(line.opening)
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
