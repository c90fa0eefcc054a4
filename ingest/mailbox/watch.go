package mailbox

import (
	"context"
	"errors"
	"math/rand/v2"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
)

// Delivery is one message of the inbox.
type Delivery struct {
	Location ingest.Location
	Received time.Time // the server's internal date
	Size     int64     // in bytes, as the server says
	Flags    []string
	Raw      []byte // the whole message; nil when Err is set
	// Err says why the message could not be fetched: ErrTooLarge or ErrBreaks.
	// It is delivered all the same, so that a person is told.
	Err error
	// Rescan is true for a message found while the mailbox is read anew (first
	// start, UIDVALIDITY changed, UIDNEXT fell): it may be known already under
	// another UID.
	Rescan bool
	// Cursor is to be recorded together with the message. During a rescan its
	// UIDValidity stays 0, so that a rescan that was cut off starts over.
	Cursor ingest.Cursor
}

// Rescanned tells that a mailbox has been read anew.
type Rescanned struct {
	Reason string        // for the log and the shop: "first start", ...
	Since  time.Time     // mail that arrived before was not handed over
	Older  int           // how many those are
	Cursor ingest.Cursor // to be recorded: the rescan is complete
}

// Watcher hands over what arrives in the inbox. Run may be called once.
type Watcher struct {
	Config Config
	Start  ingest.Cursor // where the last run ended; zero at first start
	Poll   time.Duration // pause between two looks, beside IDLE; at least a second
	Since  time.Duration // at a rescan, older mail is left alone
	Now    func() time.Time
	Random func() float64 // spreads pauses; nil: math/rand

	// Deliver takes a message. Returning nil says that the message and its
	// Cursor are on the ledger: only then the next one follows. After an error
	// the same message is delivered again, after a pause.
	Deliver func(context.Context, Delivery) error
	// Rescanned is told when a rescan is complete; nil on success as above.
	Rescanned func(context.Context, Rescanned) error
	// Looked is told after each look at the inbox that went well. It may be nil.
	Looked func()
	// Trouble is told about a lost or refused connection (errors.Is ErrSignIn,
	// ErrCertificate, ErrPlainText where it is one of those), and with nil once
	// the mailbox is watched again. It may be nil itself.
	Trouble func(error)
}

// pace is how long a watcher pauses.
type pace struct {
	first, most time.Duration // after a lost connection, doubling
	signIn      time.Duration // after a refused sign-in
	password    time.Duration // between two looks whether the password was changed then
	idle        time.Duration // IDLE is renewed at least this often
	command     time.Duration // after a command, for its answer
	batch       int           // messages looked at together
}

// Some servers end an IDLE after 10 minutes, hence 9. Providers lock accounts
// after a handful of wrong passwords within minutes, hence 15.
var usualPace = pace{
	first: time.Second, most: 5 * time.Minute, signIn: 15 * time.Minute, password: 10 * time.Second,
	idle: 9 * time.Minute, command: commandTime, batch: 50,
}

const (
	// strikes is how often a message may come in a way that is no IMAP before it
	// is left alone.
	strikes = 2
	// mostCuts is how often in a row the connection may be cut while a message is
	// fetched, or the server refuse to give it out. That is the line's fault or
	// the server's, not the message's; with the pauses it is some quarter of an
	// hour, after which the messages behind it should wait no longer.
	mostCuts = 12
)

// errLedger wraps what Deliver and Rescanned return: not the mailbox's fault.
type errLedger struct{ error }

func (e errLedger) Unwrap() error { return e.error }

// watch is the state of a running Watcher.
type watch struct {
	*Watcher
	pace   pace
	cursor ingest.Cursor
	rescan *rescan
	failed map[imap.UID]failures
	alone  imap.UID // up to this one, messages are looked at singly
}

// failures counts how often a message could not be fetched.
type failures struct{ broke, cut int }

// tooMany reports that the message is to be left alone.
func (f failures) tooMany() bool { return f.broke >= strikes || f.cut >= mostCuts }

// rescan is a reading anew that is under way.
type rescan struct {
	reason   string
	since    time.Time
	validity uint32
	last     imap.UID // highest handed over
	taken    int
}

// Run watches until ctx ends; that is the only way it returns but for a
// configuration that cannot work.
func (w *Watcher) Run(ctx context.Context) error { return w.run(ctx, usualPace) }

func (w *Watcher) run(ctx context.Context, p pace) error {
	if _, err := w.Config.check(); err != nil {
		return err
	}
	s := &watch{Watcher: w, pace: p, cursor: w.Start, failed: make(map[imap.UID]failures)}
	if s.cursor.Account != w.Config.Account || s.cursor.Mailbox != w.Config.inbox() {
		s.cursor = ingest.Cursor{Account: w.Config.Account, Mailbox: w.Config.inbox()}
	}
	pause := p.first
	for {
		worked, err := s.session(ctx)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if worked {
			pause = p.first
		}
		wait := s.jitter(pause)
		if errors.Is(err, ErrSignIn) {
			wait = p.signIn
		}
		w.Config.log().Warn("mailbox connection lost", "account", w.Config.Account, "error", err, "pause", wait)
		w.tell(err)
		if !s.rest(ctx, wait, err) {
			return ctx.Err()
		}
		pause = min(2*pause, p.most)
	}
}

// rest pauses after an error, and reports whether ctx still goes on. A password
// that was changed after the server refused the old one ends the pause.
func (s *watch) rest(ctx context.Context, wait time.Duration, err error) bool {
	for ; wait > s.pace.password; wait -= s.pace.password {
		if !sleep(ctx, s.pace.password) {
			return false
		}
		if s.Config.SignIn.changed(err) {
			return true
		}
	}
	return sleep(ctx, wait)
}

// jitter spreads a pause over a half to the whole of it, so that many clients
// do not come back at once.
func (s *watch) jitter(d time.Duration) time.Duration {
	return d/2 + time.Duration(s.random()*float64(d/2))
}

func (w *Watcher) random() float64 {
	if w.Random == nil {
		return rand.Float64()
	}
	return w.Random()
}

func (w *Watcher) tell(err error) {
	if w.Trouble != nil {
		w.Trouble(err)
	}
}

// sleep waits, and reports whether ctx still goes on.
func sleep(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// session watches over one connection until that breaks. worked reports
// whether the mailbox was seen at all.
func (s *watch) session(ctx context.Context) (worked bool, err error) {
	c, err := dial(ctx, s.Config)
	if err != nil {
		return false, err
	}
	defer c.abort()
	c.patience = s.pace.command
	pause := s.pace.first
	for {
		err := s.look(ctx, c)
		var ledger errLedger
		switch {
		case errors.As(err, &ledger):
			s.Config.log().Error("message not taken, will be delivered again", "error", ledger.error)
			if !sleep(ctx, s.jitter(pause)) {
				return worked, ctx.Err()
			}
			pause = min(2*pause, s.pace.most)
			continue
		case err != nil:
			return worked, err
		}
		pause = s.pace.first
		if s.Looked != nil {
			s.Looked()
		}
		if !worked {
			worked = true
			s.tell(nil)
		}
		if err := c.idle(ctx, min(max(s.Poll, time.Second), s.pace.idle)); err != nil {
			return worked, err
		}
	}
}
