package reading

import (
	"os"
	"testing"

	"fairtape/cmd/internal/opener"
	"fairtape/parse"
)

func TestMain(m *testing.M) {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	os.Exit(m.Run())
}

func TestCompare(t *testing.T) {
	sure := func(inches float64) parse.Reading {
		return parse.Reading{Value: parse.Inches(inches), Known: true, Confidence: parse.Typed}
	}
	doubtful := sure(38)
	doubtful.Confidence = 0.5
	row := func(at float64, hull, full parse.Reading) parse.Station {
		return parse.Station{At: parse.Inches(at), Pair: parse.Pair{HullGirth: hull, FullGirth: full}}
	}
	w := want{Unit: parse.Inch, Values: map[string]float64{"hull_girth@12": 38, "full_girth@12": 52}}
	for _, c := range []struct {
		name        string
		stations    []parse.Station
		wrong, left int
	}{
		{"nothing", nil, 0, 2},
		{"other value", []parse.Station{row(12, sure(39), sure(52))}, 1, 0},
		{"other place", []parse.Station{row(24, sure(38), sure(52))}, 2, 2},
		{"row twice", []parse.Station{row(12, sure(38), sure(52)), row(12, sure(38), sure(52))}, 2, 0},
		{"in doubt", []parse.Station{row(12, doubtful, sure(52))}, 0, 1},
		{"right", []parse.Station{row(12, sure(38), sure(52))}, 0, 0},
	} {
		m := compare(parse.Survey{Unit: parse.Inch, Stations: c.stations}, w)
		if len(m.wrong) != c.wrong || len(m.left) != c.left {
			t.Errorf("%s: %d wrong, %d left; want %d and %d", c.name, len(m.wrong), len(m.left), c.wrong, c.left)
		}
	}
}

// The figures that the README states hold on the files in the repository.
func TestFilesOfOthers(t *testing.T) {
	if testing.Short() {
		t.Skip("opens 150 files")
	}
	o, err := opener.New("", t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	marks, err := measure(t.Context(), o, "../../../testdata/read")
	if err != nil {
		t.Fatal(err)
	}
	sum := total(marks)
	if len(marks) < 120 || sum.layouts < 25 {
		t.Errorf("%d files in %d layouts are too few to tell", len(marks), sum.layouts)
	}
	for _, m := range marks {
		if len(m.wrong) > 0 {
			t.Errorf("silently wrong: %s", m)
		}
	}
	if share := 100 * sum.right / len(marks); share < leastRight {
		t.Errorf("%d %% of the files are wholly right, want %d %%", share, leastRight)
		for _, m := range marks {
			if !m.right() {
				t.Log(m)
			}
		}
	}
}
