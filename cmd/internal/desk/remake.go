package desk

import (
	"errors"
	"fmt"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/validate"
)

// whether says when a person's decision leads to a letter.
type whether int

const (
	inPlace   whether = iota // only in the place of one that waits
	whenReady                // also when the customer has nothing left to do, or the shop has the word
	always
)

// remake judges a job anew and puts a letter that fits in the place of the open
// one. It returns what came of it, in words. A letter that a person has changed
// is left as it is.
func (d *Desk) remake(tx *ledger.Tx, job *ledger.Job, by string, touched bool, when whether) (string, error) {
	if job.Perhaps != 0 {
		return fmt.Sprintf("No letter is written before it is said whether this is job %d: join %d, or no.", job.Perhaps, job.Perhaps),
			errors.Join(tx.SaveJob(*job), d.planShow(tx, job.ID))
	}
	report, err := d.known(tx, *job)
	if err != nil {
		return "", err
	}
	open, err := tx.OpenDraft(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) {
		err = nil
	}
	if err != nil {
		return "", err
	}
	var words string
	switch waits := open.ID.Job != 0; {
	case open.State == ledger.DraftSending:
		words = fmt.Sprintf("Letter %s is just being sent as it was.", open.ID)
	case waits && (touched || open.Edited != ""):
		words = fmt.Sprintf("Letter %s was changed by a person and is left as it is; hold it to have a new one.", open.ID)
	case waits || d.wants(*job, report, when):
		words, err = d.rewriteOpen(tx, job, open, report, by)
	default:
		words, err = d.restate(tx, job, report)
	}
	return words, errors.Join(err, tx.SaveJob(*job), d.planShow(tx, job.ID))
}

// known returns the report on what is known of a job's boat; with nothing
// known, that of an empty survey.
func (d *Desk) known(tx *ledger.Tx, job ledger.Job) (validate.Report, error) {
	v, err := tx.Survey(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) {
		v, err = ledger.Version{Survey: parse.Survey{Stern: parse.Pointed}}, nil
	}
	return d.judge(v.Survey, v.Problems, job.Own), err
}

// wants reports that a letter is due although none waits.
func (d *Desk) wants(job ledger.Job, report validate.Report, when whether) bool {
	if when == always {
		return true
	}
	plan := reply.Decide(report, d.replyJob(job, reply.DraftID{Job: job.ID}, occasion{}))
	return when == whenReady && (plan.Thanks || job.State != ledger.WaitingCustomer)
}

func (d *Desk) rewriteOpen(tx *ledger.Tx, job *ledger.Job, open ledger.Draft, report validate.Report, by string) (string, error) {
	o := lastMail(*job)
	var err error
	if o.reminder, err = d.reminderOf(tx, *job, open, report); err != nil {
		return "", err
	}
	if err := d.replace(tx, open, by); err != nil {
		return "", err
	}
	o.unasked = unasked(report)
	letter, err := d.write(tx, job, report, o)
	switch {
	case err != nil:
		return "", err
	case letter.ID.Job != 0:
		return fmt.Sprintf("Letter %s waits for you.", letter.ID), nil
	case job.State == ledger.Ready:
		return "Everything is in: ready to cut.", nil
	}
	return "There is no letter to write; see the thread.", nil
}

// reminderOf is which reminder a letter is that takes the place of another, 0
// for none: what reminds does so in other words too, and is no further round.
// The other is the one that waits, or one of which it is not known whether it
// left.
func (d *Desk) reminderOf(tx *ledger.Tx, job ledger.Job, open ledger.Draft, report validate.Report) (int, error) {
	was := open
	if open.ID.Job == 0 {
		last, err := tx.LastDraft(d.Account, job.ID)
		if errors.Is(err, ledger.ErrNone) || err == nil && last.State != ledger.DraftUnsure {
			return 0, nil
		}
		if err != nil {
			return 0, err
		}
		was = last
	}
	o := lastMail(job)
	o.reminder = was.Reminder
	if was.Reminder == 0 || !reply.Decide(report, d.replyJob(job, reply.DraftID{Job: job.ID}, o)).Asks() {
		return 0, nil
	}
	return was.Reminder, nil
}

// restate brings the job's summary and state up to date without a letter.
func (d *Desk) restate(tx *ledger.Tx, job *ledger.Job, report validate.Report) (_ string, err error) {
	rj := d.replyJob(*job, reply.DraftID{Job: job.ID}, occasion{})
	if rj.Like, err = d.like(tx, job.ID, report.Survey); err != nil {
		return "", err
	}
	state := job.Summary.State
	job.Summary = reply.Summarise(report, rj, reply.Decide(report, rj), nil)
	job.Summary.State = state
	if now := stateOf(*job, report.Verdict); now == ledger.Ready || job.State == ledger.Ready {
		job.State = now
	}
	if job.State == ledger.Ready {
		job.Summary.State = "ready to cut"
		return "Everything is in: ready to cut.", nil
	}
	return "", nil
}
