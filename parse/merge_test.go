package parse

import (
	"slices"
	"testing"
)

// typed is a reading of x inches from a file.
func typed(file string, x float64) Reading {
	return Reading{Value: Inches(x), Known: true, Confidence: Typed, Source: Source{file, "line 1", "x"}}
}

func tableOf(file string, girths ...float64) Document {
	s := Survey{Unit: Inch, Stern: Pointed}
	for i, g := range girths {
		s.Stations = append(s.Stations, Station{Inches(12 * float64(i+1)), Pair{typed(file, g), typed(file, g*1.5)}})
	}
	return Document{File: file, Surveys: []Survey{s}}
}

func codes(problems []Problem) []Code {
	var out []Code
	for _, p := range problems {
		out = append(out, p.Code)
	}
	return out
}

func TestMergeTwoBoats(t *testing.T) {
	overall := func(file string, x float64) Document {
		return Document{File: file, Surveys: []Survey{{Unit: Inch, LengthOverall: typed(file, x)}}}
	}
	other := tableOf("b", 36, 40, 45, 50)
	for name, docs := range map[string][]Document{
		"two lengths":                  {overall("a", 189), overall("b", 192)},
		"two tables":                   {tableOf("a", 35, 38, 42, 47), other},
		"two surveys in one file":      {{File: "a", Surveys: []Survey{other.Surveys[0], other.Surveys[0]}, Problems: []Problem{{Code: CodeTwoBoats}}}},
		"tables on different stations": {tableOf("a", 35, 38, 42, 47), metric(tableOf("b", 35, 38, 42, 47))},
	} {
		s, problems := Merge(docs...)
		if s.Readings() != 0 || !slices.Equal(codes(problems), []Code{CodeTwoBoats}) {
			t.Errorf("%s: merged into %d readings with problems %v", name, s.Readings(), codes(problems))
		}
	}
}

// metric moves the stations of a document to every 30 cm.
func metric(d Document) Document {
	for i := range d.Surveys[0].Stations {
		d.Surveys[0].Stations[i].At = Centimetres(30 * float64(i+1))
	}
	return d
}

func TestMergeDisagreement(t *testing.T) {
	a, b := tableOf("a", 35, 38, 42, 47), tableOf("b", 35, 38, 43, 47)
	s, problems := Merge(a, b)
	r := s.Stations[2].HullGirth
	if r.Known || len(r.Alternatives) != 2 || r.Alternatives[0].Value != Inches(42) || r.Alternatives[1].Value != Inches(43) {
		t.Errorf("got %+v, want both values as alternatives", r)
	}
	if got := codes(problems); !slices.Equal(got, []Code{CodeSourcesDiffer, CodeSourcesDiffer}) {
		t.Errorf("problems %v", got)
	}
	if s.Stations[1].HullGirth.Source.File != "a" {
		t.Error("where the documents agree the first is not the source")
	}
}

func TestMergeOrder(t *testing.T) {
	heights := Document{File: "c", Surveys: []Survey{{Unit: Centimetre, BowHeight: Reading{Value: Centimetres(45), Known: true, Confidence: Typed, Source: Source{File: "c"}}}}}
	inches := Document{File: "d", Surveys: []Survey{{Unit: Inch, BowHeight: typed("d", 17.75), Decked: true, Stern: Square, Customer: "B. Quay"}}}
	docs := []Document{tableOf("a", 35, 38, 42), tableOf("b", 35, 39, 42), heights, inches, {File: "e"}}
	want, _ := Merge(docs...)
	slices.Reverse(docs)
	got, _ := Merge(docs...)
	forget := func(s *Survey) { s.Each(func(r *Reading) { r.Source = Source{} }) }
	forget(&want)
	forget(&got)
	w, _ := want.MarshalJSON()
	g, _ := got.MarshalJSON()
	if string(w) != string(g) {
		t.Errorf("the order of documents matters:\n%s\n%s", w, g)
	}
	if want.BowHeight.Value != Inches(17.75) {
		t.Errorf("bow height %v, want the one in the survey's own unit", want.BowHeight.Value)
	}
}

func TestMergeKeepsRepeatedRows(t *testing.T) {
	d := tableOf("a", 35, 38, 42)
	d.Surveys[0].Stations[2].At = Inches(24)
	s, problems := Merge(d, d)
	if len(s.Stations) != 3 || len(problems) != 0 {
		t.Errorf("%d stations, problems %v; want 3 and none", len(s.Stations), problems)
	}
}

func TestMergeContinuedTable(t *testing.T) {
	a, b := tableOf("a", 35, 38, 42, 47, 49, 50, 48, 44), tableOf("b", 35, 38, 42, 47, 49, 50, 48, 44)
	a.Surveys[0].Stations = a.Surveys[0].Stations[:4]
	b.Surveys[0].Stations = b.Surveys[0].Stations[4:]
	s, problems := Merge(b, a)
	if len(s.Stations) != 8 || len(problems) != 0 || s.Stations[0].At != Inches(12) {
		t.Errorf("%d stations, problems %v; want 8 in order and none", len(s.Stations), problems)
	}
}

// Every other station of one boat, taken on two evenings, is one survey; another
// boat's table is not.
func TestTwoBoatsBetweenStations(t *testing.T) {
	table := func(first, step int, girth func(x float64) float64) (s Survey) {
		s.Unit = Inch
		for ft := first; ft < 16; ft += step {
			x := float64(ft)
			read := func(inches float64) Reading {
				return Reading{Value: Inches(inches), Known: true, Confidence: Typed}
			}
			s.Stations = append(s.Stations, Station{At: Inches(12 * x), Pair: Pair{read(girth(x)), read(1.5 * girth(x))}})
		}
		return s
	}
	boat := func(x float64) float64 { return 48 - 0.15*(x-8)*(x-8) }
	odd := table(1, 2, boat)
	for _, c := range []struct {
		name  string
		other Survey
		want  bool
	}{
		{"the even feet", table(2, 2, boat), false},
		{"the even feet of another boat", table(2, 2, func(x float64) float64 { return 1.3 * boat(x) }), true},
		{"every fourth foot", table(2, 4, boat), true},
	} {
		if got := TwoBoats(odd, c.other); got != c.want {
			t.Errorf("%s: two boats: %t, want %t", c.name, got, c.want)
		}
	}
}
