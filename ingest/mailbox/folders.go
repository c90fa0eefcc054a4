package mailbox

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
)

// Folders files drafts and copies of sent letters, and finds them again. Its
// methods may be called side by side; they take turns on one connection, which
// is made when it is needed. All of them can fail with ErrSignIn,
// ErrCertificate or ErrPlainText.
type Folders struct {
	cfg Config

	mu      sync.Mutex
	conn    *conn
	used    time.Time // when conn last answered
	refused time.Time // when the sign-in was last refused
	refusal error     // and how
	names   map[imap.MailboxAttr]string
}

// trust is how long a silent connection is taken to be alive without asking.
const trust = 20 * time.Second

// NewFolders returns the folders of an account. It does not connect yet.
func NewFolders(cfg Config) *Folders {
	return &Folders{cfg: cfg, names: make(map[imap.MailboxAttr]string)}
}

// Close ends the connection, if there is one.
func (f *Folders) Close() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.conn != nil {
		f.conn.close()
		f.conn = nil
	}
	return nil
}

// with runs work on a living connection. An error that is not the server's
// plain refusal ends the connection, as nobody knows its state then.
func (f *Folders) with(ctx context.Context, work func(*conn) error) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.connect(ctx); err != nil {
		return err
	}
	err := work(f.conn)
	no := refusal(err)
	switch {
	case err == nil, errors.Is(err, ErrGone), errors.Is(err, ErrRenumbered), errors.Is(err, ErrTooLarge):
		f.used = time.Now()
	case no != nil && no.Type == imap.StatusResponseTypeNo:
		f.used = time.Now()
		clear(f.names) // the mailbox may have been renamed
		if f.conn.client.State() == imap.ConnStateLogout {
			f.drop() // the library closes it when a letter is refused before it was sent
		}
	default:
		f.drop()
	}
	return err
}

func (f *Folders) drop() {
	f.conn.abort()
	f.conn = nil
}

// connect makes sure of a living connection. After a refused sign-in it says
// the same again for a while instead of asking the server, unless the password is another
// one by now.
func (f *Folders) connect(ctx context.Context) error {
	if f.conn != nil && time.Since(f.used) > trust {
		if err := f.conn.do(ctx, "asking the mail server", dialTime, answerBytes, f.conn.client.Noop().Wait); err != nil {
			f.drop()
		}
	}
	if f.conn != nil {
		return nil
	}
	if !f.refused.IsZero() && time.Since(f.refused) < usualPace.signIn && !f.cfg.SignIn.changed(f.refusal) {
		return fmt.Errorf("%w: not tried again before %v have passed", ErrSignIn, usualPace.signIn)
	}
	c, err := dial(ctx, f.cfg)
	if errors.Is(err, ErrSignIn) {
		f.refused, f.refusal = time.Now(), err
	}
	if err != nil {
		return err
	}
	f.conn, f.refused, f.refusal, f.used = c, time.Time{}, nil, time.Now()
	return nil
}

// FileDraft puts a letter into Drafts, marked as draft and seen, and returns
// where it lies. messageID is the letter's own, without angle brackets. A
// letter that lies there already is not filed again, so that the call can be
// repeated when its outcome was unknown.
func (f *Folders) FileDraft(ctx context.Context, raw []byte, messageID string) (ingest.Location, error) {
	loc, _, err := f.file(ctx, imap.MailboxAttrDrafts, raw, messageID, imap.FlagDraft, imap.FlagSeen)
	return loc, err
}

// FileSent puts a copy of a sent letter into Sent, unless one with that
// Message-ID lies there already, as some providers file copies themselves;
// already reports that.
func (f *Folders) FileSent(ctx context.Context, raw []byte, messageID string) (loc ingest.Location, already bool, err error) {
	return f.file(ctx, imap.MailboxAttrSent, raw, messageID, imap.FlagSeen)
}

func (f *Folders) file(ctx context.Context, use imap.MailboxAttr, raw []byte, messageID string, flags ...imap.Flag) (loc ingest.Location, already bool, err error) {
	err = f.with(ctx, func(c *conn) error {
		name, err := f.folder(ctx, c, use, true)
		if err != nil {
			return err
		}
		state, err := c.selectMailbox(ctx, name, true)
		if err != nil {
			return err
		}
		uid, err := c.byMessageID(ctx, messageID)
		if err != nil {
			return err
		}
		if uid != 0 {
			loc, already = f.location(name, state.validity, uid), true
			return nil
		}
		validity, uid, err := c.appendTo(ctx, name, raw, flags)
		if err != nil {
			return err
		}
		if uid == 0 { // a server without UIDPLUS: look where it went
			if state, err = c.selectMailbox(ctx, name, true); err != nil {
				return err
			}
			if uid, err = c.byMessageID(ctx, messageID); err != nil {
				return err
			}
			validity = state.validity
		}
		if uid == 0 {
			return fmt.Errorf("the mail server took the letter into %s, but it does not lie there", name)
		}
		loc = f.location(name, validity, uid)
		return nil
	})
	return loc, already, err
}

