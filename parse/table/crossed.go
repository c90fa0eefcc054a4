package table

import "fairtape/parse"

// crossed is a table whose headings name a station and, under it, its girths:
// "1 ft | | 2 ft |" over "hull | full | hull | full", with the numbers below.
type crossed struct {
	roles  int // row of the headings of girths
	rows   []row
	at     map[int]int // columns to rows
	names  parse.Scale // from the heading of the stations
	values parse.Scale // from the heading of the girths
}

// readCrossed reads such tables, as the sheet lies and on its side.
func (s *sheet) readCrossed() {
	for _, v := range []view{{s, false}, {s, true}} {
		for r := 1; r < v.rows(); r++ {
			if x, ok := v.crossedAt(r); ok {
				v.readCrossedRows(x)
			}
		}
	}
}

// crossedAt finds the stations over the headings of girths in row r. Every
// station has both girths, once.
func (v view) crossedAt(r int) (crossed, bool) {
	x := crossed{roles: r, at: map[int]int{}}
	seen := map[role]int{} // girths of the station so far
	for c := 0; c < v.cols(); c++ {
		it, over := v.at(r, c), v.at(r-1, c)
		if len(x.rows) == 0 && !over.empty() {
			x.names = headingScale(over.folded)
		}
		if len(x.rows) == 0 && !it.empty() {
			x.values = headingScale(it.folded)
		}
		girth := v.girthHeading(it) && (it.asRole() == roleHull || it.asRole() == roleFull)
		if girth && !over.empty() {
			name, f := parse.ParseStation(over.Text)
			if f.Some() || name.Special != "" || over.Code != "" || over.used || len(x.rows) > 0 && len(seen) != 2 {
				return x, false
			}
			x.rows, seen = append(x.rows, row{name: name, label: over}), map[role]int{}
		}
		switch {
		case !girth && it.empty():
		case !girth && len(x.rows) == 0: // what the line is called
		case !girth || len(x.rows) == 0 || seen[it.asRole()] > 0:
			return x, false
		default:
			seen[it.asRole()]++
			x.at[c] = len(x.rows) - 1
		}
	}
	return x, len(x.rows) > 1 && len(seen) == 2
}

// readCrossedRows reads the lines of numbers under the headings: several are
// several tries. A line in which most numbers are missing is a line of remarks.
func (v view) readCrossedRows(x crossed) {
	filled := 0
	for r := x.roles + 1; r < v.rows() && !v.emptyRow(r); r++ {
		var columns []int
		for c := 0; c < v.cols(); c++ {
			if _, ok := x.at[c]; ok && v.at(r, c).value() && !v.at(r, c).used {
				columns = append(columns, c)
			}
		}
		if 2*len(columns) < len(x.at) {
			continue
		}
		filled++
		for _, c := range columns {
			it, line := v.at(r, c), &x.rows[x.at[c]]
			e := entry{item: it, heading: headingScale(v.at(x.roles, c).folded)}
			for _, scale := range []parse.Scale{v.lineScale(r), x.values} {
				if e.heading == parse.Bare {
					e.heading = scale
				}
			}
			if v.at(x.roles, c).asRole() == roleHull {
				line.hull = append(line.hull, e)
			} else {
				line.full = append(line.full, e)
			}
			it.used, line.label.used, v.at(x.roles, c).used = true, true, true
		}
	}
	if filled > 0 {
		v.found.blocks = append(v.found.blocks, block{heading: x.names, rows: x.rows})
	}
}

// lineScale is the unit that the first cell of a line names.
func (v view) lineScale(r int) parse.Scale {
	if it := v.at(r, 0); it.word() {
		return headingScale(it.folded)
	}
	return parse.Bare
}
