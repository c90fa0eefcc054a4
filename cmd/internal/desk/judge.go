package desk

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/reply/eml"
	"fairtape/validate"
)

// end brings a mail to its end: joins it to its job, makes the survey and the
// report anew, replaces the letter, and plans what is to be said outside.
func (d *Desk) end(tx *ledger.Tx, a arrival, r route, touched bool) error {
	if err := d.endTwins(tx, a.message); err != nil {
		return err
	}
	if r.end != "" {
		err := tx.EndMessage(a.message.ID, r.end, r.reason, r.bounced)
		if err == nil && r.bounced != 0 {
			err = d.planSay(tx, r.bounced, "A letter of this job came back: the customer's mail server could not deliver it. The report lies in the mailbox; please look, and telephone if need be.")
		}
		return err
	}
	job, err := d.join(tx, a, r)
	if err != nil {
		return err
	}
	report, err := d.report(tx, a, r, job)
	if err != nil {
		return err
	}
	if r.open, err = d.stop(tx, job, r.open); err != nil {
		return err
	}
	end, reason := ledger.Answered, ""
	switch {
	case r.hold != "":
		end, reason = ledger.Held, r.hold
		err = d.hold(&job, report, r)
	case r.open.State == ledger.DraftSending:
		end, reason = ledger.Held, fmt.Sprintf("letter %s was just being sent", r.open.ID)
		err = d.leave(tx, &job, report, reason+". Please see whether it still fits")
	case touched && r.open.State == ledger.DraftOpen:
		end, reason = ledger.Held, fmt.Sprintf("letter %s was changed by a person", r.open.ID)
		err = d.leave(tx, &job, report, reason+", so it is left as it is. Send it, or hold it to write a new one")
	default:
		end, reason, err = d.answer(tx, &job, report, a, r)
	}
	return errors.Join(err,
		tx.SaveJob(job),
		tx.EndMessage(a.message.ID, end, reason, job.ID),
		d.planShow(tx, job.ID))
}

// endTwins ends rows of the same mail that never came to an end, because the
// mailbox was numbered anew in between.
func (d *Desk) endTwins(tx *ledger.Tx, m ledger.Message) error {
	twins, err := tx.Twins(m)
	for _, t := range twins {
		if t.End == ledger.New && t.ID < m.ID {
			err = errors.Join(err, tx.EndMessage(t.ID, ledger.Ignored, fmt.Sprintf("it came again as message %d", m.ID), 0))
		}
	}
	return err
}

// join returns the mail's job, opened where there is none yet, with what the
// mail says of its sender.
func (d *Desk) join(tx *ledger.Tx, a arrival, r route) (ledger.Job, error) {
	job := r.job
	if job.ID == 0 {
		var err error
		job, err = tx.AddJob(ledger.Job{Account: d.Account, Customer: a.message.From.Address, State: ledger.WaitingUs, Perhaps: r.perhaps})
		if err != nil {
			return job, err
		}
	}
	if a.message.From.Name != "" {
		job.CustomerName = a.message.From.Name
	}
	job.Language = d.language(a, job)
	job.Subject, job.MailID = a.mail.Subject, a.mail.ID
	job.References = a.mail.References
	job.Reason = ""
	if q := a.question(r); q != "" {
		job.Question = q
	}
	return job, nil
}

func (d *Desk) language(a arrival, job ledger.Job) string {
	for _, l := range []string{a.content.Body.Language, job.Language, a.mail.Language} {
		if l, _, _ := strings.Cut(strings.ToLower(l), "-"); l == "en" || l == "fr" {
			return l
		}
	}
	return d.Language
}

// question is what stands between a mail and the letter that answers it: what
// only a person can answer, or words that a person should have read first.
func (a arrival) question(r route) string {
	body := a.content.Body
	switch {
	case len(body.Questions) > 0:
		return strings.Join(body.Questions, " ")
	case body.Sold:
		return "Says that the boat is sold, or the cover no longer wanted."
	case body.WantsForm:
		return "Asks for a blank form."
	case r.job.ID != 0 && a.silent(r):
		return "Wrote again, without numbers: please read that mail first."
	}
	return ""
}

