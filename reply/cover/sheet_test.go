package cover

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"fairtape/parse"
	"fairtape/reply/cover/nest"
	"fairtape/validate"
	"fairtape/validate/known"
)

// someCloth stretches a little, as the settings' default does.
func someCloth(c Construction) Cloth {
	cloth := plainCloth(c)
	cloth.Colour = "green"
	cloth.GirthReduction, cloth.LengthReduction, cloth.StretchAcross = 0.02, 0.01, 0.06
	return cloth
}

func TestCheckCloth(t *testing.T) {
	for _, tt := range []struct {
		key    string
		change func(*Cloth)
	}{
		{"construction", func(c *Cloth) { c.Construction = "bag" }},
		{"construction", func(c *Cloth) { c.Construction = "" }},
		{"roll_width", func(c *Cloth) { c.RollWidth = 0 }},
		{"roll_width", func(c *Cloth) { c.RollWidth = parse.Length(math.NaN()) }},
		{"usable_width", func(c *Cloth) { c.UsableWidth = parse.Inches(61) }},
		{"usable_width", func(c *Cloth) { c.UsableWidth = parse.Inches(-1) }},
		{"seam_allowance", func(c *Cloth) { c.SeamAllowance = parse.Inches(5) }},
		{"seam_allowance", func(c *Cloth) { c.SeamAllowance = parse.Inches(-0.5) }},
		{"hem", func(c *Cloth) { c.Hem = parse.Inches(12) }},
		{"slit", func(c *Cloth) { c.Slit = parse.Inches(90) }},
		{"girth_reduction", func(c *Cloth) { c.GirthReduction = 2 }},
		{"girth_reduction", func(c *Cloth) { c.GirthReduction = math.NaN() }},
		{"girth_reduction", func(c *Cloth) { c.GirthReduction = 0.031 }}, // over half of 6 %
		{"girth_reduction", func(c *Cloth) { c.StretchAcross = 0 }},
		{"length_reduction", func(c *Cloth) { c.LengthReduction = -0.5 }},
		{"stretch_across", func(c *Cloth) { c.StretchAcross = 6 }},
	} {
		cloth := someCloth(Sides)
		tt.change(&cloth)
		var refused *Refusal
		if err := cloth.Check(); !errors.As(err, &refused) || refused.Reasons[0].Key != tt.key || refused.Reasons[0].Why == "" {
			t.Errorf("%s: %v", tt.key, err)
		}
	}
	for _, cloth := range []Cloth{someCloth(Sides), plainCloth(HullAndTop), {
		Construction: TopAndSkirt, RollWidth: parse.Centimetres(150), UsableWidth: parse.Centimetres(147),
		GirthReduction: -0.02, SeamAllowance: parse.Centimetres(1.5), Hem: parse.Centimetres(3),
	}} {
		if err := cloth.Check(); err != nil {
			t.Errorf("%+v: %v", cloth, err)
		}
	}
}

// report is what the judge says of an ordinary boat with these readings.
func report(seed uint64, unit parse.Unit, change func(*parse.Survey)) validate.Report {
	b := known.Simulate(rand.New(rand.NewPCG(seed, 7)), known.Ordinary)
	s := b.Exact(unit)
	if change != nil {
		change(&s)
	}
	return validate.Check(s, nil, validate.Costs{Ask: 1, Miss: 30})
}

func someOrder(c Construction) Order {
	return Order{Shop: "Pinfold Cover Loft", Job: "14", Sheet: 1, Date: time.Date(2026, 4, 2, 0, 0, 0, 0, time.UTC), Cloth: someCloth(c)}
}

