package desk

import (
	"errors"
	"fmt"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/reply/eml"
	"fairtape/validate"
)

// occasion is what a letter is written for.
type occasion struct {
	answers ingest.Message // the customer's mail, or of it what the ledger knows
	// silent: the mail says nothing about the numbers, so that a letter about
	// them would not answer it.
	silent bool
	// unasked: a person has to look before a letter may go.
	unasked  bool
	reminder int // 1 for the first
	// length is how long the boat is said to be in passing, for a form; 0 when
	// nothing is said.
	length parse.Length
}

// lastMail is the occasion of a letter that is made anew, not by a mail.
func lastMail(job ledger.Job) occasion {
	return occasion{answers: ingest.Message{ID: job.MailID, Subject: job.Subject, References: job.References}}
}

// answer replaces the open letter by one that fits what is known now, or leaves
// the word to a person where a letter would be wrong.
func (d *Desk) answer(tx *ledger.Tx, job *ledger.Job, report validate.Report, a arrival, r route) (ledger.End, string, error) {
	if err := d.replace(tx, r.open, "new mail"); err != nil {
		return "", "", err
	}
	// A letter that waited is written anew, unless the mail says that there is
	// nothing to ask any more, or that the answer is on its way.
	over := r.open.ID.Job == 0 || r.open.Reminder > 0 || a.content.Body.Sold
	o := occasion{answers: a.mail, silent: a.silent(r) && over, length: a.content.Body.BoatLength}
	o.unasked = o.silent || unasked(report)
	letter, err := d.write(tx, job, report, o)
	switch {
	case err != nil:
		return "", "", err
	case letter.ID.Job != 0:
		return ledger.Answered, "letter " + letter.ID.String(), nil
	case report.Survey.Readings() == 0 && a.silent(r):
		job.Summary = plain(*job, "a mail for a person to answer")
		job.Summary.Question = job.Question
	}
	if job.Question != "" {
		return ledger.Held, job.Question, nil
	}
	return ledger.Held, "a person has to look", nil
}

// write makes the letter that fits a report, with the job's summary and state;
// its ID is zero when there is none to write. An open letter must have been
// taken back before.
func (d *Desk) write(tx *ledger.Tx, job *ledger.Job, report validate.Report, o occasion) (ledger.Draft, error) {
	if report.Survey.Boat != "" {
		job.Boat = report.Survey.Boat
	}
	job.State = stateOf(*job, report.Verdict)
	id, err := tx.NextDraft(d.Account, job.ID)
	if err != nil {
		return ledger.Draft{}, err
	}
	plan, rj, err := d.plan(*job, id, report, o)
	if err != nil {
		return ledger.Draft{}, err
	}
	if rj.Like, err = d.like(tx, job.ID, report.Survey); err != nil {
		return ledger.Draft{}, err
	}
	if plan.Action != reply.Write {
		job.Summary = reply.Summarise(report, rj, plan, nil)
		if job.State == ledger.Ready {
			job.Summary.State = "ready to cut"
		}
		return ledger.Draft{}, nil
	}
	letter, raw, err := d.compose(report, plan, rj)
	if err != nil {
		return ledger.Draft{}, err
	}
	job.Summary = reply.Summarise(report, rj, plan, &letter)
	job.Summary.State = "waits for you"
	if o.reminder > 0 {
		job.Summary.State = fmt.Sprintf("no answer yet: reminder %d waits for you", o.reminder)
	}
	record := ledger.Draft{Account: d.Account, ID: id, MailID: letter.MessageID, Recipient: job.Customer, Answers: o.answers.ID,
		Question: letter.Question, Letter: letter.Text, MIME: raw, Reminder: o.reminder}
	if plan.Asks() {
		record.Asks = max(1, len(plan.Again)+len(plan.Rest))
	}
	return record, errors.Join(
		d.dropUnsure(tx, job.ID),
		tx.AddDraft(record),
		tx.Plan(ledger.Intent{Account: d.Account, Draft: id, Act: ledger.FileDraft}))
}

