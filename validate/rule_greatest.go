package validate

import (
	"math"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// Limits of the greatest pair. Two readings of the tape, each rounded to the
// half inch, differ by an inch now and then; the opening taken as a control
// agrees with the difference of the girths within three quarters (common
// practice, no source).
const (
	greatestSlack = 1.5  // inches
	controlSlack  = 0.75 // inches; metric surveys round to less
)

// greatestRules holds the greatest pair against the stations and the opening.
func greatestRules(s parse.Survey) []Finding {
	g := s.Greatest
	var out []Finding
	largest, ok := largestStation(s)
	if ok && g.FullGirth.Certain() && g.FullGirth.Value < largest.FullGirth.Value-parse.Inches(greatestSlack)-hair {
		out = append(out, wrong(Recheck, GreatestBelow, parse.Cell{Measure: parse.GreatestFullGirth}, g.FullGirth.Value, impossible,
			names(parse.GreatestFullGirth)+" reads "+number(g.FullGirth.Value, s.Unit)+", below the "+
				number(largest.FullGirth.Value, s.Unit)+" at "+largest.At.Along(s.Unit)))
	}
	if f, bad := greatestPlace(s, largest); ok && bad {
		out = append(out, f)
	}
	if f, bad := control(s); bad {
		out = append(out, f)
	}
	return out
}

// largestStation returns the station with the largest full girth.
func largestStation(s parse.Survey) (largest parse.Station, ok bool) {
	for _, st := range s.Stations {
		if st.FullGirth.Certain() && st.FullGirth.Value > largest.FullGirth.Value {
			largest, ok = st, true
		}
	}
	return largest, ok
}

// greatestPlace holds that the greatest pair was taken in the boat, and near
// the largest station. Where several stations are as large within the slack,
// any of them will do.
func greatestPlace(s parse.Survey, largest parse.Station) (Finding, bool) {
	at := s.Greatest.At
	if !at.Certain() {
		return Finding{}, false
	}
	cell := parse.Cell{Measure: parse.GreatestAt}
	if at.Value < 0 || s.LengthOverall.Certain() && at.Value > s.LengthOverall.Value {
		return wrong(Recheck, GreatestPlace, cell, at.Value, impossible,
			"the greatest girth is said to lie at "+at.Value.Along(s.Unit)+", outside the boat"), true
	}
	nearest := math.Inf(1)
	for _, st := range s.Stations {
		if st.FullGirth.Certain() && st.FullGirth.Value >= largest.FullGirth.Value-parse.Inches(greatestSlack) {
			nearest = min(nearest, math.Abs(float64(st.At-at.Value)))
		}
	}
	if nearest <= 1.01*float64(s.Spacing()) || missingBetween(s, largest.At, at.Value) {
		return Finding{}, false
	}
	f := wrong(Recheck, GreatestPlace, cell, at.Value, impossible,
		"the greatest girth is said to lie at "+at.Value.Along(s.Unit)+", but the largest station is at "+largest.At.Along(s.Unit))
	if s.LengthOverall.Certain() {
		mirrored := s.LengthOverall.Value - at.Value
		if math.Abs(float64(mirrored-largest.At)) <= float64(s.Spacing()) {
			f.Slip, f.Suggest = slip.FromStern, &mirrored
			f.Message += "; likely counted from the stern"
		}
	}
	return f, true
}

// missingBetween reports stations left out between two places, so that the
// largest that was written need not be near the greatest.
func missingBetween(s parse.Survey, a, b parse.Length) bool {
	from, to := min(a, b), max(a, b)
	pitch := s.Spacing()
	have := 0
	for _, st := range s.Stations {
		if st.At > from && st.At < to && st.FullGirth.Certain() {
			have++
		}
	}
	return have < int(float64((to-from)/pitch)-0.01)
}

// control holds the measured opening against the difference of the girths.
func control(s parse.Survey) (Finding, bool) {
	g := s.Greatest
	if s.Decked || !g.Opening.Certain() || !g.HullGirth.Certain() || !g.FullGirth.Certain() {
		return Finding{}, false
	}
	difference := g.FullGirth.Value - g.HullGirth.Value
	if math.Abs(float64(g.Opening.Value-difference)) <= float64(parse.Inches(controlSlack))+hair {
		return Finding{}, false
	}
	return wrong(Note, OpeningControl, parse.Cell{Measure: parse.GreatestOpening}, g.Opening.Value, 0,
		"the opening measured at the greatest girth is "+number(g.Opening.Value, s.Unit)+", but the girths differ by "+number(difference, s.Unit)), true
}
