package reply

import (
	"fmt"
	"html"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

var everySlip = []slip.Kind{slip.None, slip.OffByTen, slip.Transposed, slip.OffByFoot, slip.Digit, slip.MisreadTape, slip.SwappedPair,
	slip.RowRepeated, slip.RowSkipped, slip.MetricEdge, slip.DecimalLost, slip.FeetInchesJoined, slip.FromStern, slip.OpeningForFull,
	slip.HalfGirth, slip.TapeOffset, slip.TapeLength, slip.Unknown}

var everyMeasure = []parse.Measure{parse.HullGirth, parse.FullGirth, parse.MeasurePair, parse.LengthOverall, parse.BowHeight, parse.SternHeight,
	parse.CarryPoint, parse.GreatestAt, parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestPair, parse.GreatestOpening}

// randomJob makes a report with findings of every kind. What the shop expects
// is drawn from its own source, so that it can be drawn again.
func randomJob(r, expected *rand.Rand) (validate.Report, Job) {
	samples := Samples()
	s := samples[r.IntN(len(samples))]
	survey := heron().survey
	if s.Job.Language == French {
		survey = loutre().survey
	}
	if r.IntN(4) == 0 {
		survey.Unit = parse.Inch
	}
	report := validate.Report{Survey: survey, Verdict: validate.NeedRecheck}
	for range r.IntN(12) {
		f := validate.Finding{
			Kind: []validate.Kind{validate.Recheck, validate.Recheck, validate.Confirm, validate.Missing, validate.Note}[r.IntN(5)],
			Slip: everySlip[r.IntN(len(everySlip))],
			Cell: parse.Cell{Measure: everyMeasure[r.IntN(len(everyMeasure))]},
		}
		station := survey.Stations[r.IntN(len(survey.Stations))]
		if atStation(f.Cell.Measure) {
			f.Cell.At = station.At
		}
		if r.IntN(5) == 0 {
			f.Cell = parse.Cell{}
			f.Rows = []parse.Length{station.At, station.At + 300, station.At + 600, station.At + 900}[:1+r.IntN(4)]
		}
		number := func() *parse.Length {
			x := parse.Measured(float64(expected.IntN(8*500))/8, survey.Unit)
			if expected.IntN(3) == 0 {
				x = parse.Measured(float64(expected.IntN(5000))/10, survey.Unit)
			}
			return &x
		}
		f.Expected, f.Low, f.High, f.Suggest = number(), number(), number(), number()
		f.Message = fmt.Sprintf("expected %.1f in", f.Expected.In(parse.Inch))
		report.Findings = append(report.Findings, f)
	}
	s.Job.Picture = &Picture{PNG: []byte("picture")}
	s.Job.Round = 1 + r.IntN(2)
	return report, s.Job
}

// letterOf writes a letter; ok is false when the plan leads to none.
func letterOf(t *testing.T, texts *Texts, report validate.Report, job Job) (draft Draft, ok bool) {
	t.Helper()
	plan := Decide(report, job)
	if plan.Action != Write {
		return Draft{}, false
	}
	draft, err := texts.Compose(plan, job)
	if err != nil {
		t.Fatal(err)
	}
	return draft, true
}

// A letter does not depend on what the shop expects: with every expected
// value, range, suggestion and message drawn anew it is the same to the byte,
// and so are its picture's words and name.
func TestLettersDoNotKnowWhatWeExpect(t *testing.T) {
	texts := loadTexts(t)
	compared := 0
	for seed := range uint64(250) {
		report, job := randomJob(rand.New(rand.NewPCG(seed, 1)), rand.New(rand.NewPCG(seed, 2)))
		other, sameJob := randomJob(rand.New(rand.NewPCG(seed, 1)), rand.New(rand.NewPCG(seed, 3)))
		first, ok := letterOf(t, texts, report, job)
		second, also := letterOf(t, texts, other, sameJob)
		if ok != also || !reflect.DeepEqual(first, second) {
			t.Fatalf("seed %d: the letter changes with what is expected:\n%s\n%s", seed, first.Text, second.Text)
		}
		if ok && len(report.Findings) > 0 {
			compared++
		}
	}
	if compared < 120 {
		t.Errorf("only %d letters were compared", compared)
	}
}

var numbers = regexp.MustCompile(`\d+(?:[.,]\d+)?(?:[ \x{a0}]\d/\d)?|\d/\d`)

// The same from the other side: no number of a letter is one that the shop
// expects, in any way of writing it, unless it stands there for another
// reason - the customer wrote it, or it names a station, a day or a count.
func TestLettersTellNoExpectedNumber(t *testing.T) {
	texts := loadTexts(t)
	looked := 0
	for seed := range uint64(250) {
		report, job := randomJob(rand.New(rand.NewPCG(seed, 4)), rand.New(rand.NewPCG(seed, 5)))
		draft, ok := letterOf(t, texts, report, job)
		if !ok {
			continue
		}
		reasons := reasonsFor(texts, report, job)
		for _, part := range []string{draft.Text, html.UnescapeString(tag.ReplaceAllString(head.ReplaceAllString(draft.HTML, ""), " ")), pictureWords(draft)} {
			told := numbers.FindAllString(strings.ReplaceAll(part, nbsp, " "), -1)
			for _, f := range report.Findings {
				for _, x := range []*parse.Length{f.Expected, f.Low, f.High, f.Suggest} {
					for _, form := range forms(*x) {
						looked++
						if slices.Contains(told, form) && !reasons[form] {
							t.Fatalf("seed %d: the letter tells %s:\n%s", seed, form, part)
						}
					}
				}
			}
		}
	}
	if looked == 0 {
		t.Error("nothing was looked for")
	}
}

func pictureWords(d Draft) string {
	var words []string
	for _, p := range d.Pictures {
		words = append(words, p.Alt, p.Name, p.ContentID)
	}
	for _, f := range d.Files {
		words = append(words, f.Name)
	}
	return strings.Join(words, " ")
}

// forms are the ways of writing a number, in both units and languages.
func forms(x parse.Length) []string {
	var list []string
	for _, l := range languages {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			for _, text := range []string{l.length(x, unit), l.place(x, unit), l.number(x.In(unit)), fmt.Sprintf("%.1f", x.In(unit)), fmt.Sprintf("%.0f", x.In(unit))} {
				list = append(list, numbers.FindString(strings.ReplaceAll(text, nbsp, " ")))
			}
		}
	}
	return list
}

