package validate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
	"fairtape/validate/slip"
)

// usual are the costs of the settings' defaults.
var usual = Costs{Ask: 1, Miss: 30}

func typed(l parse.Length) parse.Reading {
	return parse.Reading{Value: l, Known: true, Confidence: parse.Typed}
}

func inch(x float64) parse.Reading { return typed(parse.Inches(x)) }

// asked returns the findings that ask the customer something about numbers
// that were given.
func asked(r Report) []Finding {
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f Finding) bool { return f.Kind != Recheck && f.Kind != Confirm })
}

func station(at, hull, full float64) parse.Station {
	return parse.Station{At: parse.Inches(at), Pair: parse.Pair{HullGirth: inch(hull), FullGirth: inch(full)}}
}

// wigley is the Wigley hull of 16 ft, whose girths are known in closed form, to
// the nearest half inch.
func wigley() parse.Survey { return known.Wigley().Exact(parse.Inch) }

func TestNothingOfASoundBoatIsAskedAgain(t *testing.T) {
	fixed, err := known.Canoe1889(known.SuspectsFixed)
	if err != nil {
		t.Fatal(err)
	}
	for name, s := range map[string]parse.Survey{
		"tripping canoe":    known.TrippingCanoe(), // common practice, no source
		"Wigley, half inch": wigley(),
		"Wigley, whole cm":  known.Wigley().Exact(parse.Centimetre),
		"box":               known.Box().Exact(parse.Inch),
		"V":                 known.V().Exact(parse.Inch),
		"ellipse":           known.Ellipse().Exact(parse.Inch),
		// W. P. Stephens, Canoe and Boat Building, 1889, plate XI.
		"canoe of 1889": fixed,
	} {
		for _, f := range asked(Check(s, nil, usual)) {
			t.Errorf("%s: %s %s %v: %s", name, f.Kind, f.Rule, f.Cell, f.Message)
		}
	}
}

func TestPrintedSlipOf1889IsAskedFor(t *testing.T) {
	printed, err := known.Canoe1889(known.AsPrinted)
	if err != nil {
		t.Fatal(err)
	}
	r := Check(printed, nil, usual)
	at := parse.Cell{At: parse.Inches(156), Measure: parse.FullGirth}
	if !slices.ContainsFunc(asked(r), func(f Finding) bool { return f.about(at) }) {
		t.Errorf("the row at 13 ft passes: %v", r.Findings)
	}
}

// TestSlips spoils one number of the Wigley hull and wants one finding.
func TestSlips(t *testing.T) {
	const row = 6 // 7 ft: 42.5 and 74.5
	for _, test := range []struct {
		name       string
		hull, full float64
		kind       Kind // "" for no question
		slip       slip.Kind
		measure    parse.Measure
		suggest    float64
	}{
		{"half an inch", 43, 74.5, "", "", "", 0},
		{"half an inch of the full girth", 42.5, 74, "", "", "", 0},
		{"ten dropped", 32.5, 74.5, Recheck, slip.OffByTen, parse.HullGirth, 42.5},
		{"ten added", 42.5, 84.5, Recheck, slip.OffByTen, parse.FullGirth, 74.5},
		{"transposed", 24.5, 74.5, Recheck, slip.Transposed, parse.HullGirth, 42.5},
		{"a foot off", 42.5, 62.5, Recheck, slip.OffByFoot, parse.FullGirth, 74.5},
		{"a digit", 47.5, 74.5, Recheck, slip.Digit, parse.HullGirth, 42.5},
		{"swapped", 74.5, 42.5, Confirm, slip.SwappedPair, parse.MeasurePair, 42.5},
		{"opening for full", 42.5, 32, Confirm, slip.OpeningForFull, parse.FullGirth, 74.5},
		{"decimal lost", 425, 74.5, Confirm, slip.DecimalLost, parse.HullGirth, 42.5},
		{"metric edge", 42.5, 189, Recheck, slip.MetricEdge, parse.FullGirth, 74.5},
		{"short tape", 42.5, 14.5, Recheck, slip.TapeLength, parse.FullGirth, 74.5},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := wigley()
			s.Stations[row] = station(84, test.hull, test.full)
			got := asked(Check(s, nil, usual))
			if test.kind == "" {
				if len(got) > 0 {
					t.Fatalf("asked: %s", got[0].Message)
				}
				return
			}
			if len(got) != 1 {
				t.Fatalf("want one question, got %d: %v", len(got), messages(got))
			}
			f := got[0]
			if f.Kind != test.kind || f.Slip != test.slip || f.Cell != (parse.Cell{At: parse.Inches(84), Measure: test.measure}) {
				t.Errorf("got %s %s %v: %s", f.Kind, f.Slip, f.Cell, f.Message)
			}
			if f.Suggest == nil || f.Suggest.In(parse.Inch)-test.suggest > 0.5 || f.Suggest.In(parse.Inch)-test.suggest < -0.5 {
				t.Errorf("suggests %v, want %v", f.Suggest, test.suggest)
			}
			if f.Probability < 0.9 || f.Probability > 1 {
				t.Errorf("probability %v", f.Probability)
			}
		})
	}
}

