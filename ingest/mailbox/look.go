package mailbox

import (
	"context"
	"fmt"
	"slices"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
)

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
	s.failed, s.alone = make(map[imap.UID]failures), 0
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
	if len(batch) == 1 && s.failed[batch[0]].tooMany() {
		return nil, nil
	}
	known, err := c.metas(ctx, batch)
	if err != nil && ctx.Err() == nil {
		if len(batch) == 1 {
			s.count(c, batch[0], err)
		}
		s.alone = max(s.alone, batch[len(batch)-1])
	}
	return known, err
}

// count notes that a message could not be fetched.
func (s *watch) count(c *conn, uid imap.UID, err error) {
	f := s.failed[uid]
	if c.wire.lost.Load() || refusal(err) != nil {
		f.cut++
	} else {
		f.broke++
	}
	s.failed[uid] = f
}

// one hands over a single message.
func (s *watch) one(ctx context.Context, c *conn, uid imap.UID, known map[imap.UID]meta) error {
	m, ok := known[uid]
	d := s.delivery(uid, m)
	switch {
	case s.failed[uid].tooMany():
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
				s.count(c, uid, err)
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
	delete(s.failed, uid)
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
		s.count(c, uid, nil)
		s.alone = max(s.alone, uid)
		return fmt.Errorf("the mail server lists message %d but does not give it out", uid)
	}
	s.Config.log().Info("message deleted before it was read", "uid", uid)
	s.advance(uid)
	return nil
}