func (f *Folders) location(mailbox string, validity uint32, uid imap.UID) ingest.Location {
	return ingest.Location{Account: f.cfg.Account, Mailbox: mailbox, UIDValidity: validity, UID: uint32(uid)}
}

// Drafts lists the letters in Drafts, the newest maxListed of them, rising by
// UID. All of them are listed, the shop's own too: Filed.Match tells whose a
// letter is. A folder that does not exist is empty.
func (f *Folders) Drafts(ctx context.Context) ([]Filed, error) {
	return f.list(ctx, imap.MailboxAttrDrafts, &imap.SearchCriteria{})
}

// SentSince lists the letters that came into Sent on that day or later, like
// Drafts.
func (f *Folders) SentSince(ctx context.Context, since time.Time) ([]Filed, error) {
	return f.list(ctx, imap.MailboxAttrSent, &imap.SearchCriteria{Since: since.AddDate(0, 0, -1)})
}

// FindSent looks for a letter in the whole of Sent, by every header that could
// give it away. It is the proof that a letter went out.
func (f *Folders) FindSent(ctx context.Context, want Wanted) ([]Filed, error) {
	var found []Filed
	for _, h := range []struct{ key, value string }{
		{"Message-ID", want.MessageID},
		{"X-Fairtape-Draft", want.Draft},
		{"In-Reply-To", want.Answers},
		{"References", want.Answers},
	} {
		if h.value == "" {
			continue
		}
		list, err := f.list(ctx, imap.MailboxAttrSent, headerIs(h.key, h.value))
		if err != nil {
			return nil, err
		}
		found = append(found, list...)
	}
	found = slices.DeleteFunc(found, func(l Filed) bool { return l.Match(want) == NoMatch })
	slices.SortFunc(found, func(a, b Filed) int { return int(int64(a.Location.UID) - int64(b.Location.UID)) })
	return slices.CompactFunc(found, func(a, b Filed) bool { return a.Location == b.Location }), nil
}

func (f *Folders) list(ctx context.Context, use imap.MailboxAttr, criteria *imap.SearchCriteria) (list []Filed, err error) {
	err = f.with(ctx, func(c *conn) error {
		name, err := f.folder(ctx, c, use, false)
		if err != nil || name == "" {
			return err
		}
		list, err = f.listed(ctx, c, name, criteria)
		return err
	})
	return list, err
}

// InboxSince lists the mails that came into the inbox on that day or later,
// like Drafts.
func (f *Folders) InboxSince(ctx context.Context, since time.Time) (list []Filed, err error) {
	err = f.with(ctx, func(c *conn) error {
		list, err = f.listed(ctx, c, f.cfg.inbox(), &imap.SearchCriteria{Since: since.AddDate(0, 0, -1)})
		return err
	})
	return list, err
}

func (f *Folders) listed(ctx context.Context, c *conn, name string, criteria *imap.SearchCriteria) ([]Filed, error) {
	state, err := c.selectMailbox(ctx, name, true)
	if err != nil {
		return nil, err
	}
	uids, err := c.search(ctx, criteria)
	if err != nil {
		return nil, err
	}
	list, err := c.headers(ctx, uids)
	for i := range list {
		list[i].Location.Account = f.cfg.Account
		list[i].Location.Mailbox = name
		list[i].Location.UIDValidity = state.validity
	}
	return list, err
}

// Fetch returns a letter whole. Errors: ErrGone, ErrRenumbered, ErrTooLarge.
func (f *Folders) Fetch(ctx context.Context, at ingest.Location) (raw []byte, err error) {
	err = f.with(ctx, func(c *conn) error {
		if err := c.goTo(ctx, at, true); err != nil {
			return err
		}
		uid := imap.UID(at.UID)
		known, err := c.metas(ctx, []imap.UID{uid})
		if err != nil {
			return err
		}
		m, ok := known[uid]
		if !ok {
			return ErrGone
		}
		if m.size > MaxMessageBytes {
			return fmt.Errorf("%w: %d MB", ErrTooLarge, m.size>>20)
		}
		if raw, err = c.body(ctx, uid, m.size); err == nil && raw == nil {
			err = ErrGone
		}
		return err
	})
	return raw, err
}

// DeleteDraft removes one letter and no other. One that is gone already is no
// error; ErrRenumbered is.
func (f *Folders) DeleteDraft(ctx context.Context, at ingest.Location) error {
	return f.with(ctx, func(c *conn) error {
		if err := c.goTo(ctx, at, false); err != nil {
			return err
		}
		return c.remove(ctx, imap.UID(at.UID))
	})
}
