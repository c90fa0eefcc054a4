package cover

import (
	"math"
	"testing"

	"fairtape/reply/cover/nest"
	"fairtape/validate/known"
)

// A cylinder unrolls to a rectangle.
func TestDevelopCylinder(t *testing.T) {
	const n, radius = 50, 9.0
	spans, girth := ones(n), repeat(math.Pi*radius, n+1)
	rails := Develop([][]float64{spans, spans}, [][]float64{girth}, 20)
	for i, q := range rails[1] {
		if math.Abs(q.X-float64(i)) > 1e-9 || math.Abs(q.Y-math.Pi*radius) > 1e-9 {
			t.Fatalf("place %d lies at %.6f, %.6f", i, q.X, q.Y)
		}
	}
}

// A cone unrolls to a sector: the rails are straight lines through its apex,
// and its angle is that of the chords.
func TestDevelopCone(t *testing.T) {
	const n, slant, strips = 96, 96.0, 8
	const angle = 0.6 // of the whole sector, radians
	chord := 2 * math.Sin(angle/strips/2)
	spans := make([][]float64, strips+1)
	for r := range spans {
		spans[r] = ones(n - 1)
	}
	rungs := make([][]float64, strips)
	for s := range rungs {
		for i := range n {
			rungs[s] = append(rungs[s], chord*float64(i+1)) // rail 0 begins 1 in from the apex
		}
	}
	rails := Develop(spans, rungs, n-1)
	for r, rail := range rails {
		for i, q := range rail {
			sin, cos := math.Sincos(float64(r) * angle / strips)
			from := float64(i + 1)
			if math.Hypot(q.X+1-from*cos, q.Y-from*sin) > 1e-6 {
				t.Fatalf("rail %d, %g in from the apex, lies at %.4f, %.4f; want %.4f, %.4f", r, from, q.X+1, q.Y, from*cos, from*sin)
			}
		}
	}
	// The sector's area: of the triangles under the chords, less the tip.
	var outline []Point
	outline = append(outline, rails[0]...)
	for _, rail := range rails[1:strips] {
		outline = append(outline, rail[n-1])
	}
	outline = append(outline, reversed(rails[strips])...)
	for r := strips - 1; r > 0; r-- {
		outline = append(outline, rails[r][0])
	}
	if got, want := nest.Area(outline), strips*math.Sin(angle/strips)*(slant*slant-1)/2; math.Abs(got-want) > 1e-6*want {
		t.Errorf("the sector has %.2f square inches, want %.2f", got, want)
	}
}

// Where rungs change faster than rails can follow, rungs are kept.
func TestDevelopKeepsRungs(t *testing.T) {
	rungs := []float64{10, 10, 10, 15, 15, 15}
	rails := Develop([][]float64{ones(5), ones(5)}, [][]float64{rungs}, 0)
	for i, q := range rails[1] {
		if got := distance(rails[0][i], q); math.Abs(got-rungs[i]) > 1e-9 {
			t.Errorf("rung %d is %.3f, want %g", i, got, rungs[i])
		}
	}
	if got := polyline(rails[1]); got < 5 {
		t.Errorf("the rail is %.3f: shorter than meant", got)
	}
}

func ones(n int) []float64 { return repeat(1, n) }

func repeat(v float64, n int) []float64 {
	r := make([]float64, n)
	for i := range r {
		r[i] = v
	}
	return r
}

