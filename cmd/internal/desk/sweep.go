package desk

import (
	"context"
	"errors"
	"slices"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox"
)

// mostSweeps is how often Drafts is swept of one letter: a second time for a
// program that ended twice while it was filed. A copy that comes back after
// that was put there by a person, and stays.
const mostSweeps = 2

// thrownAway is who settled a letter that a person took out of Drafts.
const thrownAway = "thrown away in the mail program"

// sweep looks in Drafts for letters that wait no longer, and for second copies
// of those that do, and plans to take them out. A mail server may finish filing
// a letter long after the connection is gone over which it came: then it was
// not there when the letter was replaced.
func (d *Desk) sweep(ctx context.Context, list []mailbox.Filed) error {
	var stale []ledger.Draft
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		seen := map[string]bool{}
		for _, f := range list {
			draft, err := d.superfluous(tx, f, seen[f.MessageID])
			seen[f.MessageID] = true
			if errors.Is(err, ledger.ErrNone) {
				continue
			}
			if err != nil {
				return err
			}
			stale = append(stale, draft)
		}
		return nil
	})
	if err != nil || len(stale) == 0 {
		return err
	}
	defer d.nudge()
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) (err error) {
		for _, draft := range stale {
			err = errors.Join(err, tx.Plan(ledger.Intent{Account: d.Account, Draft: draft.ID, Act: ledger.SweepDraft}))
		}
		return err
	})
}

// superfluous returns the letter of which a copy in Drafts should not be there,
// ErrNone when it should, or when that is for a person to say. Again says that
// it is not the first copy of that letter.
func (d *Desk) superfluous(tx *ledger.Tx, f mailbox.Filed, again bool) (ledger.Draft, error) {
	id, err := ParseDraftID(f.Draft)
	if err != nil {
		return ledger.Draft{}, ledger.ErrNone
	}
	draft, err := tx.Draft(d.Account, id)
	switch {
	case err != nil:
		return draft, err
	case f.MessageID != draft.MailID, draft.SettledBy == thrownAway, waits(draft) && !again:
		return draft, ledger.ErrNone
	}
	acts, err := tx.ActsFor(d.Account, id)
	if err != nil {
		return draft, err
	}
	if len(acts.Waiting) > 0 || acts.All[ledger.SweepDraft] >= mostSweeps {
		return draft, ledger.ErrNone
	}
	return draft, nil
}

// waits reports that a letter may lie in Drafts.
func waits(draft ledger.Draft) bool {
	return slices.Contains([]ledger.DraftState{ledger.DraftOpen, ledger.DraftSending, ledger.DraftUnsure}, draft.State)
}

// sweepDraft takes copies of a letter out of Drafts that are exactly as they
// were filed: all of them, or all but the first when the letter still waits.
func (d *Desk) sweepDraft(ctx context.Context, i ledger.Intent) (outcome, error) {
	draft, err := d.draft(ctx, i)
	if err != nil {
		return outcome{}, err
	}
	found, err := d.inDrafts(ctx, draft)
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	found = slices.DeleteFunc(found, func(l lying) bool { return !l.sure || !l.ours })
	if waits(draft) && len(found) > 0 {
		found = found[1:]
	}
	return d.takeOut(ctx, found), nil
}
