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
	scale    parse.Scale // declared for the whole sheet
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

func (r row) count() int { return len(r.hull) + len(r.full) + len(r.opening) }

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

// headingReach is how many rows of headings and blanks may stand between a
// heading and the first number under it.
const headingReach = 5

// dataBelow returns the first row of numbers under headings of girths in row
// r, or 0 when row r is no heading.
func (v view) dataBelow(r int) int {
	start := 0
	for c := 0; c < v.cols(); c++ {
		it := v.at(r, c)
		if !v.girthHeading(it) {
			continue
		}
		for i := r + 1; i <= r+headingReach && i < v.rows(); i++ {
			below := v.at(i, c)
			if below.value() {
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

func (v view) girthHeading(it *item) bool {
	return it.word() && !it.used && len(it.folded) <= longestLabel && roleOf(it.folded).girth() &&
		!greatestWords.MatchString(it.folded) && !transomWords.MatchString(it.folded) && stationLabel(it.folded).at == nil
}

// allWords reports a row without numbers: one of headings.
func (v view) allWords(r int) bool {
	if v.flip {
		return !v.numberCols[r]
	}
	return !v.numberRows[r]
}

func (v view) emptyRow(r int) bool {
	for c := 0; c < v.cols(); c++ {
		if !v.at(r, c).empty() {
			return false
		}
	}
	return true
}

// headings returns the texts over column c, the lowest first.
func (v view) headings(start, c int) []string {
	var texts []string
	for r := start - 1; r >= 0 && r >= start-headingReach && v.allWords(r); r-- {
		if len(texts) > 0 && v.emptyRow(r) {
			break
		}
		it := v.at(r, c)
		if it.empty() {
			it = v.spanning(r, c, len(texts) > 0)
		}
		if !it.empty() {
			texts = append(texts, it.folded)
		}
	}
	return texts
}

// spanning returns the heading in row r that lies over column c from its left:
// a merged cell, or, over a second heading, the nearest one to the left.
func (v view) spanning(r, c int, second bool) *item {
	for left := c - 1; left >= 0; left-- {
		it := v.at(r, left)
		if it.empty() {
			continue
		}
		if left+v.across(it) > c || second && v.across(it) == 1 && v.girthHeading(it) {
			return it
		}
		break
	}
	return &item{}
}

func (v view) column(start, c int) column {
	col := column{at: c}
	text := ""
	for _, t := range v.headings(start, c) {
		if col.scale == parse.Bare {
			col.scale = headingScale(t)
		}
		col.astern = col.astern || fromStern.MatchString(t)
		if l := labelOf(t); l.measure != "" || stationLabel(t).at != nil {
			break // the label of one number
		}
		if text == "" {
			text = t
		} else {
			text = t + " " + text
		}
		if col.role == noRole || col.role == roleGirth {
			if r := roleOf(text); r != noRole {
				col.role = r
			}
		}
	}
	return col
}

// readTable reads the tables whose numbers begin in the given row: each column
// of stations with the columns of girths beside it.
func (v view) readTable(start int) {
	var stations, girths, others []column
	for c := 0; c < v.cols(); c++ {
		if v.at(start-1, c).empty() && v.at(start, c).empty() {
			continue // under a merged heading, with nothing of its own
		}
		col := v.column(start, c)
		switch {
		case col.role == roleStation:
			stations = append(stations, col)
		case col.role.girth():
			girths = append(girths, col)
		default:
			others = append(others, col)
		}
	}
	if len(girths) == 0 {
		return
	}
	if len(stations) == 0 {
		stations = v.unlabelledStations(start, others)
	}
	stations, others = v.counted(start, stations, others)
	for i, st := range stations {
		var mine []column
		for _, g := range girths {
			if nearestStation(stations, g.at) == i {
				mine = append(mine, g)
			}
		}
		if len(mine) > 0 {
			v.readRows(start, st, mine, others)
		}
	}
}

// counted tells the running number of the rows from their distance, where two
// columns of stations stand side by side: "Station no. | Distance from bow".
func (v view) counted(start int, stations, others []column) (rest, all []column) {
	for i, st := range stations {
		beside := i+1 < len(stations) && stations[i+1].at == st.at+1
		if beside && v.runsFromOne(start, st.at) {
			st.role = roleIndex
			others = append(others, st)
			continue
		}
		rest = append(rest, st)
	}
	return rest, others
}

// runsFromOne reports a column that counts 1, 2, 3.
func (v view) runsFromOne(start, c int) bool {
	n := 0.0
	for r := start; r < v.rows() && int(n) < fewRows; r++ {
		it := v.at(r, c)
		if it.empty() {
			continue
		}
		if n++; !it.numeric || it.fault.Some() || it.amount != (parse.Amount{Number: n}) {
			return false
		}
	}
	return n > 1
}

// nearestStation is the column of stations that a column of girths belongs to:
// the nearest to its left, else the nearest to its right.
func nearestStation(stations []column, c int) int {
	best := -1
	for i, s := range stations {
		if s.at < c {
			best = i
		}
	}
	return max(best, 0)
}

// unlabelledStations finds the columns without a heading whose numbers rise
// as stations do.
func (v view) unlabelledStations(start int, others []column) []column {
	var out []column
	for _, col := range others {
		if col.role == noRole && v.risingFrom(start, col.at) >= 2 {
			out = append(out, col)
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, col := range others {
		if col.role == roleIndex && v.risingFrom(start, col.at) >= 2 {
			return []column{col}
		}
	}
	return nil
}

// risingFrom counts the names of stations from row r on, as long as they rise.
func (v view) risingFrom(r, c int) int {
	n, last := 0, -1.0
	for ; r < v.rows(); r++ {
		it := v.at(r, c)
		if it.empty() {
			continue
		}
		name, f := parse.ParseStation(it.Text)
		if name.Special != "" {
			continue
		}
		if f.Some() || it.Code != "" || name.Amount.Number <= last && name.Amount.Scale == parse.Bare {
			break
		}
		n, last = n+1, name.Amount.Number
	}
	return n
}

// readRows reads one table: its rows end where another table begins, or where
// after a gap the stations no longer rise.
func (v view) readRows(start int, station column, girths, others []column) {
	b := block{heading: station.scale, astern: station.astern}
	columns := v.sortGirths(start, station, girths)
	var greatest, transom *row
	if v.commas && v.flip {
		v.spoilLong(station, girths)
	}
	gap, last := false, -1.0
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
		case len(cells) == 0: // a row that was left blank
			label.used = true
			v.useIndex(r, others)
			continue
		}
		if name.Special == "" {
			if gap && name.Amount.Number <= last && name.Amount.Scale == parse.Bare {
				break
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
			greatest = &line
			if at != nil {
				s := entry{item: at, heading: station.scale}
				v.addWhole(parse.GreatestAt, s)
			}
		case parse.NamedTransom:
			transom = &line
		default:
			b.rows = append(b.rows, line)
		}
		label.used, where.used = true, true
		v.useIndex(r, others)
	}
	if greatest != nil && b.summary(*greatest) {
		v.passOver(parse.CodeUnplaced, "This row is made from the rows above and is not read.", greatest.cells())
		greatest = nil
	}
	if greatest != nil {
		v.addWhole(parse.GreatestHullGirth, greatest.hull...)
		v.addWhole(parse.GreatestFullGirth, greatest.full...)
		v.addWhole(parse.GreatestOpening, greatest.opening...)
	}
	if transom != nil {
		v.found.square = true
		v.addWhole(parse.TransomHullGirth, transom.hull...)
		v.addWhole(parse.TransomFullGirth, transom.full...)
	}
	if len(b.rows) > 0 {
		v.found.blocks = append(v.found.blocks, b)
	}
	if len(b.rows) > 0 || greatest != nil || transom != nil {
		v.useHeadings(start)
	}
}

// useHeadings marks the words over a table as read.
func (v view) useHeadings(start int) {
	for r := start - 1; r >= 0 && r >= start-headingReach && v.allWords(r); r-- {
		for c := 0; c < v.cols(); c++ {
			it := v.at(r, c)
			if (roleOf(it.folded) != noRole || unitOnly.MatchString(it.folded)) && labelOf(it.folded).none() {
				it.used = true
			}
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
		if it := v.at(r, c); it.word() && labelOf(it.folded).measure != "" {
			return true
		}
	}
	return false
}

// onlyNumbers reports a row whose girths are not the labels of something else.
func (v view) onlyNumbers(r int, girths []column) bool {
	for _, it := range v.rowCells(r, girths) {
		if it.word() && (!labelOf(it.folded).none() || roleOf(it.folded) != noRole) {
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
		if it.numeric || len(it.folded) > longestLabel {
			continue
		}
		switch {
		case greatestWords.MatchString(it.folded) && labelOf(it.folded).meta == "":
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

// useIndex passes over the running numbers of the rows.
func (v view) useIndex(r int, others []column) {
	for _, o := range others {
		if o.role == roleIndex {
			v.at(r, o.at).used = true
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
		if it.value() {
			v.problem(code, it, message)
		}
	}
}

func (s *sheet) problem(code parse.Code, it *item, message string) {
	s.found.problems = append(s.found.problems, parse.Problem{Code: code, Source: it.source(s.file), Message: message})
}

// columnNumbers returns the numbers of two columns in the rows where both have
// one, from row start to the end of the run.
func (v view) columnNumbers(start int, station column, a, b int) (as, bs []float64) {
	for r := start; r < v.rows(); r++ {
		x, y := v.at(r, a), v.at(r, b)
		if _, f := parse.ParseStation(v.at(r, station.at).Text); f.Some() && !v.at(r, station.at).empty() {
			continue
		}
		if x.numeric && y.numeric && !x.fault.Some() && !y.fault.Some() {
			as, bs = append(as, x.amount.Number), append(bs, y.amount.Number)
		}
	}
	return as, bs
}

// sorted is a column of girths when it is known which.
type sorted struct {
	column
	doubt  parse.Fault
	factor float64
	inches int // the column that holds the inches of these feet, or -1
}

// sortGirths decides which girth each column holds.
func (v view) sortGirths(start int, station column, girths []column) []sorted {
	var out []sorted
	for i := 0; i < len(girths); i++ {
		g := sorted{column: girths[i], inches: -1}
		if i+1 < len(girths) && girths[i+1].role == g.role && g.scale == parse.ScaleFoot && girths[i+1].scale == parse.ScaleInch && v.feetAndInches(start, station, girths[i], girths[i+1]) {
			g.inches = girths[i+1].at
			i++
		}
		out = append(out, g)
	}
	v.resolveGirths(start, station, out)
	return out
}

func has(columns []sorted, r role) bool {
	return slices.ContainsFunc(columns, func(c sorted) bool { return c.role == r })
}

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
		case !whole || it.used, !known && c < station.at: // to the left: running numbers
		case !known || col.role == roleNotes:
			return true
		case (col.role == roleFull || col.role == roleGirth) && it.amount.Number < 10:
			return true
		}
	}
	return false
}

func (v view) line(r int) []*item {
	var cells []*item
	for c := 0; c < v.cols(); c++ {
		cells = append(cells, v.at(r, c))
	}
	return cells
}

// spoilLong takes the lines of girths that go on beyond the line of stations
// as split by decimal commas.
func (v view) spoilLong(station column, girths []column) {
	end := 0
	for r := 0; r < v.rows(); r++ {
		if !v.at(r, station.at).empty() {
			end = r
		}
	}
	for _, g := range girths {
		var cells []*item
		long := false
		for r := 0; r < v.rows(); r++ {
			it := v.at(r, g.at)
			cells = append(cells, it)
			long = long || r > end && it.value()
		}
		if long {
			v.spoil(cells)
		}
	}
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
