package mailbox

import (
	"context"
	"fmt"
	"slices"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-imap/v2/imapclient"
)

// Health is what a live test of the account found.
type Health struct {
	Capabilities []string
	Idle         bool     // new mail is told at once
	Mailboxes    []string // all that the account lists
	Inbox        string   // its name
	Messages     uint32   // in the inbox
	Drafts, Sent string   // names found; "" when one would have to be made
	Missing      []string // of the names in the settings: those that cannot be opened
	ReadOnly     []string // of Drafts and Sent: those in which nothing may be changed
}

// Probe signs in and looks around, for a live test of the settings. It changes
// nothing. The error is ErrNoMailbox when the inbox cannot be opened; what was
// found until then is returned with it.
func (f *Folders) Probe(ctx context.Context) (h Health, err error) {
	err = f.with(ctx, func(c *conn) error {
		for name := range c.caps {
			h.Capabilities = append(h.Capabilities, string(name))
		}
		slices.Sort(h.Capabilities)
		h.Idle = c.caps.Has(imap.CapIdle)
		boxes, err := c.mailboxes(ctx)
		if err != nil {
			return err
		}
		for _, b := range boxes {
			h.Mailboxes = append(h.Mailboxes, b.Mailbox)
		}
		if err := f.probeFiling(ctx, c, &h); err != nil {
			return err
		}
		h.Inbox = f.cfg.inbox()
		state, err := c.selectMailbox(ctx, h.Inbox, true)
		if no := refusal(err); no != nil && no.Type == imap.StatusResponseTypeNo {
			h.Missing = append(h.Missing, h.Inbox)
			return fmt.Errorf("%w: %s: %w", ErrNoMailbox, h.Inbox, err)
		}
		h.Messages = state.messages
		return err
	})
	return h, err
}

// probeFiling looks at Drafts and Sent.
func (f *Folders) probeFiling(ctx context.Context, c *conn, h *Health) error {
	for _, use := range []struct {
		attr imap.MailboxAttr
		name *string
	}{{imap.MailboxAttrDrafts, &h.Drafts}, {imap.MailboxAttrSent, &h.Sent}} {
		name, err := f.folder(ctx, c, use.attr, false)
		if err != nil {
			return err
		}
		*use.name = name
		if name == "" {
			continue
		}
		writable, err := c.writable(ctx, name)
		switch no := refusal(err); {
		case err == nil && !writable:
			h.ReadOnly = append(h.ReadOnly, name)
		case no != nil && no.Type == imap.StatusResponseTypeNo:
			h.Missing = append(h.Missing, name)
		case err != nil:
			return err
		}
	}
	return nil
}

// writable opens a mailbox for changes and tells whether any are allowed: a
// server that opens it read-only all the same lets no flag be changed for good
// (RFC 3501 section 7.1, PERMANENTFLAGS), and where it has access lists, the
// right to insert is asked for (RFC 4314).
func (c *conn) writable(ctx context.Context, name string) (bool, error) {
	var data *imap.SelectData
	err := c.do(ctx, "opening "+name, c.patience, answerBytes, func() (err error) {
		data, err = c.client.Select(name, nil).Wait()
		return err
	})
	if err != nil || len(data.PermanentFlags) == 0 || !c.caps.Has(imap.CapACL) {
		return err == nil && len(data.PermanentFlags) > 0, err
	}
	var rights *imapclient.MyRightsData
	err = c.do(ctx, "asking for the rights on "+name, c.patience, answerBytes, func() (err error) {
		rights, err = c.client.MyRights(name).Wait()
		return err
	})
	if refusal(err) != nil {
		return true, nil // told nothing about rights
	}
	return err == nil && slices.Contains(rights.Rights, imap.RightInsert), err
}
