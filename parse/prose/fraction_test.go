package prose

import "testing"

// TestPartsInWords holds that no part of a number is dropped that is told in
// words: it is read, or the number is in doubt.
func TestPartsInWords(t *testing.T) {
	for _, tt := range []struct {
		said string
		want float64 // 0 for a doubt
	}{
		{"41 and one half", 41.5},
		{"41 and a half", 41.5},
		{"41 et demi", 41.5},
		{"41 and three quarters", 41.75},
		{"41 and two thirds", 0},
		{"41 plus a quarter", 0},
		{"41 et trois huitièmes", 0},
		{"41, and a third", 0},
		{"41 half", 0},
	} {
		items := scan("Hull girth, " + tt.said + ". Full girth, 57.")
		var number item
		for _, it := range items {
			if it.number {
				number = it
				break
			}
		}
		if got := number.amount.Number; tt.want > 0 && (got != tt.want || number.fault.Some()) || tt.want == 0 && !number.fault.Some() {
			t.Errorf("%q is read as %v, fault %q", tt.said, got, number.fault.Code)
		}
	}
	for _, honest := range []string{"Full girth 57, half of it is 28", "Hull 41 and full 57", "Hull 41 half girth"} {
		for _, it := range scan(honest) {
			if it.fault.Some() {
				t.Errorf("%q: %+v", honest, it)
			}
		}
	}
}