func TestMakeRefuses(t *testing.T) {
	slip := func(s *parse.Survey) { s.Stations[6].HullGirth.Value += parse.Inches(10) }
	if _, err := Make(report(2, parse.Inch, slip), someOrder(Sides)); !errors.Is(err, ErrUnsettled) {
		t.Errorf("an unsettled survey is cut: %v", err)
	}
	var refused *Refusal
	bare := someOrder(Sides)
	bare.Cloth.Colour = ""
	if _, err := Make(report(2, parse.Inch, nil), bare); !errors.As(err, &refused) || refused.Reasons[0].Key != "cloth" {
		t.Errorf("the cover of a job without a colour: %v", err)
	}
	few := report(2, parse.Inch, func(s *parse.Survey) { s.Stations = s.Stations[:1]; s.Greatest = parse.Greatest{} })
	order := someOrder(Sides)
	order.Draft = true
	if _, err := Make(few, order); !errors.As(err, &refused) || refused.Reasons[0].Key != "boat" {
		t.Errorf("a boat of one station is cut: %v", err)
	}
	order = someOrder(Sides)
	order.Cloth.UsableWidth = parse.Inches(30)
	if _, err := Make(report(2, parse.Inch, nil), order); !errors.As(err, &refused) || !strings.Contains(err.Error(), "say where it is joined") {
		t.Errorf("a panel wider than the roll: %v", err)
	}
	order.Cloth.Join = parse.Inches(2)
	if _, err := Make(report(2, parse.Inch, nil), order); !errors.As(err, &refused) || refused.Reasons[0].Key != "join" {
		t.Errorf("a joining seam that does not help: %v", err)
	}
}

// A short boat of great girth has no room for an entry.
func TestCannotGoOn(t *testing.T) {
	hull, stations := exactHull(84, 50, 20, parabola, level, known.EllipseGirth)
	request := Request{Hull: hull, Stations: stations, Ends: [2]float64{20, 20}, Carry: 20}
	for _, c := range []Construction{Sides, HullAndTop} {
		var refused *Refusal
		if _, err := Design(request, plainCloth(c)); !errors.As(err, &refused) || refused.Reasons[0].Key != "entry" {
			t.Errorf("%s: %v", c, err)
		}
	}
	if _, err := Design(request, plainCloth(TopAndSkirt)); err != nil {
		t.Errorf("a top with a skirt goes on from above, but: %v", err)
	}
}

func TestMake(t *testing.T) {
	for _, c := range []Construction{Sides, HullAndTop, TopAndSkirt} {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			s, err := Make(report(2, unit, nil), someOrder(c))
			if err != nil {
				t.Fatalf("%s in %s: %v", c, unit, err)
			}
			if s.Entry.Length > 0 && s.Entry.Rim < s.Entry.Passes {
				t.Errorf("%s: the rim of %.1f in does not pass %.1f in", c, s.Entry.Rim, s.Entry.Passes)
			}
			if len(s.Rows) < 10 || len(s.Notions) == 0 || s.Lay.Length > s.Boxes.Length {
				t.Errorf("%s: %d rows, %d notions, %.1f in of cloth (boxes %.1f)", c, len(s.Rows), len(s.Notions), s.Lay.Length, s.Boxes.Length)
			}
			for _, r := range s.Rows {
				if want := r.Curve[1] * 0.98; r.At >= 12 && r.At <= s.Hull.Length()-12 && math.Abs(r.Finished-want) > 1e-6 {
					t.Errorf("%s: at %g in the cover is %.3f in around, want %.3f", c, r.At, r.Finished, want)
				}
			}
			for _, p := range s.Panels {
				outlines(t, p)
				chalked(t, p)
			}
		}
	}
}

