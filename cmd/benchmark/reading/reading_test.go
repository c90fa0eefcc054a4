package reading

import (
	"flag"
	"os"
	"path/filepath"
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

var all = flag.Bool("all", false, "read the files of every folder, which takes some minutes")

// The surveys that the readers have been mended with guard what is read: no
// number is silently wrong, and at least so many files are wholly right.
func TestFilesOfOthers(t *testing.T) {
	if testing.Short() {
		t.Skip("opens many files")
	}
	o, err := opener.New("", filepath.Join(os.TempDir(), "fairtape-readers"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		folder       string
		files, right int
	}{
		{"testdata/read", 146, 146},
		{"testdata/read/seen", 202, 202},
		{"testdata/read/seen-2", 186, 186},
		{"testdata/read/seen-3", 77, 77},
		{"testdata/read/seen-4", 132, 132},
		{"testdata/read/seen-5/mails", 54, 54},
		{"testdata/read/seen-5/sheets", 52, 52},
		{"testdata/read/seen-6", 136, 136},
		{"testdata/read/seen-7", 144, 144},
		{"testdata/read/seen-8", 100, 100},
		{"testdata/read/seen-9/batch1", 52, 49},
		{"testdata/read/seen-9/batch2", 60, 59},
		{"testdata/read/seen-10/sheets", 48, 48},
		{"testdata/read/seen-10/mails", 48, 47},
		{"testdata/read/seen-11/sheets", 52, 52},
		{"testdata/read/seen-11/mails", 52, 49},
		{"testdata/read/seen-11/fair", 60, 59},
		{"testdata/photo/others", 6, 4},
		{"testdata/photo/writers", 4, 2},
		{"testdata/photo/tables", 4, 0},
	} {
		t.Run(c.folder, func(t *testing.T) {
			if c.folder != "testdata/read" && !*all {
				t.Skip("with -args -all")
			}
			t.Parallel()
			marks, err := measure(t.Context(), o, filepath.Join("..", "..", "..", c.folder))
			if err != nil {
				t.Fatal(err)
			}
			if len(marks) != c.files {
				t.Errorf("%d files, want %d", len(marks), c.files)
			}
			right := 0
			for _, m := range marks {
				switch {
				case m.right():
					right++
				case len(m.wrong) > 0:
					t.Errorf("silently wrong: %s", m)
				default:
					t.Log(m)
				}
			}
			if right < c.right {
				t.Errorf("%d files are wholly right, want at least %d", right, c.right)
			}
		})
	}
}
