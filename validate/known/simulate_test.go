package known

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"fairtape/parse"
)

func source(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 1889)) }

func classes() []Class { return append([]Class{Ordinary}, OddClasses()...) }

// The scale on which a solo canoe's hull girth changes: first difference at
// most 3.5 in/ft, second at most 1.6 in, read from the offsets of a real hull.
// Broader and shorter boats curve more by their proportions, and are brought to
// the canoe's; the two feet at the ends, where the stem turns up, are left out.
func TestSmoothnessScale(t *testing.T) {
	const (
		margin           = 1.25 // one boat's scale: others change a quarter faster
		most, mostSecond = margin * 3.5, margin * 1.6
		boats            = 300
	)
	rough := 0
	rng := source(1)
	for range boats {
		b := Simulate(rng, Ordinary)
		_, widest := b.Girths(b.Length / 2)
		broad, short := max(widest/canoeFullGirth, 1), max(canoeLength/b.Length, 1)
		ok := true
		for x := 36.0; x <= b.Length-36; x += inchesPerFoot {
			before, _ := b.Girths(x - inchesPerFoot)
			here, _ := b.Girths(x)
			after, _ := b.Girths(x + inchesPerFoot)
			ok = ok && math.Abs(after-here) <= most*broad*short &&
				math.Abs(after-2*here+before) <= mostSecond*broad*short*short
		}
		if !ok {
			rough++
		}
	}
	if share := float64(rough) / boats; share > 0.02 {
		t.Errorf("%.1f %% of ordinary boats change faster than a real canoe", 100*share)
	}
}

// Full girth and length of the canoe that the scale is from, in inches.
const (
	canoeFullGirth = 75
	canoeLength    = 168
)

// What must be true of any real boat, over the families, the classes and both
// units.
func TestCleanSurveysObeyTheRules(t *testing.T) {
	for _, family := range []Family{Simulate, Loft} {
		for _, class := range classes() {
			for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
				rng := source(2)
				for range 60 {
					sheet := family.Draw(rng, class, HomeTape(unit))
					checkRules(t, class, sheet)
					checkClass(t, class, sheet)
				}
			}
		}
	}
	for _, class := range WorkBoats() {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			rng := source(8)
			for range 60 {
				checkRules(t, class, Family(WorkBoat).Draw(rng, class, HomeTape(unit)))
			}
		}
	}
}

// checkClass holds what a class of the two families promises of its boats.
func checkClass(t *testing.T, class Class, sheet Sheet) {
	t.Helper()
	s := sheet.Survey
	if feet := sheet.Boat.Length / inchesPerFoot; feet < 8 || feet > 24 {
		t.Errorf("%s: %v ft long", class, feet)
	}
	if (s.Stern == parse.Square) != (class == Transom) || (s.Transom.FullGirth.Known) != (class == Transom) {
		t.Errorf("%s: stern %s, transom %v", class, s.Stern, s.Transom)
	}
	if s.Decked != (class == Decked) {
		t.Errorf("%s: decked %v", class, s.Decked)
	}
}

// A pram is square at both ends, a drift boat has the rocker that lifts them
// over the depth of the boat there.
func TestWorkBoatsAreOdd(t *testing.T) {
	rng := source(9)
	for range 30 {
		hull, full := WorkBoat(rng, Pram).Girths(0.1)
		if full-hull < 12 {
			t.Errorf("a pram's bow is %v in broad", full-hull)
		}
		b := WorkBoat(rng, DriftBoat)
		hull, full = b.Girths(inchesPerFoot)
		if vee := math.Sqrt(hull*hull-(full-hull)*(full-hull)) / 2; b.BowHeight < vee {
			t.Errorf("a drift boat's bow is %v in high, %v in deep", b.BowHeight, vee)
		}
	}
}

