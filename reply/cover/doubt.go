package cover

import (
	"fmt"
	"math"

	"fairtape/validate/fair"
)

// Stretch is a part of the boat between two neighbouring stations, or between
// the last of them and an end, and how surely the curve knows the full girth
// halfway. All are inches.
type Stretch struct {
	From, To float64
	Within   float64 // for 19 boats of 20
}

// sure is how many spreads 19 boats of 20 lie within.
const sure = 2.0

// DoubtNote is what the curve may be off by between two stations before the
// sheet asks for another girth there, in inches: twice what a reading is written
// to.
const DoubtNote = 1.0

// reckon says how surely the curve knows the full girth between the stations
// that panels are cut from, and from the outermost of them to either end.
func (s *CutSheet) reckon(curve fair.Curve, stations []float64) {
	first, last := FromCurve(stations, s.Hull.Length())
	if first > last {
		return
	}
	for i := first; i < last; i++ {
		s.Stretches = append(s.Stretches, stretch(curve, stations[i], stations[i+1]))
	}
	s.Beyond = [2]Stretch{stretch(curve, 0, stations[first]), stretch(curve, stations[last], s.Hull.Length())}
}

// stretch says how surely the curve knows the full girth halfway, where it knows
// it least between two stations.
func stretch(curve fair.Curve, from, to float64) Stretch {
	_, full := curve.At((from + to) / 2)
	return Stretch{From: from, To: to, Within: sure * full.SD}
}

// SureWords says how surely the curve knows the full girth where nothing was
// measured.
func (s *CutSheet) SureWords() string {
	most := 0.0
	for _, k := range s.Stretches {
		most = math.Max(most, math.Min(k.Within, DoubtNote))
	}
	text := fmt.Sprintf("between the stations it knows the full girth to within %s", s.Say(most))
	if len(s.doubtful()) > 0 {
		text += ", but see below"
	}
	for k, end := range []string{"bow", "stern"} {
		if e := s.Beyond[k]; s.Profiles[k] == nil && e.Within > 0 {
			text += fmt.Sprintf("; halfway from %s to the %s, which is from tracing, to within %s",
				s.Station([2]float64{e.To, e.From}[k]), end, s.Say(e.Within))
		}
	}
	return text
}

// doubtful joins the stretches where another girth is wanted.
func (s *CutSheet) doubtful() []Stretch {
	var list []Stretch
	for _, k := range s.Stretches {
		if k.Within <= DoubtNote {
			continue
		}
		if n := len(list); n > 0 && list[n-1].To == k.From {
			list[n-1].To, list[n-1].Within = k.To, math.Max(list[n-1].Within, k.Within)
			continue
		}
		list = append(list, k)
	}
	return list
}

// doubtNotes asks for a girth where the curve may be off by much.
func (s *CutSheet) doubtNotes() []string {
	var list []string
	for _, k := range s.doubtful() {
		list = append(list, fmt.Sprintf("Between %s and %s the curve knows the full girth to within %s only: a sheer that steps there, or too few girths. Leave cloth there, or have a girth taken halfway.",
			s.Station(k.From), s.Station(k.To), s.Say(k.Within)))
	}
	return list
}
