package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"fairtape/cmd/internal/ledger"
)

// column is a part of the board: jobs that wait for the same.
type column struct {
	state ledger.State
	title string
	how   style
}

// columns is the order of the board: what waits for the shop first. The words
// say all that the colours say.
func columns() []column {
	return []column{
		{ledger.SetAside, "set aside, a person has to look", red},
		{ledger.HeldJob, "held", yellow},
		{ledger.WaitingUs, "waiting for us", yellow},
		{ledger.Ready, "ready to cut", green},
		{ledger.WaitingCustomer, "waiting for the customer", cyan},
		{ledger.Closed, "closed", faint},
	}
}

// printJobs shows the jobs as a board, those that wait for the shop first.
func printJobs(w io.Writer, jobs []jobLine) error {
	if len(jobs) == 0 {
		_, err := fmt.Fprintln(w, "no jobs yet")
		return err
	}
	number, letter, customer := len("job"), len("letter"), 0
	for _, j := range jobs {
		number = max(number, len(strconv.Itoa(j.Job)))
		customer = max(customer, utf8.RuneCountInString(escape(j.Customer)))
		if j.Draft != nil {
			letter = max(letter, len(*j.Draft))
		}
	}
	customer = min(customer, widthOf(w)/3)
	boat := widthOf(w) - number - letter - customer - 3*len("  ")
	var err error
	for _, c := range columns() {
		var of []jobLine
		for _, j := range jobs {
			if j.State == c.state {
				of = append(of, j)
			}
		}
		if len(of) == 0 {
			continue
		}
		slices.SortFunc(of, func(a, b jobLine) int { return cmp.Compare(a.Job, b.Job) })
		fmt.Fprintln(w, styled(w, fmt.Sprintf("%s (%d)", c.title, len(of)), c.how)) //nolint:errcheck // the last write tells
		for _, j := range of {
			draft := "-"
			if j.Draft != nil {
				draft = *j.Draft
			}
			line := fmt.Sprintf("%*d  %-*s  %s  %s", number, j.Job, letter, draft, fit(escape(j.Customer), customer), about(j))
			_, err = fmt.Fprintln(w, strings.TrimRight(clip(line, number+letter+customer+boat+3*len("  ")), " "))
		}
	}
	return err
}

// about says what a job is about in a few words: the boat, and why it waits.
func about(j jobLine) string {
	parts := []string{cmp.Or(escape(j.Boat), "boat not named")}
	if j.Verdict != nil {
		parts = append(parts, string(*j.Verdict))
	}
	if j.Reason != nil {
		parts = append(parts, escape(*j.Reason))
	}
	if j.Question != nil {
		parts = append(parts, "asks: "+escape(*j.Question))
	}
	return strings.Join(parts, ", ")
}

// fit makes a text exactly so many columns wide.
func fit(s string, width int) string {
	s = clip(s, width)
	return s + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
}

// clip shortens a text that is too wide, and shows that it did.
func clip(s string, width int) string {
	r := []rune(s)
	if len(r) <= width {
		return s
	}
	return string(r[:max(0, width-1)]) + "\u2026"
}