// plan decides what a letter says, with the papers that go with it.
func (d *Desk) plan(job ledger.Job, id reply.DraftID, report validate.Report, o occasion) (reply.Plan, reply.Job, error) {
	rj := d.replyJob(job, id, o)
	plan := reply.Decide(report, rj)
	if job.WantsForm || plan.AllAgain {
		var err error
		if rj.Form, err = d.form(job, report.Survey, o.length); err != nil {
			return plan, rj, err
		}
	}
	bare := reply.Plan{Action: reply.Leave, Unit: plan.Unit, Customer: plan.Customer, Boat: plan.Boat, At: plan.At, Done: plan.Done}
	switch {
	case job.WantsForm && rj.Form != nil && report.Verdict == validate.Unreadable && len(plan.Files) == 0:
		plan = bare
		plan.Action = reply.Write
	case o.silent:
		plan = bare
	case o.unasked:
		plan.Action = reply.Leave
	}
	if plan.Action != reply.Write {
		return plan, rj, nil
	}
	var err error
	rj.Slip, err = d.slip(job, plan)
	return plan, rj, err
}

// unasked reports that no letter may go before a person has looked: numbers are
// written down but could not be placed, so that a letter would ask for what is
// there, or the customer stands by an odd number.
func unasked(report validate.Report) bool {
	unplaced := 0
	for _, p := range report.Problems {
		switch p.Code {
		case codeUnchanged, codeAnswered, codeWorse, parse.CodeOther:
			return true
		case parse.CodeUnplaced, prose.CodeWhichGirth, prose.CodeSentence:
			unplaced++
		}
	}
	return unplaced > strayNumbers
}

// silent reports a mail that says nothing about the numbers, so that a letter
// about them would not answer it: a question, a thank-you, "the boat is sold".
func (a arrival) silent(r route) bool {
	return r.survey.Readings() == 0 && !filesFailed(r) && len(a.content.Body.Corrections)+len(a.content.Body.Confirmations) == 0
}

// replace takes an open letter back, if there is one.
func (d *Desk) replace(tx *ledger.Tx, open ledger.Draft, by string) error {
	if open.ID.Job == 0 {
		return nil
	}
	return errors.Join(
		tx.SetDraft(d.Account, open.ID, ledger.DraftReplaced, by),
		tx.Plan(ledger.Intent{Account: d.Account, Draft: open.ID, Act: ledger.DropDraft}))
}

// dropUnsure takes letters back of which it is not known whether they left: a
// new one stands in their place.
func (d *Desk) dropUnsure(tx *ledger.Tx, job int) error {
	all, err := tx.Drafts(d.Account, job)
	for _, l := range all {
		if l.State == ledger.DraftUnsure {
			err = errors.Join(err, d.replace(tx, l, "a newer letter"))
		}
	}
	return err
}

// compose writes the letter, with the customer's picture of what to measure,
// and as the mail that it becomes.
func (d *Desk) compose(report validate.Report, plan reply.Plan, rj reply.Job) (reply.Draft, []byte, error) {
	rj.MessageID = d.NewID()
	if asked := plan.Ringed(); len(asked) > 0 && d.Draw.ForCustomer != nil {
		p, err := d.Draw.ForCustomer(report.Survey, asked, rj.Language)
		if err != nil {
			return reply.Draft{}, nil, fmt.Errorf("draw the boat: %w", err)
		}
		rj.Picture = &reply.Picture{PNG: p.PNG, Alt: p.Alt}
	}
	letter, err := d.rules.Load().texts.Compose(plan, rj)
	if err != nil {
		return reply.Draft{}, nil, fmt.Errorf("compose letter %s: %w", rj.ID, err)
	}
	raw, err := eml.Marshal(letter)
	if err != nil {
		return reply.Draft{}, nil, fmt.Errorf("write letter %s as a mail: %w", rj.ID, err)
	}
	return letter, raw, nil
}

// replyJob is what a letter has to know of a job.
func (d *Desk) replyJob(job ledger.Job, id reply.DraftID, o occasion) reply.Job {
	round := job.Rounds + 1
	if o.reminder > 0 {
		round = max(1, job.Rounds) // it says again what the last letter said
	}
	return reply.Job{
		ID:         id,
		Now:        d.local(),
		AnswerDays: d.AnswerDays,
		Shop:       d.Shop,
		Customer:   ingest.Address{Name: job.CustomerName, Address: job.Customer},
		Answers:    o.answers,
		Language:   job.Language,
		Round:      round,
		Reminder:   o.reminder,
		Request:    reply.Request{Form: job.WantsForm, Question: job.Question, Answer: job.Answer},
		Bow:        reply.Tracing{In: job.Tracings.Bow.In, Refused: job.Tracings.Bow.Refused},
		Stern:      reply.Tracing{In: job.Tracings.Stern.In, Refused: job.Tracings.Stern.Refused},
	}
}
