package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// printJob shows everything about one job.
func printJob(w io.Writer, j ledger.Job, h history) error {
	fmt.Fprintln(w, emphasis(w, escape(cmp.Or(j.Summary.Headline, fmt.Sprintf("Job %d", j.ID))))) //nolint:errcheck // the last write tells
	field := func(name, value string) {
		if value != "" {
			fmt.Fprintf(w, "%s%s\n", styled(w, fmt.Sprintf("%-10s", name), faint), escape(value)) //nolint:errcheck // the last write tells
		}
	}
	field("state", string(j.State))
	field("because", j.Reason)
	field("customer", strings.TrimSpace(j.CustomerName+" "+j.Customer))
	field("boat", j.Boat)
	field("asks", j.Question)
	if j.Perhaps != 0 {
		field("perhaps", fmt.Sprintf("belongs to job %d", j.Perhaps))
	}
	for _, list := range []struct {
		name  string
		lines []string
	}{{"odd", j.Summary.Findings}, {"missing", j.Summary.Missing}, {"not read", j.Summary.Problems}, {"letter", j.Summary.Asks}} {
		for _, line := range list.lines {
			field(list.name, line)
		}
	}
	for _, m := range h.messages {
		field("mail", fmt.Sprintf("%s  %s: %s", moment(m.Received), m.End, cmp.Or(m.Reason, m.Subject)))
	}
	for i, v := range h.surveys {
		field("survey", fmt.Sprintf("%s  version %d by %s: %s", moment(v.Created), v.Version, v.Cause, v.Verdict))
		if i > 0 {
			for _, change := range changes(h.surveys[i-1].Survey, v.Survey) {
				field("", change)
			}
		}
	}
	for _, d := range h.decisions {
		words := ""
		switch d.Choice {
		case ledger.ChooseFile, ledger.ChooseCorrect, ledger.ChooseOwn, ledger.ChooseReceived, ledger.ChooseEdit:
			// The outcome says it all, or the survey that came of it.
		default:
			if d.Words != "" {
				words = fmt.Sprintf(" %q", d.Words)
			}
		}
		field("decided", strings.TrimRight(fmt.Sprintf("%s  %s by %s%s: %s", moment(d.Made), d.Choice, d.Person, words, d.Outcome), ": "))
	}
	for _, s := range h.sheets {
		field("cut sheet", fmt.Sprintf("%s  %d, %s", moment(s.Made), s.Number, sheetState(s, h.cut)))
	}
	for _, l := range h.letters {
		words := string(l.State)
		if !l.Settled.IsZero() {
			words += " " + strings.TrimSpace(moment(l.Settled)+" "+l.SettledBy)
		}
		field("letter", fmt.Sprintf("%s  %s, %s", moment(l.Created), l.ID, words))
	}
	if n := len(h.surveys); n > 0 {
		if err := printGirths(w, h.report); err != nil {
			return err
		}
	}
	if len(h.letters) == 0 {
		return nil
	}
	last := h.letters[len(h.letters)-1]
	_, err := fmt.Fprintf(w, "\nLetter %s (%s):\n\n%s\n", last.ID, last.State, strings.TrimRight(escapeText(last.Letter), "\n"))
	return err
}

// sheetState says whether a cut sheet holds. One that was cut and does not is an
// alarm.
func sheetState(s ledger.Sheet, cut int) string {
	switch {
	case s.Void != "" && s.Number == cut:
		return "ALARM: it was cut, and is void since: " + s.Void
	case s.Void != "":
		return "void, destroy it: " + s.Void
	case s.Number == cut:
		return "cut"
	}
	return "holds, not cut yet"
}

// moment writes a time as a log does.
func moment(t time.Time) string { return t.Local().Format("2006-01-02 15:04") }

// changes lists the numbers that read otherwise in two states of a survey: what
// was, and what took its place.
func changes(before, after parse.Survey) []string {
	var lines []string
	for _, c := range desk.Changes(before, after) {
		at := func(st parse.Station) bool { return st.At == c.Cell.At }
		was, is := written(c.Was, before.Unit), written(c.Is, after.Unit)
		switch {
		case before.Once(c.Cell.Measure) == nil && slices.ContainsFunc(before.Stations, at) && !slices.ContainsFunc(after.Stations, at):
			lines = append(lines, c.Cell.At.Along(before.Unit)+" is gone")
		case was != is:
			lines = append(lines, fmt.Sprintf("%s was %s, is %s", cellName(c.Cell, after.Unit), was, is))
		}
	}
	return slices.Compact(lines) // a row that is gone had two girths
}

// cellName names a number as the readings do.
func cellName(c parse.Cell, unit parse.Unit) string {
	for _, m := range wholeBoat() {
		if m.measure == c.Measure {
			return m.name
		}
	}
	return c.At.Along(unit) + " " + strings.ReplaceAll(string(c.Measure), "_", " ")
}

func written(r parse.Reading, unit parse.Unit) string {
	if !r.Known {
		return "not read"
	}
	return number(r.Value, unit)
}
