package reply

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// foot is a station's distance from the bow in feet.
func foot(n float64) parse.Length { return parse.Inches(12 * n) }

func recheck(at float64, m parse.Measure) validate.Finding {
	return validate.Finding{Kind: validate.Recheck, Cell: parse.Cell{At: foot(at), Measure: m}, Slip: slip.Unknown}
}

func confirm(kind slip.Kind, at float64, m parse.Measure) validate.Finding {
	return validate.Finding{Kind: validate.Confirm, Slip: kind, Cell: parse.Cell{At: foot(at), Measure: m}}
}

func lacking(at float64, m parse.Measure) validate.Finding {
	return validate.Finding{Kind: validate.Missing, Cell: parse.Cell{At: foot(at), Measure: m}}
}

func rows(kind validate.Kind, cause slip.Kind, from, to int) validate.Finding {
	f := validate.Finding{Kind: kind, Slip: cause}
	for n := from; n <= to; n++ {
		f.Rows = append(f.Rows, foot(float64(n)))
	}
	return f
}

// describe tells a plan in one line.
func describe(p Plan) string {
	places := func(list []Place) string {
		var names []string
		for _, place := range list {
			var cells []string
			for _, a := range place.Asked {
				cells = append(cells, strings.ReplaceAll(cellName(a.Cell, p.Unit), nbsp, " "))
			}
			names = append(names, strings.Join(cells, " + "))
		}
		return strings.Join(names, "; ")
	}
	var parts []string
	add := func(label, text string) {
		if text != "" {
			parts = append(parts, label+" "+text)
		}
	}
	if p.AllAgain {
		parts = append(parts, "all")
	}
	add("again", places(p.Again))
	add("rest", places(p.Rest))
	var questions, gaps, files []string
	for _, q := range p.Questions {
		questions = append(questions, questionFact(q, p.Unit))
	}
	for _, g := range p.Missing {
		gaps = append(gaps, gapFact(g, p.Unit))
	}
	for _, f := range p.Files {
		files = append(files, f.Source.File)
	}
	add("ask", strings.Join(questions, "; "))
	add("add", strings.Join(gaps, "; "))
	add("files", strings.Join(files, "; "))
	return strings.ReplaceAll(strings.Join(parts, " | "), nbsp, " ")
}

func TestDecide(t *testing.T) {
	var many []validate.Finding
	for n := 1; n <= 9; n++ {
		many = append(many, recheck(float64(n), parse.HullGirth))
	}
	withLength := append(slices.Clone(many), validate.Finding{Kind: validate.Recheck, Cell: parse.Cell{Measure: parse.LengthOverall}})
	for _, test := range []struct {
		name     string
		findings []validate.Finding
		want     string
	}{
		{"a note asks nobody", []validate.Finding{{Kind: validate.Note, Cell: parse.Cell{At: foot(3), Measure: parse.HullGirth}}}, ""},
		{"a finding about nothing asks nothing", []validate.Finding{{Kind: validate.Recheck}, {Kind: validate.Confirm}, {Kind: validate.Missing}}, ""},
		{"a number that is here is not missing", []validate.Finding{lacking(3, parse.HullGirth)}, ""},
		{"both girths of a station are one place", []validate.Finding{recheck(3, parse.FullGirth), recheck(5, parse.HullGirth), recheck(3, parse.HullGirth)},
			"again 3 ft full girth + 3 ft hull girth; 5 ft hull girth"},
		{"a pair and its girth are one place", []validate.Finding{recheck(3, parse.MeasurePair), recheck(3, parse.FullGirth)},
			"again 3 ft hull girth + 3 ft full girth"},
		{"the greatest girth is one place", []validate.Finding{
			{Kind: validate.Recheck, Cell: parse.Cell{Measure: parse.GreatestPair}}, {Kind: validate.Recheck, Cell: parse.Cell{Measure: parse.GreatestAt}}},
			"again greatest hull girth + greatest full girth + greatest at"},
		{"five places are one letter", many[:5], "again 1 ft hull girth; 2 ft hull girth; 3 ft hull girth; 4 ft hull girth; 5 ft hull girth"},
		{"the sixth goes with the tape", many[:6], "again 1 ft hull girth; 2 ft hull girth; 3 ft hull girth; 4 ft hull girth; 5 ft hull girth | rest 6 ft hull girth"},
		{"so does the eighth", many[:8], "again 1 ft hull girth; 2 ft hull girth; 3 ft hull girth; 4 ft hull girth; 5 ft hull girth | rest 6 ft hull girth; 7 ft hull girth; 8 ft hull girth"},
		{"nine are all stations", many, "all"},
		{"measures of the boat stay beside all stations", withLength, "all | again length overall"},
		{"all stations settle the questions and gaps at them",
			append(slices.Clone(many), confirm(slip.DecimalLost, 3, parse.FullGirth), rows(validate.Confirm, slip.FromStern, 1, 15),
				validate.Finding{Kind: validate.Confirm, Cell: parse.Cell{Measure: parse.BowHeight}}),
			"all | ask is the boat special there, bow height"},
		{"a slip of the pen is a question", []validate.Finding{confirm(slip.DecimalLost, 3, parse.FullGirth)}, "ask decimal lost, 3 ft full girth"},
		{"a slip of a digit needs the tape", []validate.Finding{confirm(slip.Transposed, 3, parse.FullGirth), confirm(slip.OffByTen, 4, parse.HullGirth), confirm(slip.OffByFoot, 5, parse.HullGirth), confirm(slip.Digit, 6, parse.HullGirth), confirm(slip.MisreadTape, 7, parse.HullGirth)},
			"again 3 ft full girth; 4 ft hull girth; 5 ft hull girth; 6 ft hull girth; 7 ft hull girth"},
		{"no slip is a question about the boat", []validate.Finding{confirm(slip.Unknown, 3, parse.FullGirth)}, "ask is the boat special there, 3 ft full girth"},
		{"what the tape settles is not asked", []validate.Finding{recheck(3, parse.MeasurePair), confirm(slip.DecimalLost, 3, parse.FullGirth)},
			"again 3 ft hull girth + 3 ft full girth"},
		{"a whole column is one question", []validate.Finding{rows(validate.Confirm, slip.HalfGirth, 1, 15)}, "ask half girth, from 1 ft on (15 stations)"},
		{"a skipped row is a question and two places", []validate.Finding{rows(validate.Recheck, slip.RowSkipped, 6, 15)},
			"again 6 ft hull girth + 6 ft full girth; 11 ft hull girth + 11 ft full girth | ask row skipped, from 6 ft on (10 stations)"},
		{"a repeated row is measured again", []validate.Finding{rows(validate.Recheck, slip.RowRepeated, 4, 4)}, "again 4 ft hull girth + 4 ft full girth"},
	} {
		t.Run(test.name, func(t *testing.T) {
			report := validate.Report{Survey: heron().survey, Findings: test.findings, Verdict: validate.NeedRecheck}
			if got := describe(Decide(report, Job{Round: 1})); got != test.want {
				t.Errorf("plan\n  %s\nwant\n  %s", got, test.want)
			}
		})
	}
}