// outlines holds the outlines of a panel against each other: the cutting line
// lies an allowance outside the sewing line where the panel is as measured, and
// outside all of it.
func outlines(t *testing.T, p Panel) {
	t.Helper()
	first, last := p.measured()
	for _, e := range []Edge{p.Near, p.Far} {
		for i := first; i <= last; i++ {
			least := math.Inf(1)
			for j := range e.Cutting {
				least = math.Min(least, distance(e.Sewing[i], e.Cutting[j]))
			}
			if least < e.Allowance*0.999 || least > e.Allowance*1.2+step {
				t.Fatalf("%s, %s: at %g in the cutting line is %.3f in away, want %.3f", p.Name, e.Name, p.Place[i], least, e.Allowance)
			}
		}
	}
	least, most := p.Cut[0], p.Cut[0]
	for _, q := range p.Cut {
		least = Point{X: min(least.X, q.X), Y: min(least.Y, q.Y)}
		most = Point{X: max(most.X, q.X), Y: max(most.Y, q.Y)}
	}
	for _, q := range p.Sewn {
		if q.X < least.X || q.X > most.X || q.Y < least.Y || q.Y > most.Y {
			t.Fatalf("%s: the sewing line leaves the cloth at %.2f, %.2f", p.Name, q.X, q.Y)
		}
	}
	if nest.Area(p.Cut) < nest.Area(p.Sewn) {
		t.Errorf("%s: more is sewn than is cut", p.Name)
	}
}

// chalked lays a panel out again from its chalk table and measures it.
func chalked(t *testing.T, p Panel) {
	t.Helper()
	marks := p.Chalk()
	if !marks[0].Station || !marks[len(marks)-1].Station {
		t.Fatalf("%s: the table does not run from station to station", p.Name)
	}
	for i, m := range marks {
		near := Point{X: m.Datum}
		if p.Middle {
			near = Point{X: m.Run, Y: -m.Sew}
		}
		if got := distance(near, Point{X: m.Run, Y: m.Sew}); math.Abs(got-m.Across) > 1e-6 {
			t.Errorf("%s: at %g in the table is %.3f in across, and says %.3f", p.Name, m.At, got, m.Across)
		}
		if m.Cut < m.Sew+p.Far.Allowance*0.99 {
			t.Errorf("%s: at %g in the cutting line is only %.3f in outside", p.Name, m.At, m.Cut-m.Sew)
		}
		if i > 0 && (m.Run <= marks[i-1].Run || m.Datum <= marks[i-1].Datum) {
			t.Errorf("%s: the runs do not rise at %g in", p.Name, m.At)
		}
	}
	first, last := marks[0], marks[len(marks)-1]
	near := Point{X: first.Datum}
	if p.Middle {
		near = Point{X: first.Run, Y: -first.Sew}
	}
	if got := distance(near, Point{X: last.Run, Y: last.Sew}); math.Abs(got-p.Diagonals()[0].Length) > 1e-6 {
		t.Errorf("%s: the diagonal is %.3f in, the sheet says %.3f", p.Name, got, p.Diagonals()[0].Length)
	}
}

func TestNotes(t *testing.T) {
	has := func(s CutSheet, want string) bool {
		return strings.Contains(strings.Join(s.Notes, "\n"), want)
	}
	order := someOrder(Sides)
	order.Draft = true
	s, err := Make(report(2, parse.Inch, func(s *parse.Survey) { s.Stations[6].HullGirth.Value += parse.Inches(4) }), order)
	if err != nil || !has(s, "7 ft: hull girth was written ") || s.Settled || len(s.Open) == 0 {
		t.Errorf("a number off the curve is not noted: %q, %v", s.Notes, err)
	}
	s, err = Make(report(2, parse.Inch, func(s *parse.Survey) { s.CarryPoint = parse.Reading{} }), order)
	if err != nil || !has(s, "No carry point was given") {
		t.Errorf("a lacking carry point is not noted: %q, %v", s.Notes, err)
	}
	s, err = Make(report(2, parse.Inch, func(s *parse.Survey) { s.CarryPoint.Value = parse.Inches(120) }), order)
	if err != nil || !has(s, "abaft midships") {
		t.Errorf("a carry point abaft midships is not noted: %q, %v", s.Notes, err)
	}
	order.Cloth.UsableWidth, order.Cloth.Join = parse.Inches(39), parse.Inches(20)
	s, err = Make(report(2, parse.Inch, nil), order)
	if err != nil || !has(s, "joined 20 in from the top seam") || len(s.Pieces) != 4 {
		t.Errorf("a joining seam is not noted: %q, %v", s.Notes, err)
	}
}

