package photo

import (
	"math"
	"slices"

	"fairtape/parse"
)

// What the numbers of a table tell without its words, and what they do not.

// unclear says what of a table its numbers alone do not tell, "" where they do.
func unclear(s *parse.Survey, t freeTable, problems []parse.Problem, at map[string]*freeCell) string {
	switch {
	case !columnsTold(s, problems, at) || !roundHulls(s):
		return "Which columns of the table in the picture are the girths cannot be told."
	case s.Unit == parse.Inch && !t.inInches():
		return "Whether the table in the picture is in inches or centimetres cannot be told."
	}
	return ""
}

// columnsTold is false for a table with a column that belongs to no measure and
// holds more than that of the full girths: a breadth and a hull girth were taken
// for the two, as the full girths were not read well.
func columnsTold(s *parse.Survey, problems []parse.Problem, at map[string]*freeCell) bool {
	const enough = 2 // rows: one may be misread
	larger := 0
	for _, p := range problems {
		c := at[p.Source.Place]
		if p.Code != parse.CodeUnplaced || c == nil {
			continue
		}
		value, _ := c.value()
		for _, station := range s.Stations {
			full := at[station.FullGirth.Source.Place]
			if full != nil && c.bounds.y0 < full.bounds.y1 && full.bounds.y0 < c.bounds.y1 && value > station.FullGirth.Value.In(s.Unit) {
				larger++
			}
		}
	}
	return larger < enough
}

// roundHulls reports girths as those of boats. Half girths beside breadths, which
// only words tell from hull and full girths, are smaller and nearer to each other:
// a boat 24 in wide and 8 deep measures 28 around its hull at least, and the full
// girth is half as much again where it is widest (geometry: a straight line from
// gunwale to keel is the shortest). Openings beside hull girths are nearest to
// each other there, and girths farthest apart.
func roundHulls(s *parse.Survey) bool {
	const leastHull, leastFull, uneven = 28, 1.45, 0.02 // inches, and times as much
	var ratios []float64
	var hull, full parse.Length
	widest := 0.0
	for _, st := range s.Stations {
		if !st.HullGirth.Certain() || !st.FullGirth.Certain() {
			continue
		}
		ratio := float64(st.FullGirth.Value / st.HullGirth.Value)
		ratios = append(ratios, ratio)
		hull = max(hull, st.HullGirth.Value)
		if st.FullGirth.Value > full {
			full, widest = st.FullGirth.Value, ratio
		}
	}
	return hull >= parse.Inches(leastHull) && widest >= leastFull && widest >= max(ratios[0], ratios[len(ratios)-1])-uneven
}

// doubtPairs doubts both girths of a station where they can be no boat's: rather
// one was misread than the customer wrote that.
func doubtPairs(s *parse.Survey) {
	for i := range s.Stations {
		hull, full := &s.Stations[i].HullGirth, &s.Stations[i].FullGirth
		if hull.Certain() && full.Certain() && (full.Value <= hull.Value || full.Value > 2*hull.Value) {
			*hull, *full = unsure(*hull), unsure(*full)
		}
	}
}

// doubts is a problem for each doubtful number that has none yet.
func doubts(s *parse.Survey, told []parse.Problem) []parse.Problem {
	var out []parse.Problem
	s.Each(func(r *parse.Reading) {
		if r.Doubtful() && !slices.ContainsFunc(told, func(p parse.Problem) bool { return p.Source == r.Source }) {
			out = append(out, parse.Problem{Code: parse.CodeDoubtful, Source: r.Source, Message: Cell{Reading: *r}.doubt(s.Unit)})
		}
	})
	return out
}

// inInches reports what only tables in inches have: stations by half feet, or
// halves beside stations that are counted.
func (t freeTable) inInches() bool {
	if step := leastStep(t.places()); step != 1 {
		return slices.Contains([]float64{6, 12, 18, 24, 36}, step)
	}
	for _, line := range t.cells {
		for j, c := range line {
			if v, ok := c.value(); ok && j != t.stations && c.sure >= parse.Sure && v != math.Trunc(v) {
				return true
			}
		}
	}
	return false
}