func TestDecideLeavesDoubtToTheShop(t *testing.T) {
	survey := heron().survey
	survey.Stations = slices.Clone(survey.Stations)
	survey.Stations[2].FullGirth.Confidence = parse.Sure - 0.01
	survey.BowHeight = parse.Reading{Alternatives: []parse.Candidate{{Value: parse.Inches(17), Probability: 0.5}, {Value: parse.Inches(11), Probability: 0.5}}}
	findings := []validate.Finding{
		recheck(3, parse.MeasurePair), confirm(slip.DecimalLost, 3, parse.FullGirth),
		{Kind: validate.Missing, Cell: parse.Cell{Measure: parse.BowHeight}},
		{Kind: validate.Recheck, Cell: parse.Cell{Measure: parse.BowHeight}},
	}
	got := describe(Decide(validate.Report{Survey: survey, Findings: findings, Verdict: validate.NeedRecheck}, Job{Round: 1}))
	if want := "again 3 ft hull girth"; got != want {
		t.Errorf("plan %q, want %q", got, want)
	}
}

func TestDecideGathersGaps(t *testing.T) {
	survey := heron().survey
	survey.Stations = survey.Stations[:9]
	survey.CarryPoint, survey.LengthOverall = parse.Reading{}, heron().survey.LengthOverall
	findings := []validate.Finding{
		lacking(0, parse.CarryPoint), lacking(0, parse.GreatestHullGirth), lacking(0, parse.GreatestFullGirth),
		lacking(12, parse.FullGirth), lacking(12, parse.HullGirth), lacking(10, parse.MeasurePair), lacking(11, parse.MeasurePair), lacking(14, parse.HullGirth),
	}
	plan := Decide(validate.Report{Survey: survey, Findings: findings, Verdict: validate.Incomplete}, Job{Round: 1})
	want := "add carry point; greatest pair; hull girth and full girth, 10 ft to 12 ft; 14 ft hull girth"
	if got := describe(plan); got != want {
		t.Errorf("plan %q, want %q", got, want)
	}
	if plan.Done != 9 || len(plan.At) != 15 {
		t.Errorf("%d of %d done, want 9 of 15", plan.Done, len(plan.At))
	}
	if want := 5 + 6; plan.Minutes != want { // ten numbers at 0.6 minutes
		t.Errorf("%d minutes, want %d", plan.Minutes, want)
	}
}

