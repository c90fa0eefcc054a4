package cover

import (
	"math"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

func TestProfileRefuses(t *testing.T) {
	for name, line := range map[string][]parse.TracedPoint{
		"nothing":        nil,
		"a level scrawl": {{X: 0, Y: 0}, {X: 100, Y: 10}, {X: 200, Y: 20}},
	} {
		if _, err := ProfileOf(parse.Tracing{Line: line}); err == nil {
			t.Errorf("%s was taken for an end of a boat", name)
		}
	}
}

// traced is a quarter ellipse from the flat of the bottom, 9 in from the end, up
// to the top, as traced with the end to the left or to the right.
func traced(height, way float64) parse.Tracing {
	t := parse.Tracing{Error: 0.8}
	for i := range 101 {
		a := math.Pi / 2 * float64(i) / 100
		t.Line = append(t.Line, parse.TracedPoint{X: 300 + way*9*25.4*math.Sin(a), Y: 40 + height*25.4*(1-math.Cos(a))})
	}
	return t
}

// A tracing lies the same whichever way the end points on the paper.
func TestProfileOf(t *testing.T) {
	left, err := ProfileOf(traced(17, -1))
	right, err2 := ProfileOf(traced(17, 1))
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	for i, p := range left.Points {
		if distance(p, right.Points[i]) > 1e-9 {
			t.Fatalf("point %d: %v and %v", i, p, right.Points[i])
		}
	}
	if first, top := left.Points[0], left.top(); math.Abs(first.X-9) > 1e-9 || math.Abs(top.Y-17) > 1e-9 || math.Abs(top.X) > 1e-9 {
		t.Errorf("it runs from %v to %v", first, top)
	}
}

// A traced end gives the panel its shape: the sewing line runs over the tracing,
// the cutting line an allowance outside of it, and the outline crosses itself
// nowhere.
func TestTracedEnds(t *testing.T) {
	h, stations := exactHull(204, 33, 12, parabola, level, known.WigleyGirth)
	bow, err := ProfileOf(traced(12, -1))
	if err != nil {
		t.Fatal(err)
	}
	for _, construction := range []Construction{Sides, HullAndTop, TopAndSkirt} {
		c := plainCloth(construction)
		request := Request{Hull: h, Stations: stations, Ends: [2]float64{12, 12}, Carry: 24}
		plain, err := Design(request, c)
		if err != nil {
			t.Fatal(construction, err)
		}
		request.Profiles = [2]*Profile{bow, bow}
		got, err := Design(request, c)
		if err != nil {
			t.Fatal(construction, err)
		}
		for i, p := range got.Panels {
			if p.profiles() != (p.Ends[0] != nil && p.Ends[1] != nil) {
				t.Errorf("%s, %s: traced ends %v", construction, p.Name, p.Ends)
			}
			if a, b := crossing(p.Cut); a != b {
				t.Errorf("%s, %s: its outline crosses itself at points %d and %d", construction, p.Name, a, b)
			}
			if !p.profiles() {
				continue
			}
			long, _ := p.Size()
			if was, _ := plain.Panels[i].Size(); long >= was {
				t.Errorf("%s, %s: %.1f in of cloth, rough it was %.1f in", construction, p.Name, long, was)
			}
			for k, line := range p.Ends {
				for _, q := range line[4 : len(line)-4] {
					if p.Middle && q.Y < 2 {
						continue // both halves meet there
					}
					if d := awayFrom(q, p.Cut); math.Abs(d-0.5) > 0.05 {
						t.Errorf("%s, %s, end %d: the cut is %.2f in from the tracing at %v", construction, p.Name, k, d, q)
						break
					}
				}
			}
		}
	}
}

// crossing returns two sides of an outline that cross, equal ones for none.
func crossing(outline []Point) (int, int) {
	side := func(a, b, q Point) float64 { return (b.X-a.X)*(q.Y-a.Y) - (b.Y-a.Y)*(q.X-a.X) }
	n := len(outline)
	for i := range n {
		a, b := outline[i], outline[(i+1)%n]
		for j := i + 2; j < n; j++ {
			c, d := outline[j], outline[(j+1)%n]
			if (j+1)%n != i && side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
				return i, j
			}
		}
	}
	return 0, 0
}

func awayFrom(q Point, outline []Point) float64 {
	best := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		d := distance(a, b)
		if d == 0 {
			continue
		}
		f := min(max(((q.X-a.X)*(b.X-a.X)+(q.Y-a.Y)*(b.Y-a.Y))/(d*d), 0), 1)
		best = min(best, distance(q, Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}))
	}
	return best
}
