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
	box     mailbox.Config
	texts   *reply.Texts
	sender  desk.Sender // nil where no server for sending is set up
	folders *mailbox.Folders
	desk    *desk.Desk
	watcher *mailbox.Watcher
	poster  *chat.Poster // nil without Slack
	posts   desk.Chat    // the poster, or the terminal
	log     *slog.Logger
	board   *status.Board
	alarmed atomic.Bool // the shop has been told that the mailbox is lost
	stuck   atomic.Bool // and that the ledger cannot be written
}

// prepare makes what the settings alone decide, so that a wrong one ends the
// start before anything is made or opened. Others are the channels of other
// inboxes that the same chat app serves.
func (b *branch) prepare(others []string) (err error) {
	if b.box, err = mailboxConfig(b.conf.IMAP, b.log); err != nil {
		return err
	}
	if b.conf.Slack.Channel != "" {
		if b.poster, err = newPoster(b.conf.Slack, others, b.log); err != nil {
			return err
		}
	}
	if b.texts, err = reply.LoadTexts(ownTexts(b.conf)); err != nil {
		return &exit{statusUsage, err, "the texts lie in the folder that letters.folder names"}
	}
	b.sender, err = newSender(b.conf)
	return err
}

// open opens the inbox over a ledger. Without Slack, posts go to terminal.
func (b *branch) open(ctx context.Context, book *ledger.Ledger, reader *opener.Opener, terminal desk.Chat, crash func(string)) error {
	b.posts = terminal
	if b.poster != nil {
		b.posts = b.poster
	}
	b.folders = mailbox.NewFolders(b.box)
	b.desk = b.newDesk(book, reader, crash)
	var start ingest.Cursor
	err := book.View(ctx, func(tx *ledger.Tx) (err error) {
		start, err = tx.Cursor(b.box.Account, b.box.Inbox)
		return err
	})
	b.watcher = &mailbox.Watcher{
		Config:    b.box,
		Start:     start,
		Poll:      b.conf.IMAP.Poll.Duration,
		Since:     b.conf.IMAP.Since.Duration,
		Now:       time.Now,
		Deliver:   b.receive,
		Rescanned: b.desk.Rescanned,
		Looked:    func() { b.board.Looked(b.box.Account) },
		Trouble:   b.trouble,
	}
	return err
}

func (b *branch) newDesk(book *ledger.Ledger, reader *opener.Opener, crash func(string)) *desk.Desk {
	conf := b.conf
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
		Texts:   b.texts,
		Draw:    desk.Drawings{ForShop: picture.ForShop, ForCustomer: picture.ForCustomer},
		Papers:  papers(conf),
		Cloths:  cloths(conf),
		Folders: b.folders,
		Chat:    b.posts,
		Sender:  b.sender,
		Keep:    conf.Keep.Customers.Duration,
		Poll:    conf.IMAP.Poll.Duration,
		Now:     time.Now,
		NewID:   func() string { return desk.NewMailID(conf.Shop.From) },
		Log:     b.log,
		Crash:   crash,
	})
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

// receive hands a mail to the desk. What is said in chat stands on the ledger
// first; that the ledger cannot be written is said without it, once.
func (b *branch) receive(ctx context.Context, d mailbox.Delivery) error {
	err := b.desk.Receive(ctx, d)
	switch {
	case err == nil && b.stuck.CompareAndSwap(true, false):
		b.tell("The ledger can be written again; the mails that waited are worked off.")
	case ledger.Unwritable(err) && b.stuck.CompareAndSwap(false, true):
		words := "The ledger cannot be written, so no mail is worked off; none is lost. Please see whether the disk is full: " + err.Error()
		key := "ledger-" + time.Now().UTC().Format("2006-01-02T15") // it may be said again an hour later
		if _, said := b.posts.Say(ctx, chat.Thread{}, key, words, true); said != nil {
			b.log.Error("say that the ledger cannot be written", "error", said)
			b.stuck.Store(false)
		}
	}
	return err
}

// tell says something in chat that belongs to no job.
func (b *branch) tell(words string) {
	if err := b.desk.Tell(context.Background(), words); err != nil {
		b.log.Error("record what is to be said in chat", "error", err)
	}
}
