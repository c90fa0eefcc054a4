package validate

import (
	"testing"

	"fairtape/parse"
)

func typed(l parse.Length) parse.Reading {
	return parse.Reading{Value: l, Known: true, Confidence: parse.Typed}
}

func inch(x float64) parse.Reading { return typed(parse.Inches(x)) }

func tripper() parse.Survey {
	s := parse.Survey{Unit: parse.Inch, Stern: parse.Pointed, LengthOverall: inch(210), BowHeight: inch(16), CarryPoint: inch(22)}
	for _, r := range [][3]float64{{12, 31.5, 37}, {24, 33, 41.5}, {36, 35, 46.5}, {108, 49, 71}} {
		s.Stations = append(s.Stations, parse.Station{At: parse.Inches(r[0]), Pair: parse.Pair{HullGirth: inch(r[1]), FullGirth: inch(r[2])}})
	}
	return s
}

func TestNothingOfTheTripperIsAskedAgain(t *testing.T) {
	r := Check(tripper(), nil, Costs{Ask: 1, Miss: 30})
	for _, f := range r.Findings {
		if f.Kind != Missing {
			t.Errorf("%s %s %v: %s", f.Kind, f.Rule, f.Cell, f.Message)
		}
	}
}
