package photo

import "fairtape/parse"

// readingOf is where a survey keeps a number, or nil for what it has no place
// for. A station that is not there yet is made.
func readingOf(s *parse.Survey, c parse.Cell) *parse.Reading {
	switch c.Measure {
	case parse.HullGirth, parse.FullGirth:
		return station(s, c.At).Girth(c.Measure)
	}
	return s.Once(c.Measure)
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
