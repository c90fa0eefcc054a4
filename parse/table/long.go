package table

import "fairtape/parse"

// long is a table with one number in each row: what was measured, where, and
// how much, beside whatever else was noted.
type long struct {
	measure, station, value int // columns
	unit                    int // column of units, or -1
	stations, values        parse.Scale
}

// readLong reads tables with a row for each number: "hull girth | 12 | 34.5".
func (s *sheet) readLong() {
	v := view{s, false}
	for r := 0; r < v.rows(); r++ {
		if !v.allWords(r) {
			continue
		}
		if l, ok := v.longAt(r); ok {
			v.readLongRows(r+1, l)
		}
	}
}

// longAt finds the columns of such a table under the headings of row r.
func (v view) longAt(r int) (long, bool) {
	l := long{measure: -1, station: -1, value: -1, unit: -1}
	for c := 0; c < v.cols(); c++ {
		if it := v.at(r, c); it.word() && it.asRole() == roleStation && it.asLabel().none() {
			if l.station >= 0 {
				return l, false
			}
			l.station, l.stations = c, headingScale(it.folded)
		}
	}
	if l.station < 0 {
		return l, false
	}
	var rows []int
	for c := 0; c < v.cols() && l.measure < 0; c++ {
		if rows = v.girthsNamed(r+1, c, l.station); len(rows) >= fewRows {
			l.measure = c
		}
	}
	if l.measure < 0 {
		return l, false
	}
	for c := 0; c < v.cols(); c++ {
		if c == l.station || c == l.measure || v.at(r, c).empty() {
			continue
		}
		switch v.at(r, c).asRole() {
		case roleIndex, roleDerived, roleNotes:
			continue
		}
		switch numbers, units := v.filled(rows, c); {
		case units == len(rows):
			l.unit = c
		case 2*numbers > len(rows) && l.value >= 0:
			return l, false // two columns of numbers
		case 2*numbers > len(rows):
			l.value, l.values = c, headingScale(v.at(r, c).folded)
		}
	}
	return l, l.value >= 0
}

// girthsNamed returns the rows from row r on that name a girth in one column
// and a place in another.
func (v view) girthsNamed(r, c, station int) (rows []int) {
	for ; r < v.rows(); r++ {
		it, at := v.at(r, c), v.at(r, station)
		if !it.word() || it.used || firstDigit(it.folded) >= 0 || !it.asLabel().none() || it.asRole() != roleHull && it.asRole() != roleFull {
			continue
		}
		if _, f := parse.ParseStation(at.Text); !f.Some() && at.Code == "" {
			rows = append(rows, r)
		}
	}
	return rows
}

// filled counts the numbers and the units that stand in a column.
func (v view) filled(rows []int, c int) (numbers, units int) {
	for _, r := range rows {
		switch it := v.at(r, c); {
		case it.value() && it.fault.Code != parse.CodeDate:
			numbers++
		case unitOnly.MatchString(it.folded):
			units++
		}
	}
	return numbers, units
}

func (v view) readLongRows(start int, l long) {
	for r := start; r < v.rows(); r++ {
		what, at, it := v.at(r, l.measure), v.at(r, l.station), v.at(r, l.value)
		if what.used || !what.word() || !it.value() || it.used {
			continue
		}
		e := entry{item: it, heading: l.values}
		if l.unit >= 0 {
			if scale := scaleOfWord(v.at(r, l.unit).folded); scale != parse.Bare {
				e.heading = scale
			}
		}
		if m := v.longMeasure(what, at); m != "" {
			v.addWhole(m, e)
		} else if line, ok := v.longRow(what, at, e, l.stations); ok {
			v.found.singles = append(v.found.singles, line)
		} else {
			continue
		}
		what.used, at.used, it.used = true, true, true
	}
}

// longMeasure is what a row says that a boat has once, "" when it is a girth
// of a station. The place of such a measure is left empty.
func (v view) longMeasure(what, at *item) parse.Measure {
	label := what.asLabel()
	name, f := parse.ParseStation(at.Text)
	switch {
	case label.measure != "" && !label.weak && at.blank():
		return label.measure
	case f.Some() || !label.none():
		return ""
	case name.Special == parse.NamedGreatest:
		return within(groupGreatest, what.asRole())
	case name.Special == parse.NamedTransom:
		v.found.square = true
		return within(groupTransom, what.asRole())
	}
	return ""
}

func (v view) longRow(what, at *item, e entry, stations parse.Scale) (row, bool) {
	name, f := parse.ParseStation(at.Text)
	if f.Some() || name.Special != "" || at.Code != "" || !what.asLabel().none() {
		return row{}, false
	}
	if name.Amount.Scale == parse.Bare && !name.Ordinal {
		name.Amount.Scale = at.Scale
		if name.Amount.Scale == parse.Bare {
			name.Amount.Scale = stations
		}
	}
	line := row{name: name, label: at}
	switch what.asRole() {
	case roleHull:
		line.hull = []entry{e}
	case roleFull:
		line.full = []entry{e}
	case roleOpening:
		line.opening = []entry{e}
	default:
		return row{}, false
	}
	return line, true
}
