package table

import (
	"slices"

	"fairtape/parse"
)

// joinStations makes one column of two that hold the feet and the inches of
// the stations: "Station ft | Station in".
func (v view) joinStations(start int, stations, others []column) (rest, unused []column) {
	for _, feet := range stations {
		isInches := func(c column) bool {
			return feet.scale == parse.ScaleFoot && c.at == feet.at+1 && c.scale == parse.ScaleInch && (c.role == roleStation || c.role == noRole)
		}
		for _, list := range []*[]column{&stations, &others} {
			if i := slices.IndexFunc(*list, isInches); i >= 0 && v.feetAndInches(start, feet, feet, (*list)[i]) {
				v.joinColumn(start, feet.at)
				*list = slices.Delete(slices.Clone(*list), i, i+1)
			}
		}
	}
	return stations, others
}

// joinColumn joins column c, of feet, with the inches to its right.
func (v view) joinColumn(start, c int) {
	for r := start; r < v.rows() && (r == start || v.dataBelow(r) == 0); r++ {
		feet, inches := v.at(r, c), v.at(r, c+1)
		if feet.numeric && feet.amount.Scale == parse.Bare && (inches.numeric || inches.blank()) {
			*feet = *v.joinFeet(feet, inches)
			inches.used = true
		}
	}
}
