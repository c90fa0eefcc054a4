package desk

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/validate"
)

// end brings a mail to its end: joins it to its job, makes the survey and the
// report anew, replaces the letter, and plans what is to be said outside.
func (d *Desk) end(tx *ledger.Tx, a arrival, r route, touched bool) error {
	if err := d.endTwins(tx, a.message); err != nil {
		return err
	}
	if r.end != "" {
		err := tx.EndMessage(a.message.ID, r.end, r.reason, cmp.Or(r.bounced, r.job.ID))
		if err == nil && r.bounced != 0 {
			err = d.planSay(tx, r.bounced, "A letter of this job came back: the customer's mail server could not deliver it. The report lies in the mailbox; please look, and telephone if need be.")
		}
		if err == nil && r.limited {
			err = d.planSay(tx, 0, fmt.Sprintf("%s. Further mail like it is held and not worked off; please look into the mailbox.", upper(r.reason)))
		}
		return err
	}
	return d.endIn(tx, a, r, touched)
}

// endIn brings a mail, or a file that a person took in, to its end in its job.
func (d *Desk) endIn(tx *ledger.Tx, a arrival, r route, touched bool) error {
	job, err := d.join(tx, a, r)
	if err != nil {
		return err
	}
	report, err := d.report(tx, a, r, job)
	if err != nil {
		return err
	}
	if r.job.State == ledger.Closed {
		if err := d.planSay(tx, job.ID, fmt.Sprintf("The customer wrote again, so job %d is open again.", job.ID)); err != nil {
			return err
		}
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
	if err == nil && (a.message.End == ledger.New || a.message.End == ledger.Held) {
		err = tx.EndMessage(a.message.ID, end, reason, job.ID)
	}
	return errors.Join(err, tx.SaveJob(job), d.planShow(tx, job.ID))
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
	if a.message.From.Name != "" && a.message.From.Address == job.Customer {
		job.CustomerName = a.message.From.Name
	}
	job.Language = d.language(a, job)
	job.Subject, job.MailID = a.mail.Subject, a.mail.ID
	job.References = a.mail.References
	job.Reason, job.Until = "", time.Time{}
	if q := a.question(r); q != "" {
		job.Question, job.Answer = q, ""
	}
	body := a.content.Body
	job.WantsForm = job.WantsForm || body.WantsForm
	if body.UnderTape != "" {
		job.UnderTape = body.UnderTape
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
	case r.job.ID != 0 && a.silent(r) && (body.Tracings.Bow || body.Tracings.Stern):
		return "Says that tracings are on their way."
	case r.job.ID != 0 && a.silent(r) && !body.WantsForm:
		return "Wrote again, and no number could be taken from it: please read that mail first."
	}
	return ""
}

// report makes the job's survey anew and records it, with the one before left
// on the ledger.
func (d *Desk) report(tx *ledger.Tx, a arrival, r route, job ledger.Job) (validate.Report, error) {
	survey, problems := r.survey, r.problems
	if r.job.ID != 0 {
		known := d.judge(r.base.Survey, r.base.Problems, job.Own)
		before := reply.Decide(known, reply.Job{})
		base, doubts, heeded := heed(r.base.Survey, a.content.Body, before.Ringed())
		survey, problems = revise(base, r.survey), withoutHeeded(problems, heeded)
		survey, problems = correct(r.base.Survey, survey, problems, a.content.Body.Corrections, before.Ringed())
		var settled []parse.Problem
		survey, settled = confirm(survey, a.content.Body.Confirmations)
		problems = slices.Concat(standing(slices.Concat(r.base.Problems, doubts), survey), problems, settled)
		if r.base.Survey.Readings() > 0 {
			survey, problems = d.worse(known, survey, problems, job.Own, before.Ringed())
		}
	}
	survey, problems = validate.Settle(survey, problems)
	report := d.judge(survey, problems, job.Own)
	return report, tx.AddSurvey(d.Account, job.ID, ledger.Version{
		Cause:    cmp.Or(a.cause, fmt.Sprintf("message %d", a.message.ID)),
		Survey:   survey,
		Problems: problems,
		Verdict:  report.Verdict,
	})
}

// judge checks a survey. What a person has accepted as the boat's own shape is
// a note, as long as the number stays.
func (d *Desk) judge(survey parse.Survey, problems []parse.Problem, own []ledger.Own) validate.Report {
	report := validate.Check(survey, problems, d.rules.Load().costs)
	if len(own) == 0 || report.Verdict == validate.Unreadable {
		return report
	}
	report.Findings = slices.Clone(report.Findings)
	report.Verdict = validate.Clean
	survey.Each(func(r *parse.Reading) {
		if r.Doubtful() {
			report.Verdict = validate.Incomplete
		}
	})
	for i := range report.Findings {
		f := &report.Findings[i]
		if (f.Kind == validate.Recheck || f.Kind == validate.Confirm) && accepted(survey, f.Cell, own) {
			f.Kind = validate.Note
		}
		switch f.Kind {
		case validate.Recheck, validate.Confirm:
			report.Verdict = validate.NeedRecheck
		case validate.Missing:
			if report.Verdict == validate.Clean {
				report.Verdict = validate.Incomplete
			}
		}
	}
	return report
}

// accepted reports that every number of a place was accepted as it stands.
func accepted(survey parse.Survey, cell parse.Cell, own []ledger.Own) bool {
	cells := both(cell)
	for _, c := range cells {
		r := *readingAt(&survey, c)
		if !slices.ContainsFunc(own, func(o ledger.Own) bool { return o.Cell == c && r.Known && o.Value == r.Value }) {
			return false
		}
	}
	return len(cells) > 0
}

// both parts a pair into its girths; any other place is itself.
func both(c parse.Cell) []parse.Cell {
	two := func(hull, full parse.Measure) []parse.Cell {
		return []parse.Cell{{At: c.At, Measure: hull}, {At: c.At, Measure: full}}
	}
	switch c.Measure {
	case "":
		return nil
	case parse.MeasurePair:
		return two(parse.HullGirth, parse.FullGirth)
	case parse.GreatestPair:
		return two(parse.GreatestHullGirth, parse.GreatestFullGirth)
	case parse.TransomPair:
		return two(parse.TransomHullGirth, parse.TransomFullGirth)
	}
	return []parse.Cell{c}
}

// stateOf says who has to act on a job whose letter waits or that needs none.
// Nothing is ready to cut before everything is in.
func stateOf(job ledger.Job, verdict validate.Verdict) ledger.State {
	if verdict == validate.Clean && job.Tracings.Both() && job.Question == "" {
		return ledger.Ready
	}
	return ledger.WaitingUs
}

// hold leaves everything to a person. A mail that may belong to another job
// learns nothing of it.
func (d *Desk) hold(job *ledger.Job, report validate.Report, r route) error {
	job.State, job.Reason, job.Boat = ledger.HeldJob, r.hold, report.Survey.Boat
	rj := d.replyJob(*job, reply.DraftID{Job: job.ID}, occasion{})
	job.Summary = reply.Summarise(report, rj, reply.Plan{Action: reply.Leave, Unit: report.Survey.Unit, Customer: report.Survey.Customer, Boat: report.Survey.Boat}, nil)
	held := "Held: " + r.hold + "."
	if r.perhaps != 0 {
		held += fmt.Sprintf(" Perhaps job %d? Say here: join %d, or no.", r.perhaps, r.perhaps)
	}
	job.Summary.Problems = append([]string{held}, job.Summary.Problems...)
	job.Summary.State = "held: " + r.hold
	return nil
}

// leave keeps a letter that must not be replaced, and asks.
func (d *Desk) leave(tx *ledger.Tx, job *ledger.Job, report validate.Report, why string) error {
	job.State = ledger.WaitingUs
	job.Summary.State = "new mail came, but " + why
	return d.planSay(tx, job.ID, fmt.Sprintf("New mail came for job %d (the survey is now: %s), but %s.", job.ID, report.Verdict, why))
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

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

// planShow plans to bring a job's thread up to date, once, and what has become
// of its cut sheet.
func (d *Desk) planShow(tx *ledger.Tx, job int) error {
	id := reply.DraftID{Job: job}
	planned, err := tx.Planned(d.Account, id, ledger.Show)
	if err == nil && !planned {
		err = tx.Plan(ledger.Intent{Account: d.Account, Draft: id, Act: ledger.Show})
	}
	if err != nil {
		return err
	}
	return d.planCover(tx, job)
}
