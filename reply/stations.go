package reply

import (
	"math"

	"fairtape/parse"
)

func unitOf(survey parse.Survey) parse.Unit {
	if survey.Unit == parse.Centimetre {
		return parse.Centimetre
	}
	return parse.Inch
}

// sternMargin is how near the stern the last station may lie to be left out:
// 4 in, in millimetres (common practice, no source).
const sternMargin parse.Length = 4 * 25.4

// stations returns where the boat's stations lie, from its length and its
// spacing, and how many of them have both girths. Without a length it is the
// stations that were written.
func stations(survey parse.Survey) (at []parse.Length, done int) {
	written := make(map[parse.Length]bool)
	for _, s := range survey.Stations {
		if _, seen := written[s.At]; !seen {
			at = append(at, s.At)
		}
		both := s.HullGirth.Certain() && s.FullGirth.Certain()
		written[s.At] = written[s.At] || both
	}
	if survey.LengthOverall.Certain() {
		at = grid(survey.LengthOverall.Value, spacing(survey), written)
	}
	for _, place := range at {
		if written[place] {
			done++
		}
	}
	return at, done
}

// grid lays stations off from the bow. The last may be left out when it lies
// within sternMargin of the stern and nobody wrote it.
func grid(overall, step parse.Length, written map[parse.Length]bool) []parse.Length {
	const most = 200 // stations; a length overall that gives more is no small boat
	// A tenth of a millimetre keeps 15 ft at 14 stations whatever it was summed from.
	n := int(math.Ceil(float64((overall-0.1)/step))) - 1
	if n < 0 || n > most {
		return nil
	}
	at := make([]parse.Length, 0, n)
	for i := range n {
		place := parse.Length(i+1) * step
		for other := range written {
			if near(other, place) {
				place = other // the very number that the survey has
			}
		}
		if _, ok := written[place]; i == n-1 && !ok && overall-place < sternMargin {
			break
		}
		at = append(at, place)
	}
	return at
}

// spacing is the distance from station to station that occurs most often; a
// foot, or 30 cm, when there are too few to tell.
func spacing(survey parse.Survey) parse.Length {
	count := make(map[parse.Length]int)
	var best parse.Length
	for i := 1; i < len(survey.Stations); i++ {
		step := parse.Length(math.Round(float64(survey.Stations[i].At - survey.Stations[i-1].At)))
		if step <= 0 {
			continue
		}
		count[step]++
		if count[step] > count[best] || count[step] == count[best] && step < best {
			best = step
		}
	}
	for _, usual := range []parse.Length{parse.Inches(12), parse.Centimetres(30)} {
		if best == 0 && (unitOf(survey) == parse.Inch) == (usual == parse.Inches(12)) || math.Abs(float64(best-usual)) < 1 {
			return usual
		}
	}
	return best
}