// TestGrossSlipInTheLastRow spoils the last row where one more station would lie
// at the very stern: that every row belongs one place farther aft would take the
// slip off the boat, and is no explanation of it.
func TestGrossSlipInTheLastRow(t *testing.T) {
	for _, test := range []struct {
		name string
		slip func(*parse.Station)
		kind slip.Kind
		cell parse.Measure
	}{
		{"decimal lost", func(st *parse.Station) { st.HullGirth.Value *= 10 }, slip.DecimalLost, parse.HullGirth},
		{"metric edge", func(st *parse.Station) { st.FullGirth.Value *= 2.54 }, slip.MetricEdge, parse.FullGirth},
	} {
		t.Run(test.name, func(t *testing.T) {
			for k := range 20 {
				rng := rand.New(rand.NewPCG(11, uint64(k)))
				s := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch)).Survey
				last := &s.Stations[len(s.Stations)-1]
				test.slip(last)
				s.LengthOverall = typed(last.At + s.Spacing() + parse.Inches(0.5))
				at := parse.Cell{At: last.At, Measure: test.cell}
				for _, f := range asked(Check(s, nil, usual)) {
					if len(f.Rows) > 0 || f.about(at) && f.Slip != test.kind {
						t.Errorf("boat %d: %s %s: %s", k, f.Kind, f.Slip, f.Message)
					}
				}
			}
		})
	}
}

func messages(fs []Finding) []string {
	var all []string
	for _, f := range fs {
		all = append(all, fmt.Sprintf("%s %s: %s", f.Kind, f.Rule, f.Message))
	}
	return all
}

// TestRowSlips holds that a slip of rows or columns is one finding at its place,
// but for the odd boat on which nobody could tell.
func TestRowSlips(t *testing.T) {
	const boats, least = 20, 19
	for _, test := range []struct {
		slip known.Slip
		name slip.Kind
	}{
		{known.RowSkipped, slip.RowSkipped},
		{known.RowRepeated, slip.RowRepeated},
		{known.AllSwapped, slip.SwappedPair},
		{known.AllOpenings, slip.OpeningForFull},
		{known.AllToKeel, slip.HalfGirth},
		{known.AllOtherUnit, slip.MetricEdge},
	} {
		t.Run(string(test.slip), func(t *testing.T) {
			found := 0
			for k := range boats {
				rng := rand.New(rand.NewPCG(7, uint64(k)))
				sheet := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
				s, done, ok := sheet.Spoil(rng, test.slip)
				if !ok {
					t.Fatalf("boat %d: the slip cannot befall this survey", k)
				}
				got := asked(Check(s, nil, usual))
				if len(got) != 1 || got[0].Slip != test.name || got[0].Cell.Measure != "" || len(got[0].Rows) == 0 {
					t.Logf("boat %d: want one finding about rows, got %v", k, messages(got))
					continue
				}
				if off := got[0].Rows[0] - done.Rows[0]; math.Abs(float64(off)) > float64(parse.Inches(12)) {
					t.Logf("boat %d: rows from %v, want from %v", k, got[0].Rows[0], done.Rows[0])
					continue
				}
				found++
			}
			if found < least {
				t.Errorf("found on %d of %d boats, at least %d wanted", found, boats, least)
			}
		})
	}
}