func TestMinutes(t *testing.T) {
	for _, test := range []struct {
		findings []validate.Finding
		want     int
	}{
		{nil, 0},
		{[]validate.Finding{confirm(slip.DecimalLost, 3, parse.FullGirth)}, 1},
		{[]validate.Finding{recheck(1, parse.HullGirth)}, 7}, // 5 + 2 x 0.6
		{[]validate.Finding{recheck(1, parse.HullGirth), recheck(2, parse.HullGirth), recheck(3, parse.HullGirth), recheck(4, parse.HullGirth), recheck(5, parse.HullGirth)}, 11}, // 5 + 10 x 0.6
	} {
		plan := Decide(validate.Report{Survey: heron().survey, Findings: test.findings, Verdict: validate.NeedRecheck}, Job{Round: 1})
		if plan.Minutes != test.want {
			t.Errorf("%s: %d minutes, want %d", describe(plan), plan.Minutes, test.want)
		}
	}
}

func TestAction(t *testing.T) {
	form := &File{Name: "form.pdf"}
	locked := []parse.Problem{{Code: "file-locked", Source: parse.Source{File: "mail.eml/a.xlsx"}}}
	doubt := []parse.Problem{{Code: parse.CodeFraction, Source: parse.Source{File: "mail.eml/a.xlsx"}}}
	ask := []validate.Finding{recheck(3, parse.HullGirth)}
	for _, test := range []struct {
		name   string
		report validate.Report
		job    Job
		want   Action
	}{
		{"nothing to say", validate.Report{Verdict: validate.Unreadable}, Job{Round: 1}, Leave},
		{"only our own doubt", validate.Report{Verdict: validate.Unreadable, Problems: doubt}, Job{Round: 1}, Leave},
		{"a form that is not at hand", validate.Report{Verdict: validate.Unreadable}, Job{Round: 1, Request: Request{Form: true}}, Leave},
		{"a form", validate.Report{Verdict: validate.Unreadable}, Job{Round: 1, Request: Request{Form: true}, Form: form}, Write},
		{"a locked file", validate.Report{Verdict: validate.Unreadable, Problems: locked}, Job{Round: 1}, Write},
		{"clean", validate.Report{Survey: heron().survey, Verdict: validate.Clean}, Job{Round: 1}, Write},
		{"clean in the third round", validate.Report{Survey: heron().survey, Verdict: validate.Clean}, Job{Round: 3}, Write},
		{"second round", validate.Report{Survey: heron().survey, Verdict: validate.NeedRecheck, Findings: ask}, Job{Round: 2}, Write},
		{"third round", validate.Report{Survey: heron().survey, Verdict: validate.NeedRecheck, Findings: ask}, Job{Round: 3}, Telephone},
		{"recheck that names no place", validate.Report{Survey: heron().survey, Verdict: validate.NeedRecheck, Findings: []validate.Finding{{Kind: validate.Recheck}}}, Job{Round: 1}, Leave},
	} {
		if got := Decide(test.report, test.job).Action; got != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
	}
}

// The station counts are those of the trade's rule, ceil(length / spacing) - 1:
// 15 ft 9 in has 15, 15 ft has 14 (common practice, no source).
func TestStationsOfABoat(t *testing.T) {
	for _, test := range []struct {
		unit    parse.Unit
		length  float64
		written []float64
		want    int
	}{
		{parse.Inch, 189, nil, 15},
		{parse.Inch, 180, nil, 14},
		{parse.Inch, 180.0000001, nil, 14},
		{parse.Inch, 183, nil, 14},                 // 15 ft lies 3 in from the stern
		{parse.Inch, 183, []float64{168, 180}, 15}, // but was measured
		{parse.Centimetre, 480, nil, 15},
		{parse.Inch, 101, []float64{6, 12, 18}, 16},
		{parse.Inch, 1e9, nil, 0},
		{parse.Inch, 0, nil, 0},
	} {
		read := func(x float64) parse.Reading {
			return parse.Reading{Value: parse.Measured(x, test.unit), Known: true, Confidence: parse.Typed}
		}
		s := parse.Survey{Unit: test.unit, LengthOverall: read(test.length)}
		for _, at := range test.written {
			s.Stations = append(s.Stations, parse.Station{At: parse.Measured(at, test.unit), Pair: parse.Pair{HullGirth: read(30), FullGirth: read(50)}})
		}
		at, _ := stations(s)
		if len(at) != test.want {
			t.Errorf("%v %s with stations %v: %d, want %d", test.length, test.unit, test.written, len(at), test.want)
		}
	}
}

func TestRingedNamesWhatIsAsked(t *testing.T) {
	report := validate.Report{Survey: heron().survey, Findings: []validate.Finding{recheck(3, parse.MeasurePair)}, Verdict: validate.NeedRecheck}
	got := fmt.Sprint(Decide(report, Job{Round: 1}).Ringed())
	want := fmt.Sprint([]parse.Cell{{At: foot(3), Measure: parse.HullGirth}, {At: foot(3), Measure: parse.FullGirth}})
	if got != want {
		t.Errorf("ringed %s, want %s", got, want)
	}
}
