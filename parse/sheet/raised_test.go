package sheet

import "testing"

func TestRaised(t *testing.T) {
	for _, c := range []struct{ before, up, after, want string }{
		{"57", "1", "", "57 [1] "},
		{"62.5", "c", "", "62.5 [c] "},
		{"1", "st", " try", "1st try"},
		{"45", "1", "/2", "45 1/2"},
		{"45 ", "1/2", "", "45 1/2"},
	} {
		if got := lowered(c.before + raised(c.up) + c.after); got != c.want {
			t.Errorf("%q with %q raised: got %q, want %q", c.before, c.up, got, c.want)
		}
	}
}
