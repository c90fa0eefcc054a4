package parse

import (
	"math"
	"slices"
)

// onGridWithin is how near a row lies to a station to be it, millimetres: a foot
// and 30 cm differ by 5.
const onGridWithin = 2

// Spacing returns the distance between the survey's stations: a foot or 30 cm,
// whichever more of them lie on, or the customer's own where few lie on either.
func (s Survey) Spacing() Length {
	usual, other := Length(footSpacing), Length(metricSpacing)
	if s.Unit == Centimetre {
		usual, other = other, usual
	}
	on := func(pitch Length) (n int) {
		for _, st := range s.Stations {
			off := math.Remainder(float64(st.At), float64(pitch))
			if math.Abs(off) < onGridWithin {
				n++
			}
		}
		return n
	}
	switch n := len(s.Stations); {
	case n < 2 || 2*on(usual) >= n:
		return usual
	case 2*on(other) >= n:
		return other
	}
	var gaps []Length
	for i := 1; i < len(s.Stations); i++ {
		if gap := s.Stations[i].At - s.Stations[i-1].At; gap > 0 {
			gaps = append(gaps, gap)
		}
	}
	if len(gaps) == 0 {
		return usual
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}
