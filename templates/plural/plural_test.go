package plural

import "testing"

// Source: Unicode CLDR 44, language plural rules, cardinal, integers; the
// examples of its chart.
func TestOne(t *testing.T) {
	for _, c := range []struct {
		tag string
		n   int
		one bool
	}{
		{"en", 0, false},
		{"fr", 2, false},
		{"fr", 17, false},
		{"fr", 1000000, false},
		{"en", 21, false},
		{"en", 1, true},
		{"fr", 0, true},
		{"fr", 1, true},
	} {
		if got := One(c.tag, c.n); got != c.one {
			t.Errorf("%d in %s takes the words for one: %v", c.n, c.tag, got)
		}
	}
}
