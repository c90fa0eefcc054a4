package parse

import "testing"

func TestALoneLargestStationMayBeTheGreatestGirth(t *testing.T) {
	survey := func(greatest bool, at ...float64) Survey {
		s := Survey{Unit: Inch}
		for i, inches := range at {
			full := Reading{Value: Inches(80 + float64(i)), Known: true, Confidence: Typed}
			s.Stations = append(s.Stations, Station{Inches(inches), Pair{HullGirth: full, FullGirth: full}})
		}
		if greatest {
			s.Greatest.At = Reading{Value: Inches(50), Known: true, Confidence: Typed}
		}
		return s
	}
	for _, c := range []struct {
		name  string
		s     Survey
		doubt bool
	}{
		{"a greatest girth is given", survey(true, 12, 24, 36, 48, 60, 53), false},
		{"on the grid", survey(false, 12, 24, 36, 48, 60, 72), false},
		{"not the largest", survey(false, 12, 53, 24, 36, 48, 60), false},
		{"two off the grid", survey(false, 12, 24, 36, 48, 50, 53), false},
		{"too few to tell", survey(false, 12, 24, 36, 41), false},
		{"alone and largest", survey(false, 12, 24, 36, 48, 60, 53), true},
	} {
		merged, problems := Merge(Document{Surveys: []Survey{c.s}})
		last := merged.Stations[len(merged.Stations)-1]
		if last.FullGirth.Doubtful() != c.doubt || len(problems) > 0 != c.doubt {
			t.Errorf("%s: doubtful %v, problems %v", c.name, last.FullGirth.Doubtful(), problems)
		}
	}
}
