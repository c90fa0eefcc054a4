package cover

import (
	"math"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// parabola is the plan of the Wigley hull.
func parabola(t float64) float64 { return 4 * t * (1 - t) }

// exactHull is a boat whose three lines and girths are known: a plan, sections
// of a formula, and a sheer over a straight keel.
func exactHull(length, beam, depth float64, plan, sheer func(t float64) float64, girth func(w, d float64) float64) (Hull, []float64) {
	stations := footMarks(length)
	h := Hull{X: Places(length, stations)}
	for _, x := range h.X {
		w, d := beam*plan(x/length), depth+sheer(x/length)
		h.Opening = append(h.Opening, w)
		h.Girth = append(h.Girth, girth(w, d))
		h.Sheer = append(h.Sheer, d)
		h.Keel = append(h.Keel, 0)
	}
	return h, stations
}

func footMarks(length float64) []float64 {
	var at []float64
	for x := 12.0; x < length; x += 12 {
		at = append(at, x)
	}
	return at
}

func level(float64) float64 { return 0 }

// sprung rises 8 in at the ends.
func sprung(t float64) float64 { return 8 * math.Pow(math.Abs(2*t-1), 2.4) }

// plainCloth is cloth without reductions, so that lines compare as they are.
func plainCloth(c Construction) Cloth {
	return Cloth{
		Name: "plain", Construction: c, RollWidth: parse.Inches(60), UsableWidth: parse.Inches(59),
		SeamAllowance: parse.Inches(0.5), Hem: parse.Inches(1), Slit: parse.Inches(9),
	}
}

// Perimeters 4aE of whole ellipses, computed with mpmath's complete elliptic
// integral; the last is half of one.
func TestEllipseGirth(t *testing.T) {
	for _, tt := range []struct{ w, d, want float64 }{
		{0, 0, 0},
		{0, 12, 24},
		{33, 0, 33},
		{2, 0.5, 4.844224110273838 / 2},
		{2, 0.25, 4.289210887578417 / 2},
		{2, 0.1, 4.063974180100896 / 2},
		{2, 0.01, 4.001098329722652 / 2},
		{33, 12, 45.047155847667},
		{2, 1, math.Pi},
		{24, 16.5, 90.09431169533494 / 2},
	} {
		if got := EllipseGirth(tt.w, tt.d); math.Abs(got-tt.want) > 1e-9*tt.want {
			t.Errorf("EllipseGirth(%g, %g) = %.12f, want %.12f", tt.w, tt.d, got, tt.want)
		}
		// gonum's elliptic integral, by way of another formula.
		if got, want := EllipseGirth(tt.w, tt.d), known.EllipseGirth(tt.w, tt.d); math.Abs(got-want) > 1e-9*want {
			t.Errorf("EllipseGirth(%g, %g) = %.12f, gonum has %.12f", tt.w, tt.d, got, want)
		}
	}
}

func TestSketchSection(t *testing.T) {
	for _, tt := range []struct {
		name       string
		girth      func(w, d float64) float64
		w, d, most float64 // most: relative error of the girth
	}{
		{"V", known.VGirth, 33, 12, 1e-3},
		{"half ellipse", known.EllipseGirth, 33, 12, 1e-3},
		{"Wigley", known.WigleyGirth, 33, 12, 1e-3},
		{"nearly a box", known.BoxGirth, 33, 12, 0.02}, // bilges of an inch
		{"fine end", known.WigleyGirth, 1, 18, 0.02},
	} {
		u := tt.girth(tt.w, tt.d)
		s := SketchSection(tt.w, u, tt.d)
		if got := s.girth(); math.Abs(got-u) > tt.most*u {
			t.Errorf("%s: the sketch has a girth of %.3f in, want %.3f", tt.name, got, u)
		}
		if s.Y[0] != tt.w/2 || s.Z[0] != tt.d || s.Y[len(s.Y)-1] > 1e-9 || s.Z[len(s.Z)-1] > 1e-9 {
			t.Errorf("%s: the sketch does not run from gunwale to keel", tt.name)
		}
		y, z := s.below(0)
		if y != tt.w/2 || z != tt.d {
			t.Errorf("%s: nothing below the gunwale lies at %.2f, %.2f", tt.name, y, z)
		}
	}
}

func TestDepthBounds(t *testing.T) {
	for _, w := range []float64{0.5, 10, 33} {
		for _, d := range []float64{3, 12, 20} {
			box, _ := depthBounds(w, known.BoxGirth(w, d))
			_, vee := depthBounds(w, known.VGirth(w, d))
			if math.Abs(box-d) > 1e-9 || math.Abs(vee-d) > 1e-9 {
				t.Errorf("opening %g, depth %g: box %g, V %g", w, d, box, vee)
			}
			for _, girth := range []func(w, d float64) float64{known.WigleyGirth, known.EllipseGirth} {
				if box, vee := depthBounds(w, girth(w, d)); d < box || d > vee {
					t.Errorf("opening %g: depth %g is not between %g and %g", w, d, box, vee)
				}
			}
		}
	}
}

// The heights are a sketch. The lengths of the lines hardly depend on them where
// the sheer is level; where it is sprung, the length over the top lies in the
// range that the sheet states; but for box sections drawn out to a sharp end,
// which are as far from a half ellipse as a section can be.
func TestSketchedLines(t *testing.T) {
	for _, tt := range []struct {
		name  string
		girth func(w, d float64) float64
	}{
		{"Wigley", known.WigleyGirth}, {"V", known.VGirth}, {"box", known.BoxGirth}, {"ellipse", known.EllipseGirth},
	} {
		truth, _ := exactHull(204, 33, 12, parabola, level, tt.girth)
		sketch := truth
		sketch.rise(12, 12)
		for name, line := range map[string]func(Hull) line{"top": Hull.topLine, "gunwale": Hull.gunwaleLine, "keel": Hull.keelLine} {
			got, want := sum(line(sketch).spans()), sum(line(truth).spans())
			if math.Abs(got-want) > LineNote {
				t.Errorf("%s: the sketched %s line is %.3f in, the boat's %.3f in", tt.name, name, got, want)
			}
		}
		truth, _ = exactHull(204, 33, 12, parabola, sprung, tt.girth)
		least, most := truth.TopRange(20, 20)
		if want := sum(truth.topLine().spans()); tt.name != "box" && (want < least-0.05 || want > most+0.05) || most-least > 3 {
			t.Errorf("%s, sprung: the top is %.2f in, the sketch says %.2f to %.2f", tt.name, want, least, most)
		}
	}
}

// Between stations a sketched hull has the girths of the boat. The tolerances are
// those that a tape leaves: 0.23 in a reading, of which rounding is 0.14.
func TestGirthsBetweenStations(t *testing.T) {
	for _, b := range []known.Boat{known.Wigley(), known.V(), known.Box(), known.Ellipse()} {
		curve := validate.Check(b.Exact(parse.Inch), nil, validate.Costs{Ask: 1, Miss: 30}).Curve
		h := Sketch(curve, footMarks(b.Length), b.BowHeight, b.SternHeight)
		var square, most float64
		n := 0
		for i, x := range h.X {
			if x < 12 || x > b.Length-12 {
				continue
			}
			hull, full := b.Girths(x)
			for _, off := range []float64{h.Girth[i] - hull, h.Full(i) - full} {
				square, most, n = square+off*off, math.Max(most, math.Abs(off)), n+1
			}
		}
		if rms := math.Sqrt(square / float64(n)); rms > 0.25 || most > 0.6 {
			t.Errorf("%s: girths are %.3f in off (rms), %.3f in at most", b.Name, rms, most)
		}
	}
}

func TestPlaces(t *testing.T) {
	x := Places(204.3, []float64{12, 24, 22.5, 204.2, 0})
	for i := 1; i < len(x); i++ {
		if d := x[i] - x[i-1]; d <= 0 || d > 2*step {
			t.Errorf("places %g and %g lie %g in apart", x[i-1], x[i], d)
		}
	}
	if x[0] != 0 || x[len(x)-1] != 204.3 {
		t.Errorf("the places run from %g to %g", x[0], x[len(x)-1])
	}
	h := Hull{X: x}
	for _, s := range []float64{12, 24, 22.5} {
		if x[h.index(s)] != s {
			t.Errorf("there is no place at %g", s)
		}
	}
}
