// Package ingest holds what arrives at the shop's inbox: messages, their
// attachments, and how far the mailbox has been read.
package ingest

import "time"

// Message is one mail, taken apart. Texts are UTF-8, with the charset and the
// transfer encoding already undone as well as they could be.
type Message struct {
	ID         string // Message-ID without angle brackets; "" when the mail has none
	Hash       string // hex SHA-256 of the raw bytes
	From       Address
	Sender     Address // zero when absent
	ReplyTo    []Address
	To, Cc     []Address
	Subject    string
	Date       time.Time // zero when broken or absent
	Received   time.Time // the server's internal date; zero outside a mailbox
	InReplyTo  []string
	References []string
	Language   string // Content-Language, "" when absent

	Text        string // the plain body; "" when there is only HTML
	HTML        string // the HTML body as it came
	FormatFlow  bool   // Text is format=flowed (RFC 3676); soft breaks are already joined
	Attachments []Attachment
	Forwarded   []Forwarded // messages inside this one, outermost first
	Notes       []Note      // what could not be read of the mail itself

	Header Header // the remaining header fields that origin and replies need
}

// Address is a mailbox with its display name.
type Address struct {
	Name, Address string
}

// Header holds header fields by canonical name, in order, unfolded and decoded.
type Header map[string][]string

// Attachment is a part of a message that is not its body.
type Attachment struct {
	Name      string // base name only, safe to show once escaped; made up when the part has none
	MediaType string // as declared, "image/jpeg"; content decides what it really is
	ContentID string // without angle brackets
	Inline    bool
	Forwarded bool // came inside a forwarded message
	Data      []byte
}

// Forwarded is a message that came inside another one as message/rfc822. Its
// texts count like the mail's own; its attachments stand among the mail's,
// marked.
type Forwarded struct {
	ID         string // Message-ID without angle brackets, "" when it has none
	From       Address
	Subject    string
	Date       time.Time // zero when broken or absent
	Text, HTML string    // as in Message
	Header     Header
}

// Note is something of a mail that was left unread, and why.
type Note struct {
	Code    string // "too-large", "too-deep", "winmail", "encrypted", "bad-encoding", ...
	Part    string // name or path of the part
	Message string // one sentence for a person of the shop
}

// Cursor says how far a mailbox has been read. A UID counts only together with
// its UIDVALIDITY (RFC 9051 section 2.3.1.1).
type Cursor struct {
	Account     string // whose mailbox
	Mailbox     string
	UIDValidity uint32
	LastUID     uint32 // highest UID seen
}

// Location is where one message lies in a mailbox.
type Location struct {
	Account     string
	Mailbox     string
	UIDValidity uint32
	UID         uint32
}
