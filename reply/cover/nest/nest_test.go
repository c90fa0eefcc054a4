package nest

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func rectangle(long, wide float64) []Point {
	return []Point{{0, 0}, {long, 0}, {long, wide}, {0, wide}}
}

// lens is a side of a boat: straight on one edge, full amidships on the other.
func lens(long, end, middle float64) []Point {
	out := []Point{{0, 0}, {long, 0}}
	for i := 40; i >= 0; i-- {
		t := float64(i) / 40
		out = append(out, Point{long * t, end + (middle-end)*4*t*(1-t)})
	}
	return out
}

func mirrored(outline []Point) []Point {
	out := make([]Point, len(outline))
	for i, q := range outline {
		out[len(outline)-1-i] = Point{-q.X, q.Y}
	}
	return out
}

func TestLayRefuses(t *testing.T) {
	for name, outline := range map[string][]Point{
		"a hair too wide": rectangle(10, 59.001),
		"far too wide":    lens(200, 20, 80),
	} {
		pieces := []Piece{{name, outline}}
		if _, err := Lay(pieces, 59); !errors.Is(err, ErrTooWide) {
			t.Errorf("Lay of a piece %s: %v", name, err)
		}
		if _, err := Boxes(pieces, 59); !errors.Is(err, ErrTooWide) {
			t.Errorf("Boxes of a piece %s: %v", name, err)
		}
	}
}

func TestLay(t *testing.T) {
	side := lens(200, 20, 40)
	for _, tt := range []struct {
		name   string
		pieces []Piece
		most   float64 // running length
	}{
		{"nothing", nil, 0},
		{"one", []Piece{{"a", rectangle(100, 50)}}, 100},
		{"two abreast", []Piece{{"a", rectangle(100, 29)}, {"b", rectangle(80, 29)}}, 100},
		{"two end to end", []Piece{{"a", rectangle(100, 30)}, {"b", rectangle(80, 30)}}, 180 + Clearance},
		// Turned half round and slid, the two curves lie against each other:
		// by symmetry they touch halfway, where each is 29.5 - Clearance/2 wide.
		{"two sides", []Piece{{"a", side}, {"b", mirrored(side)}}, 200 + 2*(200*halfway(20, 40, 29.5-Clearance/2)-100) + 2*fine},
	} {
		l, err := Lay(tt.pieces, 59)
		if err != nil {
			t.Fatal(err)
		}
		if l.Length > tt.most+1e-9 {
			t.Errorf("%s: %.2f in are used up, want at most %.2f", tt.name, l.Length, tt.most)
		}
		sound(t, tt.name, l, tt.pieces)
	}
}

// halfway returns the place, as a share of the length, at which a lens has come
// down to the given width.
func halfway(end, middle, width float64) float64 {
	return 0.5 + 0.5*math.Sqrt(1-(width-end)/(middle-end))
}

func TestLayRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 14))
	for range 12 {
		var pieces []Piece
		for range 1 + rng.IntN(3) {
			end := 5 + 25*rng.Float64()
			side := lens(60+140*rng.Float64(), end, end+25*rng.Float64())
			pieces = append(pieces, Piece{"side", side}, Piece{"other side", mirrored(side)})
		}
		l, err := Lay(pieces, 59)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, "random sides", l, pieces)
		boxes, err := Boxes(pieces, 59)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, "boxes", boxes, pieces)
		if l.Length > boxes.Length+1e-9 {
			t.Errorf("outlines use up %.1f in, their boxes %.1f in", l.Length, boxes.Length)
		}
		again, err := Lay(pieces, 59)
		if err != nil || again.Length != l.Length || again.Placed[0] != l.Placed[0] {
			t.Error("the same pieces lie differently the second time")
		}
	}
}

// sound checks a layout by means of its own: every piece lies on the roll, and
// no two sides of outlines cross nor does one outline hold a corner of another.
func sound(t *testing.T, name string, l Layout, pieces []Piece) {
	t.Helper()
	if len(l.Placed) != len(pieces) {
		t.Fatalf("%s: %d of %d pieces are placed", name, len(l.Placed), len(pieces))
	}
	var outlines [][]Point
	for _, p := range l.Placed {
		outline := p.Outline(pieces)
		for _, q := range outline {
			if q.Y < -1e-6 || q.Y > l.Width+1e-6 || q.X < -1e-6 || q.X > l.Length+1e-6 {
				t.Fatalf("%s: %s reaches off the cloth at %.2f, %.2f", name, pieces[p.Piece].Name, q.X, q.Y)
			}
		}
		if got, want := Area(outline), Area(pieces[p.Piece].Outline); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("%s: %s has changed its area", name, pieces[p.Piece].Name)
		}
		if turn(outline) != turn(pieces[p.Piece].Outline) {
			t.Fatalf("%s: %s lies face down", name, pieces[p.Piece].Name)
		}
		outlines = append(outlines, outline)
	}
	for i, a := range outlines {
		for _, b := range outlines[:i] {
			if overlap(a, b) {
				t.Fatalf("%s: two pieces overlap", name)
			}
		}
	}
}

// turn reports whether an outline runs counter-clockwise.
func turn(outline []Point) bool {
	twice := 0.0
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		twice += p.X*q.Y - q.X*p.Y
	}
	return twice > 0
}

func overlap(a, b []Point) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for j, r := range b {
			s := b[(j+1)%len(b)]
			if side(p, q, r)*side(p, q, s) < -1e-9 && side(r, s, p)*side(r, s, q) < -1e-9 {
				return true
			}
		}
	}
	return holds(a, b[0]) || holds(b, a[0])
}

// side is positive for a point to the left of the line from p to q.
func side(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }

// holds counts how often a ray from the point crosses the outline.
func holds(outline []Point, p Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

func BenchmarkLay(b *testing.B) {
	side := lens(200, 20, 40)
	pieces := []Piece{{"a", side}, {"b", mirrored(side)}}
	for b.Loop() {
		if _, err := Lay(pieces, 59); err != nil {
			b.Fatal(err)
		}
	}
}
