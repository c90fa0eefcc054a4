package mailbox

import (
	"bytes"
	"context"
	"mime"
	"net/mail"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-imap/v2/imapclient"
	"github.com/emersion/go-message/charset"

	"fairtape/ingest"
)

// Filed is a letter that lies in Drafts or Sent, by its header.
type Filed struct {
	Location   ingest.Location
	MessageID  string // without angle brackets
	Job        string // X-Fairtape-Job
	Draft      string // X-Fairtape-Draft, "14-2"
	InReplyTo  []string
	References []string
	To         []string // addresses of To and Cc, lower case
	Subject    string
	Received   time.Time // internal date
	Size       int64     // in bytes
	Flags      []string
}

// Deleted reports that the letter is marked as deleted, and goes when somebody
// tidies the mailbox up. On a server without UIDPLUS, DeleteDraft does no more.
func (l Filed) Deleted() bool {
	return slices.ContainsFunc(l.Flags, func(f string) bool { return strings.EqualFold(f, string(imap.FlagDeleted)) })
}

// Wanted says which letter is looked for. Empty fields match nothing.
type Wanted struct {
	MessageID string // of the letter
	Draft     string // its id, "14-2"
	Answers   string // Message-ID of the customer's message that it answers
	To        string // the customer's address
}

// Match is how a letter was recognised.
type Match int

// The ways, the surest last.
const (
	NoMatch     Match = iota
	ByReference       // answers the customer's message and goes to the customer
	ByMessageID
	ByDraft // carries the draft's id
)

// Match reports whether l is the letter that is looked for, and by what. Mail
// programs and providers that make a new message at each edit drop headers, so
// that in the end only reference and recipient are left; a letter recognised
// by those may also be one that a person wrote.
func (l Filed) Match(w Wanted) Match {
	switch {
	case w.Draft != "" && l.Draft == w.Draft:
		return ByDraft
	case w.MessageID != "" && l.MessageID == w.MessageID:
		return ByMessageID
	case w.Answers != "" && slices.Contains(l.To, strings.ToLower(w.To)) &&
		(slices.Contains(l.InReplyTo, w.Answers) || slices.Contains(l.References, w.Answers)):
		return ByReference
	}
	return NoMatch
}

const (
	// maxListed bounds a listing: the shop's own drafts and the letters of a
	// season, not those of its history.
	maxListed = 1000
	// maxHeader bounds the header fields of one listed letter, in bytes.
	maxHeader = 64 << 10
)

// headers fetches what a listing tells of messages, rising by UID. Messages
// whose header cannot be read are listed by what is known of them.
func (c *conn) headers(ctx context.Context, uids []imap.UID) ([]Filed, error) {
	if len(uids) > maxListed {
		uids = uids[len(uids)-maxListed:]
	}
	if len(uids) == 0 {
		return nil, nil
	}
	options := &imap.FetchOptions{
		UID: true, Flags: true, RFC822Size: true, InternalDate: true,
		BodySection: []*imap.FetchItemBodySection{{
			Peek: true, Specifier: imap.PartSpecifierHeader,
			HeaderFields: []string{"Message-ID", "X-Fairtape-Job", "X-Fairtape-Draft",
				"In-Reply-To", "References", "To", "Cc", "Subject"},
		}},
	}
	var list []Filed
	err := c.do(ctx, "listing letters", c.patience, int64(len(uids))*maxHeader, func() error {
		return c.each(uids, options, func(data *imapclient.FetchMessageData) error {
			m, raw, err := collect(data, maxHeader)
			if err != nil || m.uid == 0 {
				return err
			}
			l := readFiled(raw)
			l.Location.UID = uint32(m.uid)
			l.Received, l.Size, l.Flags = m.received, m.size, m.flags
			list = append(list, l)
			return nil
		})
	})
	slices.SortFunc(list, func(a, b Filed) int { return int(int64(a.Location.UID) - int64(b.Location.UID)) })
	return list, err
}

// readFiled reads the header fields of a letter.
func readFiled(raw []byte) Filed {
	msg, err := mail.ReadMessage(bytes.NewReader(append(bytes.TrimRight(raw, "\r\n"), "\r\n\r\n"...)))
	if err != nil {
		return Filed{}
	}
	h := msg.Header
	l := Filed{
		Job:        strings.TrimSpace(h.Get("X-Fairtape-Job")),
		Draft:      strings.TrimSpace(h.Get("X-Fairtape-Draft")),
		InReplyTo:  ids(h.Get("In-Reply-To")),
		References: ids(h.Get("References")),
		Subject:    h.Get("Subject"),
	}
	words := &mime.WordDecoder{CharsetReader: charset.Reader}
	if s, err := words.DecodeHeader(l.Subject); err == nil {
		l.Subject = s
	}
	if own := ids(h.Get("Message-ID")); len(own) > 0 {
		l.MessageID = own[0]
	}
	parser := mail.AddressParser{WordDecoder: words}
	for _, key := range []string{"To", "Cc"} {
		list, err := parser.ParseList(h.Get(key))
		if err != nil {
			continue // an unfinished draft may have half an address
		}
		for _, a := range list {
			l.To = append(l.To, strings.ToLower(a.Address))
		}
	}
	return l
}

var bracketed = regexp.MustCompile(`<([^<>\s]+)>`)

func ids(field string) []string {
	var out []string
	for _, m := range bracketed.FindAllStringSubmatch(field, -1) {
		out = append(out, m[1])
	}
	return out
}
