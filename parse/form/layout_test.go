package form

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
)

func TestRows(t *testing.T) {
	// ceil(length / spacing) - 1; common practice, no source.
	tests := []struct {
		length parse.Length
		unit   parse.Unit
		want   int
	}{
		{0, parse.Inch, 20},
		{parse.Inches(12), parse.Inch, 0},
		{parse.Inches(15*12 + 9), parse.Inch, 15},
		{parse.Inches(15 * 12), parse.Inch, 14},
		{parse.Inches(15*12 + 0.5), parse.Inch, 15},
		{parse.Inches(41 * 12), parse.Inch, 40},
		{parse.Centimetres(480), parse.Centimetre, 15},
		{parse.Centimetres(481), parse.Centimetre, 16},
		{parse.Centimetres(270), parse.Centimetre, 8},
	}
	for _, tt := range tests {
		if got := Rows(tt.length, tt.unit); got != tt.want {
			t.Errorf("Rows(%v mm, %s) = %d, want %d", float64(tt.length), tt.unit, got, tt.want)
		}
	}
}

func TestRowsEvery(t *testing.T) {
	if got := RowsEvery(parse.Inches(189), parse.Inches(6)); got != 31 {
		t.Errorf("15 ft 9 in, every 6 in: %d, want 31", got)
	}
}

func TestNewRefuses(t *testing.T) {
	for _, tt := range []struct {
		spec Spec
		want error
	}{
		{Spec{"legal", parse.Inch, 0, 15, 0}, ErrPaper},
		{Spec{Letter, parse.UnknownUnit, 0, 15, 0}, ErrUnit},
		{Spec{Letter, parse.Inch, parse.Inches(1), 15, 0}, ErrSpacing},
		{Spec{Letter, parse.Inch, 0, 0, 0}, ErrRows},
		{Spec{Letter, parse.Inch, 0, MostRows + 1, 0}, ErrRows},
	} {
		if _, err := New(tt.spec); !errors.Is(err, tt.want) {
			t.Errorf("New(%v): %v, want %v", tt.spec, err, tt.want)
		}
	}
	for _, places := range [][]parse.Cell{nil, make([]parse.Cell, MostPlaces+1), {{Measure: "weight"}}} {
		if _, err := NewSlip(SlipSpec{Letter, parse.Inch, 0, places}); !errors.Is(err, ErrPlaces) {
			t.Errorf("NewSlip with %v: %v, want %v", places, err, ErrPlaces)
		}
	}
}

// papers are forms and slips of all kinds.
func papers(t *testing.T) map[string]Layout {
	t.Helper()
	all := map[string]Layout{}
	var pairs []parse.Cell
	for i := range MostPlaces {
		pairs = append(pairs, parse.Cell{At: parse.Inches(float64(90 + 12*i)), Measure: parse.MeasurePair})
	}
	var others []parse.Cell
	for _, m := range []parse.Measure{parse.LengthOverall, parse.BowHeight, parse.GreatestAt, parse.GreatestPair, parse.GreatestOpening, parse.TransomFullGirth} {
		others = append(others, parse.Cell{Measure: m})
	}
	for _, paper := range []Paper{Letter, A4} {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			for _, rows := range []int{1, 2, 9, 15, 19, 20, 21, 40} {
				l, err := New(Spec{paper, unit, 0, rows, 12345})
				if err != nil {
					t.Fatal(err)
				}
				all[fmt.Sprintf("form %s %s %d", paper, unit, rows)] = l
			}
			for _, places := range [][]parse.Cell{pairs[:1], pairs, others} {
				l, err := NewSlip(SlipSpec{paper, unit, 12345, places})
				if err != nil {
					t.Fatal(err)
				}
				all[fmt.Sprintf("slip %s %s %d", paper, unit, len(places))] = l
			}
		}
	}
	return all
}

func TestNothingCollides(t *testing.T) {
	for name, l := range papers(t) {
		paper := Rect{0, 0, l.Width, l.Height}.Grow(-MarkInset)
		for i, p := range l.Pages {
			fixed := []Rect{p.Code.Grow(CodeClear)}
			for _, m := range p.Marks {
				fixed = append(fixed, m.Box.Grow(MarkClear))
			}
			var fields []Field
			for _, f := range l.Fields {
				if f.Page == i+1 {
					fields = append(fields, f)
				}
			}
			for j, f := range fields {
				b := f.Bounds()
				if b.X0 < paper.X0 || b.Y0 < paper.Y0 || b.X1 > paper.X1 || b.Y1 > paper.Y1 {
					t.Errorf("%s: %s lies outside the paper's margin", name, f.Name)
				}
				for _, r := range fixed {
					if b.Overlaps(r) {
						t.Errorf("%s: %s lies too near a mark or the code", name, f.Name)
					}
				}
				for _, other := range fields[j+1:] {
					if b.Grow(BoxClear - 1e-9).Overlaps(other.Bounds()) {
						t.Errorf("%s: %s and %s are nearer than %v mm", name, f.Name, other.Name, BoxClear)
					}
				}
			}
			for j, r := range fixed {
				for _, other := range fixed[j+1:] {
					if r.Overlaps(other) {
						t.Errorf("%s: a mark or the code lies on another", name)
					}
				}
			}
		}
	}
}

