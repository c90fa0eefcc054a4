package reply

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// oddReport has one of everything that the shop is told of.
func oddReport() validate.Report {
	inches := func(x float64) *parse.Length { l := parse.Inches(x); return &l }
	survey := heron().survey
	survey.Stations = slices.Clone(survey.Stations)
	survey.Stations[2].FullGirth.Confidence = 0.5
	return validate.Report{
		Survey:  survey,
		Verdict: validate.NeedRecheck,
		Findings: []validate.Finding{
			{Kind: validate.Recheck, Cell: parse.Cell{At: foot(7), Measure: parse.HullGirth}, Slip: slip.OffByTen, Read: inches(37), Expected: inches(46.8), Suggest: inches(47)},
			{Kind: validate.Confirm, Cell: parse.Cell{At: foot(10), Measure: parse.HullGirth}, Slip: slip.DecimalLost, Message: "hull girth at 10 ft reads 460 in; a decimal point lost"},
			{Kind: validate.Missing, Cell: parse.Cell{Measure: parse.GreatestPair}, Message: "the greatest girth is missing"},
			{Kind: validate.Note, Cell: parse.Cell{At: foot(12), Measure: parse.FullGirth}, Message: "full girth at 12 ft is a little high"},
		},
		Problems: []parse.Problem{{Code: parse.CodeFraction, Message: "May be 4 1/2 or 41 1/2.",
			Source: parse.Source{File: "mail.eml/form.xlsx", Place: "Survey!C5", Raw: "41/2"}}},
	}
}

func TestSummaryGolden(t *testing.T) {
	job := Samples()[0].Job
	report := oddReport()
	report.Findings[3].Message += "\r\n<!channel> \u202e"
	report.Survey.Boat = "Heron\x1b[2J 15"
	plan := Decide(report, job)
	draft, err := loadTexts(t).Compose(plan, job)
	if err != nil {
		t.Fatal(err)
	}
	s := Summarise(report, job, plan, &draft)
	if s.Letter != draft.Text {
		t.Error("the summary's letter is not the draft's text")
	}
	s.Letter = ""
	got, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("..", "testdata", "letter", "summary.json")
	if *update {
		if err := os.WriteFile(path, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got)+"\n" != string(want) {
		t.Errorf("summary differs from %s:\n%s", path, got)
	}
}

// The shop sees what the letter must not say.
func TestSummaryTellsTheShopWhatTheLetterDoesNot(t *testing.T) {
	job := Samples()[0].Job
	report := oddReport()
	plan := Decide(report, job)
	s := Summarise(report, job, plan, nil)
	all := strings.Join(s.Findings, "\n")
	for _, want := range []string{"46.8 in", "off by ten"} {
		if !strings.Contains(all, want) {
			t.Errorf("findings do not say %q:\n%s", want, all)
		}
	}
	if s.Draft != "" || s.Letter != "" {
		t.Errorf("draft %q, letter %q without a draft", s.Draft, s.Letter)
	}
}

func TestSummaryOfTheThirdRoundIsACallList(t *testing.T) {
	job := Samples()[0].Job
	job.Round = 3
	report := oddReport()
	s := Summarise(report, job, Decide(report, job), nil)
	if !strings.Contains(s.State, "telephone") || !s.Telephone || len(s.Asks) != 3 {
		t.Errorf("state %q, asks %q", s.State, s.Asks)
	}
}

func TestHeadlines(t *testing.T) {
	job := Samples()[0].Job
	for _, test := range []struct {
		report validate.Report
		want   string
	}{
		{validate.Report{Verdict: validate.Unreadable}, "Job 14: boat of Ann Hollis, no girth could be read"},
		{validate.Report{Survey: heron().survey, Verdict: validate.Clean}, "Job 14: Heron 15 (Ann Hollis), clean"},
		{oddReport(), "Job 14: Heron 15 (Ann Hollis), to re-check: 1 to measure again, 1 question, 1 missing, 1 for you to settle"},
	} {
		if got := Summarise(test.report, job, Decide(test.report, job), nil).Headline; got != test.want {
			t.Errorf("headline %q, want %q", got, test.want)
		}
	}
}
