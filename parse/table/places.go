package table

import (
	"regexp"
	"slices"

	"fairtape/parse"
)

// counted tells the running number of the rows from their distance, where two
// columns of stations stand side by side: "Station no. | Distance from bow", and
// that of a list from the places that it names: "No. | What", "7 | 3 ft from bow".
func (v view) counted(start int, stations, others []column) (rest, all []column) {
	if len(stations) == 1 && v.runsFromOne(start, stations[0].at) {
		named := slices.IndexFunc(others, func(c column) bool { return v.namesPlaces(start, c.at) })
		if named >= 0 {
			list, places := stations[0], others[named]
			list.role, places.role = roleIndex, roleStation
			v.passRunning(start, list.at)
			return []column{places}, append(slices.Delete(slices.Clone(others), named, named+1), list)
		}
	}
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

// ofBow is in the name of a place: "3 ft from bow".
var ofBow = regexp.MustCompile(`^\d.*\b(?:from (?:the )?(?:bow|stem)|de l'etrave)\b`)

// namesPlaces reports a column most of which says how far from the bow a row is.
func (v view) namesPlaces(start, c int) bool {
	named, all := 0, 0
	for r := start; r < v.rows(); r++ {
		it := v.at(r, c)
		if it.empty() {
			continue
		}
		all++
		if ofBow.MatchString(it.folded) {
			named++
		}
	}
	return named >= fewRows && 2*named > all
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

// passRunning passes over the numbers of a column that count its rows, of what
// stands there beside the stations too.
func (v view) passRunning(start, c int) {
	for r, n := start, 1.0; r < v.rows(); r++ {
		if it := v.at(r, c); it.numeric && it.amount == (parse.Amount{Number: n}) {
			it.used = true
			n++
		}
	}
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

// nearestTo returns the columns that belong to one of the columns of stations.
func nearestTo(stations []column, i int, columns []column) []column {
	var mine []column
	for _, c := range columns {
		if nearestStation(stations, c.at) == i {
			mine = append(mine, c)
		}
	}
	return mine
}

// withoutGirths returns the columns of places to which no girths belong: they
// say more of the places that another column gives.
func withoutGirths(stations, girths []column) []column {
	var out []column
	for i, st := range stations {
		if len(nearestTo(stations, i, girths)) == 0 {
			out = append(out, st)
		}
	}
	return out
}

// unlabelledStations finds the columns without a heading whose numbers rise
// as stations do.
func (v view) unlabelledStations(start int, others []column) []column {
	var out []column
	for _, col := range others {
		rows := v.risingFrom(start, col.at)
		if col.role != noRole || rows < 2 || rows < fewRows && !v.endsAfter(start, col.at, rows) || len(out) > 0 && !regular(v, start, col.at, rows) {
			continue // a second one is surely a column of stations only where its steps are even
		}
		col.guessed = true
		out = append(out, col)
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
	n, last, far := 0, -1.0, parse.Length(-1)
	for ; r < v.rows(); r++ {
		it := v.at(r, c)
		if it.empty() {
			continue
		}
		name, f := parse.ParseStation(it.Text)
		if name.Special != "" {
			continue
		}
		at, measured := name.Amount.Length(parse.Bare)
		if f.Some() || it.Code != "" || name.Amount.Number <= last && name.Amount.Scale == parse.Bare || measured && at <= far {
			break
		}
		n, last, far = n+1, name.Amount.Number, at
	}
	return n
}
