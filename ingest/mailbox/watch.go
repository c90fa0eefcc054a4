package mailbox

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
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
	// Trouble is told about a lost or refused connection (errors.Is ErrSignIn,
	// ErrCertificate, ErrPlainText where it is one of those), and with nil once
	// the mailbox is watched again. It may be nil itself.
	Trouble func(error)
}

// pace is how long a watcher pauses.
type pace struct {
	first, most time.Duration // after a lost connection, doubling
	signIn      time.Duration // after a refused sign-in
	idle        time.Duration // IDLE is renewed at least this often
	batch       int           // messages looked at together
}

// Some servers end an IDLE after 10 minutes, hence 9. Providers lock accounts
// after a handful of wrong passwords within minutes, hence 15.
var usualPace = pace{
	first: time.Second, most: 5 * time.Minute, signIn: 15 * time.Minute,
	idle: 9 * time.Minute, batch: 50,
}

// strikes is how often a message may break the connection before it is left
// alone.
const strikes = 2

// errLedger wraps what Deliver and Rescanned return: not the mailbox's fault.
type errLedger struct{ error }

func (e errLedger) Unwrap() error { return e.error }

// watch is the state of a running Watcher.
type watch struct {
	*Watcher
	pace   pace
	cursor ingest.Cursor
	rescan *rescan
	broken map[imap.UID]int // how often fetching it broke the connection
	alone  imap.UID         // up to this one, messages are looked at singly
}

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
	s := &watch{Watcher: w, pace: p, cursor: w.Start, broken: make(map[imap.UID]int)}
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
		if !sleep(ctx, wait) {
			return ctx.Err()
		}
		pause = min(2*pause, p.most)
	}
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
		if !worked {
			worked = true
			s.tell(nil)
		}
		if err := c.idle(ctx, min(max(s.Poll, time.Second), s.pace.idle)); err != nil {
			return worked, err
		}
	}
}

// look hands over everything that is new.
func (s *watch) look(ctx context.Context, c *conn) error {
	state, err := c.selectMailbox(ctx, s.Config.inbox(), true)
	if err != nil {
		return err
	}
	s.noticeRescan(state)
	if s.rescan != nil {
		return s.lookAnew(ctx, c, state)
	}
	last := imap.UID(s.cursor.LastUID)
	select { // what was told before this look is seen by it
	case <-c.news:
	default:
		if state.next == last+1 {
			return nil
		}
	}
	uids, err := c.search(ctx, &imap.SearchCriteria{UID: above(last)})
	if err != nil {
		return err
	}
	return s.handOver(ctx, c, uids)
}

// noticeRescan decides whether the mailbox has to be read anew.
func (s *watch) noticeRescan(state mailboxState) {
	reason := ""
	switch {
	case s.rescan != nil && s.rescan.validity == state.validity:
		return // goes on where it was
	case s.cursor.UIDValidity == 0:
		reason = "first start"
	case s.cursor.UIDValidity != state.validity:
		reason = "the mail server numbered the mailbox anew"
	case state.next != 0 && state.next <= imap.UID(s.cursor.LastUID):
		reason = "the mail server went back to an older state of the mailbox"
	default:
		return
	}
	s.cursor.UIDValidity, s.cursor.LastUID = 0, 0
	s.rescan = &rescan{reason: reason, since: s.Now().Add(-s.Since), validity: state.validity}
	s.broken, s.alone = make(map[imap.UID]int), 0
}

// lookAnew hands over what arrived since the rescan's limit, and then tells
// that the rescan is complete.
func (s *watch) lookAnew(ctx context.Context, c *conn, state mailboxState) error {
	r := s.rescan
	// SINCE knows whole days, in the server's zone: ask for a day more and
	// compare the dates here.
	uids, err := c.search(ctx, &imap.SearchCriteria{UID: above(r.last), Since: r.since.AddDate(0, 0, -1)})
	if err != nil {
		return err
	}
	if err := s.handOver(ctx, c, uids); err != nil {
		return err
	}
	done := s.cursor
	done.UIDValidity = state.validity
	done.LastUID = uint32(max(r.last, 1) - 1)
	if state.next > 0 {
		done.LastUID = uint32(state.next) - 1
	}
	done.LastUID = max(done.LastUID, uint32(r.last))
	if s.Rescanned != nil {
		err := s.Rescanned(ctx, Rescanned{
			Reason: r.reason, Since: r.since, Older: max(0, int(state.messages)-r.taken), Cursor: done,
		})
		if err != nil {
			return errLedger{err}
		}
	}
	s.cursor, s.rescan = done, nil
	return nil
}