// report makes the job's survey anew and records it, with the one before left
// on the ledger.
func (d *Desk) report(tx *ledger.Tx, a arrival, r route, job ledger.Job) (validate.Report, error) {
	survey := revise(r.base.Survey, r.survey)
	problems := r.problems
	if r.job.ID != 0 {
		before := reply.Decide(validate.Check(r.base.Survey, r.base.Problems, d.Costs), reply.Job{})
		survey, problems = correct(r.base.Survey, survey, problems, a.content.Body.Corrections, before.Ringed())
		problems = append(standing(r.base.Problems, survey), problems...)
	}
	report := validate.Check(survey, problems, d.Costs)
	return report, tx.AddSurvey(d.Account, job.ID, ledger.Version{
		Cause:    fmt.Sprintf("message %d", a.message.ID),
		Survey:   survey,
		Problems: problems,
		Verdict:  report.Verdict,
	})
}

// hold leaves everything to a person. A mail that may belong to another job
// learns nothing of it.
func (d *Desk) hold(job *ledger.Job, report validate.Report, r route) error {
	job.State, job.Reason, job.Boat = ledger.HeldJob, r.hold, report.Survey.Boat
	rj := d.replyJob(*job, reply.DraftID{Job: job.ID}, ingest.Message{})
	job.Summary = reply.Summarise(report, rj, reply.Plan{Action: reply.Leave, Unit: report.Survey.Unit, Customer: report.Survey.Customer, Boat: report.Survey.Boat}, nil)
	job.Summary.Problems = append([]string{"Held: " + r.hold + "."}, job.Summary.Problems...)
	job.Summary.State = "held: " + r.hold
	return nil
}

// leave keeps a letter that must not be replaced, and asks.
func (d *Desk) leave(tx *ledger.Tx, job *ledger.Job, report validate.Report, why string) error {
	job.State = ledger.WaitingUs
	job.Summary.State = "new mail came, but " + why
	return d.planSay(tx, job.ID, fmt.Sprintf("New mail came for job %d (the survey is now: %s), but %s.", job.ID, report.Verdict, why))
}

// stop returns the job's open letter as it is by now. One that a person let go,
// but that has not been handed to the mail server yet, is stopped: new mail has
// made it stale.
func (d *Desk) stop(tx *ledger.Tx, job ledger.Job, open ledger.Draft) (ledger.Draft, error) {
	if open.ID.Job == 0 {
		return open, nil
	}
	now, err := tx.OpenDraft(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) {
		return ledger.Draft{}, nil
	}
	if err != nil || now.State != ledger.DraftSending {
		return now, err
	}
	planned, err := tx.Planned(d.Account, now.ID, ledger.Send)
	if err != nil || !planned {
		return now, err
	}
	now.State = ledger.DraftOpen
	return now, errors.Join(
		tx.DropPlanned(d.Account, now.ID, ledger.Send),
		d.planSay(tx, job.ID, fmt.Sprintf("Letter %s is not sent: new mail came before it had left.", now.ID)))
}

// answer replaces the open letter by one that fits what is known now, or leaves
// the word to a person where a letter would be wrong.
func (d *Desk) answer(tx *ledger.Tx, job *ledger.Job, report validate.Report, a arrival, r route) (ledger.End, string, error) {
	if report.Survey.Boat != "" {
		job.Boat = report.Survey.Boat
	}
	job.State = ledger.WaitingUs
	if err := d.replace(tx, r.open, "new mail"); err != nil {
		return "", "", err
	}
	id, err := tx.NextDraft(d.Account, job.ID)
	if err != nil {
		return "", "", err
	}
	rj := d.replyJob(*job, id, a.mail)
	plan := reply.Decide(report, rj)
	if a.silent(r) && r.open.ID.Job == 0 {
		plan = reply.Plan{Unit: plan.Unit, Customer: plan.Customer, Boat: plan.Boat, At: plan.At, Done: plan.Done}
	}
	if unasked(a, r, report) {
		plan.Action = reply.Leave
	}
	if plan.Action != reply.Write {
		job.Summary = reply.Summarise(report, rj, plan, nil)
		if report.Survey.Readings() == 0 && a.silent(r) {
			job.Summary = plain(*job, "a mail for a person to answer")
			job.Summary.Question = job.Question
		}
		return ledger.Held, cmp.Or(job.Question, "a person has to look"), nil
	}
	draft, err := d.compose(report, plan, rj)
	if err != nil {
		return "", "", err
	}
	job.Summary = reply.Summarise(report, rj, plan, &draft.letter)
	job.Summary.State = "waits for you"
	record := ledger.Draft{Account: d.Account, ID: id, MailID: draft.letter.MessageID, Recipient: job.Customer,
		Answers: a.mail.ID, Question: draft.letter.Question, Letter: draft.letter.Text, MIME: draft.mime}
	if plan.Asks() {
		record.Asks = max(1, len(plan.Again)+len(plan.Rest))
	}
	return ledger.Answered, "letter " + id.String(), errors.Join(
		tx.AddDraft(record),
		tx.Plan(ledger.Intent{Account: d.Account, Draft: id, Act: ledger.FileDraft}))
}

