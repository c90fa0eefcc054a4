package main

import (
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

func TestBoard(t *testing.T) {
	t.Setenv("COLUMNS", "60")
	t.Setenv("FORCE_COLOR", "1")
	letter, reason := "12-1", "a mail that may belong to job 3, or to nobody at all"
	jobs := []jobLine{
		{Job: 3, State: ledger.Closed, Customer: "ann@hollis.example", Boat: "Heron 15"},
		{Job: 12, State: ledger.WaitingUs, Customer: "a-very-long-address@of.a.customer.example", Boat: "Otter 12", Draft: &letter},
		{Job: 4, State: ledger.HeldJob, Customer: "bo@larch.example", Reason: &reason},
	}
	for _, test := range []struct {
		name, noColor string
		want          []string
	}{
		{"in colour", "", []string{
			"\x1b[33mheld (1)\x1b[0m",
			"  4  -       bo@larch.example      boat not named, a mail t…",
			"\x1b[33mwaiting for us (1)\x1b[0m",
			" 12  12-1    a-very-long-address…  Otter 12",
			"\x1b[2mclosed (1)\x1b[0m",
			"  3  -       ann@hollis.example    Heron 15",
		}},
		{"plain", "1", []string{
			"held (1)",
			"  4  -       bo@larch.example      boat not named, a mail t…",
			"waiting for us (1)",
			" 12  12-1    a-very-long-address…  Otter 12",
			"closed (1)",
			"  3  -       ann@hollis.example    Heron 15",
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Setenv("NO_COLOR", test.noColor)
			var b strings.Builder
			if err := printJobs(&b, jobs); err != nil {
				t.Fatal(err)
			}
			if got, want := b.String(), strings.Join(test.want, "\n")+"\n"; got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// The 1889 canoe as it was printed: the curve shows beside the number that is
// asked for, and nowhere else.
func TestGirthsInText(t *testing.T) {
	t.Setenv("COLUMNS", "100")
	survey, err := known.Canoe1889(known.AsPrinted)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := printGirths(&b, validate.Check(survey, nil, validate.Costs{Ask: 1, Miss: 30})); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	if len(lines) != 2+len(survey.Stations) {
		t.Fatalf("%d lines for %d stations:\n%s", len(lines), len(survey.Stations), b.String())
	}
	for _, line := range lines[2:] {
		if len(line) > 100 {
			t.Errorf("%d columns: %s", len(line), line)
		}
		if asked := strings.Contains(line, "<"); asked != strings.Contains(line, "13 ft") {
			t.Errorf("asked for: %v: %s", asked, line)
		}
	}
	if !strings.Contains(lines[2+12], "+") {
		t.Errorf("the curve does not show at 13 ft:\n%s", b.String())
	}
	t.Log(b.String())
	if err := printGirths(&b, validate.Report{Survey: parse.Survey{}}); err != nil {
		t.Fatal(err)
	}
}

func TestChanges(t *testing.T) {
	before, err := known.Canoe1889(known.AsPrinted)
	if err != nil {
		t.Fatal(err)
	}
	after, err := known.Canoe1889(known.SuspectsFixed)
	if err != nil {
		t.Fatal(err)
	}
	if got := changes(before, before); len(got) != 0 {
		t.Errorf("nothing changed, but %q", got)
	}
	got := strings.Join(changes(before, after), "\n")
	if !strings.Contains(got, "13 ft ") || !strings.Contains(got, " was ") {
		t.Errorf("%s", got)
	}
	after.Stations = after.Stations[1:]
	if got := strings.Join(changes(before, after), "\n"); !strings.Contains(got, "1 ft is gone") {
		t.Errorf("%s", got)
	}
}