// handOver takes messages in batches: first their sizes, then one body at a
// time.
func (s *watch) handOver(ctx context.Context, c *conn, uids []imap.UID) error {
	last := imap.UID(s.cursor.LastUID)
	if s.rescan != nil {
		last = s.rescan.last
	}
	uids = slices.DeleteFunc(uids, func(u imap.UID) bool { return u <= last })
	for len(uids) > 0 {
		n := min(s.pace.batch, len(uids))
		if uids[0] <= s.alone {
			n = 1
		}
		batch := uids[:n]
		uids = uids[n:]
		known, err := s.sizes(ctx, c, batch)
		if err != nil {
			return err
		}
		for _, uid := range batch {
			if err := s.one(ctx, c, uid, known); err != nil {
				return err
			}
		}
	}
	return nil
}

// sizes looks at a batch. When that breaks the connection, the next try looks
// at its messages singly, to find the one.
func (s *watch) sizes(ctx context.Context, c *conn, batch []imap.UID) (map[imap.UID]meta, error) {
	if len(batch) == 1 && s.broken[batch[0]] >= strikes {
		return nil, nil
	}
	known, err := c.metas(ctx, batch)
	if err != nil && ctx.Err() == nil {
		if len(batch) == 1 {
			s.broken[batch[0]]++
		}
		s.alone = max(s.alone, batch[len(batch)-1])
	}
	return known, err
}

// one hands over a single message.
func (s *watch) one(ctx context.Context, c *conn, uid imap.UID, known map[imap.UID]meta) error {
	m, ok := known[uid]
	d := s.delivery(uid, m)
	switch {
	case s.broken[uid] >= strikes:
		d.Err = ErrBreaks
	case !ok:
		return s.vanished(ctx, c, uid)
	case s.rescan != nil && m.received.Before(s.rescan.since):
		s.rescan.last = uid
		return nil
	case m.size > MaxMessageBytes:
		d.Err = ErrTooLarge
	default:
		raw, err := c.body(ctx, uid, m.size)
		if err != nil {
			if ctx.Err() == nil {
				s.broken[uid]++
			}
			return err
		}
		if raw == nil {
			return s.vanished(ctx, c, uid)
		}
		d.Raw = raw
	}
	if d.Err != nil {
		s.Config.log().Warn("message not fetched", "uid", uid, "size", m.size, "error", d.Err)
	}
	if err := s.Deliver(ctx, d); err != nil {
		return errLedger{err}
	}
	s.advance(uid)
	return nil
}

func (s *watch) delivery(uid imap.UID, m meta) Delivery {
	d := Delivery{
		Location: ingest.Location{
			Account: s.cursor.Account, Mailbox: s.cursor.Mailbox,
			UIDValidity: s.cursor.UIDValidity, UID: uint32(uid),
		},
		Received: m.received, Size: m.size, Flags: m.flags,
		Cursor: s.cursor,
	}
	if s.rescan != nil {
		d.Location.UIDValidity, d.Rescan = s.rescan.validity, true
	} else {
		d.Cursor.LastUID = uint32(uid)
	}
	return d
}

func (s *watch) advance(uid imap.UID) {
	delete(s.broken, uid)
	if s.rescan != nil {
		s.rescan.last = uid
		s.rescan.taken++
		return
	}
	s.cursor.LastUID = uint32(uid)
}

// vanished passes over a message that was deleted between search and fetch. A
// server that still lists it but does not give it out has a fault, and the
// message is not lost for that.
func (s *watch) vanished(ctx context.Context, c *conn, uid imap.UID) error {
	found, err := c.search(ctx, &imap.SearchCriteria{UID: []imap.UIDSet{imap.UIDSetNum(uid)}})
	if err != nil {
		return err
	}
	if slices.Contains(found, uid) {
		s.broken[uid]++
		s.alone = max(s.alone, uid)
		return fmt.Errorf("the mail server lists message %d but does not give it out", uid)
	}
	s.Config.log().Info("message deleted before it was read", "uid", uid)
	s.advance(uid)
	return nil
}