// unasked reports that no letter may go before a person has looked: the mail
// has nothing that a letter could answer, its numbers are written down but could
// not be placed, so that a letter would ask for what is there, or the customer
// stands by an odd number.
func unasked(a arrival, r route, report validate.Report) bool {
	unplaced := 0
	for _, p := range report.Problems {
		switch p.Code {
		case codeUnchanged:
			return true
		case parse.CodeUnplaced, prose.CodeWhichGirth, prose.CodeSentence:
			unplaced++
		}
	}
	return a.silent(r) && r.open.ID.Job == 0 || unplaced > strayNumbers
}

// silent reports a mail that says nothing about the numbers, so that a letter
// about them would not answer it: a question, a thank-you, "the boat is sold".
func (a arrival) silent(r route) bool {
	return r.survey.Readings() == 0 && !filesFailed(r) && len(a.content.Body.Corrections) == 0
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

// composed is a letter in both its forms.
type composed struct {
	letter reply.Draft
	mime   []byte
}

// compose writes the letter, with the customer's picture of what to measure.
func (d *Desk) compose(report validate.Report, plan reply.Plan, rj reply.Job) (composed, error) {
	rj.MessageID = d.NewID()
	if asked := plan.Ringed(); len(asked) > 0 && d.Draw.ForCustomer != nil {
		p, err := d.Draw.ForCustomer(report.Survey, asked, rj.Language)
		if err != nil {
			return composed{}, fmt.Errorf("draw the boat: %w", err)
		}
		rj.Picture = &reply.Picture{PNG: p.PNG, Alt: p.Alt}
	}
	letter, err := d.Texts.Compose(plan, rj)
	if err != nil {
		return composed{}, fmt.Errorf("compose letter %s: %w", rj.ID, err)
	}
	raw, err := eml.Marshal(letter)
	if err != nil {
		return composed{}, fmt.Errorf("write letter %s as a mail: %w", rj.ID, err)
	}
	return composed{letter, raw}, nil
}

// replyJob is what a letter has to know of a job.
func (d *Desk) replyJob(job ledger.Job, id reply.DraftID, answers ingest.Message) reply.Job {
	return reply.Job{
		ID:         id,
		Now:        d.local(),
		AnswerDays: d.AnswerDays,
		Shop:       d.Shop,
		Customer:   ingest.Address{Name: job.CustomerName, Address: job.Customer},
		Answers:    answers,
		Language:   job.Language,
		Round:      job.Rounds + 1,
		Request:    reply.Request{Question: job.Question},
	}
}

// plain is the summary of a job of which nothing more is known.
func plain(job ledger.Job, headline string) reply.Summary {
	from := job.Customer
	if job.CustomerName != "" {
		from = job.CustomerName + ", " + job.Customer
	}
	return reply.Summary{
		Job:      job.ID,
		Headline: fmt.Sprintf("Job %d: %s", job.ID, headline),
		Facts:    []string{"From " + cmp.Or(from, "an unnamed sender"), "Subject: " + job.Subject},
		State:    "a person has to look",
	}
}

// planShow plans to bring a job's thread up to date, once.
func (d *Desk) planShow(tx *ledger.Tx, job int) error {
	id := reply.DraftID{Job: job}
	planned, err := tx.Planned(d.Account, id, ledger.Show)
	if err != nil || planned {
		return err
	}
	return tx.Plan(ledger.Intent{Account: d.Account, Draft: id, Act: ledger.Show})
}
