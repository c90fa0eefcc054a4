package parse

import "testing"

func TestLengthAlong(t *testing.T) {
	for _, c := range []struct {
		at   Length
		unit Unit
		want string
	}{
		{0, Inch, "0 in"},
		{Inches(9), Inch, "9 in"},
		{Inches(11.99), Inch, "1 ft"},
		{Inches(84), UnknownUnit, "7 ft"},
		{Inches(90), Inch, "7 ft 6 in"},
		{Inches(97.25), Inch, "8 ft 1.3 in"},
		{Centimetres(210), Inch, "6 ft 10.7 in"},
		{Centimetres(210), Centimetre, "210 cm"},
		{Centimetres(247.54), Centimetre, "247.5 cm"},
	} {
		if got := c.at.Along(c.unit); got != c.want {
			t.Errorf("%v mm in %q: %q, want %q", float64(c.at), c.unit, got, c.want)
		}
	}
}
