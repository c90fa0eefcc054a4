package photo

import "fairtape/parse"

// readingOf is where a survey keeps a number, or nil for what it has no place
// for. A station that is not there yet is made.
func readingOf(s *parse.Survey, c parse.Cell) *parse.Reading {
	switch c.Measure {
	case parse.LengthOverall:
		return &s.LengthOverall
	case parse.BowHeight:
		return &s.BowHeight
	case parse.SternHeight:
		return &s.SternHeight
	case parse.CarryPoint:
		return &s.CarryPoint
	case parse.GreatestAt:
		return &s.Greatest.At
	case parse.GreatestHullGirth:
		return &s.Greatest.HullGirth
	case parse.GreatestFullGirth:
		return &s.Greatest.FullGirth
	case parse.GreatestOpening:
		return &s.Greatest.Opening
	case parse.TransomHullGirth:
		return &s.Transom.HullGirth
	case parse.TransomFullGirth:
		return &s.Transom.FullGirth
	case parse.HullGirth:
		return &station(s, c.At).HullGirth
	case parse.FullGirth:
		return &station(s, c.At).FullGirth
	}
	return nil
}

func station(s *parse.Survey, at parse.Length) *parse.Station {
	for i := range s.Stations {
		if s.Stations[i].At == at {
			return &s.Stations[i]
		}
	}
	s.Stations = append(s.Stations, parse.Station{At: at})
	return &s.Stations[len(s.Stations)-1]
}