func checkRules(t *testing.T, class Class, sheet Sheet) {
	t.Helper()
	s, b := sheet.Survey, sheet.Boat
	rows := int(math.Ceil(b.Length/sheet.Tape.spacing())) - 1
	if n := len(s.Stations); n != rows && n != rows-1 {
		t.Errorf("%s: %d stations on %v in, want %d or one less", class, n, b.Length, rows)
	}
	grid := 0.5
	if s.Unit == parse.Centimetre {
		grid = 1
	}
	most := 0.0
	for _, row := range s.Stations {
		hull, full := row.HullGirth.Value.In(s.Unit), row.FullGirth.Value.In(s.Unit)
		if full <= hull || full > 2*hull && !s.Decked {
			t.Errorf("%s: at %v hull girth %v, full girth %v", class, row.At.In(s.Unit), hull, full)
		}
		if math.Mod(hull, grid) != 0 || math.Mod(full, grid) != 0 {
			t.Errorf("%s: %v, %v are off the grid", class, hull, full)
		}
		x := row.At.In(parse.Inch)
		trueHull, trueFull := b.Girths(x)
		offHull, offFull := row.HullGirth.Value.In(parse.Inch)-trueHull, row.FullGirth.Value.In(parse.Inch)-trueFull
		if may := tolerance(b, x); math.Abs(offHull) > may || math.Abs(offFull) > may {
			t.Errorf("%s: at %v girths %v and %v in off, may be %v", class, x, offHull, offFull, may)
		}
		most = max(most, full)
	}
	if g := s.Greatest; g.FullGirth.Value.In(parse.Inch)+1.5 < parse.Measured(most, s.Unit).In(parse.Inch) {
		t.Errorf("%s: greatest full girth %v, but a station has %v", class, g.FullGirth.Value.In(s.Unit), most)
	}
}

// tolerance is five standard deviations of tape, slack, rounding and the place
// of the loop, whose share grows with the slope of the girth.
func tolerance(b Boat, x float64) float64 {
	_, here := b.Girths(x)
	slope := 0.0
	for _, dx := range []float64{-1, -0.5, 0.5, 1} {
		_, there := b.Girths(min(max(x+dx, 0), b.Length))
		slope = max(slope, math.Abs((there-here)/dx))
	}
	const rounding = 0.5 / 3.4641
	place := math.Hypot(placeNoise, drift*x) * slope
	return 5 * math.Sqrt(tapeNoise*tapeNoise+slackNoise*slackNoise+rounding*rounding+place*place)
}

// Bounds of a symmetric convex section of breadth w and depth d: the girth is at
// least that of the V and at most that of the box about its greatest breadth.
func TestSectionsKeepTheirBounds(t *testing.T) {
	rng := source(3)
	for range 300 {
		f, d := openForm(rng), between(rng, 9, 20)
		b, fullness := between(rng, 1, 25), rng.Float64()
		if rng.IntN(4) == 0 {
			f = homing(rng)
		}
		s := f.half(b, d, fullness)
		broadest := 0.0
		for _, p := range s {
			broadest = max(broadest, p.y)
		}
		low, high := VGirth(2*b, d), 4*broadest+2*d-2*b
		if got := s.girth(); got < low-1e-9 || got > high+1e-9 {
			t.Errorf("%+v, breadth %v, depth %v: girth %v, want within %v to %v", f, 2*b, d, got, low, high)
		}
		if top := s[len(s)-1]; math.Abs(top.y-b) > 1e-9 || math.Abs(top.z-d) > 1e-9 {
			t.Errorf("%+v ends at %v, want the gunwale at %v, %v", f, top, b, d)
		}
	}
}

func TestSameSourceSameBoats(t *testing.T) {
	a, b := Draw(source(4), CutDown, HomeTape(parse.Inch)), Draw(source(4), CutDown, HomeTape(parse.Inch))
	if a.Boat.Length != b.Boat.Length || !reflect.DeepEqual(a.Survey, b.Survey) {
		t.Error("the same source gives two boats")
	}
	if c := Draw(source(5), CutDown, HomeTape(parse.Inch)); c.Boat.Length == a.Boat.Length {
		t.Error("two sources give the same boat")
	}
}

// Cut sides lower the hull girth amidships and leave the ends alone.
func TestCutDownLowersTheMiddle(t *testing.T) {
	rng := source(6)
	for range 50 {
		h := double(rng)
		whole, _ := h.girths(h.length / 2)
		end, _ := h.girths(inchesPerFoot)
		h.change = cutDown(rng, h.length, 0, 0)
		cut, _ := h.girths(h.length / 2)
		if whole-cut < 2.5 {
			t.Errorf("hull girth %v cut to %v", whole, cut)
		}
		if after, _ := h.girths(inchesPerFoot); after != end {
			t.Errorf("hull girth at 1 ft %v, was %v", after, end)
		}
	}
}