// Panels laid flat and sewn back have the boat's own lines, and the girths.
func TestSewnBack(t *testing.T) {
	for _, boat := range []struct {
		name  string
		plan  func(t float64) float64
		girth func(w, d float64) float64
		sheer func(t float64) float64
	}{
		{"barge", func(float64) float64 { return 1 }, known.BoxGirth, level},
		{"trough", func(float64) float64 { return 1 }, known.EllipseGirth, sprung},
		{"cone", func(t float64) float64 { return 0.1 + 0.9*t }, func(w, _ float64) float64 { return math.Pi * w / 2 }, level},
		{"Wigley", parabola, known.WigleyGirth, level}, {"Wigley, sprung", parabola, known.WigleyGirth, sprung},
		{"V", parabola, known.VGirth, level}, {"V, sprung", parabola, known.VGirth, sprung},
		{"ellipse", parabola, known.EllipseGirth, level}, {"ellipse, sprung", parabola, known.EllipseGirth, sprung},
		{"box, sprung", parabola, known.BoxGirth, sprung},
	} {
		// 17 ft and 33 in beam: a boat whose top seam must keep its length.
		hull, stations := exactHull(204, 33, 12, boat.plan, boat.sheer, boat.girth)
		for _, construction := range []Construction{Sides, HullAndTop, TopAndSkirt} {
			c, err := Design(Request{Hull: hull, Stations: stations, Ends: [2]float64{12, 12}, Carry: 24}, plainCloth(construction))
			if err != nil {
				t.Errorf("%s, %s: %v", boat.name, construction, err)
				continue
			}
			for _, l := range c.Lines {
				if math.Abs(l.Off()) > LineNote {
					t.Errorf("%s, %s: the %s line is %.3f in on the %s panel, %.3f in on the boat", boat.name, construction, l.Line, l.Cloth, l.Panel, l.Meant)
				}
			}
			for _, j := range c.Seams {
				if w := j.Worst(); w.Difference() > SpanNote {
					t.Errorf("%s, %s: the edges of the %s differ by %.1f %% at %g in", boat.name, construction, j.Name, 100*w.Difference(), w.From)
				}
			}
			girths(t, boat.name, c)
		}
	}
}

// girths holds the widths of the panels against the boat's girths.
func girths(t *testing.T, boat string, c Cover) {
	t.Helper()
	h := c.Hull
	for i := range h.X {
		var got, want float64
		for _, p := range c.Panels {
			for r := 1; r < len(p.rails); r++ {
				wide := distance(p.rails[r-1].points[i], p.rails[r].points[i])
				if p.Middle {
					wide *= 2
				}
				got += wide
			}
		}
		want = h.Full(i)
		if c.Cloth.Construction == TopAndSkirt {
			return // the skirt has a drop in place of a girth
		}
		if math.Abs(got-want) > 1e-6*want {
			t.Fatalf("%s, %s: at %g in the panels are %.4f in wide, the boat %.4f", boat, c.Cloth.Construction, h.X[i], got, want)
		}
	}
}

// Lines of the panels agree with those of a polyline four times as fine.
func TestFinePolyline(t *testing.T) {
	const length, beam = 204.0, 33.0
	hull, _ := exactHull(length, beam, 12, parabola, sprung, known.WigleyGirth)
	fine := 0.0
	for i := range 4 * 204 {
		at := func(k int) (x, y, z float64) {
			s := float64(k) / (4 * 204)
			return s * length, beam * parabola(s) / 2, sprung(s)
		}
		x0, y0, z0 := at(i)
		x1, y1, z1 := at(i + 1)
		fine += math.Sqrt((x1-x0)*(x1-x0) + (y1-y0)*(y1-y0) + (z1-z0)*(z1-z0))
	}
	if got := sum(hull.gunwaleLine().spans()); math.Abs(got-fine) > 1e-3 {
		t.Errorf("the gunwale is %.5f in, a finer polyline %.5f", got, fine)
	}
}

// The area of a panel is the integral of its width: exactly for the top, whose
// strip lies in a plane.
func TestPanelArea(t *testing.T) {
	const length, beam = 204.0, 33.0
	hull, stations := exactHull(length, beam, 12, parabola, level, known.WigleyGirth)
	c, err := Design(Request{Hull: hull, Stations: stations, Carry: 24}, plainCloth(HullAndTop))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := nest.Area(c.Panels[1].Sewn), 2.0/3*beam*length; math.Abs(got-want) > 1e-4*want {
		t.Errorf("the top has %.2f square inches, want %.2f", got, want)
	}
	barge, stations := exactHull(length, beam, 12, func(float64) float64 { return 1 }, level, known.BoxGirth)
	c, err = Design(Request{Hull: barge, Stations: stations, Carry: 24}, plainCloth(Sides))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := nest.Area(c.Panels[0].Sewn), length*(beam+12); math.Abs(got-want) > 1e-9*want {
		t.Errorf("the side of a barge has %.4f square inches, want %.4f", got, want)
	}
}
