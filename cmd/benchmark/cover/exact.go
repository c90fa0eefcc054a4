package cover

import (
	"math"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/validate/known"
)

// perimeters holds half ellipses against their perimeters 4aE by another
// library's elliptic integral (gonum).
func perimeters(p *figures.Printer) {
	worst := 0.0
	for w := 0.5; w < 60; w += 0.5 {
		for d := 0.5; d < 30; d += 0.5 {
			want := known.EllipseGirth(w, d)
			worst = math.Max(worst, math.Abs(cover.EllipseGirth(w, d)-want)/want)
		}
	}
	p.Printf("Exact answers\n")
	p.AtMost("perimeter of half ellipses, relative error", worst, relative, "")
}

// hull is a boat of 17 ft and 33 in beam whose lines are known.
func hull(plan func(t float64) float64, sprung float64, girth func(w, d float64) float64) cover.Hull {
	const length, beam, deep = 204.0, 33.0, 12.0
	h := cover.Hull{X: cover.Places(length, marks(length))}
	for _, x := range h.X {
		t := x / length
		w, d := beam*plan(t), deep+sprung*math.Pow(math.Abs(2*t-1), 2.4)
		h.Opening = append(h.Opening, w)
		h.Girth = append(h.Girth, girth(w, d))
		h.Sheer = append(h.Sheer, d)
		h.Keel = append(h.Keel, 0)
	}
	return h
}

func marks(length float64) []float64 {
	var at []float64
	for x := 12.0; x < length; x += 12 {
		at = append(at, x)
	}
	return at
}

// sewnBack lays exact boats flat and measures the lines of the boat on the
// cloth.
func sewnBack(p *figures.Printer) {
	parabola := func(t float64) float64 { return 4 * t * (1 - t) }
	straight := func(float64) float64 { return 1 }
	taper := func(t float64) float64 { return 0.1 + 0.9*t }
	cone := func(w, _ float64) float64 { return math.Pi * w / 2 }
	for _, boat := range []struct {
		name  string
		hull  cover.Hull
		rated bool // a boat that the target is for
	}{
		{"barge of box sections", hull(straight, 0, known.BoxGirth), true},
		{"half cylinder of elliptical sections, sprung", hull(straight, 8, known.EllipseGirth), true},
		{"half cone", hull(taper, 0, cone), true},
		{"Wigley hull", hull(parabola, 0, known.WigleyGirth), true},
		{"Wigley hull, sprung 8 in", hull(parabola, 8, known.WigleyGirth), true},
		{"V sections", hull(parabola, 0, known.VGirth), true},
		{"elliptical sections", hull(parabola, 0, known.EllipseGirth), true},
		{"elliptical sections, sprung 8 in", hull(parabola, 8, known.EllipseGirth), true},
		{"box sections drawn out to a sharp end, sprung 8 in", hull(parabola, 8, known.BoxGirth), true},
		{"box sections drawn out to a sharp end, level", hull(parabola, 0, known.BoxGirth), false},
	} {
		worst := 0.0
		for _, construction := range []cover.Construction{cover.Sides, cover.HullAndTop, cover.TopAndSkirt} {
			request := cover.Request{Hull: boat.hull, Stations: marks(boat.hull.Length()), Ends: [2]float64{12, 12}, Carry: 24}
			c, err := cover.Design(request, cloth(construction))
			if err != nil {
				p.Printf("%s, %s: %v\n", boat.name, construction, err)
				continue
			}
			for _, l := range c.Lines {
				worst = math.Max(worst, math.Abs(l.Off()))
			}
		}
		name := "sewn back, worst line: " + boat.name
		if boat.rated {
			p.AtMost(name, worst, sewnInches, "in")
		} else {
			p.Plain(name+" (no target)", worst, "in")
		}
	}
}

// cloth is the settings' default cloth.
func cloth(construction cover.Construction) cover.Cloth {
	return cover.Cloth{
		Name: "default", Construction: construction,
		RollWidth: parse.Inches(60), UsableWidth: parse.Inches(59),
		GirthReduction: 0.02, LengthReduction: 0.01, StretchAcross: 0.06,
		SeamAllowance: parse.Inches(0.5), Hem: parse.Inches(1), Slit: parse.Inches(9),
	}
}