// TestTapesEndIsAskedAtTheOpening holds that where a tape's end is cut off the
// shop is told of every row, also beside a slip of one number, and the customer
// asked about the opening alone.
func TestTapesEndIsAskedAtTheOpening(t *testing.T) {
	const row = 3
	told, opening := 0, 0
	for k := range 40 {
		rng := rand.New(rand.NewPCG(13, uint64(k)))
		sheet := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
		s, _, ok := sheet.Spoil(rng, known.AllFromFirstMark)
		if !ok {
			continue
		}
		s.Stations[row].HullGirth.Value += parse.Inches(10)
		r := Check(s, nil, usual)
		for _, f := range r.Findings {
			switch {
			case f.Slip != slip.TapeOffset:
			case f.Kind == Note && len(f.Rows) == len(s.Stations):
				told++
			case f.Cell.Measure == parse.GreatestOpening:
				opening++
			default:
				t.Errorf("boat %d: %s of rows %v, number %v", k, f.Kind, f.Rows, f.Cell)
			}
		}
		at := parse.Cell{At: s.Stations[row].At, Measure: parse.HullGirth}
		if !slices.ContainsFunc(asked(r), func(f Finding) bool { return f.about(at) }) {
			t.Errorf("boat %d: a ten too much passes", k)
		}
	}
	if told < opening || opening < 10 {
		t.Errorf("the shop is told of every row of %d boats, of %d the opening is asked for", told, opening)
	}
}

// TestDoubtfulReadingIsNotAskedFor holds that the shop's own doubt never
// becomes a question to the customer.
func TestDoubtfulReadingIsNotAskedFor(t *testing.T) {
	s := wigley()
	s.Stations[6].HullGirth = parse.Reading{Value: parse.Inches(32.5), Known: true, Confidence: 0.6,
		Alternatives: []parse.Candidate{{Value: parse.Inches(52.5), Probability: 0.3}}}
	r := Check(s, nil, usual)
	if got := asked(r); len(got) > 0 {
		t.Errorf("asked: %v", messages(got))
	}
	if r.Verdict != Incomplete {
		t.Errorf("verdict %s", r.Verdict)
	}
}

// What a reader of handwriting was unsure of is certain where the boat leaves no
// doubt, and nobody is asked. What it was unsure of elsewhere, and what somebody
// typed in doubt, stays for a person.
func TestBoatSettlesReading(t *testing.T) {
	s := wigley()
	truth := s.Stations[6].HullGirth.Value
	at := func(place string) parse.Source { return parse.Source{File: "form.jpg", Place: place, Raw: "4?"} }
	unsure := func(place string) parse.Reading {
		return parse.Reading{Value: truth, Known: true, Confidence: 0.7, Source: at(place),
			Alternatives: []parse.Candidate{{Value: truth + parse.Inches(30), Probability: 0.2}}}
	}
	doubt := func(place string, code parse.Code) parse.Problem { return parse.Problem{Code: code, Source: at(place)} }
	for _, test := range []struct {
		name    string
		spot    func(*parse.Survey) *parse.Reading
		code    parse.Code
		settled bool
	}{
		{"an end height", func(s *parse.Survey) *parse.Reading { return &s.BowHeight }, parse.CodeDoubtful, false},
		{"typed", func(s *parse.Survey) *parse.Reading { return &s.Stations[6].HullGirth }, parse.CodeFraction, false},
		{"a girth in handwriting", func(s *parse.Survey) *parse.Reading { return &s.Stations[6].HullGirth }, parse.CodeDoubtful, true},
	} {
		s := wigley()
		*test.spot(&s) = unsure("box")
		r := Check(s, []parse.Problem{doubt("box", test.code)}, usual)
		got := *test.spot(&r.Survey)
		if got.Certain() != test.settled || (len(r.Problems) == 0) != test.settled || got.Value != truth {
			t.Errorf("%s: %+v, problems %v", test.name, got, r.Problems)
		}
		again, problems := Settle(r.Survey, r.Problems)
		if !slices.EqualFunc(again.Stations, r.Survey.Stations, func(a, b parse.Station) bool { return a.HullGirth.Confidence == b.HullGirth.Confidence }) || len(problems) != len(r.Problems) {
			t.Errorf("%s: settled twice", test.name)
		}
		if len(asked(r)) > 0 {
			t.Errorf("%s: asked %v", test.name, messages(asked(r)))
		}
	}
}

func TestReaderAndBoatDisagree(t *testing.T) {
	s := wigley()
	s.Stations[6].HullGirth = parse.Reading{Value: parse.Inches(47.5), Known: true, Confidence: 0.93,
		Alternatives: []parse.Candidate{{Value: parse.Inches(42.5), Probability: 0.06}}}
	r := Check(s, nil, usual)
	if got := asked(r); len(got) > 0 {
		t.Errorf("asked: %v", messages(got))
	}
	if len(r.Problems) != 1 || r.Problems[0].Code != ReadingDoubt {
		t.Errorf("problems %v", r.Problems)
	}
	if r.Survey.Stations[6].HullGirth.Certain() {
		t.Error("the reading still counts as certain")
	}
}

