package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
)

// Schedule says when the desk acts by itself.
type Schedule struct {
	ReminderDays int           // after a letter went unanswered; 0 for no reminders
	Reminders    int           // at most, for one letter
	DigestAt     time.Duration // after midnight, on the shop's clock
}

// Tick does what the time of day asks for: letters that were held until a day
// come back, reminders are drafted, the digest is said. What was done stands on
// the ledger, so that neither a restart nor a clock that jumps repeats it.
func (d *Desk) Tick(ctx context.Context) error {
	var jobs []ledger.Job
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		jobs, err = tx.Jobs(d.Account)
		return err
	})
	if err != nil {
		return err
	}
	for _, j := range jobs {
		switch {
		case j.State == ledger.HeldJob && !j.Until.IsZero() && !d.Now().Before(j.Until):
			err = d.resume(ctx, j.ID)
		case j.State == ledger.WaitingCustomer:
			err = d.remind(ctx, j.ID)
		}
		if err != nil {
			return fmt.Errorf("job %d: %w", j.ID, err)
		}
	}
	return errors.Join(d.forgetSilent(ctx), d.digest(ctx))
}

// resume brings a letter back that was held until a day.
func (d *Desk) resume(ctx context.Context, number int) error {
	defer d.nudge()
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, number)
		if err != nil || job.State != ledger.HeldJob {
			return err
		}
		job.State, job.Reason, job.Until = ledger.WaitingUs, "", time.Time{}
		words, err := d.remake(tx, &job, "the day it was held until", false, always)
		return errors.Join(err, d.planSay(tx, job.ID, "The day has come that this was held until. "+words))
	})
}

// remind drafts a reminder when the customer has not answered a letter that
// asks for something, or the tracings have not come. It is one more letter that
// waits for a person.
func (d *Desk) remind(ctx context.Context, number int) error {
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, number)
		if err != nil || job.State != ledger.WaitingCustomer {
			return err
		}
		last, err := tx.LastDraft(d.Account, number)
		if errors.Is(err, ledger.ErrNone) {
			return nil
		}
		if err != nil || !d.due(last) {
			return err
		}
		report, err := d.known(tx, job)
		if err != nil {
			return err
		}
		o := lastMail(job)
		o.reminder = last.Reminder + 1
		plan := reply.Decide(report, d.replyJob(job, reply.DraftID{Job: job.ID}, o))
		if !plan.Asks() && (!plan.Thanks || job.Tracings.Both()) {
			return nil
		}
		if _, err := d.write(tx, &job, report, o); err != nil {
			return err
		}
		d.nudge()
		return errors.Join(tx.SaveJob(job), d.planShow(tx, job.ID),
			d.planSay(tx, job.ID, fmt.Sprintf("No answer for %d days: a reminder waits for you.", d.ReminderDays)))
	})
}

// due reports that the last letter has gone unanswered long enough. The letter that
// was sent last carries how many reminders there were, so that the count ends
// with any new letter.
func (d *Desk) due(last ledger.Draft) bool {
	const day = 24 * time.Hour
	return d.ReminderDays > 0 && last.State == ledger.DraftSent && last.Reminder < d.Reminders &&
		d.Now().Sub(last.Settled) >= time.Duration(d.ReminderDays)*day
}

// farAhead is how far the day of the last digest may lie ahead of today before
// it counts as a clock that was wrong: a day is what a change of time zone does.
const farAhead = 48 * time.Hour

// digest says once a day, from the shop's hour on, who waits for whom. Days on
// which nobody waits for the shop are quiet.
func (d *Desk) digest(ctx context.Context) error {
	now := d.local()
	midnight := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	hour, minute := int(d.DigestAt/time.Hour), int(d.DigestAt%time.Hour/time.Minute)
	if now.Before(time.Date(now.Year(), now.Month(), now.Day(), hour, minute, 0, 0, now.Location())) {
		return nil
	}
	// Days are compared by their dates: where clocks go forward at midnight, a day
	// in spring has none.
	today := now.Format(time.DateOnly)
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		mark, err := tx.Mark(d.Account, ledger.DigestMark)
		if err != nil {
			return err
		}
		last, bad := time.ParseInLocation(time.DateOnly, mark, now.Location())
		if bad == nil && mark >= today && last.Sub(midnight) < farAhead {
			return nil
		}
		jobs, err := tx.Jobs(d.Account)
		if err != nil {
			return err
		}
		words := digestWords(jobs, last)
		if err := tx.SetMark(d.Account, ledger.DigestMark, today); err != nil || words == "" {
			return err
		}
		d.nudge()
		return d.planSay(tx, 0, words)
	})
}

// digestWords sums the jobs up, "" when the shop has nothing to do. What was
// opened or became ready since the day of the last digest is new.
func digestWords(jobs []ledger.Job, last time.Time) string {
	var fresh, us, customer, ready, aside []string
	news := false
	for _, j := range jobs {
		name := fmt.Sprintf("%d", j.ID)
		if j.Boat != "" {
			name += " (" + reply.Line(j.Boat) + ")"
		}
		if j.Created.After(last) && j.State != ledger.Closed {
			fresh = append(fresh, name)
		}
		switch j.State {
		case ledger.WaitingUs, ledger.HeldJob:
			us = append(us, name)
		case ledger.WaitingCustomer:
			customer = append(customer, name)
		case ledger.Ready:
			ready = append(ready, name)
			news = news || j.Updated.After(last)
		case ledger.SetAside:
			aside = append(aside, name)
		}
	}
	if len(fresh)+len(us)+len(aside) == 0 && !news {
		return ""
	}
	lines := []string{"Good morning. The jobs today:"}
	for _, list := range []struct {
		title string
		jobs  []string
	}{{"new", fresh}, {"waiting for us", us}, {"waiting for the customer", customer}, {"ready to cut", ready}, {"set aside", aside}} {
		if len(list.jobs) > 0 {
			lines = append(lines, fmt.Sprintf("%s: %s", list.title, strings.Join(slices.Clip(list.jobs), ", ")))
		}
	}
	return strings.Join(lines, "\n")
}
