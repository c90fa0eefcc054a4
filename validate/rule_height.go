package validate

import (
	"math"

	"fairtape/parse"
)

// Limits of the height of an end over what the section nearest to it shows,
// inches. A section of hull girth U and opening w is between (U-w)/2 deep, a
// box, and sqrt(U*U-w*w)/2, a V; the end is at least as high as the shallowest
// section a foot inboard, less what tape and straight edge may be off, and
// rises over the deepest by what sheer, rocker and a recurved end do in that
// foot. Common practice, no source.
const (
	heightSlack = 3.0
	heightRise  = 16.0
	nearEnd     = 30.0 // from the end: farther in, the section says nothing of it
)

// heightRules holds the end heights against the first and last stations.
func heightRules(s parse.Survey) []Finding {
	if len(s.Stations) == 0 {
		return nil
	}
	first, last := s.Stations[0], s.Stations[len(s.Stations)-1]
	var out []Finding
	check := func(m parse.Measure, r parse.Reading, st parse.Station, from parse.Length) {
		if !r.Certain() || !st.HullGirth.Certain() || !st.FullGirth.Certain() || from > parse.Inches(nearEnd) || from < 0 {
			return
		}
		u, w := st.HullGirth.Value.In(parse.Inch), (st.FullGirth.Value - st.HullGirth.Value).In(parse.Inch)
		if w < 0 || w > u {
			return
		}
		h := r.Value.In(parse.Inch)
		box, vee := (u-w)/2, math.Sqrt(u*u-w*w)/2
		cell := parse.Cell{Measure: m}
		switch {
		case s.Decked: // the loop runs over the crown: no bound on the depth
		case h < box-heightSlack:
			out = append(out, wrong(Recheck, HeightFitsStations, cell, r.Value, impossible,
				names(m)+" reads "+number(r.Value, s.Unit)+", lower than the boat is deep at "+distance(st.At, s.Unit)))
		case h > vee+heightRise:
			out = append(out, wrong(Recheck, HeightFitsStations, cell, r.Value, impossible,
				names(m)+" reads "+number(r.Value, s.Unit)+", far higher than the boat is deep at "+distance(st.At, s.Unit)))
		}
	}
	check(parse.BowHeight, s.BowHeight, first, first.At)
	if s.LengthOverall.Certain() {
		check(parse.SternHeight, s.SternHeight, last, s.LengthOverall.Value-last.At)
	}
	return out
}
