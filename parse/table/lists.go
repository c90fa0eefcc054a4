package table

import (
	"math"
	"slices"

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
