package tracings

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/parse/tracing/tracingtest"
)

func TestRunRefuses(t *testing.T) {
	for _, c := range []Command{{Count: 1, Tilt: 30}, {Count: 4, Tilt: 61}, {Count: 4, Tilt: -1}} {
		if err := c.Run(&bytes.Buffer{}); err == nil {
			t.Errorf("%+v was measured without complaint", c)
		}
	}
}

// A print at the wrong scale is taken for true by a reader that sees nothing and
// believes what it is told: then the figure must say so.
func TestAccepted(t *testing.T) {
	printed, err := printSheets()
	if err != nil {
		t.Fatal(err)
	}
	s := shot{scene: printed.scene(rand.New(rand.NewPCG(7, 1)), lowest, 0.95)}
	s.read = parse.Tracing{PrintScale: 1, Printed: parse.Length(s.scene.Grid.Line.Height())}
	nominal := func(s tracingtest.Scene) parse.Length { return parse.Length(s.Grid.Line.Height()) }
	if n := accepted([]shot{s}, nominal); n != 1 {
		t.Errorf("%v accepted", n)
	}
	if n := accepted([]shot{s}, tape); n != 0 {
		t.Errorf("%v accepted against the tape", n)
	}
}

// The line as it was drawn is nowhere astray, and one that is a millimetre aside
// is so by a millimetre.
func TestAstray(t *testing.T) {
	printed, err := printSheets()
	if err != nil {
		t.Fatal(err)
	}
	s := printed.scene(rand.New(rand.NewPCG(7, 2)), tallest, 0.95)
	zero := s.Place(0, 0, 0)
	for _, aside := range []float64{0, 1} {
		var line []parse.TracedPoint
		for _, q := range s.Line {
			line = append(line, parse.TracedPoint{X: q.X - zero.X - aside, Y: s.Grid.Height*s.Print - (q.Y - zero.Y)})
		}
		if off := astray(s, line); off < aside-0.05 || off > aside+0.01 {
			t.Errorf("a line %v mm aside is %.3f mm off", aside, off)
		}
	}
}

// Of a line of which only the upper half is read, the rest is lost.
func TestLost(t *testing.T) {
	printed, err := printSheets()
	if err != nil {
		t.Fatal(err)
	}
	s := printed.scene(rand.New(rand.NewPCG(7, 3)), tallest, 1.02)
	zero := s.Place(0, 0, 0)
	var line []parse.TracedPoint
	for _, q := range s.Line {
		line = append(line, parse.TracedPoint{X: q.X - zero.X, Y: s.Grid.Height*s.Print - (q.Y - zero.Y)})
	}
	if off := lost(s, line); off > 1e-6 {
		t.Errorf("%.3f mm of the whole line are lost", off)
	}
	foot := line[0]
	line = line[len(line)/2:]
	if off, want := lost(s, line), math.Hypot(line[0].X-foot.X, line[0].Y-foot.Y); off < 0.8*want || off > want+1e-6 {
		t.Errorf("%.0f mm of half the line are lost, want about %.0f", off, want)
	}
}

func TestRun(t *testing.T) {
	if testing.Short() {
		t.Skip("takes and reads photos")
	}
	var out bytes.Buffer
	if err := (&Command{Seed: 7, Count: 2, Tilt: 20, Each: true}).Run(&out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"true error within the stated one", "nobody measured the line", "targets met"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in the output", want)
		}
	}
}
