package mailbox

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
)

// appendTo appends a message. The UID is 0 when the server does not say it.
func (c *conn) appendTo(ctx context.Context, name string, raw []byte, flags []imap.Flag) (validity uint32, uid imap.UID, err error) {
	limit := c.patience + time.Duration(len(raw)/slowestBytes)*time.Second
	err = c.do(ctx, "filing into "+name, limit, answerBytes, func() error {
		cmd := c.client.Append(name, int64(len(raw)), &imap.AppendOptions{Flags: flags})
		_, werr := cmd.Write(raw)
		cerr := cmd.Close()
		data, err := cmd.Wait()
		if err != nil {
			return err
		}
		if werr != nil || cerr != nil {
			return errors.Join(werr, cerr)
		}
		validity, uid = data.UIDValidity, data.UID
		return nil
	})
	return validity, uid, err
}

// goTo opens the mailbox of a location, if that still means anything.
func (c *conn) goTo(ctx context.Context, at ingest.Location, readOnly bool) error {
	state, err := c.selectMailbox(ctx, at.Mailbox, readOnly)
	if err != nil {
		return err
	}
	if state.validity != at.UIDValidity {
		return ErrRenumbered
	}
	return nil
}

// remove deletes a message. Without UIDPLUS an EXPUNGE would take along what
// the shop's people marked as deleted but may want back; then the message only
// stays marked.
func (c *conn) remove(ctx context.Context, uid imap.UID) error {
	one := imap.UIDSetNum(uid)
	err := c.do(ctx, "deleting a draft", c.patience, answerBytes, func() error {
		store := &imap.StoreFlags{Op: imap.StoreFlagsAdd, Silent: true, Flags: []imap.Flag{imap.FlagDeleted}}
		return c.client.Store(one, store, nil).Close()
	})
	if err != nil {
		return err
	}
	if !c.caps.Has(imap.CapUIDPlus) && !c.caps.Has(imap.CapIMAP4rev2) {
		marked, err := c.search(ctx, &imap.SearchCriteria{Flag: []imap.Flag{imap.FlagDeleted}})
		if err != nil || len(marked) != 1 || marked[0] != uid {
			return err
		}
		return c.do(ctx, "deleting a draft", c.patience, answerBytes, func() error {
			return c.client.Expunge().Close()
		})
	}
	return c.do(ctx, "deleting a draft", c.patience, answerBytes, func() error {
		return c.client.UIDExpunge(one).Close()
	})
}

// headerIs asks for messages whose header holds a value. A server may answer
// with more, as the search is for a part of the value.
func headerIs(key, value string) *imap.SearchCriteria {
	return &imap.SearchCriteria{Header: []imap.SearchCriteriaHeaderField{{Key: key, Value: value}}}
}

// byMessageID returns the newest message of the open mailbox with that id, 0
// when there is none.
func (c *conn) byMessageID(ctx context.Context, id string) (imap.UID, error) {
	if strings.TrimSpace(id) == "" {
		return 0, errors.New("a letter without a Message-ID could not be found again")
	}
	uids, err := c.search(ctx, headerIs("Message-ID", id))
	if err != nil {
		return 0, err
	}
	list, err := c.headers(ctx, uids)
	if err != nil {
		return 0, err
	}
	for _, l := range slices.Backward(list) {
		if l.MessageID == id {
			return imap.UID(l.Location.UID), nil
		}
	}
	return 0, nil
}
