package prose

import (
	"slices"
	"testing"
)

func TestHolesInColumns(t *testing.T) {
	left := textLines("Station   Hull girth    Full girth\n1 ft      45            55\n2 ft      45.5          61\n5 ft                    76.5\n9 ft      51\n")
	right := textLines("1 ft    45    55\n2 ft  45.5    61\n3 ft    46    67\n5 ft        76.5\n")
	for _, test := range []struct {
		name  string
		lines []line
		row   int
		want  []string
	}{
		{"no hole", left, 1, []string{"1 ft", "45", "55"}},
		{"in the middle", left, 3, []string{"5 ft", "", "76.5"}},
		{"at the end", left, 4, []string{"9 ft", "51", ""}},
		{"numbers flush right", right, 3, []string{"5 ft", "", "76.5"}},
	} {
		l := test.lines[test.row]
		if got := edgesOf(test.lines).place(l, split(l)); !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}
