package tracing

import (
	"errors"
	"image"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/tracing/tracingtest"
)

func TestReadRefuses(t *testing.T) {
	if _, err := Read(image.NewGray(image.Rect(0, 0, 300, 400))); !errors.Is(err, ErrNoSheet) {
		t.Errorf("an empty picture: %v", err)
	}
	s := scene(t, form.Letter, parse.Inch, 1)
	s.Line = nil
	if _, err := Read(photograph(t, s, steady(0), 1)); !errors.Is(err, ErrNoLine) {
		t.Errorf("a sheet without a line: %v", err)
	}
}

// The line is found within the error that is stated, and true to scale only with
// both proofs.
func TestRead(t *testing.T) {
	for _, c := range []struct {
		name  string
		paper form.Paper
		unit  parse.Unit
		print float64
		tilt  float64
		tape  parse.Length
		why   string // of a preview
	}{
		{"Letter, from above", form.Letter, parse.Inch, 1, 0, parse.Inches(8), ""},
		{"A4, tilted", form.A4, parse.Centimetre, 1, 30, parse.Centimetres(20), ""},
		{"no tape", form.Letter, parse.Inch, 1, 20, 0, "nobody has said"},
		{"printed small, honest tape", form.Letter, parse.Inch, 0.94, 20, parse.Inches(7.5), "printed at 94 %"},
		{"printed small, tape as the customer thinks we want it", form.A4, parse.Centimetre, 0.96, 15, parse.Centimetres(20), "printed at 96 %"},
		{"printed a little large", form.Letter, parse.Inch, 1.01, 25, parse.Inches(8), "printed at 101 %"},
		{"tape of its own mind", form.Letter, parse.Inch, 1, 10, parse.Inches(7.5), "by the tape"},
	} {
		s := scene(t, c.paper, c.unit, c.print)
		got, err := Read(photograph(t, s, steady(c.tilt), 2))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if worst := astray(s, got.Line); worst > got.Error || got.Error > parse.MostTracingError || got.Residual > 0.3 {
			t.Errorf("%s: %.2f mm off, %.2f stated, residual %.2f", c.name, worst, got.Error, got.Residual)
		}
		if why := got.Preview(c.tape); (why == "") != (c.why == "") || !strings.Contains(why, c.why) {
			t.Errorf("%s: preview %q, scale %.4f", c.name, why, got.PrintScale)
		}
		if got.Paper != string(c.paper) || got.Sheets != 1 || got.Line[0].Y > got.Line[len(got.Line)-1].Y {
			t.Errorf("%s: %s, %d sheets, from %v", c.name, got.Paper, got.Sheets, got.Line[0])
		}
	}
}

// Nine sheets from afar, in the shadow of a telephone: their codes are too small
// to be seen in a picture that is shrunk, and the line runs over all of them.
func TestReadFromAfar(t *testing.T) {
	s := scene(t, form.Letter, parse.Inch, 1)
	s.Sheets = nil
	for row := range 3 {
		for column := range 3 {
			s.Sheets = append(s.Sheets, tracingtest.Sheet{At: tracingtest.Point{X: 215.9 * float64(column), Y: 279.4 * float64(2-row)}})
		}
	}
	s.Line = tracingtest.End(60, 780, 400, 610)
	c := steady(20)
	c.Width, c.Height, c.Quality = 3264, 2448, 85
	c.Shadow = tracingtest.Shadow{Deep: 0.4, At: tracingtest.Point{X: 60, Y: -80}, Wide: 150, High: 220, Edge: 20}
	got, err := Read(photograph(t, s, c, 5))
	if err != nil {
		t.Fatal(err)
	}
	if worst := astray(s, got.Line); got.Sheets != 9 || worst > got.Error || got.Error > parse.MostTracingError {
		t.Errorf("%d sheets, %.2f mm off, %.2f stated", got.Sheets, worst, got.Error)
	}
}

// Where the edges of the paper are not in the picture nothing proves the scale.
func TestReadWithoutEdges(t *testing.T) {
	s := scene(t, form.Letter, parse.Inch, 1)
	s.Table = 0.9 // a sheet of paper on paper
	got, err := Read(photograph(t, s, steady(10), 3))
	if err != nil || got.PrintScale != 0 {
		t.Errorf("scale %.4f, %v", got.PrintScale, err)
	}
}

// A line that may go on where it is not seen is a preview; the flat of the bottom
// may run off the paper.
func TestReadPart(t *testing.T) {
	for _, c := range []struct {
		name       string
		wide, high float64 // of the end, beyond the sheet's middle
		part       bool
	}{
		{"whole", 140, 190, false},
		{"the bottom runs off the paper", 200, 190, false},
		{"the stem runs off the paper", 140, 260, true},
	} {
		s := scene(t, form.Letter, parse.Inch, 1)
		s.Line = tracingtest.Turn(40, s.Grid.Height-40, c.wide, c.high, 2.6)
		got, err := Read(photograph(t, s, steady(10), 6))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got.Part != c.part || (got.Preview(parse.Inches(8)) == "") == c.part {
			t.Errorf("%s: part %t, preview %q", c.name, got.Part, got.Preview(parse.Inches(8)))
		}
	}
}

// A camera that sees a place shows it where it is.
func TestCamera(t *testing.T) {
	r := rng(4)
	for range 200 {
		c := camera{h: [8]float64{10 + r.Float64(), r.NormFloat64(), 100, r.NormFloat64(), 10 + r.Float64(), 200, 4e-4 * r.NormFloat64(), 4e-4 * r.NormFloat64()},
			bend: 0.01 * r.NormFloat64(), middle: point{2000, 1500}, radius: 2500}
		p := point{200 * r.Float64(), 270 * r.Float64()}
		if back := c.place(c.pixel(p)); back.minus(p).length() > 1e-4 {
			t.Fatalf("%v comes back as %v", p, back)
		}
	}
}

func rng(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// steady is a small camera of no bad habits.
func steady(tilt float64) tracingtest.Camera {
	return tracingtest.Camera{Width: 2000, Height: 1500, Tilt: tilt, Axis: 35, Turn: 3, Far: 1.6, Share: 0.85, Bend: 0.003, Blur: 0.6, Noise: 2, Uneven: 0.3}
}

// scene is one sheet on a dark table, with an end of a boat on it.
func scene(t *testing.T, paper form.Paper, unit parse.Unit, print float64) tracingtest.Scene {
	t.Helper()
	g, err := form.NewGrid(paper, unit)
	if err != nil {
		t.Fatal(err)
	}
	printed, err := tracingtest.Printed(g)
	if err != nil {
		t.Fatal(err)
	}
	s := tracingtest.Scene{Grid: g, Picture: printed, Paper: paper, Print: print, Sheets: []tracingtest.Sheet{{}}, Pencil: 0.6, Dark: 0.5, Table: 0.35}
	s.Line = tracingtest.End(40, g.Height-40, 140, 190)
	return s
}

func photograph(t *testing.T, s tracingtest.Scene, c tracingtest.Camera, seed uint64) *image.Gray {
	t.Helper()
	photo, err := s.Photograph(c, rng(seed))
	if err != nil {
		t.Fatal(err)
	}
	return photo
}

// astray is how far the farthest point of a line is from the pencil's, mm.
func astray(s tracingtest.Scene, line []parse.TracedPoint) (worst float64) {
	for _, q := range line {
		worst = math.Max(worst, s.Off(tracingtest.Point{X: q.X, Y: s.Grid.Height*s.Print - q.Y}))
	}
	return worst
}
