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
	// An end that rises over the section by no more than this is honest whatever
	// the curve makes of it: recurved ends do.
	recurvedRise = 11.0
	nearEnd      = 30.0 // from the end: farther in, the section says nothing of it
)

// section returns how deep the station nearest to an end may be, inches. It is
// not known for decked boats, on which the loop runs over the crown.
func section(s parse.Survey, end parse.Measure) (box, vee float64, at parse.Length, ok bool) {
	if len(s.Stations) == 0 || s.Decked {
		return 0, 0, 0, false
	}
	st := s.Stations[0]
	from := st.At
	if end == parse.SternHeight {
		if !s.LengthOverall.Certain() {
			return 0, 0, 0, false
		}
		st = s.Stations[len(s.Stations)-1]
		from = s.LengthOverall.Value - st.At
	}
	u, w := st.HullGirth.Value.In(parse.Inch), (st.FullGirth.Value - st.HullGirth.Value).In(parse.Inch)
	if !st.HullGirth.Certain() || !st.FullGirth.Certain() || from < 0 || from > parse.Inches(nearEnd) || w < 0 || w > u {
		return 0, 0, 0, false
	}
	return (u - w) / 2, math.Sqrt(u*u-w*w) / 2, st.At, true
}

// heightRules holds the end heights against the first and last stations.
func heightRules(s parse.Survey) []Finding {
	var out []Finding
	check := func(m parse.Measure, r parse.Reading) {
		box, vee, at, ok := section(s, m)
		if !ok || !r.Certain() {
			return
		}
		h := r.Value.In(parse.Inch)
		cell := parse.Cell{Measure: m}
		switch {
		case h < box-heightSlack:
			out = append(out, wrong(Recheck, HeightFitsStations, cell, r.Value, impossible,
				names(m)+" reads "+number(r.Value, s.Unit)+", lower than the boat is deep at "+at.Along(s.Unit)))
		case h > vee+heightRise:
			out = append(out, wrong(Recheck, HeightFitsStations, cell, r.Value, impossible,
				names(m)+" reads "+number(r.Value, s.Unit)+", far higher than the boat is deep at "+at.Along(s.Unit)))
		}
	}
	check(parse.BowHeight, s.BowHeight)
	check(parse.SternHeight, s.SternHeight)
	return out
}

// honestHeight reports an end height that the nearest section allows, or of
// which it says nothing. What the other end rises over its own section may be
// rocker, which lifts both.
func honestHeight(s parse.Survey, end parse.Measure, height parse.Length) bool {
	box, vee, _, ok := section(s, end)
	if !ok {
		return true
	}
	other, reading := parse.SternHeight, s.SternHeight
	if end == other {
		other, reading = parse.BowHeight, s.BowHeight
	}
	rise := recurvedRise
	if _, otherVee, _, ok := section(s, other); ok && reading.Certain() {
		rise += math.Max(0, reading.Value.In(parse.Inch)-otherVee)
	}
	h := height.In(parse.Inch)
	return h >= box && h <= vee+rise
}
