package desk

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/reply"
)

// missedLooks is how many looks in a row may find an open letter nowhere
// before it counts as thrown away: mail programs delete and append at an edit.
const missedLooks = 3

// lying is a letter as it lies in Drafts now.
type lying struct {
	at   ingest.Location
	raw  []byte
	ours bool // exactly as it was filed
	// sure says that an id names it. Else only the customer's message and
	// address do, as when a mail program dropped our headers; then it may also
	// be a person's own letter.
	sure bool
}

// mailID is the Message-ID that a letter goes by: a mail program that edits one
// may give it its own.
func mailID(draft ledger.Draft) string { return cmp.Or(draft.OutgoingID, draft.MailID) }

func wanted(draft ledger.Draft) mailbox.Wanted {
	return mailbox.Wanted{MessageID: mailID(draft), Draft: draft.ID.String(), Answers: draft.Answers, To: draft.Recipient}
}

// belongs reports how surely a letter in Drafts is the one on the ledger.
func belongs(f mailbox.Filed, draft ledger.Draft) mailbox.Match {
	if f.Draft != "" && f.Draft != draft.ID.String() {
		return mailbox.NoMatch // another version
	}
	return f.Match(wanted(draft))
}

// inDrafts returns what lies in Drafts of a letter: as it was filed, or as a
// person has changed it. What only looks like a successor counts when the
// letter itself is gone.
func (d *Desk) inDrafts(ctx context.Context, draft ledger.Draft) ([]lying, error) {
	list, err := d.Folders.Drafts(ctx)
	if err != nil {
		return nil, err
	}
	best := mailbox.ByReference
	for _, f := range list {
		if belongs(f, draft) > mailbox.ByReference {
			best = mailbox.ByMessageID
		}
	}
	var found []lying
	for _, f := range list {
		match := belongs(f, draft)
		if match < best {
			continue
		}
		raw, err := d.Folders.Fetch(ctx, f.Location)
		if err != nil {
			return nil, err
		}
		found = append(found, lying{f.Location, raw, sameMail(raw, draft.MIME), match > mailbox.ByReference})
	}
	return found, nil
}

// sameMail compares two mails; servers differ in how they end lines.
func sameMail(a, b []byte) bool {
	trim := func(m []byte) []byte {
		return bytes.TrimSpace(bytes.ReplaceAll(m, []byte("\r\n"), []byte("\n")))
	}
	return bytes.Equal(trim(a), trim(b))
}

// touched reports that a person has changed an open letter.
func (d *Desk) touched(ctx context.Context, draft ledger.Draft) (bool, error) {
	found, err := d.inDrafts(ctx, draft)
	return slices.ContainsFunc(found, func(l lying) bool { return !l.ours }), err
}

// LookAround looks at Drafts and Sent for what people did in their mail
// program: a letter sent from there, one written by hand that answers the
// customer, one thrown away. A letter of which it is not known whether it left
// may be found, too, and copies that should not be there any more.
func (d *Desk) LookAround(ctx context.Context) error {
	var open []ledger.Draft
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		open, err = tx.OpenDrafts(d.Account)
		return err
	})
	if err != nil {
		return err
	}
	list, err := d.Folders.Drafts(ctx)
	if err != nil {
		return err
	}
	failed := d.sweep(ctx, list)
	for _, draft := range open {
		if err := d.lookFor(ctx, draft, list); err != nil {
			return errors.Join(failed, fmt.Errorf("letter %s: %w", draft.ID, err))
		}
	}
	return failed
}

func (d *Desk) lookFor(ctx context.Context, draft ledger.Draft, drafts []mailbox.Filed) error {
	key := draft.ID.String()
	sent, err := d.sentFor(ctx, draft)
	if err != nil {
		return err
	}
	ours := func(f mailbox.Filed) bool { return f.Match(wanted(draft)) >= mailbox.ByMessageID }
	switch {
	case slices.ContainsFunc(sent, ours):
		delete(d.vanished, key)
		return d.finish(ctx, draft, ledger.DraftSent, "from the mail program", "was sent from the mail program")
	case draft.State == ledger.DraftUnsure:
		return nil // a proof may still turn up
	case len(sent) > 0:
		delete(d.vanished, key)
		return d.finish(ctx, draft, ledger.DraftSettled, "a letter written by hand", "is settled: somebody answered the customer by hand")
	}
	if slices.ContainsFunc(drafts, func(f mailbox.Filed) bool { return belongs(f, draft) != mailbox.NoMatch }) {
		delete(d.vanished, key)
		return nil
	}
	waiting, err := d.filing(ctx, draft)
	if err != nil || waiting {
		return err
	}
	d.vanished[key]++
	if d.vanished[key] < missedLooks {
		return nil
	}
	delete(d.vanished, key)
	return d.finish(ctx, draft, ledger.DraftHeld, thrownAway, "counts as held: it was thrown away in the mail program")
}

