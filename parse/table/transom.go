package table

import (
	"math"

	"fairtape/parse"
)

// A square stern may be called by its distance alone: the last row lies at the
// length overall, where a pointed boat has no breadth left.
const (
	// atTheStern is how near, in mm, such a row lies to the length overall.
	atTheStern = 2
	// tipOpening is the breadth, in mm, that the very tip of a pointed boat may
	// still seem to have: 2 in.
	tipOpening = 2 * 25.4
	// broadStern is the share of the greatest opening from which the row can only
	// be a transom. Less may be the last station of a pointed boat, a row too far
	// aft.
	broadStern = 0.5
)

// nameTransom takes the row at the length overall for the transom, or doubts it.
func (b *builder) nameTransom(s *parse.Survey) {
	last := len(s.Stations) - 1
	if last < 1 || !s.LengthOverall.Certain() {
		return
	}
	stern := s.Stations[last]
	open := openingOf(stern)
	if math.Abs(float64(stern.At-s.LengthOverall.Value)) > atTheStern || open < tipOpening {
		return
	}
	greatest := parse.Length(0)
	for _, st := range s.Stations[:last] {
		greatest = max(greatest, openingOf(st))
	}
	if open >= broadStern*greatest && s.Transom.HullGirth.Absent() && s.Transom.FullGirth.Absent() {
		s.Transom, s.Stern = stern.Pair, parse.Square
		s.Stations = s.Stations[:last]
		return
	}
	for _, r := range []*parse.Reading{&s.Stations[last].HullGirth, &s.Stations[last].FullGirth} {
		r.Confidence = min(r.Confidence, doubted)
		b.found.problems = append(b.found.problems, parse.Problem{
			Code: parse.CodeStationUnclear, Source: r.Source,
			Message: "This row lies at the length overall: it may be the transom, or belong to another station.",
		})
	}
}

// openingOf is what the girths of a station leave open, 0 when they do not say.
func openingOf(s parse.Station) parse.Length {
	if !s.HullGirth.Known || !s.FullGirth.Known {
		return 0
	}
	return s.FullGirth.Value - s.HullGirth.Value
}
