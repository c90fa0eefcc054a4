package validate

import (
	"slices"

	"fairtape/parse"
)

// Limits of the length overall, inches: the boats that are surveyed by post,
// with room on both sides. Common practice, no source.
const (
	shortestBoat = 4 * 12
	longestBoat  = 40 * 12
	// A station at the very stern may lie this far beyond a length that was
	// rounded down, or measured a little short.
	lengthSlack = 1.0
)

// lengthRules holds the length overall against the boats there are and against
// the stations.
func lengthRules(s parse.Survey) []Finding {
	r := s.LengthOverall
	if !r.Certain() {
		return nil
	}
	cell := parse.Cell{Measure: parse.LengthOverall}
	if in := r.Value.In(parse.Inch); in < shortestBoat || in > longestBoat {
		return []Finding{wrong(Recheck, LengthOfBoat, cell, r.Value, impossible,
			"length overall reads "+r.Value.Along(s.Unit)+", which is no boat that a cover is made for")}
	}
	var beyond []parse.Length
	for _, st := range s.Stations {
		if st.At > r.Value+parse.Inches(lengthSlack) {
			beyond = append(beyond, st.At)
		}
	}
	switch {
	case len(beyond) == 0:
		return nil
	case len(beyond) == 1:
		return []Finding{{Kind: Recheck, Rule: StationBeyond, Rows: beyond, Probability: impossible,
			Message: "the station at " + beyond[0].Along(s.Unit) + " lies beyond the length overall of " + r.Value.Along(s.Unit)}}
	}
	// Several rows beyond the stern speak against the length, not the rows.
	return []Finding{wrong(Recheck, StationBeyond, cell, r.Value, impossible,
		"length overall reads "+r.Value.Along(s.Unit)+", but stations run to "+beyond[len(beyond)-1].Along(s.Unit))}
}

// stationRules holds that each distance stands once.
func stationRules(s parse.Survey) []Finding {
	var out []Finding
	for i := 1; i < len(s.Stations); i++ {
		a, b := s.Stations[i-1], s.Stations[i]
		if a.At != b.At || slices.ContainsFunc(out, func(f Finding) bool { return f.Rows[0] == b.At }) {
			continue
		}
		f := Finding{Kind: Recheck, Rule: StationTwice, Rows: []parse.Length{b.At}, Probability: impossible,
			Message: "the station at " + b.At.Along(s.Unit) + " stands twice with different girths"}
		if sameValues(a.Pair, b.Pair) {
			f.Kind, f.Probability = Note, 0
			f.Message = "the station at " + b.At.Along(s.Unit) + " stands twice with the same girths"
		}
		out = append(out, f)
	}
	return out
}

func sameValues(a, b parse.Pair) bool {
	return a.HullGirth.Value == b.HullGirth.Value && a.FullGirth.Value == b.FullGirth.Value
}
