package parse

import "math"

// The greatest girth lies anywhere between the stations. A pair told in words
// that no reader took for it looks like one more station: off the grid of all
// others, and larger than any.

// doubtLone doubts such a station of a survey that has no greatest pair, and
// returns the problem that says so.
func doubtLone(s *Survey) (Problem, bool) {
	if !s.Greatest.At.Absent() || !s.Greatest.HullGirth.Absent() || !s.Greatest.FullGirth.Absent() || len(s.Stations) <= fullTable {
		return Problem{}, false
	}
	lone := offGrid(s.Stations)
	if lone < 0 {
		return Problem{}, false
	}
	at := &s.Stations[lone]
	for _, st := range s.Stations {
		if st.FullGirth.Known && (!at.FullGirth.Known || st.FullGirth.Value > at.FullGirth.Value) {
			return Problem{}, false
		}
	}
	for _, r := range []*Reading{&at.HullGirth, &at.FullGirth} {
		r.Confidence = min(r.Confidence, perhaps)
	}
	return Problem{
		Code: CodeStationUnclear, Source: at.FullGirth.Source,
		Message: "This lies between the stations and is larger than all of them: it may be the greatest girth.",
	}, true
}

// perhaps is the confidence of a number that may belong elsewhere.
const perhaps = 0.5

// offGrid is the only station that lies off the grid of all others, which are
// laid off evenly from the bow; -1 where there is none.
func offGrid(stations []Station) int {
	off := -1
	step := stations[0].At
	for _, s := range stations[1:] {
		if s.At > 0 && s.At < step {
			step = s.At
		}
	}
	for i, s := range stations {
		if whole := math.Round(float64(s.At) / float64(step)); same(s.At, step*Length(whole), onePlace) {
			continue
		}
		if off >= 0 {
			return -1
		}
		off = i
	}
	return off
}
