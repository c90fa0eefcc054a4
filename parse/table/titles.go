package table

import (
	"slices"

	"fairtape/parse"
)

// What the headings of a table leave open is looked for around it: in a title
// over the table, in the name of the sheet, and in the numbers, where they
// leave no choice.

// untangle puts the columns right that their headings alone put wrong.
func (v view) untangle(start int, stations, girths, others []column) (s, g, o []column) {
	var bare []column
	if len(stations) == 0 {
		bare = v.unlabelledStations(start, others)
	}
	if slices.ContainsFunc(bare, func(c column) bool { return v.evenly(start, c.at) }) {
		stations = bare
	}
	if len(stations) == 0 {
		// A title "Hull girths" stands over the names of the stations too.
		var rest []column
		for _, col := range girths {
			if v.evenly(start, col.at) {
				col.role = roleStation
				if !unitOnly.MatchString(v.headings(start, col.at)[0]) {
					col.scale = parse.Bare // the title's, of the girths
				}
				stations = append(stations, col)
			} else {
				rest = append(rest, col)
			}
		}
		girths = rest
	}
	if len(stations) == 0 {
		stations = bare
	}
	stations, others = v.counted(start, stations, others)
	for i := 0; i < len(girths); i++ { // the inches beside feet, the halves beside whole numbers, the other unit
		col := girths[i]
		j := slices.IndexFunc(others, func(o column) bool { return o.at == col.at+1 })
		if j >= 0 && others[j].role == noRole && (col.scale == parse.ScaleFoot && others[j].scale == parse.ScaleInch || v.fractions(start, others[j].at) || v.inOtherUnit(start, col, others[j])) {
			part := others[j]
			part.role = col.role
			girths = slices.Insert(slices.Clone(girths), i+1, part)
			others = slices.Delete(slices.Clone(others), j, j+1)
		}
	}
	if len(girths) == 0 || len(girths) == 1 && girths[0].role == roleGirth {
		girths, others = v.titled(start, max(1, len(stations)), girths, others)
	}
	return stations, girths, others
}

// evenly reports a column whose numbers rise by even steps, as those of
// stations do and those of girths never.
func (v view) evenly(start, c int) bool {
	rows := v.risingFrom(start, c)
	return rows >= fewRows && regular(v, start, c, rows) && v.endsAfter(start, c, rows)
}

// titled gives the column of numbers beside each column of stations, whose heading
// does not say which girth it holds, the girth that the title names.
func (v view) titled(start, stations int, girths, others []column) (g, o []column) {
	title := v.titleOf(start)
	if title.role == noRole {
		return girths, others
	}
	named := func(col column) column {
		col.role = title.role
		if col.scale == parse.Bare {
			col.scale = title.scale
		}
		return col
	}
	if len(girths) == 1 {
		return []column{named(girths[0])}, others
	}
	var mine, rest []column
	for _, col := range others {
		if col.role != noRole || !v.mostlyNumbers(start, col.at) {
			rest = append(rest, col)
			continue
		}
		if texts := v.headings(start, col.at); len(mine) == stations || len(texts) > 0 && !plainNumbers.MatchString(texts[0]) {
			return girths, others
		}
		mine = append(mine, named(col))
	}
	if len(mine) == 0 {
		return girths, others
	}
	return mine, rest
}

// titleOf is the girth that a title names, and its unit: alone in its row over
// the table, or as the name of the sheet.
func (v view) titleOf(start int) column {
	for r := start - 1; r >= 0 && r >= start-headingReach && v.allWords(r); r-- {
		if title := v.alone(r); title != nil && v.girthHeading(title) && v.sureTitle(title) {
			return column{role: title.asRole(), scale: headingScale(title.folded)}
		}
	}
	return column{role: v.girth}
}

// sureTitle reports a title that speaks of one girth: "Hull girths", or "Hull"
// where another title says "Full". "Hull survey" speaks of a boat.
func (s *sheet) sureTitle(it *item) bool {
	other := roleHull
	switch it.asRole() {
	case roleHull:
		other = roleFull
	case roleFull:
	default:
		return false
	}
	return girthWords.MatchString(it.folded) || slices.ContainsFunc(s.items, func(row []*item) bool {
		return slices.ContainsFunc(row, func(o *item) bool { return o.word() && o.asRole() == other })
	})
}

// sheetTitles finds the girths that the titles of tables and the names of sheets
// speak of: "Hull girths", or "Hull" beside a sheet "Full".
func sheetTitles(grids []Grid) []role {
	titles := make([]role, len(grids))
	has := map[role]bool{}
	name := func(g Grid) string {
		if g.Title != "" {
			return parse.Fold(g.Title)
		}
		return parse.Fold(g.Name)
	}
	for i, g := range grids {
		titles[i] = roleOf(name(g))
		has[titles[i]] = true
	}
	for i, g := range grids {
		sure := girthWords.MatchString(name(g)) || has[roleHull] && has[roleFull]
		if titles[i] != roleHull && titles[i] != roleFull || !sure {
			titles[i] = noRole
		}
	}
	return titles
}

// mostlyNumbers reports a column with a number in most rows of a table.
func (v view) mostlyNumbers(start, c int) bool {
	rows, numbers := 0, 0
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		rows++
		if it := v.at(r, c); it.value() && !it.used {
			numbers++
		}
	}
	return 2*numbers > rows
}

// byNumbers adds to the one girth of a table the column that by its numbers can
// only be the other, whatever it is called.
func (v view) byNumbers(start int, station column, girths, others []column) []column {
	if len(girths) != 1 {
		return girths
	}
	g := girths[0]
	found := girths
	for _, o := range others {
		texts := v.headings(start, o.at)
		if o.role != noRole || o.scale != g.scale || len(texts) == 0 || !labelOf(texts[0]).none() {
			continue
		}
		x, y := v.columnNumbers(start, station, g.at, o.at)
		fits := g.role != roleFull && hullThenFull(x, y) || g.role != roleHull && hullThenFull(y, x)
		if !fits || !g.role.girth() || g.role == roleOpening || g.role == roleHalf {
			continue
		}
		if len(found) > 1 {
			return girths // two of them
		}
		o.role = roleGirth
		found = []column{g, o}
	}
	return found
}

// denied marks the one girth of a table beside which a column without a heading
// can, by the numbers, only be the girth that this one is called: the headings
// stand over the wrong columns.
func (v view) denied(start int, station column, girths, others []column) []column {
	if len(girths) != 1 {
		return girths
	}
	g := girths[0]
	for _, o := range others {
		if o.role != noRole || len(v.headings(start, o.at)) > 0 {
			continue
		}
		x, y := v.columnNumbers(start, station, g.at, o.at)
		g.denied = g.denied || g.role == roleFull && hullThenFull(x, y) || g.role == roleHull && hullThenFull(y, x)
	}
	return []column{g}
}
