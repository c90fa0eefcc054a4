package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

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
		touched, err := d.touchedBefore(ctx, decision)
		if err != nil {
			return fmt.Errorf("act on decision %d: %w", decision.ID, err)
		}
		err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
			outcome, err := d.heed(tx, decision, touched)
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

// touchedBefore reports that the open letter, which a decision about its job
// would make anew, was changed by a person in the mail program. It is asked
// before the ledger is changed, which is not kept waiting for the mail server.
func (d *Desk) touchedBefore(ctx context.Context, c ledger.Decision) (bool, error) {
	switch c.Choice {
	case ledger.ChooseCorrect, ledger.ChooseOwn, ledger.ChooseReceived, ledger.ChooseAnswered, ledger.ChooseSplit, ledger.ChooseReopen:
	default:
		return false, nil
	}
	var open ledger.Draft
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		open, err = tx.OpenDraft(d.Account, c.Draft.Job)
		return err
	})
	if errors.Is(err, ledger.ErrNone) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	return d.touched(ctx, open)
}

// heed acts on one decision, and returns what came of it in words. The first
// decision about a letter counts; a later one is told so.
func (d *Desk) heed(tx *ledger.Tx, c ledger.Decision, touched bool) (string, error) {
	switch c.Choice {
	case ledger.ChooseSend, ledger.ChooseHold, ledger.ChooseEdit:
		return d.heedLetter(tx, c)
	}
	job, err := tx.Job(d.Account, c.Draft.Job)
	if errors.Is(err, ledger.ErrNone) {
		return "there is no such job", nil
	}
	if err != nil {
		return "", err
	}
	words, err := d.heedJob(tx, c, job, touched)
	if err != nil || words == "" {
		return words, err
	}
	return words, errors.Join(d.planSay(tx, job.ID, c.Person+": "+words), d.planCover(tx, job.ID))
}

// heedJob acts on a decision about a job.
func (d *Desk) heedJob(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	switch c.Choice {
	case ledger.ChooseClose:
		return d.heedClose(tx, c, job)
	case ledger.ChooseNote:
		return "noted", nil
	case ledger.ChooseAnswered:
		return d.heedAnswered(tx, c, job, touched)
	case ledger.ChooseCorrect:
		return d.heedCorrect(tx, c, job, touched)
	case ledger.ChooseOwn:
		return d.heedOwn(tx, c, job, touched)
	case ledger.ChooseTape:
		return d.heedTape(tx, c, job)
	case ledger.ChooseReceived:
		return d.heedReceived(tx, c, job, touched)
	case ledger.ChooseJoin:
		return d.heedJoin(tx, c, job)
	case ledger.ChooseSplit:
		return d.heedSplit(tx, c, job, touched)
	case ledger.ChooseNo:
		return d.heedNo(tx, c, job)
	case ledger.ChooseReopen:
		return d.heedReopen(tx, c, job, touched)
	case ledger.ChooseCloth:
		return d.heedCloth(tx, c, job)
	case ledger.ChooseCut:
		return d.heedCut(tx, job)
	case ledger.ChooseFit:
		return d.heedFit(tx, c, job)
	case ledger.ChooseFile:
		return "", tx.Plan(ledger.Intent{Account: d.Account, Draft: reply.DraftID{Job: job.ID}, Act: ledger.TakeFile, Words: c.Words})
	}
	return "nothing is known of " + string(c.Choice), nil
}

// heedLetter acts on a decision about a letter.
func (d *Desk) heedLetter(tx *ledger.Tx, c ledger.Decision) (string, error) {
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
		return d.heedHold(tx, c, draft)
	default:
		return d.heedEdit(tx, c, draft)
	}
}

// heedHold holds a letter back: for good, or until a day that Words begins
// with, "until 2006-01-02".
func (d *Desk) heedHold(tx *ledger.Tx, c ledger.Decision, draft ledger.Draft) (string, error) {
	by := "by " + c.Person
	if c.Words != "" {
		by += ", " + c.Words
	}
	if err := d.finishIn(tx, draft, ledger.DraftHeld, by); err != nil {
		return "", err
	}
	job, err := tx.Job(d.Account, draft.ID.Job)
	if err != nil {
		return "", err
	}
	job.Until, _ = d.untilDay(c.Words)
	return "held", tx.SaveJob(job)
}

// Until words a hold until a day.
func Until(day, reason string) string { return strings.TrimSpace("until " + day + " " + reason) }

// untilDay returns the morning of the day that a hold names.
func (d *Desk) untilDay(words string) (time.Time, bool) {
	rest, ok := strings.CutPrefix(words, "until ")
	if !ok || len(rest) < len(time.DateOnly) {
		return time.Time{}, false
	}
	day, err := time.ParseInLocation(time.DateOnly, rest[:len(time.DateOnly)], d.Timezone)
	return day, err == nil
}

// heedAnswered takes the customer's question as answered; with words, the
// letter gives them as the answer.
func (d *Desk) heedAnswered(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	if strings.TrimSpace(c.Words) != "" {
		job.Answer = strings.TrimSpace(c.Words)
		more, err := d.remake(tx, &job, "answered by "+c.Person, touched, inPlace)
		return strings.TrimSpace("The letter gives the answer. " + more), err
	}
	job.Question, job.Summary.Question = "", ""
	words := "The question counts as answered."
	open, err := tx.OpenDraft(d.Account, job.ID)
	switch {
	case err == nil:
		err = tx.AnswerQuestion(d.Account, open.ID)
	case errors.Is(err, ledger.ErrNone):
		err = nil
	}
	return words, errors.Join(err, tx.SaveJob(job), d.planShow(tx, job.ID))
}

// tooLate tells a person that somebody, or the customer, was faster.
func (d *Desk) tooLate(tx *ledger.Tx, c ledger.Decision, draft ledger.Draft) (string, error) {
	why := fmt.Sprintf("letter %s %s already", draft.ID, became(draft.State))
	if draft.SettledBy != "" {
		why += " (" + draft.SettledBy + ")"
	}
	if draft.State == ledger.DraftSending && c.Choice == ledger.ChooseSend {
		return why, nil
	}
	return why, d.planSay(tx, draft.ID.Job, fmt.Sprintf("%s: %s, so nothing was done.", c.Person, why))
}

// became says what became of a letter, behind its name.
func became(state ledger.DraftState) string {
	switch state {
	case ledger.DraftSending:
		return "is being sent"
	case ledger.DraftUnsure:
		return "has perhaps left"
	}
	return "is " + string(state)
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
func (d *Desk) heedClose(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
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
