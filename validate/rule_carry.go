package validate

import (
	"fairtape/parse"
	"fairtape/validate/slip"
)

// Where a carry point may lie, inches. It is ahead of midships, usually within
// 3 ft of the bow; a deck may be longer. Common practice, no source.
const usualCarry = 60

// carryRules holds the carry point against the length of the boat.
func carryRules(s parse.Survey) []Finding {
	r := s.CarryPoint
	if !r.Certain() {
		return nil
	}
	cell := parse.Cell{Measure: parse.CarryPoint}
	length := s.LengthOverall
	if !length.Certain() || r.Value < length.Value/2 {
		if r.Value <= parse.Inches(usualCarry) {
			return nil
		}
		return []Finding{wrong(Note, CarryPointPlace, cell, r.Value, 0,
			names(parse.CarryPoint)+" reads "+r.Value.Along(s.Unit)+" from the bow, farther than is usual")}
	}
	f := wrong(Recheck, CarryPointPlace, cell, r.Value, impossible,
		names(parse.CarryPoint)+" reads "+r.Value.Along(s.Unit)+", which is abaft midships")
	if ahead := length.Value - r.Value; ahead > 0 && ahead <= parse.Inches(usualCarry) {
		f.Kind, f.Slip, f.Suggest = Confirm, slip.FromStern, &ahead
		f.Message += "; likely measured from the stern"
	} else if tenth := r.Value / 10; r.Value.In(s.Unit) >= 100 && tenth <= parse.Inches(usualCarry) {
		f.Kind, f.Slip, f.Suggest = Confirm, slip.DecimalLost, &tenth
		f.Message += "; likely " + likely(f.Slip)
	}
	return []Finding{f}
}
