package mailbox

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/emersion/go-imap/v2"
)

// usualNames are what mail programs call the two mailboxes, lower case. The
// first is the one that is made when there is none.
var usualNames = map[imap.MailboxAttr][]string{
	imap.MailboxAttrDrafts: {
		"Drafts", "draft", "brouillons", "entwürfe", "borradores", "bozze", "concepten", "rascunhos",
		"utkast", "kladder", "luonnokset", "wersje robocze", "szkice", "koncepty", "черновики",
	},
	imap.MailboxAttrSent: {
		"Sent", "sent items", "sent messages", "sent mail", "envoyés", "messages envoyés", "éléments envoyés",
		"gesendet", "gesendete objekte", "gesendete elemente", "enviados", "elementos enviados", "posta inviata",
		"inviata", "verzonden", "verzonden items", "itens enviados", "skickat", "sendt", "lähetetyt", "wysłane",
		"odeslané", "отправленные",
	},
}

// folder returns the name of Drafts or Sent: as configured, else the mailbox
// with that attribute (RFC 6154), else one with a usual name. With create, one
// is made when there is none; otherwise the name is "".
func (f *Folders) folder(ctx context.Context, c *conn, use imap.MailboxAttr, create bool) (string, error) {
	switch {
	case use == imap.MailboxAttrDrafts && f.cfg.Drafts != "":
		return f.cfg.Drafts, nil
	case use == imap.MailboxAttrSent && f.cfg.Sent != "":
		return f.cfg.Sent, nil
	case f.names[use] != "":
		return f.names[use], nil
	}
	boxes, err := c.mailboxes(ctx)
	if err != nil {
		return "", err
	}
	name := choose(boxes, use)
	if name == "" && create {
		name, err = c.create(ctx, boxes, use)
		if err != nil {
			return "", err
		}
	}
	f.names[use] = name
	return name, nil
}

// mailboxes lists all mailboxes with their attributes.
func (c *conn) mailboxes(ctx context.Context) (boxes []*imap.ListData, err error) {
	var options *imap.ListOptions
	if c.caps.Has(imap.CapSpecialUse) && (c.caps.Has(imap.CapListExtended) || c.caps.Has(imap.CapIMAP4rev2)) {
		options = &imap.ListOptions{ReturnSpecialUse: true}
	}
	err = c.do(ctx, "listing mailboxes", c.patience, answerBytes, func() (err error) {
		boxes, err = c.client.List("", "*", options).Collect()
		return err
	})
	return boxes, err
}

// choose returns the mailbox for a use, "" when none is.
func choose(boxes []*imap.ListData, use imap.MailboxAttr) string {
	for _, b := range boxes {
		if slices.Contains(b.Attrs, use) {
			return b.Mailbox
		}
	}
	for _, want := range usualNames[use] {
		for _, b := range boxes {
			if !slices.Contains(b.Attrs, imap.MailboxAttrNoSelect) && strings.EqualFold(lastElement(b), want) {
				return b.Mailbox
			}
		}
	}
	return ""
}

// lastElement is the name without the mailboxes it lies in: "INBOX.Drafts" and
// "[Provider]/Drafts" are called Drafts.
func lastElement(b *imap.ListData) string {
	if b.Delim == 0 {
		return b.Mailbox
	}
	return b.Mailbox[strings.LastIndex(b.Mailbox, string(b.Delim))+1:]
}

// create makes a mailbox for a use, inside INBOX where the server wants all
// mailboxes there.
func (c *conn) create(ctx context.Context, boxes []*imap.ListData, use imap.MailboxAttr) (string, error) {
	name := usualNames[use][0]
	if prefix := inboxPrefix(boxes); prefix != "" {
		name = prefix + name
	}
	var options *imap.CreateOptions
	if c.caps.Has(imap.CapCreateSpecialUse) {
		options = &imap.CreateOptions{SpecialUse: []imap.MailboxAttr{use}}
	}
	err := c.do(ctx, "making the mailbox "+name, c.patience, answerBytes, func() error {
		return c.client.Create(name, options).Wait()
	})
	if err != nil {
		return "", fmt.Errorf("no mailbox is marked %s: %w", use, err)
	}
	err = c.do(ctx, "subscribing to "+name, c.patience, answerBytes, func() error {
		return c.client.Subscribe(name).Wait()
	})
	if no := refusal(err); no != nil {
		err = nil // only mail programs that hide the unsubscribed would mind
	}
	return name, err
}

// inboxPrefix returns "INBOX." or the like when every other mailbox lies in
// INBOX, as some servers demand.
func inboxPrefix(boxes []*imap.ListData) string {
	prefix := ""
	for _, b := range boxes {
		if strings.EqualFold(b.Mailbox, "INBOX") {
			continue
		}
		if b.Delim == 0 || !strings.HasPrefix(strings.ToUpper(b.Mailbox), "INBOX"+string(b.Delim)) {
			return ""
		}
		prefix = "INBOX" + string(b.Delim)
	}
	return prefix
}
