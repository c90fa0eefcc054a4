package parse

import (
	"math"
	"testing"
)

// Whatever is written, there is a length or a fault, never both or neither,
// and what is read is a real length.
func FuzzParseLength(f *testing.F) {
	for _, text := range []string{"35 1/2", `2'11½"`, "4 m 80", "46-47", "1,250", "about 46", "２９.５"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, fault := ParseLength(text)
		if fault.Some() == (a != Amount{}) && (fault.Some() || a.Number != 0) {
			t.Errorf("%q: amount %v and fault %q", text, a, fault.Code)
		}
		if math.IsNaN(a.Number) || a.Number < 0 || a.Number > 13*maxNumber {
			t.Errorf("%q is read as %v", text, a)
		}
		if _, f := ParseStation(text); f.Some() && f.Message == "" {
			t.Errorf("%q: a fault without words", text)
		}
	})
}
