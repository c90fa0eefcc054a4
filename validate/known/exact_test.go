package known

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"fairtape/parse"
)

// Whole perimeters of ellipses, 4aE(1-b²/a²) to 15 digits, worked out with an
// independent program.
func TestEllipseGirth(t *testing.T) {
	tests := []struct{ w, d, perimeter float64 }{
		{0, 0, 0},
		{2, 0.5, 4.844224110273838},
		{2, 0.25, 4.289210887578417},
		{2, 0.1, 4.063974180100896},
		{2, 0.01, 4.001098329722652},
		{33, 12, 90.09431169533494},
		{2, 1, 2 * math.Pi},
		{0, 12, 48}, // no breadth: up and down both sides
		{33, 0, 66}, // no depth
	}
	for _, tt := range tests {
		if got := 2 * EllipseGirth(tt.w, tt.d); math.Abs(got-tt.perimeter) > 1e-11 {
			t.Errorf("ellipse %v by %v: perimeter %.15g, want %.15g", tt.w, tt.d, got, tt.perimeter)
		}
	}
}

// Values of the closed form U = sqrt(T²+4b²) + T²/(2b) asinh(2b/T), worked out
// with an independent program; x in feet from midships.
func TestWigleyGirth(t *testing.T) {
	tests := []struct{ feet, hull float64 }{
		{0, 42.6905837458}, {2, 40.9836362885}, {4, 36.065634493}, {6, 28.9267037754}, {8, 24},
	}
	b := Wigley()
	for _, tt := range tests {
		for _, x := range []float64{96 + 12*tt.feet, 96 - 12*tt.feet} {
			if hull, _ := b.Girths(x); math.Abs(hull-tt.hull) > 1e-9 {
				t.Errorf("%v in aft: hull girth %.10f, want %.10f", x, hull, tt.hull)
			}
		}
	}
	if _, full := b.Girths(96); math.Abs(full-75.6905837458) > 1e-9 {
		t.Errorf("full girth amidships %.10f, want 75.6905837458", full)
	}
}

// The table in data was made by an independent program.
func TestWigleySurvey(t *testing.T) {
	file, err := os.Open("data/wigley_L192_B33_T12_girths.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	stations := Wigley().Exact(parse.Inch).Stations
	if len(stations) != len(lines)-1 {
		t.Fatalf("%d stations, want %d", len(stations), len(lines)-1)
	}
	for i, line := range lines[1:] {
		row := stations[i]
		got := []float64{row.At.In(parse.Inch), row.HullGirth.Value.In(parse.Inch), row.FullGirth.Value.In(parse.Inch)}
		for k, column := range []int{1, 5, 6} {
			want, err := strconv.ParseFloat(line[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			if got[k] != want {
				t.Errorf("row %d, %s: %v, want %v", i+1, lines[0][column], got[k], want)
			}
		}
	}
}

// A form drawn as a polyline agrees with the exact girth of its section.
func TestFormGirth(t *testing.T) {
	const w, d = 33.0, 12.0
	tests := []struct {
		name string
		form form
		want float64
		off  float64 // a polyline cuts corners
	}{
		{"ellipse", form{bilge: 2, ends: 2}, EllipseGirth(w, d), 0.01},
		{"V", form{bilge: 2, ends: 2, vee: 1}, VGirth(w, d), 1e-9},
		{"box", form{flat: 1}, BoxGirth(w, d), 1e-9},
		{"nearly a box", form{bilge: 60, ends: 60}, BoxGirth(w, d), 0.6},
	}
	for _, tt := range tests {
		got := tt.form.half(w/2, d, 1).girth()
		if got > tt.want+1e-9 || got < tt.want-tt.off {
			t.Errorf("%s: girth %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestTautBridgesHollows(t *testing.T) {
	hollow := section{{0, 0}, {1, 6}, {16.5, 12}}
	if got, want := hollow.girth(), VGirth(33, 12); math.Abs(got-want) > 1e-12 {
		t.Errorf("girth over a hollow %v, want the straight way %v", got, want)
	}
	// With tumblehome the tape follows the side inward to the gunwale.
	homing := section{{0, 0}, {10, 0}, {10, 8}, {8, 12}}
	if got, want := homing.girth(), 2*(10+8+math.Hypot(2, 4)); math.Abs(got-want) > 1e-12 {
		t.Errorf("girth with tumblehome %v, want %v", got, want)
	}
}

func TestLowered(t *testing.T) {
	v := section{{0, 0}, {16, 12}}
	tests := []struct {
		by, flare float64
		breadth   float64
	}{
		{0, 0, 32}, {3, 0, 24}, {-3, 0, 32}, {-3, 0.5, 35},
	}
	for _, tt := range tests {
		if got := v.lowered(tt.by, tt.flare).breadth(); math.Abs(got-tt.breadth) > 1e-12 {
			t.Errorf("lowered by %v with flare %v: breadth %v, want %v", tt.by, tt.flare, got, tt.breadth)
		}
	}
	box := section{{0, 0}, {10, 0}, {10, 12}}
	if got := box.lowered(3, 0).girth(); got != BoxGirth(20, 9) {
		t.Errorf("lowered box: girth %v, want %v", got, BoxGirth(20, 9))
	}
}

// An arched deck is a tenth of the way to the outside of exact: the two straight
// lines to its crown bound it from below, the box about it from above.
func TestDeck(t *testing.T) {
	box := section{{0, 0}, {10, 0}, {10, 12}}
	const camber = 0.1
	over := box.deck(camber).girth() - box.girth()
	if low, high := 2*math.Hypot(10, 2), 2*(10+2.0); over <= low || over >= high {
		t.Errorf("way over the deck %v, want within %v to %v", over, low, high)
	}
	if flat := box.deck(0).girth() - box.girth(); math.Abs(flat-20) > 1e-12 {
		t.Errorf("way over a flat deck %v, want its breadth", flat)
	}
}

func TestCanoe1889(t *testing.T) {
	if _, err := Canoe1889("as_dreamt"); err == nil {
		t.Error("an unknown variant gives no error")
	}
	printed, err := Canoe1889(AsPrinted)
	if err != nil {
		t.Fatal(err)
	}
	fixed, err := Canoe1889(SuspectsFixed)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []parse.Survey{printed, fixed} {
		if n := len(s.Stations); n != 13 {
			t.Fatalf("%d stations, want 13", n)
		}
		if l, b, a := s.LengthOverall.Value.In(parse.Inch), s.BowHeight.Value.In(parse.Inch), s.SternHeight.Value.In(parse.Inch); l != 168 || b != 18 || a != 16 {
			t.Errorf("length %v, heights %v and %v; want 168, 18 and 16", l, b, a)
		}
	}
	// Row at 13 ft, U 29.229 and O 30.229 as printed, 28.832 and 36.832 fixed.
	for _, tt := range []struct {
		survey     parse.Survey
		hull, full float64
	}{{printed, 29, 30}, {fixed, 29, 37}} {
		row := tt.survey.Stations[12]
		if h, f := row.HullGirth.Value.In(parse.Inch), row.FullGirth.Value.In(parse.Inch); h != tt.hull || f != tt.full {
			t.Errorf("13 ft: %v, %v; want %v, %v", h, f, tt.hull, tt.full)
		}
	}
}

func TestTrippingCanoe(t *testing.T) {
	s := TrippingCanoe()
	if got := s.LengthOverall.Value.In(parse.Inch); got != 17*12+6 {
		t.Errorf("length overall %v, want 210", got)
	}
	if len(s.Stations) != 4 || s.Stations[3].At != parse.Inches(108) {
		t.Errorf("stations %v", s.Stations)
	}
}
