package validate

import (
	"testing"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// TestOverhangingEndsAreNoOtherUnit holds that a narrow decked boat in
// centimetres, whose ends hang over by feet, is not taken for one of twice the
// breadth in inches: there girths are far under twice the height of the end.
func TestOverhangingEndsAreNoOtherUnit(t *testing.T) {
	s := parse.Survey{Unit: parse.Centimetre, Decked: true, Stern: parse.Pointed,
		LengthOverall: typed(parse.Centimetres(500)), BowHeight: typed(parse.Centimetres(34)), SternHeight: typed(parse.Centimetres(37))}
	for i, pair := range [][2]float64{{43, 57}, {52, 76}, {57, 89}, {62, 101}, {66, 111}, {69, 119}, {72, 123}, {72, 125},
		{72, 125}, {70, 121}, {67, 115}, {65, 108}, {62, 97}, {58, 88}, {54, 75}, {46, 57}} {
		s.Stations = append(s.Stations, parse.Station{At: parse.Centimetres(float64(30 * (i + 1))),
			Pair: parse.Pair{HullGirth: typed(parse.Centimetres(pair[0])), FullGirth: typed(parse.Centimetres(pair[1]))}})
	}
	for _, f := range asked(Check(s, nil, usual)) {
		if f.Slip == slip.MetricEdge {
			t.Errorf("asked: %s", f.Message)
		}
	}
}
