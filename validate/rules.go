package validate

import (
	"fairtape/parse"
	"fairtape/validate/slip"
)

// hardRules lists what no boat can be.
func hardRules(s parse.Survey) []Finding {
	var out []Finding
	for _, st := range s.Stations {
		if !st.HullGirth.Certain() || !st.FullGirth.Certain() {
			continue
		}
		c := parse.Cell{At: st.At, Measure: parse.MeasurePair}
		if st.FullGirth.Value <= st.HullGirth.Value {
			read := st.FullGirth.Value
			out = append(out, Finding{Kind: Recheck, Rule: "full-not-above-hull", Cell: c, Slip: slip.SwappedPair, Read: &read, Probability: 0.99,
				Message: "at " + distance(st.At, s.Unit) + " the full girth is not above the hull girth"})
		}
	}
	return out
}