// skew is how far the clocks of two machines may lie apart.
const skew = 2 * time.Minute

// sentFor returns what lies in Sent of a letter, or in its place: an earlier
// letter of the job, which answers the same mail, is neither.
func (d *Desk) sentFor(ctx context.Context, draft ledger.Draft) ([]mailbox.Filed, error) {
	sent, err := d.Folders.FindSent(ctx, wanted(draft))
	if err != nil || len(sent) == 0 {
		return nil, err
	}
	var others []ledger.Draft
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		others, err = tx.Drafts(d.Account, draft.ID.Job)
		return err
	})
	return slices.DeleteFunc(sent, func(f mailbox.Filed) bool {
		if f.Match(wanted(draft)) != mailbox.ByReference {
			return false
		}
		return !f.Received.IsZero() && f.Received.Before(draft.Created.Add(-skew)) ||
			slices.ContainsFunc(others, func(o ledger.Draft) bool {
				return o.ID != draft.ID && (f.Draft == o.ID.String() || f.MessageID != "" && (f.MessageID == o.OutgoingID || f.MessageID == o.MailID))
			})
	}), err
}

// filing reports that a letter has not come into Drafts yet.
func (d *Desk) filing(ctx context.Context, draft ledger.Draft) (filing bool, err error) {
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		filing, err = tx.Waits(d.Account, draft.ID, ledger.FileDraft)
		return err
	})
	return filing, err
}

// finish records what became of a letter and says so.
func (d *Desk) finish(ctx context.Context, draft ledger.Draft, state ledger.DraftState, by, words string) error {
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		now, err := tx.Draft(d.Account, draft.ID)
		if err != nil || now.State != draft.State {
			return err
		}
		if err := d.finishIn(tx, now, state, by); err != nil {
			return err
		}
		return tx.Plan(ledger.Intent{Account: d.Account, Draft: reply.DraftID{Job: draft.ID.Job}, Act: ledger.Say,
			Words: fmt.Sprintf("Letter %s %s.", draft.ID, words)})
	})
}

// finishIn settles a letter and moves its job on.
func (d *Desk) finishIn(tx *ledger.Tx, draft ledger.Draft, state ledger.DraftState, by string) error {
	job, err := tx.Job(d.Account, draft.ID.Job)
	if err != nil {
		return err
	}
	job.Summary.Draft, job.Summary.Letter = "", "" // it stands in the thread already
	at := d.local().Format("15:04")
	switch state {
	case ledger.DraftSent:
		job.Summary.State = fmt.Sprintf("sent %s, %s", by, at)
		if draft.Asks > 0 && draft.Reminder == 0 {
			job.Rounds++
		}
		job.WantsForm, job.Question, job.Answer = false, "", ""
		err = d.gone(tx, &job)
	case ledger.DraftSettled:
		job.Summary.State = fmt.Sprintf("answered by hand, %s", at)
		job.WantsForm, job.Question, job.Answer = false, "", ""
		err = d.gone(tx, &job)
	case ledger.DraftHeld:
		job.Summary.State = fmt.Sprintf("held: %s, %s", by, at)
		job.State, job.Reason = ledger.HeldJob, by
	case ledger.DraftUnsure:
		job.Summary.State = fmt.Sprintf("it is not known whether letter %s left: please look, %s", draft.ID, at)
		job.State, job.Reason = ledger.HeldJob, "it is not known whether the letter left"
	}
	if err != nil {
		return err
	}
	err = tx.SetDraft(d.Account, draft.ID, state, by)
	if err == nil && state != ledger.DraftUnsure {
		err = tx.Plan(ledger.Intent{Account: d.Account, Draft: draft.ID, Act: ledger.DropDraft})
	}
	if err == nil {
		err = tx.SaveJob(job)
	}
	if err == nil {
		err = d.planShow(tx, job.ID)
	}
	return err
}

// gone moves a job on whose letter went out: the customer has the word, unless
// everything is in.
func (d *Desk) gone(tx *ledger.Tx, job *ledger.Job) error {
	job.State = ledger.WaitingCustomer
	v, err := tx.Survey(d.Account, job.ID)
	switch {
	case errors.Is(err, ledger.ErrNone):
		return nil
	case err == nil && stateOf(*job, v.Verdict) == ledger.Ready:
		job.State = ledger.Ready
		job.Summary.State += "; ready to cut"
	}
	return err
}
