package validate

import (
	"math"
	"slices"

	"fairtape/parse"
)

const (
	// lastStation is how near the stern the last station may be left out,
	// inches. Common practice, no source.
	lastStation = 4
	// mostStations is how many stations a small boat has at most; a length that
	// gives more is a mistake.
	mostStations = 200
	// onStation is how near a row lies to a station to be it, millimetres: a foot
	// and 30 cm differ by 5.
	onStation = 2
	// sameLength is what a length may be off by being summed in another unit,
	// millimetres: it keeps 15 ft at 14 stations.
	sameLength = 0.1
)

// Stations returns where the stations of a survey lie, from bow to stern: every
// one that should be there, and those between that the customer added. The last
// is left out where it lies near the stern and nobody wrote it. Without a length
// they run as far as the rows that were written.
func Stations(s parse.Survey) []parse.Length {
	pitch := s.Spacing()
	var end parse.Length
	for _, st := range s.Stations {
		end = max(end, st.At+sameLength+hair)
	}
	if r := s.LengthOverall; r.Certain() && r.Value < mostStations*pitch {
		end = r.Value
	}
	var all []parse.Length
	for _, st := range s.Stations {
		if st.At <= end+parse.Inches(lengthSlack) {
			all = append(all, st.At)
		}
	}
	written := len(all)
	for at := pitch; at < end-sameLength; at += pitch {
		near := func(l parse.Length) bool { return math.Abs(float64(l-at)) < onStation }
		mayLack := s.LengthOverall.Certain() && end-at <= parse.Inches(lastStation)+sameLength
		if !mayLack && !slices.ContainsFunc(all[:written], near) {
			all = append(all, at)
		}
	}
	slices.Sort(all)
	return slices.CompactFunc(all, func(a, b parse.Length) bool { return math.Abs(float64(a-b)) < onStation })
}