// reasonsFor collects the numbers that a letter has by right: those of the
// survey, and those of a letter about the same boat in which nothing is
// expected.
func reasonsFor(texts *Texts, report validate.Report, job Job) map[string]bool {
	reasons := make(map[string]bool)
	add := func(text string) {
		for _, number := range numbers.FindAllString(strings.ReplaceAll(text, nbsp, " "), -1) {
			reasons[number] = true
		}
	}
	lang := languageOf(job.Language)
	for _, r := range readings(report.Survey) {
		add(lang.length(r.Value, unitOf(report.Survey)))
	}
	for _, s := range report.Survey.Stations {
		add(lang.place(s.At, unitOf(report.Survey)))
	}
	for _, f := range report.Findings {
		for _, at := range f.Rows {
			add(lang.place(at, unitOf(report.Survey)))
		}
	}
	plan := Decide(report, job)
	for _, at := range plan.At {
		add(lang.place(at, plan.Unit))
	}
	w := newWriter(texts, plan, job)
	for _, text := range []string{w.say("first.ask"), w.say("first.reminder"), w.say("first.form"), w.say("thanks.survey"), w.facts.By, w.facts.Sent, w.facts.Boat,
		w.facts.Post, w.facts.Telephone, w.say("line.first"), w.say("line.second"), w.say("line.third"), w.say("closing"), job.ID.String(), w.say("unit.half.cm"), "0"} {
		add(text)
	}
	for n := range 16 { // steps of a list, and stations in a run
		add(fmt.Sprint(n))
	}
	return reasons
}

// What comes from outside is text in both parts, whatever it looks like.
func TestOutsideWordsStayWords(t *testing.T) {
	const nasty = "<b onclick=x>\"Ann\"</b>\r\nBcc: all@x.example \u202etxt\x1b[2J {{.Shop}}"
	texts := loadTexts(t)
	for _, s := range Samples() {
		s.Report.Survey.Boat = nasty
		s.Report.Survey.Customer = "Ann \u202e<b>\r\nBcc: x"
		s.Report.Survey.Stations = slices.Clone(s.Report.Survey.Stations)
		for i := range s.Report.Survey.Stations {
			s.Report.Survey.Stations[i].HullGirth.Source.Raw = "41 " + nasty
		}
		for i := range s.Report.Problems {
			s.Report.Problems[i].Source.File = "mail.eml/" + nasty
		}
		s.Job.Customer.Name = nasty
		s.Job.Answers.Subject = "Boat\r\nBcc: all@x.example"
		s.Job.Answers.Text = nasty + "\n-- \nnever quoted"
		s.Job.Bow.Refused = nasty
		draft, ok := letterOf(t, texts, s.Report, s.Job)
		if !ok {
			continue
		}
		for _, never := range []string{"\u202e", "\x1b", "\r"} {
			if strings.Contains(draft.Text+draft.HTML+draft.Subject, never) {
				t.Errorf("%s: %q came through", s.Name, never)
			}
		}
		if strings.Contains(draft.HTML, "<b ") || strings.Contains(draft.HTML, "<b>") {
			t.Errorf("%s: foreign HTML came through", s.Name)
		}
		if strings.ContainsAny(draft.Subject, "\r\n") || strings.Contains(draft.Text, "\nBcc:") {
			t.Errorf("%s: a line of its own was smuggled in", s.Name)
		}
		if strings.Contains(draft.Text, "never quoted") {
			t.Errorf("%s: a signature was quoted", s.Name)
		}
		if !strings.Contains(draft.Text, "{{.Shop}}") {
			t.Errorf("%s: words in braces are not kept as words", s.Name)
		}
	}
}