// Box sections drawn out to a sharp end lean on the cloth, and the sheet says so.
// Their keel line is off by inches, but only where tracings tell.
func TestLeanIsNoted(t *testing.T) {
	hull, stations := exactHull(204, 33, 12, parabola, level, known.BoxGirth)
	c, err := Design(Request{Hull: hull, Stations: stations, Ends: [2]float64{12, 12}, Carry: 24}, plainCloth(Sides))
	if err != nil {
		t.Fatal(err)
	}
	s := CutSheet{Unit: parse.Inch, Cover: c}
	if notes := strings.Join(s.notes(parse.Survey{}), "\n"); !strings.Contains(notes, "leans by") || strings.Contains(notes, "line is") {
		t.Errorf("the lean is not noted, or a line is: %s", notes)
	}
	for _, l := range s.Lines {
		if l.Line == KeelLine && math.Abs(l.Off()) < 4*math.Abs(l.OffInside()) {
			t.Errorf("the keel line is off by %.2f in, %.2f in between the stations", l.Off(), l.OffInside())
		}
	}
}

// A line that is off between the stations is noted.
func TestLineIsNoted(t *testing.T) {
	s := CutSheet{Unit: parse.Inch}
	s.Lines = []Sewn{
		{Panel: "Hull", Line: KeelLine, Meant: 200, Cloth: 203, From: 12, To: 180, MeantInside: 168, ClothInside: 168.1},
		{Panel: "Hull", Line: GunwaleLine, Meant: 200, Cloth: 203, From: 12, To: 180, MeantInside: 168, ClothInside: 169},
	}
	const want = "Hull panel: from 1 ft to 15 ft the gunwale line is 169 in on the cloth and 168 in on the boat less the reduction."
	if notes := s.notes(parse.Survey{}); len(notes) != 1 || !strings.HasPrefix(notes[0], want) {
		t.Errorf("%q", notes)
	}
}

// Where the sheer steps, hull panel and top do not match, and the sheet says
// where.
func TestStepIsNoted(t *testing.T) {
	hull, stations := exactHull(204, 33, 12, parabola, level, known.WigleyGirth)
	for i, x := range hull.X {
		if x > 66 && x < 140 {
			hull.Girth[i] += 8 // a strake added amidships, its heights unknown
		}
	}
	c, err := Design(Request{Hull: hull, Stations: stations, Ends: [2]float64{12, 12}, Carry: 24}, plainCloth(HullAndTop))
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range c.Seams {
		if w := j.Worst(); w.Difference() <= SpanNote || w.From != 60 && w.From != 132 {
			t.Errorf("%s: the worst span begins at %g in and differs by %.1f %%", j.Name, w.From, 100*w.Difference())
		}
	}
	s := CutSheet{Unit: parse.Inch, Cover: c}
	if notes := strings.Join(s.notes(parse.Survey{}), "\n"); !strings.Contains(notes, "gunwale seam, 5 ft to 6 ft: the edges differ by") {
		t.Errorf("the step is not noted: %s", notes)
	}
}

// A slit is at most the opening less 2 in.
func TestCarrySlit(t *testing.T) {
	hull, _ := exactHull(204, 33, 12, parabola, level, known.WigleyGirth)
	cloth := plainCloth(Sides)
	if s, notes := carrySlit(hull, cloth, 0); s != nil || len(notes) != 1 {
		t.Errorf("no carry point: %v, %q", s, notes)
	}
	if s, notes := carrySlit(hull, cloth, 6); s != nil || len(notes) != 1 {
		t.Errorf("at an opening of %.1f in: %v, %q", hull.Opening[6], s, notes)
	}
	if s, _ := carrySlit(hull, cloth, 12); s == nil || math.Abs(s.Length-(hull.Opening[12]-2)) > 1e-9 {
		t.Errorf("at an opening of %.1f in: %v", hull.Opening[12], s)
	}
	if s, _ := carrySlit(hull, cloth, 24); s == nil || s.Length != 9 {
		t.Errorf("at an opening of %.1f in: %v", hull.Opening[24], s)
	}
}

