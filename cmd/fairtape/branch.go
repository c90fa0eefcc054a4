package main

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"sync/atomic"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/status"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/origin"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/picture"
)

// branch is one inbox: a mailbox with the desk that works off its mail and the channel
// where its shop is told.
type branch struct {
	conf    settings.Settings
	own     []string // addresses that letters of any inbox come from
	folders *mailbox.Folders
	desk    *desk.Desk
	watcher *mailbox.Watcher
	poster  *chat.Poster // nil without Slack
	log     *slog.Logger
	board   *status.Board
	alarmed atomic.Bool // the shop has been told that the mailbox is lost
}

// wire makes the parts of an inbox. Others are the channels of other inboxes
// that the same chat app serves.
func (b *branch) wire(ctx context.Context, book *ledger.Ledger, reader *opener.Opener, terminal desk.Chat, others []string, crash func(string)) error {
	conf := b.conf
	box, err := mailboxConfig(conf.IMAP, b.log)
	if err != nil {
		return err
	}
	posts := terminal
	if conf.Slack.Channel != "" {
		if b.poster, err = newPoster(conf.Slack, others, b.log); err != nil {
			return err
		}
		posts = b.poster
	}
	b.folders = mailbox.NewFolders(box)
	if b.desk, err = b.newDesk(book, reader, posts, crash); err != nil {
		return err
	}
	var start ingest.Cursor
	err = book.View(ctx, func(tx *ledger.Tx) error {
		start, err = tx.Cursor(box.Account, conf.IMAP.Inbox)
		return err
	})
	b.watcher = &mailbox.Watcher{
		Config:    box,
		Start:     start,
		Poll:      conf.IMAP.Poll.Duration,
		Since:     conf.IMAP.Since.Duration,
		Now:       time.Now,
		Deliver:   b.desk.Receive,
		Rescanned: b.desk.Rescanned,
		Looked:    func() { b.board.Looked(box.Account) },
		Trouble:   b.trouble,
	}
	return err
}

func (b *branch) newDesk(book *ledger.Ledger, reader *opener.Opener, posts desk.Chat, crash func(string)) (*desk.Desk, error) {
	conf := b.conf
	texts, err := reply.LoadTexts(ownTexts(conf))
	if err != nil {
		return nil, &exit{statusUsage, err, "the texts lie in the folder that letters.folder names"}
	}
	sender, err := newSender(conf)
	if err != nil {
		return nil, err
	}
	return desk.New(desk.Config{
		Account:    conf.IMAP.Account(),
		Own:        b.own,
		Shop:       shop(conf),
		Language:   conf.Shop.Language,
		Timezone:   conf.Shop.Timezone.Location,
		AnswerDays: conf.Letters.AnswerDays,
		Schedule: desk.Schedule{ReminderDays: conf.Letters.ReminderDays, Reminders: conf.Letters.Reminders,
			DigestAt: conf.Digest.At.SinceMidnight},
		Staff:   conf.Shop.Staff,
		Costs:   costs(conf),
		Ledger:  book,
		Reader:  reader,
		Senders: origin.Authenticator{AuthservID: conf.IMAP.AuthServID, LookupTXT: net.DefaultResolver.LookupTXT},
		Texts:   texts,
		Draw:    desk.Drawings{ForShop: picture.ForShop, ForCustomer: picture.ForCustomer},
		Papers:  papers(conf),
		Cloths:  cloths(conf),
		Folders: b.folders,
		Chat:    posts,
		Sender:  sender,
		Poll:    conf.IMAP.Poll.Duration,
		Now:     time.Now,
		NewID:   func() string { return desk.NewMailID(conf.Shop.From) },
		Log:     b.log,
		Crash:   crash,
	}), nil
}

// listens reports that there is a token for hearing what people press.
func (b *branch) listens() bool {
	return b.conf.Slack.AppTokenFile != "" || b.conf.Slack.AppTokenEnv != ""
}

// trouble says that the mailbox is lost, and that it is back. What only a
// person can mend is said in chat too, once.
func (b *branch) trouble(err error) {
	if err != nil {
		b.board.Trouble(b.conf.IMAP.Account(), err)
	}
	switch {
	case err == nil:
		b.log.Info("the mailbox is watched")
		if b.alarmed.CompareAndSwap(true, false) {
			b.tell("The mailbox is watched again.")
		}
	case errors.Is(err, mailbox.ErrSignIn), errors.Is(err, mailbox.ErrCertificate), errors.Is(err, mailbox.ErrPlainText):
		b.log.Error("the mailbox cannot be watched until the settings are changed", "error", err)
		if b.alarmed.CompareAndSwap(false, true) {
			b.tell("The mailbox cannot be watched, so no mail is worked off: " + err.Error())
		}
	default:
		b.log.Warn("the mailbox is out of reach; trying again", "error", err)
	}
}

// tell says something in chat that belongs to no job.
func (b *branch) tell(words string) {
	if err := b.desk.Tell(context.Background(), words); err != nil {
		b.log.Error("record what is to be said in chat", "error", err)
	}
}
