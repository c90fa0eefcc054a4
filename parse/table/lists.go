package table

import (
	"math"
	"slices"
	"sort"

	"fairtape/parse"
)

// complete joins two tables of which one lists the hull girths and the other
// the full girths of the same stations; ok is false when they do not complete
// each other.
func complete(table, more []parse.Station) (joined []parse.Station, ok bool) {
	joined = slices.Clone(table)
	for _, m := range more {
		i := slices.IndexFunc(joined, func(s parse.Station) bool { return math.Abs(float64(s.At-m.At)) < 1 })
		if i < 0 {
			joined = append(joined, m)
			continue
		}
		switch s := &joined[i]; {
		case s.HullGirth.Absent() && m.FullGirth.Absent():
			s.HullGirth = m.HullGirth
		case s.FullGirth.Absent() && m.HullGirth.Absent():
			s.FullGirth = m.FullGirth
		default:
			return nil, false
		}
	}
	return joined, true
}

func overlap(a, b []parse.Station) bool {
	return slices.ContainsFunc(a, func(s parse.Station) bool {
		return slices.ContainsFunc(b, func(t parse.Station) bool { return math.Abs(float64(s.At-t.At)) < 1 })
	})
}

// joinSingles makes rows of girths that each have a label of their own.
func joinSingles(singles []row) []row {
	var rows []row
	for _, s := range singles {
		i := slices.IndexFunc(rows, func(r row) bool { return r.name == s.name })
		if i < 0 {
			rows = append(rows, s)
			continue
		}
		rows[i].hull = append(rows[i].hull, s.hull...)
		rows[i].full = append(rows[i].full, s.full...)
		rows[i].opening = append(rows[i].opening, s.opening...)
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].name.Amount.Number < rows[j].name.Amount.Number })
	return rows
}
