package eml

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"mime"
	"net/mail"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/emersion/go-message/charset"
	"github.com/emersion/go-message/textproto"

	"fairtape/ingest"
	"fairtape/reply"
)

// Read returns the letter that an edited draft holds now. m is the draft, taken
// apart like any mail. The id is zero when the mail program dropped the field
// that carries it.
func Read(m ingest.Message) reply.Draft {
	d := reply.Draft{
		ID:         readID(m.Header),
		MessageID:  m.ID,
		From:       m.From,
		Subject:    m.Subject,
		References: m.References,
		Language:   m.Language,
		Date:       m.Date,
		Text:       m.Text,
		HTML:       m.HTML,
	}
	if len(m.To) > 0 {
		d.To = m.To[0]
	}
	if len(m.InReplyTo) > 0 {
		d.InReplyTo = m.InReplyTo[0]
	}
	for _, a := range m.Attachments {
		if a.ContentID != "" && a.Inline && a.MediaType == "image/png" {
			d.Pictures = append(d.Pictures, reply.Picture{ContentID: a.ContentID, Name: a.Name, PNG: a.Data})
			continue
		}
		d.Files = append(d.Files, reply.File{Name: a.Name, MediaType: a.MediaType, Data: a.Data})
	}
	return d
}

func readID(h ingest.Header) reply.DraftID {
	for _, v := range h[FieldDraft] {
		job, version, ok := strings.Cut(strings.TrimSpace(v), "-")
		j, errJ := strconv.Atoi(job)
		n, errN := strconv.Atoi(version)
		if ok && errJ == nil && errN == nil {
			return reply.DraftID{Job: j, Version: n}
		}
	}
	return reply.DraftID{}
}

// Outgoing is a draft made ready to be sent.
type Outgoing struct {
	From      string   // for MAIL FROM
	To        []string // of To, Cc and Bcc, each once
	MessageID string   // without angle brackets
	Raw       []byte
}

// Errors of Ready that a caller can tell apart, beside ErrAddress.
var (
	// ErrNobody: the draft names no recipient.
	ErrNobody = errors.New("the draft names no recipient")
	// ErrHeader: the draft has no header that can be read.
	ErrHeader = errors.New("the draft's header cannot be read")
)

// notSent are fields of a draft that are no business of the recipient: Bcc
// first of all, and notes that mail programs make for themselves.
var notSent = []string{
	"Bcc", "Fcc", "X-Unsent", "X-Mozilla-Draft-Info", "X-Mozilla-Status", "X-Mozilla-Status2",
	"X-Mozilla-Keys", "X-Identity-Key", "X-Account-Key", "X-Uniform-Type-Identifier",
	"X-Apple-Base-Url", "X-Apple-Mail-Remote-Attachments", "X-Apple-Auto-Saved",
	"Return-Path", "Auto-Submitted",
}

// Ready makes a draft ready to be sent, as it lies in Drafts, edited or not.
// Its body goes out untouched. The date becomes now; a Message-ID is set to
// messageID when the draft has none; the sender is set to from when the draft
// has none.
func Ready(raw []byte, from ingest.Address, messageID string, now time.Time) (Outgoing, error) {
	raw = crlf(raw)
	r := bufio.NewReader(bytes.NewReader(raw))
	h, err := textproto.ReadHeader(r)
	if err != nil {
		return Outgoing{}, fmt.Errorf("%w: %w", ErrHeader, err)
	}
	var out Outgoing
	if out.To, err = recipients(h); err != nil {
		return Outgoing{}, err
	}
	for _, name := range notSent {
		h.Del(name)
	}
	h.Set("Date", now.Format(dateLayout))
	if id := bare(h.Get("Message-Id")); id != "" {
		out.MessageID = id
	} else {
		out.MessageID = messageID
		h.Set("Message-ID", ids(messageID))
	}
	if strings.TrimSpace(h.Get("From")) == "" {
		v, err := address(from)
		if err != nil {
			return Outgoing{}, fmt.Errorf("sender: %w", err)
		}
		h.Set("From", v)
	}
	sender, err := addressParser().Parse(h.Get("From"))
	if err != nil {
		return Outgoing{}, fmt.Errorf("sender %q: %w", h.Get("From"), ErrAddress)
	}
	out.From = sender.Address

	var buf bytes.Buffer
	if err := textproto.WriteHeader(&buf, h); err != nil {
		return Outgoing{}, fmt.Errorf("%w: %w", ErrHeader, err)
	}
	if _, err := r.WriteTo(&buf); err != nil {
		return Outgoing{}, fmt.Errorf("copying the draft's body: %w", err)
	}
	out.Raw = buf.Bytes()
	return out, nil
}

// addressParser reads names in any charset.
func addressParser() *mail.AddressParser {
	return &mail.AddressParser{WordDecoder: &mime.WordDecoder{CharsetReader: charset.Reader}}
}

// recipients returns everybody whom the draft names.
func recipients(h textproto.Header) ([]string, error) {
	var out []string
	for _, key := range []string{"To", "Cc", "Bcc"} {
		for _, v := range h.Values(key) {
			if strings.TrimSpace(v) == "" {
				continue
			}
			list, err := addressParser().ParseList(v)
			if err != nil {
				return nil, fmt.Errorf("%s %q: %w", key, v, ErrAddress)
			}
			for _, a := range list {
				if !slices.ContainsFunc(out, func(have string) bool { return strings.EqualFold(have, a.Address) }) {
					out = append(out, a.Address)
				}
			}
		}
	}
	if len(out) == 0 {
		return nil, ErrNobody
	}
	return out, nil
}

// bare is a message id without its angle brackets.
func bare(field string) string {
	return strings.Trim(clean(field), "<> ")
}

// crlf makes all line ends CRLF, as SMTP wants them.
func crlf(raw []byte) []byte {
	raw = bytes.ReplaceAll(raw, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(raw, []byte("\n"), []byte("\r\n"))
}