func TestWords(t *testing.T) {
	for _, tt := range []struct {
		in   float64
		unit parse.Unit
		want string
	}{
		{0, parse.Inch, "0"}, {0.06, parse.Inch, "0"}, {0.07, parse.Inch, "1/8"}, {81.34, parse.Inch, "81 3/8"},
		{12.97, parse.Inch, "13"}, {0.5, parse.Inch, "1/2"}, {-3.25, parse.Inch, "-3 1/4"}, {-0.01, parse.Inch, "0"},
		{10, parse.Centimetre, "254"}, {0.5, parse.Centimetre, "13"},
	} {
		if got := Number(tt.in, tt.unit); got != tt.want {
			t.Errorf("Number(%g, %s) = %q, want %q", tt.in, tt.unit, got, tt.want)
		}
	}
	s := CutSheet{Unit: parse.Inch}
	for by, want := range map[float64]string{
		0.02: "2 % SMALLER than measured: 83 to 81 3/8 in", 0: "as measured: 83 in", -0.015: "1.5 % LARGER than measured: 83 to 84 1/4 in",
	} {
		if got := s.reduction(by, 83); got != want {
			t.Errorf("%g: %q, want %q", by, got, want)
		}
	}
}

// On boats of every kind a sheet is made or refused with a reason, and its
// outlines hold together.
func TestEveryClass(t *testing.T) {
	for i, class := range append([]known.Class{known.Ordinary}, known.OddClasses()...) {
		rng := rand.New(rand.NewPCG(uint64(i), 5))
		r := validate.Check(known.Simulate(rng, class).Measure(rng, known.HomeTape(parse.Inch)), nil, validate.Costs{Ask: 1, Miss: 30})
		for _, c := range []Construction{Sides, HullAndTop, TopAndSkirt} {
			order := someOrder(c)
			order.Draft = true
			order.Cloth.Join = parse.Inches(25)
			s, err := Make(r, order)
			var refused *Refusal
			if errors.As(err, &refused) {
				t.Logf("%s, %s: %v", class, c, err)
				continue
			}
			if err != nil {
				t.Errorf("%s, %s: %v", class, c, err)
				continue
			}
			for _, p := range s.Panels {
				outlines(t, p)
			}
		}
	}
}

func BenchmarkMake(b *testing.B) {
	r := report(2, parse.Inch, nil)
	for b.Loop() {
		if _, err := Make(r, someOrder(Sides)); err != nil {
			b.Fatal(err)
		}
	}
}

// Several covers on one roll take no more cloth than one by one.
func TestTogether(t *testing.T) {
	if b, err := Together(nil); err != nil || b.Lay.Length != 0 {
		t.Errorf("no covers: %v, %v", b, err)
	}
	var sheets []*CutSheet
	for _, seed := range []uint64{2, 4, 5} {
		order := someOrder(Sides)
		order.Draft = true
		s, err := Make(report(seed, parse.Inch, nil), order)
		if err != nil {
			t.Fatal(err)
		}
		sheets = append(sheets, &s)
	}
	b, err := Together(sheets)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Pieces) != 6 || b.Lay.Length > b.Alone {
		t.Errorf("%d pieces take %.1f in, one by one %.1f in", len(b.Pieces), b.Lay.Length, b.Alone)
	}
	t.Logf("together %.0f in, one by one %.0f in", b.Lay.Length, b.Alone)
	sheets[1].Order.Cloth.Colour = "red"
	var refused *Refusal
	if _, err := Together(sheets); !errors.As(err, &refused) {
		t.Errorf("two colours on one roll: %v", err)
	}
}
