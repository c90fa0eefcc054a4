package prose

import (
	"slices"

	"fairtape/parse"
)

// record is what stands at one place of a boat in a body whose places all have
// the same: numbers in the same order, with the same words about them.
type record []numeral

// Numbers of a record at least and at most: a place and a girth; the number of
// a station, its distance, both girths and the opening.
const (
	recordLeast = 2
	recordMost  = 5
)

// recordsOf finds records that follow each other and whose places rise by one
// step. Place is where in a record the place stands: first, or behind the number
// of its station.
func recordsOf(all []numeral, start, size int) (records []record, place int, ok bool) {
	end := start + size
	for end+size <= len(all) && sameRow(all[end-size:end], all[end:end+size], end-size == start) && all[end].risesFrom(all[end-size], all[start]) {
		end += size
	}
	if (end-start)/size < bareLeast || end < len(all) && all[end].words == "" && !all[end].first {
		return nil, 0, false
	}
	for c := range slices.Chunk(all[start:end], size) {
		records = append(records, c)
	}
	if all[start].amount == (parse.Amount{Number: 1}) && rising(records, 1) {
		place = 1 // "Station 3 (90 cm)"
	}
	return records, place, true
}

// sameRow reports rows with the same words about their numbers. Before the
// first row, and at the beginning of a line, anything may stand.
func sameRow(a, b []numeral, first bool) bool {
	for i := 1; i < len(a); i++ {
		if a[i].words != b[i].words {
			return false
		}
	}
	return first || a[0].words == b[0].words || a[0].first && b[0].first
}

// risesFrom reports a place one step farther aft than the one before. The step
// is the distance of the first place from the bow.
func (n numeral) risesFrom(before, first numeral) bool {
	if n.fault.Some() || before.fault.Some() || first.fault.Some() || before.amount.Scale != n.amount.Scale {
		return false
	}
	step := n.amount.Number - before.amount.Number
	return step > 0 && step == first.amount.Number
}

func rising(records []record, i int) bool {
	for k := 1; k < len(records); k++ {
		if !records[k][i].risesFrom(records[k-1][i], records[0][i]) {
			return false
		}
	}
	return true
}

// girthsOf finds where in records the girths stand: what neither says the place
// again nor counts the records.
func girthsOf(records []record, place int) (at []int) {
	for i := range records[0] {
		if i != place && !rising(records, i) {
			at = append(at, i)
		}
	}
	return at
}

// forcedRows finds stations with both their girths in records, or each girth in
// records of its own: "hull: 1 ft 35, 2 ft 38 ... full: 1 ft 42, 2 ft 55 ...".
func forcedRows(all []numeral) []forcedRow {
	for size := recordMost; size > recordLeast; size-- {
		for start := 0; start+size*bareLeast <= len(all); start++ {
			records, place, ok := recordsOf(all, start, size)
			if !ok {
				continue
			}
			if rows := rowsOf(records, place, girthsOf(records, place)); rows != nil {
				return rows
			}
		}
	}
	for start := 0; start+recordLeast*bareLeast <= len(all); start++ {
		hulls, _, ok := recordsOf(all, start, recordLeast)
		if !ok {
			continue
		}
		for next := start + recordLeast*len(hulls); next+recordLeast*len(hulls) <= len(all); next++ {
			fulls, _, ok := recordsOf(all, next, recordLeast)
			if ok && samePlaces(hulls, fulls) {
				return rowsOfLists(hulls, fulls)
			}
		}
	}
	return nil
}

// rowsOf makes stations of records with two girths, or with the opening too.
func rowsOf(records []record, place int, girths []int) []forcedRow {
	if len(girths) == 3 {
		girths = withoutOpening(records, girths)
	}
	if len(girths) != 2 {
		return nil
	}
	var rows []forcedRow
	for _, rec := range records {
		row := forcedRow{at: &rec[place], hull: rec[girths[0]], full: rec[girths[1]]}
		for i := range rec {
			if i != place && !slices.Contains(girths, i) {
				row.more = append(row.more, rec[i])
			}
		}
		rows = append(rows, row)
	}
	first, second := records[1][girths[0]].words, records[1][girths[1]].words
	if labelOf(first) == (label{}) && labelOf(second) == (label{}) {
		if a, b := inTurn(records[0][0].words); a != "" {
			first, second = a, b
		}
	}
	return ordered(rows, first, second)
}

