// Package desk is the workflow: what happens to a mail from the moment it
// arrives until its boat is settled.
//
// A mail is read, joined to its job, judged and answered by a draft in one
// change of the ledger; nothing outside is touched before that change is safe.
// What is to be done outside - file the draft, post in chat, send a letter -
// stands on the ledger as an intention, and a worker does it, one act at a
// time. A service that was killed finds the act it was in, and looks for proof
// of it before it repeats anything.
//
// Nothing is sent without a decision of a person.
package desk

import (
	"context"
	"log/slog"
	"sync/atomic"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/origin"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/cover"
	"fairtape/reply/picture"
	"fairtape/reply/smtp"
	"fairtape/validate"
)

// Reader opens a message, its body and every file it brought. An error is our
// own failure and says nothing about the mail.
type Reader interface {
	Read(ctx context.Context, msg ingest.Message, name string) (opener.Mail, error)
}

// Senders tells whether a mail comes from whom it says, and why.
type Senders interface {
	Check(ctx context.Context, msg ingest.Message, raw []byte) (origin.Trust, string)
}

// Folders are the mailboxes that letters lie in.
type Folders interface {
	// FileDraft is safe to repeat: a letter that lies there already is found.
	FileDraft(ctx context.Context, raw []byte, messageID string) (ingest.Location, error)
	Drafts(ctx context.Context) ([]mailbox.Filed, error)
	DeleteDraft(ctx context.Context, at ingest.Location) error
	// FileSent is safe to repeat, like FileDraft.
	FileSent(ctx context.Context, raw []byte, messageID string) (at ingest.Location, already bool, err error)
	FindSent(ctx context.Context, want mailbox.Wanted) ([]mailbox.Filed, error)
	Fetch(ctx context.Context, at ingest.Location) ([]byte, error)
}

// Chat is where the shop is told. Its errors are those of package chat; unsure
// says that the same was perhaps said before.
type Chat interface {
	Show(ctx context.Context, s reply.Summary, at chat.Thread, unsure bool) (chat.Thread, error)
	Say(ctx context.Context, at chat.Thread, key, text string, unsure bool) (chat.Thread, error)
	// Hand puts a file into a thread; its name tells it from all others.
	Hand(ctx context.Context, at chat.Thread, file reply.File, unsure bool) error
	// Download fetches a file that somebody dropped into a thread.
	Download(ctx context.Context, file chat.File, limit int) ([]byte, error)
}

// Sender hands a letter to the mail server.
type Sender interface {
	Send(ctx context.Context, from string, to []string, raw []byte) []smtp.Result
}

// Drawings are the pictures in posts and letters, as package picture makes
// them. A nil function draws nothing.
type Drawings struct {
	ForShop     func(validate.Report) (picture.Picture, error)
	ForCustomer func(survey parse.Survey, asked []parse.Cell, language string) (picture.Picture, error)
}

// Config is what a desk works with.
type Config struct {
	Account    string
	Own        []string // the shop's addresses
	Shop       reply.Shop
	Language   string // of letters, where the customer's cannot be told
	Timezone   *time.Location
	AnswerDays int
	Schedule
	Costs validate.Costs
	Staff []string // addresses whose forwarded surveys are the customer's

	Ledger  *ledger.Ledger
	Reader  Reader
	Senders Senders
	Texts   *reply.Texts
	Draw    Drawings
	Papers  Papers
	Cloths  map[string]cover.Cloth // of the settings, by name; none: no cut sheets
	Folders Folders
	Chat    Chat
	Sender  Sender // nil: letters are sent from the mail program only

	Keep  time.Duration // how long a silent customer is remembered; 0 for ever
	Poll  time.Duration // between two looks at Drafts and Sent
	Now   func() time.Time
	NewID func() string // a new Message-ID, without angle brackets
	Log   *slog.Logger
	// Crash is called with the name of each point between two outside acts; a
	// test ends the program there. Nil does nothing.
	Crash func(point string)
}

// Desk works off the mail of one account. One Desk serves a ledger at a time.
type Desk struct {
	Config
	rules    atomic.Pointer[rules] // in place of Texts and Costs, see Reload
	wake     chan struct{}         // holds one token when there may be something to do
	vanished map[string]int        // looks in a row at which an open draft was nowhere
	crowd    crowd
}

// New returns a desk.
func New(c Config) *Desk {
	if c.Crash == nil {
		c.Crash = func(string) {}
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	d := &Desk{Config: c, wake: make(chan struct{}, 1), vanished: map[string]int{}}
	d.Reload(c.Texts, c.Costs)
	return d
}

// nudge tells the worker that there may be something to do.
func (d *Desk) nudge() {
	select {
	case d.wake <- struct{}{}:
	default:
	}
}

// local is now, on the shop's wall clock.
func (d *Desk) local() time.Time { return d.Now().In(d.Timezone) }
