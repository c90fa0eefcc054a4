package desk

import (
	"context"
	"fmt"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/eml"
)

// noteShut tells the shop in another place when the chat is shut to us, once: a
// note lies in Drafts, where the letters wait, until the chat is open again.
func (d *Desk) noteShut(tx *ledger.Tx, o outcome) error {
	if !o.spoke && !o.shut {
		return nil
	}
	note, err := tx.Mark(d.Account, ledger.NoteMark)
	switch {
	case err != nil:
		return err
	case o.shut && note == "":
		note = d.NewID()
		err = tx.SetMark(d.Account, ledger.NoteMark, note)
	case o.spoke && note != "":
		if err := tx.SetMark(d.Account, ledger.NoteMark, ""); err != nil {
			return err
		}
		return tx.Plan(ledger.Intent{Account: d.Account, Act: ledger.DropNote, Words: note})
	default:
		return nil
	}
	if err != nil {
		return err
	}
	return tx.Plan(ledger.Intent{Account: d.Account, Act: ledger.FileNote, Words: o.words})
}

// fileNote puts the note about the chat into Drafts.
func (d *Desk) fileNote(ctx context.Context, i ledger.Intent) (outcome, error) {
	var note string
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		note, err = tx.Mark(d.Account, ledger.NoteMark)
		return err
	})
	if err != nil {
		return outcome{}, err
	}
	if note == "" {
		return outcome{state: notWanted, words: "the chat is open again"}, nil
	}
	raw, err := eml.Marshal(reply.Draft{
		MessageID: note, From: d.Shop.From, To: d.Shop.From, Language: "en", Date: d.local(),
		Subject: "fairtape cannot write to the chat",
		Text: fmt.Sprintf("The chat is shut to fairtape: %s.\n\nMail is worked off as before, and letters wait here in Drafts. "+
			"What was to be said in chat is said when the chat is open again; this note goes away then.\n", i.Words),
	})
	if err != nil {
		return outcome{state: failed, words: err.Error()}, nil
	}
	if _, err := d.Folders.FileDraft(ctx, raw, note); err != nil {
		return outcome{state: perhapsDone, words: err.Error()}, nil
	}
	return outcome{}, nil
}

// dropNote takes the note out of Drafts.
func (d *Desk) dropNote(ctx context.Context, i ledger.Intent) (outcome, error) {
	list, err := d.Folders.Drafts(ctx)
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	for _, f := range list {
		if f.MessageID != i.Words {
			continue
		}
		if err := d.Folders.DeleteDraft(ctx, f.Location); err != nil {
			return outcome{state: perhapsDone, words: err.Error()}, nil
		}
	}
	return outcome{}, nil
}
