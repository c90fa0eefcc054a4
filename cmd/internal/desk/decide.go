package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
)

// decide acts on the decisions that people have recorded.
func (d *Desk) decide(ctx context.Context) error {
	var waiting []ledger.Decision
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		waiting, err = tx.Decisions(d.Account)
		return err
	})
	if err != nil {
		return err
	}
	for _, decision := range waiting {
		err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
			outcome, err := d.heed(tx, decision)
			if err != nil {
				return err
			}
			return tx.SettleDecision(decision.ID, outcome)
		})
		if err != nil {
			return fmt.Errorf("act on decision %d: %w", decision.ID, err)
		}
	}
	return nil
}

// heed acts on one decision, and returns what came of it in words. The first
// decision about a letter counts; a later one is told so.
func (d *Desk) heed(tx *ledger.Tx, c ledger.Decision) (string, error) {
	switch c.Choice {
	case ledger.ChooseClose:
		return d.heedClose(tx, c)
	case ledger.ChooseNote:
		return "noted", nil
	}
	draft, err := tx.Draft(d.Account, c.Draft)
	if errors.Is(err, ledger.ErrNone) {
		return "there is no such letter", nil
	}
	if err != nil {
		return "", err
	}
	if draft.State != ledger.DraftOpen {
		return d.tooLate(tx, c, draft)
	}
	switch c.Choice {
	case ledger.ChooseSend:
		return d.heedSend(tx, c, draft)
	case ledger.ChooseHold:
		by := "by " + c.Person
		if c.Words != "" {
			by += ", " + c.Words
		}
		return "held", d.finishIn(tx, draft, ledger.DraftHeld, by)
	case ledger.ChooseEdit:
		return d.heedEdit(tx, c, draft)
	case ledger.ChooseAnswered:
		job, err := tx.Job(d.Account, draft.ID.Job)
		if err != nil {
			return "", err
		}
		job.Question, job.Summary.Question = "", ""
		return "the question counts as answered", errors.Join(tx.AnswerQuestion(d.Account, draft.ID), tx.SaveJob(job), d.planShow(tx, job.ID))
	}
	return "nothing is known of " + string(c.Choice), nil
}

// tooLate tells a person that somebody, or the customer, was faster.
func (d *Desk) tooLate(tx *ledger.Tx, c ledger.Decision, draft ledger.Draft) (string, error) {
	why := fmt.Sprintf("letter %s is %s already", draft.ID, draft.State)
	if draft.SettledBy != "" {
		why += " (" + draft.SettledBy + ")"
	}
	if draft.State == ledger.DraftSending && c.Choice == ledger.ChooseSend {
		return why, nil
	}
	return why, d.planSay(tx, draft.ID.Job, fmt.Sprintf("%s: %s, so nothing was done.", c.Person, why))
}

// heedSend is the only place from which a letter goes out.
func (d *Desk) heedSend(tx *ledger.Tx, c ledger.Decision, draft ledger.Draft) (string, error) {
	switch {
	case draft.Question != "":
		return "the customer's question has to be answered first", d.planSay(tx, draft.ID.Job,
			fmt.Sprintf("Letter %s does not answer what the customer asked: %q Answer it, then say so: fairtape jobs answered %s", draft.ID, draft.Question, draft.ID))
	case d.Sender == nil:
		return "no mail server for sending is set up: send it from the mail program", d.planSay(tx, draft.ID.Job,
			fmt.Sprintf("Letter %s: no mail server for sending is set up ([smtp] in the settings). It lies in Drafts; send it from the mail program.", draft.ID))
	}
	job, err := tx.Job(d.Account, draft.ID.Job)
	if err != nil {
		return "", err
	}
	job.Summary.State = "being sent, as " + c.Person + " decided"
	job.Summary.Draft, job.Summary.Letter = "", "" // it stands in the thread already
	return "being sent", errors.Join(
		tx.SetDraft(d.Account, draft.ID, ledger.DraftSending, c.Person),
		tx.SaveJob(job),
		tx.Plan(ledger.Intent{Account: d.Account, Draft: draft.ID, Act: ledger.Send}),
		d.planShow(tx, job.ID))
}

// heedClose closes a job; its open letter is held.
func (d *Desk) heedClose(tx *ledger.Tx, c ledger.Decision) (string, error) {
	job, err := tx.Job(d.Account, c.Draft.Job)
	if errors.Is(err, ledger.ErrNone) {
		return "there is no such job", nil
	}
	if err != nil {
		return "", err
	}
	draft, err := tx.OpenDraft(d.Account, job.ID)
	switch {
	case err == nil && draft.State == ledger.DraftSending:
		return fmt.Sprintf("letter %s is being sent: close the job after that", draft.ID), nil
	case err == nil:
		if err := d.finishIn(tx, draft, ledger.DraftHeld, "by "+c.Person); err != nil {
			return "", err
		}
		if job, err = tx.Job(d.Account, job.ID); err != nil {
			return "", err
		}
	case !errors.Is(err, ledger.ErrNone):
		return "", err
	}
	job.State, job.Reason = ledger.Closed, strings.TrimSpace(c.Words)
	job.Summary.State = "closed by " + c.Person
	return "closed", errors.Join(tx.SaveJob(job), d.planShow(tx, job.ID))
}

// planSay plans words for a job's thread.
func (d *Desk) planSay(tx *ledger.Tx, job int, words string) error {
	return tx.Plan(ledger.Intent{Account: d.Account, Draft: reply.DraftID{Job: job}, Act: ledger.Say, Words: words})
}

// Tell says something in chat that belongs to no job.
func (d *Desk) Tell(ctx context.Context, words string) error {
	defer d.nudge()
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error { return d.planSay(tx, 0, words) })
}