func TestBoxes(t *testing.T) {
	const tiny = 1e-9
	same := func(a, b float64) bool { return a-b < tiny && b-a < tiny }
	for name, l := range papers(t) {
		for _, f := range l.Fields {
			for i, b := range f.Boxes {
				switch f.Kind {
				case Digits:
					if !same(b.Width(), BoxWidth) || !same(b.Height(), BoxHeight) {
						t.Errorf("%s: a box of %s is %v x %v", name, f.Name, b.Width(), b.Height())
					}
					if i > 0 && !same(b.X0-f.Boxes[i-1].X1, BoxGap) {
						t.Errorf("%s: a gap of %s is %v", name, f.Name, b.X0-f.Boxes[i-1].X1)
					}
				case Tick:
					if !same(b.Width(), TickSide) || !same(b.Height(), TickSide) || len(f.Boxes) != 1 {
						t.Errorf("%s: tick %s is %v x %v", name, f.Name, b.Width(), b.Height())
					}
				}
			}
		}
	}
}

func TestNamesOfAForm(t *testing.T) {
	l, err := New(Spec{Letter, parse.Inch, 0, Rows(parse.Inches(189), parse.Inch), 0})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"customer", "telephone", "boat", "under_cover", "tape_checked", "open", "decked",
		"length_overall.feet", "length_overall.inches", "length_overall.half",
		"bow_height", "bow_height.half", "carry_point", "carry_point.half",
	}
	for i := range 15 {
		for _, m := range []string{"hull_girth", "hull_girth.half", "full_girth", "full_girth.half"} {
			want = append(want, fmt.Sprintf("stations[%d].%s", i, m))
		}
	}
	want = append(want, "stern.pointed", "stern.square", "stern_height", "stern_height.half",
		"transom.hull_girth", "transom.hull_girth.half", "transom.full_girth", "transom.full_girth.half",
		"greatest.at.feet", "greatest.at.inches", "greatest.at.half",
		"greatest.hull_girth", "greatest.hull_girth.half", "greatest.full_girth", "greatest.full_girth.half",
		"greatest.opening", "greatest.opening.half")
	var got []string
	for _, f := range l.Fields {
		got = append(got, f.Name)
	}
	if !slices.Equal(got, want) {
		t.Errorf("fields are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestNamesAreUnique(t *testing.T) {
	for name, l := range papers(t) {
		seen := map[string]bool{}
		for _, f := range l.Fields {
			if seen[f.Name] {
				t.Errorf("%s: two fields are called %s", name, f.Name)
			}
			seen[f.Name] = true
		}
	}
}

func TestCompose(t *testing.T) {
	tests := []struct {
		unit  parse.Unit
		parts map[Part]int
		want  parse.Length
	}{
		{parse.Inch, map[Part]int{Feet: 15, Inches: 9}, parse.Inches(189)},
		{parse.Inch, map[Part]int{Feet: 8, Inches: 1, Half: 1}, parse.Inches(97.5)},
		{parse.Inch, map[Part]int{Whole: 35, Half: 1}, parse.Inches(35.5)},
		{parse.Centimetre, map[Part]int{Whole: 130}, parse.Centimetres(130)},
	}
	for _, tt := range tests {
		if got := Compose(tt.unit, tt.parts); got != tt.want {
			t.Errorf("Compose(%s, %v) = %v, want %v", tt.unit, tt.parts, got, tt.want)
		}
	}
}

func TestPageOf(t *testing.T) {
	for page := 1; page <= 3; page++ {
		for turns := range 4 {
			// The page lies turned: what is at i seen from its own top left
			// is seen at i - turns.
			var seen [4]bool
			for i, s := range solid(page) {
				seen[(i-turns+4)%4] = s
			}
			p, back, ok := PageOf(seen)
			if !ok || p != page || back != turns {
				t.Errorf("PageOf(%v) = %d, %d, %v; want %d, %d", seen, p, back, ok, page, turns)
			}
		}
	}
	for _, none := range [][4]bool{{}, {true, true, true, true}, {true, false, true, false}, {false, true, false, true}} {
		if page, _, ok := PageOf(none); ok {
			t.Errorf("PageOf(%v) = %d, want none", none, page)
		}
	}
}

func TestStationsLieOnTheGrid(t *testing.T) {
	for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
		l, err := New(Spec{Letter, unit, 0, MostRows, 0})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range l.Fields {
			if at := f.Cell.At; at != parse.Measured(at.In(unit), unit) {
				t.Errorf("%s is at %v mm, which is not how a station is read", f.Name, float64(at))
			}
		}
	}
}
