package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox"
)

type jobsVerify struct {
	Since time.Duration `default:"720h" help:"How far back the mailbox is looked through."`
}

// Run compares the ledger with the mailbox and says what differs. It changes
// nothing.
func (c *jobsVerify) Run(t *terminal) error {
	conf, err := t.settings()
	if err != nil {
		return err
	}
	config, err := mailboxConfig(conf.IMAP, slog.New(slog.DiscardHandler))
	if err != nil {
		return err
	}
	folders := mailbox.NewFolders(config)
	var differ []string
	err = withBook(t, func(b book) error {
		differ, err = compare(t.ctx, b, folders, time.Now().Add(-c.Since))
		return err
	})
	if err = errors.Join(err, folders.Close()); err != nil {
		return err
	}
	for _, line := range differ {
		if _, err := fmt.Fprintln(t.out, escape(line)); err != nil {
			return err
		}
	}
	if len(differ) > 0 {
		return settle(statusOpen)
	}
	sayNotice(t.err, "ledger and mailbox agree")
	return nil
}

// lying is what a mailbox holds, and what the ledger knows of it.
type lying struct {
	inbox, drafts, sent []mailbox.Filed
	messages            []ledger.Message
	letters             []ledger.Draft
}

func compare(ctx context.Context, b book, folders *mailbox.Folders, since time.Time) (differ []string, err error) {
	var l lying
	if l.inbox, err = folders.InboxSince(ctx, since); err != nil {
		return nil, err
	}
	if l.drafts, err = folders.Drafts(ctx); err != nil {
		return nil, err
	}
	if l.sent, err = folders.SentSince(ctx, since); err != nil {
		return nil, err
	}
	err = b.View(ctx, func(tx *ledger.Tx) error {
		for _, m := range l.inbox {
			known, err := tx.MessageAt(m.Location)
			if err != nil && !errors.Is(err, ledger.ErrNone) {
				return err
			}
			l.messages = append(l.messages, known)
		}
		jobs, err := tx.Jobs(b.account)
		for _, j := range jobs {
			drafts, e := tx.Drafts(b.account, j.ID)
			err = errors.Join(err, e)
			l.letters = append(l.letters, drafts...)
		}
		return err
	})
	return append(l.mails(), l.lettersDiffer(since)...), err
}

// mails lists the mails that the ledger does not know, or has not brought to
// an end.
func (l lying) mails() (differ []string) {
	for i, m := range l.inbox {
		switch known := l.messages[i]; {
		case known.ID == 0:
			differ = append(differ, fmt.Sprintf("inbox: message %d (%s) is not on the ledger", m.Location.UID, m.Subject))
		case known.End == ledger.New:
			differ = append(differ, fmt.Sprintf("inbox: message %d (%s) is not worked off", m.Location.UID, m.Subject))
		}
	}
	return differ
}

// lettersDiffer lists the letters that lie where the ledger does not expect
// them, or do not lie where it does.
func (l lying) lettersDiffer(since time.Time) (differ []string) {
	open := map[string]bool{}
	for _, d := range l.letters {
		want := mailbox.Wanted{MessageID: d.MailID, Draft: d.ID.String(), Answers: d.Answers, To: d.Recipient}
		if d.OutgoingID != "" {
			want.MessageID = d.OutgoingID
		}
		there := func(list []mailbox.Filed) bool {
			return slices.ContainsFunc(list, func(f mailbox.Filed) bool { return f.Match(want) != mailbox.NoMatch })
		}
		switch {
		case d.State == ledger.DraftOpen, d.State == ledger.DraftSending:
			open[d.ID.String()] = true
			if !there(l.drafts) {
				differ = append(differ, fmt.Sprintf("letter %s waits on the ledger, but does not lie in Drafts", d.ID))
			}
		case d.State == ledger.DraftSent && d.Settled.After(since) && !there(l.sent):
			differ = append(differ, fmt.Sprintf("letter %s counts as sent, but no copy lies in Sent", d.ID))
		case d.State == ledger.DraftUnsure:
			differ = append(differ, fmt.Sprintf("letter %s: it is not known whether it left", d.ID))
		}
	}
	for _, f := range l.drafts {
		if f.Draft != "" && !open[f.Draft] {
			differ = append(differ, fmt.Sprintf("letter %s lies in Drafts, but does not wait on the ledger", f.Draft))
		}
	}
	return differ
}
