package tracing

import (
	"math"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
)

// buckled is a sheet seen from above, its marks displaced by waves so high, mm,
// and by noise of a fiftieth of a millimetre; shows is the pixel at which a place
// of it is seen.
func buckled(t *testing.T, high float64) (f *fitted, shows func(point) point) {
	t.Helper()
	g, err := form.NewGrid(form.Letter, parse.Inch)
	if err != nil {
		t.Fatal(err)
	}
	v := &view{poses: []pose{{}}}
	v.camera = camera{h: [8]float64{10, 0, 500, 0, 10, 500, 1e-4, 0}, middle: point{1600, 1900}, radius: 2500}
	shows = func(q point) point {
		return v.camera.pixel(q.plus(point{high * math.Sin(q.x/45+q.y/60), high * math.Cos(q.x/50-q.y/55)}))
	}
	f = &fitted{view: v, grids: []form.Grid{g}}
	r := rng(8)
	for _, m := range g.Marks {
		x, y := m.Centre()
		q := point{x, y}
		at := shows(q).plus(point{0.2 * r.NormFloat64(), 0.2 * r.NormFloat64()}) // 10 pixels a millimetre
		f.marks = append(f.marks, seen{0, q, at})
	}
	if f.view, err = v.fit(f.marks); err != nil {
		t.Fatal(err)
	}
	return f, shows
}

// What the marks show of how the paper lies is taken off, and the doubt that is
// left covers what they do not show: little beside a mark, more far from all.
func TestBuckle(t *testing.T) {
	for _, high := range []float64{0, 0.3} {
		f, shows := buckled(t, high)
		b, err := newBuckle(f)
		if err != nil {
			t.Fatal(err)
		}
		var beyond, n, near, far float64
		for x := 15.0; x < 210; x += 13 {
			for y := 15.0; y < 270; y += 13 {
				q := point{x, y}
				at := f.camera.place(shows(q))
				off := at.minus(b.displaced(at)).minus(q)
				doubt := b.doubt(at, point{1, 0})
				if n++; math.Abs(off.x) > 2.6*doubt+0.02 {
					beyond++
				}
				if x < 20 && y < 200 {
					near = max(near, doubt)
				}
				if x > 120 && y < 150 {
					far = max(far, doubt)
				}
			}
		}
		if beyond/n > 0.05 {
			t.Errorf("waves of %.1f mm: %.0f %% of the places are farther off than is reckoned", high, 100*beyond/n)
		}
		if near > 0.1 || high > 0 && far < 2*near {
			t.Errorf("waves of %.1f mm: doubt %.3f mm beside marks, %.3f far from them", high, near, far)
		}
	}
}

// A round line is carried over a gap.
func TestBridge(t *testing.T) {
	const radius = 300.0
	arc := func(from, to float64) (line []point) {
		for a := from; a < to; a += 1 / radius {
			s, c := math.Sincos(a)
			line = append(line, point{radius * c, radius * s})
		}
		return line
	}
	points := bridge(arc(0, 0.5), arc(0.7, 1.2))
	if len(points) < 55 {
		t.Fatalf("%d points over 60 mm", len(points))
	}
	for _, q := range points {
		if off := math.Abs(q.length() - radius); off > bridgeDoubt*60 {
			t.Errorf("%.3f mm off at %v", off, q)
		}
	}
}