// TestWithoutLength holds that slips are found before the length is known, and
// when it is plainly wrong.
func TestWithoutLength(t *testing.T) {
	for name, length := range map[string]parse.Reading{"missing": {}, "a foot mark lost": inch(92)} {
		s := wigley()
		s.LengthOverall = length
		s.Stations = slices.Clone(s.Stations)
		s.Stations[4] = station(60, 49, 67.5)
		at := parse.Cell{At: parse.Inches(60), Measure: parse.HullGirth}
		r := Check(s, nil, usual)
		if !slices.ContainsFunc(asked(r), func(f Finding) bool { return f.about(at) }) {
			t.Errorf("%s: %v", name, messages(r.Findings))
		}
	}
}

func TestSameSurveySameReport(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 13))
	s, _, _ := known.Draw(rng, known.TwoSteps, known.HomeTape(parse.Inch)).Spoil(rng, known.TwoSlips)
	a, b := Check(s, nil, usual), Check(s, nil, usual)
	if len(a.Findings) != len(b.Findings) {
		t.Fatalf("%d findings, then %d", len(a.Findings), len(b.Findings))
	}
	for i := range a.Findings {
		if a.Findings[i].Probability != b.Findings[i].Probability {
			t.Errorf("%v, then %v", a.Findings[i].Probability, b.Findings[i].Probability)
		}
	}
}

func TestUnitChangesNothing(t *testing.T) {
	s := wigley()
	s.Stations[6] = station(84, 62.5, 74.5)
	want := asked(Check(s, nil, usual))
	s.Unit = parse.Centimetre
	got := asked(Check(s, nil, usual))
	if len(want) != 1 || len(got) != 1 || got[0].Cell != want[0].Cell {
		t.Errorf("in inches %v, in centimetres %v", messages(want), messages(got))
	}
}

func TestVerdict(t *testing.T) {
	incomplete := wigley()
	incomplete.CarryPoint = parse.Reading{}
	odd := wigley()
	odd.Stations[6] = station(84, 52.5, 74.5)
	for _, test := range []struct {
		name string
		s    parse.Survey
		want Verdict
	}{
		{"nothing", parse.Survey{}, Unreadable},
		{"no girth", parse.Survey{LengthOverall: inch(180)}, Unreadable},
		{"a wrong number", odd, NeedRecheck},
		{"something missing", incomplete, Incomplete},
	} {
		if got := Check(test.s, nil, usual).Verdict; got != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
	}
}

func TestCleanVerdict(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 9))
	tape := known.HomeTape(parse.Inch)
	tape.Omit = 0
	r := Check(known.Draw(rng, known.Ordinary, tape).Survey, nil, usual)
	if r.Verdict != Clean {
		t.Errorf("%s: %v", r.Verdict, messages(r.Findings))
	}
}

func BenchmarkCheck(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 11))
	for _, spoil := range []known.Slip{"", known.Digit, known.RowSkipped, known.TwoSlips} {
		var surveys []parse.Survey
		for range 50 {
			sheet := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
			s := sheet.Survey
			if spoil != "" {
				s, _, _ = sheet.Spoil(rng, spoil)
			}
			surveys = append(surveys, s)
		}
		name := string(spoil)
		if name == "" {
			name = "clean"
		}
		b.Run(name, func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				Check(surveys[i%len(surveys)], nil, usual)
			}
		})
	}
}

// TestBoatsOfOtherTradesAreLeftAlone holds that dories, drift boats, prams and
// the like are asked about no more than other odd boats.
func TestBoatsOfOtherTradesAreLeftAlone(t *testing.T) {
	const surveys, most = 60, 0.2 // questions a survey; the benchmark holds 0.10 numbers over many more
	for _, class := range known.WorkBoats() {
		rng := rand.New(rand.NewPCG(41, 1))
		n := 0
		for range surveys {
			sheet := known.Family(known.WorkBoat).Draw(rng, class, known.HomeTape(parse.Inch))
			n += len(asked(Check(sheet.Survey, nil, usual)))
		}
		if share := float64(n) / surveys; share > most {
			t.Errorf("%s: %.2f questions a survey", class, share)
		}
	}
}
