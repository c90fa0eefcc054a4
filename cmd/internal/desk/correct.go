package desk

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/validate"
)

// heedCorrect takes a number from a person. It is final: no reading of a mail
// or a picture is put above it, and it is not doubted.
func (d *Desk) heedCorrect(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	v, err := d.version(tx, job)
	if err != nil {
		return "", err
	}
	cell, length, err := valueOf(c.Words).In(v.Survey)
	if err != nil {
		return "not taken: " + err.Error(), nil
	}
	before := d.judge(v.Survey, v.Problems, job.Own)
	v.Survey.Stations = slices.Clone(v.Survey.Stations)
	r := readingAt(&v.Survey, cell)
	v.Problems = slices.DeleteFunc(slices.Clone(v.Problems), func(p parse.Problem) bool {
		return p.Source.File == r.Source.File && p.Source.Place == r.Source.Place && r.Source.File != ""
	})
	was := *r
	*r = parse.Reading{Value: length, Known: true, Confidence: 1,
		Source: parse.Source{File: "correction", Place: "by " + c.Person, Raw: valueOf(c.Words).Value}}
	report := d.judge(v.Survey, v.Problems, job.Own)
	words := fmt.Sprintf("%s is now %s.", numberName(cell, v.Survey.Unit), written(length, v.Survey.Unit))
	if was.Known {
		words = fmt.Sprintf("%s is now %s, not %s.", numberName(cell, v.Survey.Unit), written(length, v.Survey.Unit), written(was.Value, v.Survey.Unit))
	}
	if asksAbout(report, cell) && !asksAbout(before, cell) {
		words += " That fits the boat less well than before: please look at it once more."
	}
	err = tx.AddSurvey(d.Account, job.ID, ledger.Version{Cause: "correction by " + c.Person, Survey: v.Survey,
		Problems: v.Problems, Verdict: report.Verdict})
	if err != nil {
		return "", err
	}
	more, err := d.remake(tx, &job, "correction by "+c.Person, touched, whenReady)
	return strings.TrimSpace(words + " " + more), err
}

// version returns the state of a job's survey, an empty one when it has none.
func (d *Desk) version(tx *ledger.Tx, job ledger.Job) (ledger.Version, error) {
	v, err := tx.Survey(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) {
		return ledger.Version{Survey: parse.Survey{Unit: parse.Inch, Stern: parse.Pointed}}, nil
	}
	return v, err
}

// asksAbout reports that a report asks about a number.
func asksAbout(report validate.Report, cell parse.Cell) bool {
	return slices.ContainsFunc(report.Findings, func(f validate.Finding) bool {
		return (f.Kind == validate.Recheck || f.Kind == validate.Confirm) && slices.Contains(both(f.Cell), cell)
	})
}

// heedOwn accepts an odd number as the boat's own shape: a person says so, and
// it is known what lay under the tape.
func (d *Desk) heedOwn(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	v, err := d.version(tx, job)
	if err != nil {
		return "", err
	}
	cell, err := valueOf(c.Words).cell(v.Survey)
	if err != nil {
		return "not taken: " + err.Error(), nil
	}
	r := *readingAt(&v.Survey, cell)
	name := numberName(cell, v.Survey.Unit)
	switch {
	case !r.Certain():
		return fmt.Sprintf("not taken: no number is settled for %s", name), nil
	case job.UnderTape == "":
		return fmt.Sprintf("not taken: nobody has said what lay under the tape at %s. Ask, then say it: %d tape nothing was under it", name, job.ID), nil
	}
	job.Own = append(job.Own, ledger.Own{Cell: cell, Value: r.Value, Person: c.Person})
	v.Problems = slices.DeleteFunc(slices.Clone(v.Problems), func(p parse.Problem) bool { return p.Code == codeUnchanged || p.Code == codeAnswered })
	report := d.judge(v.Survey, v.Problems, job.Own)
	err = tx.AddSurvey(d.Account, job.ID, ledger.Version{Cause: "accepted by " + c.Person, Survey: v.Survey,
		Problems: v.Problems, Verdict: report.Verdict})
	if err != nil {
		return "", err
	}
	more, err := d.remake(tx, &job, "accepted by "+c.Person, touched, whenReady)
	return strings.TrimSpace(fmt.Sprintf("%s, %s, counts as the boat's own. %s", name, written(r.Value, v.Survey.Unit), more)), err
}

// heedTape records what lay under the tape.
func (d *Desk) heedTape(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
	if strings.TrimSpace(c.Words) == "" {
		return "not taken: say what lay under the tape, or that nothing did", nil
	}
	job.UnderTape = c.Words
	return "noted what lay under the tape", tx.SaveJob(job)
}
