package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox"
	"fairtape/reply/eml"
	"fairtape/reply/smtp"
)

// send hands a letter to the mail server, as it lies in Drafts now: what a
// person changed there is what goes out. A letter that may have gone out is
// looked for in Sent; without proof a person has to look.
func (d *Desk) send(ctx context.Context, i ledger.Intent) (outcome, error) {
	draft, err := d.draft(ctx, i)
	if err != nil {
		return outcome{}, err
	}
	if draft.State != ledger.DraftSending {
		return outcome{state: notWanted, words: "the letter is " + string(draft.State)}, nil
	}
	if i.Unsure {
		return d.prove(ctx, draft, "the program ended while the letter was being sent")
	}
	letter, err := d.current(ctx, draft)
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	out, err := eml.Ready(letter, d.Shop.From, draft.MailID, d.local())
	if err != nil {
		return d.giveUp(draft, "the letter in Drafts cannot be sent as it is: "+err.Error()), nil
	}
	// What goes out, and under which Message-ID, is on the ledger before it goes.
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		return tx.SetOutgoing(d.Account, draft.ID, out.MessageID, out.Raw)
	})
	if err != nil {
		return outcome{}, err
	}
	draft.OutgoingID = out.MessageID
	d.Crash(CrashSending)
	return d.judgeSending(ctx, draft, i, d.Sender.Send(ctx, out.From, out.To, out.Raw))
}

// CrashSending is the last point before a letter is handed over.
const CrashSending = "about to send"

// current returns the letter as it lies in Drafts now.
func (d *Desk) current(ctx context.Context, draft ledger.Draft) ([]byte, error) {
	found, err := d.inDrafts(ctx, draft)
	if err != nil {
		return nil, err
	}
	if i := slices.IndexFunc(found, func(l lying) bool { return !l.ours }); i >= 0 {
		return found[i].raw, nil
	}
	return draft.MIME, nil
}

// judgeSending turns the results for all recipients into one outcome. A letter
// that reached any of them counts as sent; who was left out is said.
func (d *Desk) judgeSending(ctx context.Context, draft ledger.Draft, i ledger.Intent, results []smtp.Result) (outcome, error) {
	count := map[smtp.Outcome]int{}
	var trouble []string
	for _, r := range results {
		count[r.Outcome]++
		if r.Outcome != smtp.Sent {
			trouble = append(trouble, fmt.Sprintf("%s: %v", r.To, r.Err))
		}
	}
	words := strings.Join(trouble, "; ")
	switch {
	case count[smtp.Unknown] > 0:
		return d.prove(ctx, draft, words)
	case count[smtp.Sent] > 0:
		return d.wasSent(draft, words), nil
	case count[smtp.Temporary] > 0 && d.Now().Sub(draft.Settled) < deadline:
		return outcome{state: later, words: words}, nil
	default:
		return d.giveUp(draft, "the mail server did not take it: "+words), nil
	}
}

// prove looks in Sent for a letter whose fate is not known.
func (d *Desk) prove(ctx context.Context, draft ledger.Draft, why string) (outcome, error) {
	found, err := d.Folders.FindSent(ctx, mailbox.Wanted{MessageID: mailID(draft), Draft: draft.ID.String()})
	if err != nil {
		return outcome{state: perhapsDone, words: err.Error()}, nil
	}
	if len(found) > 0 {
		return d.wasSent(draft, ""), nil
	}
	return outcome{state: failed, words: why, also: func(tx *ledger.Tx) error {
		if err := d.finishIn(tx, draft, ledger.DraftUnsure, draft.SettledBy); err != nil {
			return err
		}
		return d.planSay(tx, draft.ID.Job, fmt.Sprintf(
			"It is not known whether letter %s left: %s. Please ask the mail server or the customer; it is not sent again by itself. If it did not leave, say here: reopen. Then a new letter waits for you.", draft.ID, why))
	}}, nil
}

func (d *Desk) wasSent(draft ledger.Draft, trouble string) outcome {
	return outcome{words: trouble, also: func(tx *ledger.Tx) error {
		if err := d.finishIn(tx, draft, ledger.DraftSent, "by "+draft.SettledBy); err != nil {
			return err
		}
		if trouble != "" {
			if err := d.planSay(tx, draft.ID.Job, fmt.Sprintf("Letter %s did not reach everybody: %s", draft.ID, trouble)); err != nil {
				return err
			}
		}
		return tx.Plan(ledger.Intent{Account: d.Account, Draft: draft.ID, Act: ledger.FileSent})
	}}
}

// giveUp opens the letter again for a person.
func (d *Desk) giveUp(draft ledger.Draft, why string) outcome {
	return outcome{state: failed, words: why, also: func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, draft.ID.Job)
		if err != nil {
			return err
		}
		job.Summary.Draft, job.Summary.Letter, job.Summary.State = draft.ID.String(), draft.Letter, "could not be sent"
		if err := tx.SetDraft(d.Account, draft.ID, ledger.DraftOpen, ""); err != nil {
			return err
		}
		if err := tx.SaveJob(job); err != nil {
			return err
		}
		if err := d.planShow(tx, job.ID); err != nil {
			return err
		}
		return d.planSay(tx, job.ID, fmt.Sprintf("Letter %s was not sent: %s", draft.ID, why))
	}}
}

// fileSent puts a copy of a sent letter into Sent; a provider that does so
// itself is not doubled.
func (d *Desk) fileSent(ctx context.Context, i ledger.Intent) (outcome, error) {
	draft, err := d.draft(ctx, i)
	if err != nil {
		return outcome{}, err
	}
	_, already, err := d.Folders.FileSent(ctx, draft.Outgoing, draft.OutgoingID)
	switch {
	case err != nil:
		return outcome{state: perhapsDone, words: err.Error()}, nil
	case already:
		return outcome{words: "the server filed it itself"}, nil
	}
	return outcome{}, nil
}
