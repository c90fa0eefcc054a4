package table

import (
	"strings"
	"testing"
)

// A plus is a half where the sheet says so, and rough where it does not.
func TestPlus(t *testing.T) {
	const rows = "\nStation (ft)|Hull girth (in)|Full girth (in)\n1|35+|42\n2|40|55\" +\n3|44|66\n4|45|68"
	for _, c := range []struct{ legend, first, second string }{
		{"", "?", "?"},
		{"+ means a bit more", "?", "?"},
		{"+ means about a half", "?", "?"},
		{"+ is a half or a quarter", "?", "?"},
		{"+ does not mean half, it means rough", "?", "?"},
		{"A + is a half. On page 2 a + is a quarter.", "?", "?"},
		{"* means and a half", "?", "?"},
		{"Full = hull + opening, to the nearest half", "?", "?"},
		{"A + means and a half.", "35.5", "55.5"},
		{"+ = 1/2", "35.5", "55.5"},
		{"A plus sign behind a number stands for half an inch", "35.5", "55.5"},
		{"30+ is thirty and a half inches", "35.5", "55.5"},
		{"Le signe + veut dire et demi", "35.5", "55.5"},
		{"+ = 1/4", "35.25", "55.25"},
	} {
		want := "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:" + c.first + ",42 24:40," + c.second + " 36:44,66 48:45,68"
		if got := read(t, grid(c.legend+rows)); got != want {
			t.Errorf("%q:\n got %s\nwant %s", c.legend, got, want)
		}
	}
	if got := read(t, grid("+ = 1/2"+strings.Replace(rows, "35+", "35.5+", 1))); !strings.Contains(got, "12:?,42") {
		t.Errorf("a half and a plus: %s", got)
	}
}
