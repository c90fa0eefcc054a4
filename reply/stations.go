package reply

import (
	"fairtape/parse"
	"fairtape/validate"
)

func unitOf(survey parse.Survey) parse.Unit {
	if survey.Unit == parse.Centimetre {
		return parse.Centimetre
	}
	return parse.Inch
}

// stations returns where the boat's stations lie, and how many of them have both
// girths.
func stations(survey parse.Survey) (at []parse.Length, done int) {
	written := make(map[parse.Length]bool)
	for _, s := range survey.Stations {
		both := s.HullGirth.Certain() && s.FullGirth.Certain()
		written[s.At] = written[s.At] || both
	}
	at = validate.Stations(survey)
	for _, place := range at {
		if written[place] {
			done++
		}
	}
	return at, done
}
