package parse

import "testing"

func TestSpacing(t *testing.T) {
	for _, test := range []struct {
		name string
		unit Unit
		at   []float64
		want Length
	}{
		{"nothing", Inch, nil, Inches(12)},
		{"one, in centimetres", Centimetre, []float64{50}, Centimetres(30)},
		{"one place twice", Inch, []float64{7, 7}, Inches(12)},
		{"every foot", Inch, []float64{12, 24, 36}, Inches(12)},
		{"a foot with one between", Inch, []float64{12, 18, 24, 36}, Inches(12)},
		{"30 cm in inches", Inch, []float64{30 / 2.54, 60 / 2.54, 90 / 2.54}, Centimetres(30)},
		{"feet in centimetres", Centimetre, []float64{30.5, 61, 91.5}, Inches(12)},
		{"their own", Inch, []float64{6, 15, 21, 27}, Inches(6)},
		{"every other row passed over", Centimetre, []float64{60, 120, 180}, Centimetres(30)},
	} {
		s := Survey{Unit: test.unit}
		for _, at := range test.at {
			s.Stations = append(s.Stations, Station{At: Measured(at, test.unit)})
		}
		if got := s.Spacing(); got < test.want-1e-6 || got > test.want+1e-6 {
			t.Errorf("%s: %v in, want %v in", test.name, got.In(Inch), test.want.In(Inch))
		}
	}
}
