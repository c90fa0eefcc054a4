package reply

import (
	"testing"

	"fairtape/parse"
	"fairtape/validate/history"
)

func TestLikeLine(t *testing.T) {
	boat := history.Boat{Job: 9, Survey: parse.Survey{Boat: "Heron 15"}}
	at := parse.Inches(84)
	for _, test := range []struct {
		name string
		like history.Likeness
		unit parse.Unit
		want string
	}{
		{"the same", history.Likeness{Boat: boat}, parse.Inch, "like job 9 (Heron 15), whose cover fits"},
		{"no name", history.Likeness{Boat: history.Boat{Job: 9}}, parse.Inch, "like job 9, whose cover fits"},
		{"one number", history.Likeness{Boat: boat, Differ: []history.Difference{{Cell: parse.Cell{At: at, Measure: parse.HullGirth}, More: parse.Inches(-4.1)}}},
			parse.Inch, "like job 9 (Heron 15), whose cover fits, but 7 ft hull girth is 4 in less"},
		{"columns", history.Likeness{Boat: boat, OffHull: parse.Inches(0.9), OffFull: parse.Inches(1.1)}, parse.Centimetre,
			"like job 9 (Heron 15), whose cover fits, but all hull girths are 2 cm more and all full girths 3 cm more"},
		{"rows", history.Likeness{Boat: boat, Rows: history.TowardsStern}, parse.Inch,
			"like job 9 (Heron 15), whose cover fits, but all rows look written one station too far towards the stern"},
	} {
		if got := likeLine(test.like, test.unit); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}
