package mailbox

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-imap/v2/imapclient"
)

// maxFound bounds the messages of one search that are kept in memory.
const maxFound = 200_000

// mailboxState is what EXAMINE and SELECT say.
type mailboxState struct {
	validity uint32
	next     imap.UID // 0 when the server does not say
	messages uint32
}

// open selects a mailbox, read-only if so asked.
func (c *conn) selectMailbox(ctx context.Context, name string, readOnly bool) (mailboxState, error) {
	var data *imap.SelectData
	err := c.do(ctx, "opening "+name, c.patience, answerBytes, func() (err error) {
		data, err = c.client.Select(name, &imap.SelectOptions{ReadOnly: readOnly}).Wait()
		return err
	})
	if err != nil {
		return mailboxState{}, err
	}
	if data.UIDValidity == 0 {
		return mailboxState{}, fmt.Errorf("opening %s: the server does not number its messages lastingly", name)
	}
	return mailboxState{validity: data.UIDValidity, next: data.UIDNext, messages: data.NumMessages}, nil
}

// search returns the UIDs that match, rising.
func (c *conn) search(ctx context.Context, criteria *imap.SearchCriteria) ([]imap.UID, error) {
	var data *imap.SearchData
	err := c.do(ctx, "searching", c.patience, answerBytes, func() (err error) {
		// Without options the plain form of SEARCH is used; some servers
		// answer the extended one wrongly.
		data, err = c.client.UIDSearch(criteria, nil).Wait()
		return err
	})
	if err != nil {
		return nil, err
	}
	set, _ := data.All.(imap.UIDSet)
	var uids []imap.UID
	for _, r := range set {
		if r.Start == 0 || r.Stop == 0 || r.Stop < r.Start {
			return nil, errors.New("searching: the server names no message")
		}
		if int64(r.Stop-r.Start) >= int64(maxFound-len(uids)) {
			return nil, fmt.Errorf("searching: over %d messages found", maxFound)
		}
		for uid := r.Start; ; uid++ {
			uids = append(uids, uid)
			if uid == r.Stop {
				break
			}
		}
	}
	slices.Sort(uids)
	return slices.Compact(uids), nil
}

// above is the range of all UIDs over last. The server answers with the last
// message even when its UID is lower, so what comes back has to be filtered.
func above(last imap.UID) []imap.UIDSet {
	return []imap.UIDSet{{imap.UIDRange{Start: last + 1, Stop: 0}}}
}

// meta is what is known of a message before its body is fetched.
type meta struct {
	uid      imap.UID
	size     int64
	received time.Time
	flags    []string
}

// metas fetches size, date and flags of the messages that are still there.
func (c *conn) metas(ctx context.Context, uids []imap.UID) (map[imap.UID]meta, error) {
	out := make(map[imap.UID]meta, len(uids))
	options := &imap.FetchOptions{UID: true, Flags: true, RFC822Size: true, InternalDate: true}
	err := c.do(ctx, "looking at messages", c.patience, answerBytes, func() error {
		return c.each(uids, options, func(buf *imapclient.FetchMessageData) error {
			m, _, err := collect(buf, 0)
			if err == nil && m.uid != 0 {
				out[m.uid] = m
			}
			return err
		})
	})
	return out, err
}

// body fetches one message whole, without marking it as seen. It returns nil
// when the message is not there any more.
func (c *conn) body(ctx context.Context, uid imap.UID, size int64) ([]byte, error) {
	limit := c.patience + time.Duration(size/slowestBytes)*time.Second
	options := &imap.FetchOptions{UID: true, BodySection: []*imap.FetchItemBodySection{{Peek: true}}}
	var raw []byte
	err := c.do(ctx, "fetching a message", limit, MaxMessageBytes+bodySlack, func() error {
		return c.each([]imap.UID{uid}, options, func(buf *imapclient.FetchMessageData) error {
			m, data, err := collect(buf, MaxMessageBytes)
			if err == nil && m.uid == uid {
				raw = data
			}
			return err
		})
	})
	return raw, err
}

// each runs a FETCH and hands on what comes. A FETCH that stops half way is an
// error of the connection, so an error of take ends the connection too.
func (c *conn) each(uids []imap.UID, options *imap.FetchOptions, take func(*imapclient.FetchMessageData) error) error {
	cmd := c.client.Fetch(imap.UIDSetNum(uids...), options)
	for data := cmd.Next(); data != nil; data = cmd.Next() {
		if err := take(data); err != nil {
			c.abort()
			c.settle(err)
			cmd.Close()
			return err
		}
	}
	return cmd.Close()
}

// settle waits for the library's reader to end after a literal broke off:
// closing the command reads the literal once more, and the reader goes on at
// the same time. When the literal was not read at all, the reader waits for
// that, so there is nothing to wait for here.
func (c *conn) settle(err error) {
	if errors.Is(err, ErrTooLarge) {
		return
	}
	select {
	case <-c.client.Closed():
	case <-time.After(dialTime):
	}
}

// collect reads the items of one message, and of its body at most limit bytes.
// Literals must be read as they come: the library drops them at the next item.
func collect(data *imapclient.FetchMessageData, limit int64) (meta, []byte, error) {
	var m meta
	var raw []byte
	for item := data.Next(); item != nil; item = data.Next() {
		switch item := item.(type) {
		case imapclient.FetchItemDataUID:
			m.uid = item.UID
		case imapclient.FetchItemDataRFC822Size:
			m.size = item.Size
		case imapclient.FetchItemDataInternalDate:
			m.received = item.Time
		case imapclient.FetchItemDataFlags:
			for _, f := range item.Flags {
				m.flags = append(m.flags, string(f))
			}
		case imapclient.FetchItemDataBodySection:
			if item.Literal == nil {
				continue
			}
			b, err := readLiteral(item.Literal, limit)
			if err != nil {
				return m, nil, err
			}
			raw = b
		}
	}
	return m, raw, nil
}

// readLiteral reads a literal whole.
func readLiteral(lit imap.LiteralReader, limit int64) ([]byte, error) {
	if lit.Size() > limit {
		return nil, fmt.Errorf("%w: the server announces %d bytes", ErrTooLarge, lit.Size())
	}
	b := make([]byte, lit.Size())
	_, err := io.ReadFull(lit, b)
	return b, err
}