// withoutOpening leaves out of three numbers the opening: the difference of the
// two others at every place but one, and less than either.
func withoutOpening(records []record, three []int) []int {
	for i := range three {
		two := slices.Delete(slices.Clone(three), i, i+1)
		off := 0
		for _, rec := range records {
			a, b, w := rec[two[0]].amount.Number, rec[two[1]].amount.Number, rec[three[i]].amount.Number
			if max(a, b)-min(a, b) != w || w >= min(a, b) {
				off++
			}
		}
		if off <= 1 {
			return two
		}
	}
	return nil
}

func samePlaces(a, b []record) bool {
	return slices.EqualFunc(a, b, func(x, y record) bool { return x[0].amount == y[0].amount })
}

func rowsOfLists(hulls, fulls []record) []forcedRow {
	var rows []forcedRow
	for i := range hulls {
		rows = append(rows, forcedRow{at: &hulls[i][0], hull: hulls[i][1], full: fulls[i][1], more: []numeral{fulls[i][0]}})
	}
	first, second := hulls[1][1].words, fulls[1][1].words
	if first == second {
		first, second = hulls[0][0].words, fulls[0][0].words
	}
	return ordered(rows, first, second)
}

// inTurn tells by the words over a list which girth comes first in its records:
// "hull, full", as often as there are records beside each other.
func inTurn(words string) (first, second string) {
	names := girthNames.FindAllString(words, -1)
	if len(names) < 2 || len(names)%2 != 0 {
		return "", ""
	}
	for i, name := range names {
		if labelOf(name).role != labelOf(names[i%2]).role {
			return "", ""
		}
	}
	return names[0], names[1]
}

// ordered tells the two girths of rows apart, and returns nil where the numbers
// or the words about them leave a choice.
func ordered(rows []forcedRow, first, second string) []forcedRow {
	a, b := labelOf(first), labelOf(second)
	if a.measure != "" || b.measure != "" || a.place != noPlace || b.place != noPlace || a.role == opening || b.role == opening {
		return nil
	}
	named := a.role != noRole && b.role != noRole && a.role != b.role
	if !named && a.role == b.role && a.role != noRole {
		return nil
	}
	swapped := a.role == full && b.role != full || b.role == hull && a.role != hull
	if !named && a.role == b.role {
		swapped = rows[0].hull.amount.Number > rows[0].full.amount.Number
	}
	out := slices.Clone(rows)
	for i := range out {
		if swapped {
			out[i].hull, out[i].full = out[i].full, out[i].hull
		}
	}
	fit, clear := 0, 0
	for _, row := range out {
		if row.hull.fault.Some() || row.full.fault.Some() {
			continue // a problem of its own
		}
		clear++
		if row.fits() {
			fit++
		}
	}
	switch {
	case clear < bareLeast, clear < swappedOneIn*(len(out)-clear), !alikeGirths(out):
		return nil
	case fit < clear && (!named || fit < swappedOneIn*(clear-fit)):
		return nil
	}
	return out
}

// fits reports girths of one place: the full girth is at least an inch over the
// hull girth, and at most twice as much.
func (row forcedRow) fits() bool {
	h, okH := row.hull.amount.Length(parse.ScaleInch)
	f, okF := row.full.amount.Length(parse.ScaleInch)
	return okH && okF && f > h && f <= 2*h
}

func alikeGirths(rows []forcedRow) bool {
	u := run{size: 2}
	for _, row := range rows {
		u.nums = append(u.nums, row.full.item, row.hull.item)
	}
	return u.alike(len(rows))
}
