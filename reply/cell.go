package reply

import (
	"math"
	"slices"
	"strings"

	"fairtape/parse"
)

// near reports two places that are the same but for rounding.
func near(a, b parse.Length) bool { return math.Abs(float64(a-b)) < 1 }

// atStation reports a measure that every station has.
func atStation(m parse.Measure) bool {
	return m == parse.HullGirth || m == parse.FullGirth || m == parse.MeasurePair
}

func (p Place) station() bool { return atStation(p.Asked[0].Cell.Measure) }

// samePlace reports two numbers taken at one place of the boat.
func samePlace(a, b parse.Cell) bool {
	if atStation(a.Measure) || atStation(b.Measure) {
		return atStation(a.Measure) && atStation(b.Measure) && near(a.At, b.At)
	}
	return part(a.Measure) == part(b.Measure)
}

// part is the part of the boat that a measure belongs to: all of the greatest
// girth's numbers, or of the transom's, are taken at one place.
func part(m parse.Measure) string {
	name, _, _ := strings.Cut(string(m), ".")
	return name
}

// single takes a pair apart.
func single(c parse.Cell) []parse.Cell {
	both := func(hull, full parse.Measure) []parse.Cell {
		return []parse.Cell{{At: c.At, Measure: hull}, {At: c.At, Measure: full}}
	}
	switch c.Measure {
	case "":
		return nil
	case parse.MeasurePair:
		return both(parse.HullGirth, parse.FullGirth)
	case parse.GreatestPair:
		return both(parse.GreatestHullGirth, parse.GreatestFullGirth)
	case parse.TransomPair:
		return both(parse.TransomHullGirth, parse.TransomFullGirth)
	}
	return []parse.Cell{c}
}

// find returns the reading of one number; the zero Reading when the survey has
// none. Of a station written twice it is the later one that has a reading.
func find(s parse.Survey, c parse.Cell) parse.Reading {
	switch c.Measure {
	case parse.LengthOverall:
		return s.LengthOverall
	case parse.BowHeight:
		return s.BowHeight
	case parse.SternHeight:
		return s.SternHeight
	case parse.CarryPoint:
		return s.CarryPoint
	case parse.GreatestAt:
		return s.Greatest.At
	case parse.GreatestHullGirth:
		return s.Greatest.HullGirth
	case parse.GreatestFullGirth:
		return s.Greatest.FullGirth
	case parse.GreatestOpening:
		return s.Greatest.Opening
	case parse.TransomHullGirth:
		return s.Transom.HullGirth
	case parse.TransomFullGirth:
		return s.Transom.FullGirth
	}
	for _, station := range slices.Backward(s.Stations) {
		if !near(station.At, c.At) {
			continue
		}
		reading := station.HullGirth
		if c.Measure == parse.FullGirth {
			reading = station.FullGirth
		}
		if !reading.Absent() {
			return reading
		}
	}
	return parse.Reading{}
}

// gaps gathers missing numbers into as few lines as tell them all: pairs first
// made of their girths, then runs of neighbouring stations that lack the same.
func gaps(cells []parse.Cell, step parse.Length) []Gap {
	var whole, rows []Gap
	for _, cell := range cells {
		gap := Gap{Measure: cell.Measure}
		list := &whole
		if atStation(cell.Measure) {
			gap.From, gap.To, gap.Stations = cell.At, cell.At, 1
			list = &rows
		}
		*list = addGap(*list, gap)
	}
	slices.SortStableFunc(rows, func(a, b Gap) int { return int(math.Round(float64(a.From - b.From))) })
	var runs []Gap
	for _, gap := range rows {
		if last := len(runs) - 1; last >= 0 && runs[last].Measure == gap.Measure && near(runs[last].To+step, gap.From) {
			runs[last].To = gap.To
			runs[last].Stations++
			continue
		}
		runs = append(runs, gap)
	}
	return append(whole, runs...)
}

func addGap(list []Gap, gap Gap) []Gap {
	for i, other := range list {
		if !near(other.From, gap.From) || part(other.Measure) != part(gap.Measure) && gap.Stations == 0 {
			continue
		}
		if other.Measure == gap.Measure {
			return list
		}
		if pair, ok := pairOf(other.Measure, gap.Measure); ok {
			list[i].Measure = pair
			return list
		}
	}
	return append(list, gap)
}

// pairOf names the pair that two girths of one place make; a pair takes either
// of its girths in.
func pairOf(a, b parse.Measure) (parse.Measure, bool) {
	for _, pair := range []parse.Measure{parse.MeasurePair, parse.GreatestPair, parse.TransomPair} {
		members := []parse.Measure{pair}
		for _, cell := range single(parse.Cell{Measure: pair}) {
			members = append(members, cell.Measure)
		}
		if slices.Contains(members, a) && slices.Contains(members, b) {
			return pair, true
		}
	}
	return "", false
}
