package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox"
)

// thrownAway is who settled a letter that a person took out of Drafts.
const thrownAway = "thrown away in the mail program"

// sweep takes out of Drafts the copies of letters that wait no longer, and
// second copies of those that do. A mail server may file a letter long after
// the program was ended that sent it, so that it was not there when the letter
// was looked for. A copy that is exactly as it was filed holds nothing that the
// ledger does not, so each look takes out what it finds, and none has to be
// planned or counted: whenever the server files it, the next look ends it.
func (d *Desk) sweep(ctx context.Context, list []mailbox.Filed) (failed error) {
	seen := map[string]bool{}
	for _, f := range list {
		if f.Deleted() {
			continue
		}
		draft, err := d.superfluous(ctx, f, seen[f.MessageID])
		seen[f.MessageID] = true
		if err == nil {
			err = d.takeOutUnchanged(ctx, f, draft)
		}
		if err != nil && !errors.Is(err, ledger.ErrNone) && !errors.Is(err, mailbox.ErrGone) {
			failed = errors.Join(failed, fmt.Errorf("copy %d of letter %s: %w", f.Location.UID, f.Draft, err))
		}
	}
	return failed
}

// superfluous returns the letter of which a copy in Drafts should not be there,
// ErrNone when it should, or when that is for a person to say. Again says that
// it is not the first copy of that letter.
func (d *Desk) superfluous(ctx context.Context, f mailbox.Filed, again bool) (draft ledger.Draft, err error) {
	id, err := ParseDraftID(f.Draft)
	if err != nil {
		return draft, ledger.ErrNone
	}
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		draft, err = tx.Draft(d.Account, id)
		return err
	})
	if err == nil && (f.MessageID != draft.MailID || draft.SettledBy == thrownAway || waits(draft) && !again) {
		err = ledger.ErrNone
	}
	return draft, err
}

// waits reports that a letter may lie in Drafts.
func waits(draft ledger.Draft) bool {
	return slices.Contains([]ledger.DraftState{ledger.DraftOpen, ledger.DraftSending, ledger.DraftUnsure}, draft.State)
}

// takeOutUnchanged takes a copy of a letter out of Drafts, unless a person has
// changed it.
func (d *Desk) takeOutUnchanged(ctx context.Context, f mailbox.Filed, draft ledger.Draft) error {
	raw, err := d.Folders.Fetch(ctx, f.Location)
	if err != nil || !sameMail(raw, draft.MIME) {
		return err
	}
	return d.Folders.DeleteDraft(ctx, f.Location)
}
