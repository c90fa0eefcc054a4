// Package eml turns a letter into a mail (RFC 5322 and MIME), reads a draft
// back that a person has edited, and makes it ready to go out.
package eml

import (
	"bytes"
	"errors"
	"fmt"
	"mime"
	"net/mail"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"fairtape/ingest"
	"fairtape/reply"
)

// The fields by which a draft is found again.
const (
	FieldJob   = "X-Fairtape-Job"
	FieldDraft = "X-Fairtape-Draft"
)

// ErrAddress says that sender or recipient is no address that mail can go to.
var ErrAddress = errors.New("not a mail address")

// dateLayout is that of RFC 5322 section 3.3.
const dateLayout = "Mon, 02 Jan 2006 15:04:05 -0700"

// Marshal writes a letter as a mail with CRLF line ends, all of it ASCII and no
// line over 998 bytes. The same letter always gives the same bytes. The only
// error wraps ErrAddress.
//
// There is no Auto-Submitted field: a person approves each letter before it
// goes out.
func Marshal(d reply.Draft) ([]byte, error) {
	header, err := letterHeader(d)
	if err != nil {
		return nil, err
	}
	body := textPart("text/plain", d.Text)
	if d.HTML != "" {
		html := textPart("text/html", d.HTML)
		if len(d.Pictures) > 0 {
			parts := []*part{html}
			for _, p := range d.Pictures {
				parts = append(parts, picturePart(p))
			}
			html = container("multipart/related", map[string]string{"type": "text/html"}, parts)
		}
		body = container("multipart/alternative", nil, []*part{body, html})
	}
	if len(d.Files) > 0 {
		parts := []*part{body}
		for _, f := range d.Files {
			parts = append(parts, filePart(f))
		}
		body = container("multipart/mixed", nil, parts)
	}
	body.fields = append(append(header, field{"MIME-Version", "1.0"}), body.fields...)
	var out bytes.Buffer
	if err := body.write(&out, &boundaries{seed: d.MessageID + d.ID.String()}); err != nil {
		return nil, fmt.Errorf("writing the letter: %w", err)
	}
	return out.Bytes(), nil
}

// letterHeader returns the fields of the letter itself, in the order in which
// they are written.
func letterHeader(d reply.Draft) ([]field, error) {
	from, err := address(d.From)
	if err != nil {
		return nil, fmt.Errorf("sender: %w", err)
	}
	to, err := address(d.To)
	if err != nil {
		return nil, fmt.Errorf("recipient: %w", err)
	}
	subject := d.Subject
	if d.InReplyTo != "" {
		subject = ReplySubject(subject)
	}
	return []field{
		{"From", from},
		{"To", to},
		{"Subject", encoded(subject)},
		{"Date", dateField(d.Date)},
		{"Message-ID", ids(d.MessageID)},
		{"In-Reply-To", ids(d.InReplyTo)},
		{"References", ids(references(d)...)},
		{"Content-Language", encoded(d.Language)},
		{FieldJob, strconv.Itoa(d.ID.Job)},
		{FieldDraft, d.ID.String()},
	}, nil
}

// references are those of the letter, the answered message last (RFC 5322
// section 3.6.4).
func references(d reply.Draft) []string {
	refs := d.References
	if d.InReplyTo != "" && (len(refs) == 0 || refs[len(refs)-1] != d.InReplyTo) {
		refs = append(refs[:len(refs):len(refs)], d.InReplyTo)
	}
	return refs
}

// field is one header field, its value ready to be written. An empty value is
// not written.
type field struct{ name, value string }

// clean makes a text one line that can stand in a header field: nothing from
// outside can begin a field of its own. Every value passes here.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return cut(strings.Join(strings.Fields(s), " "), maxValue)
}

const (
	// maxValue is the longest value in bytes: with the field's name it stays
	// within a line of 998 (RFC 5322 section 2.1.1) even when it is one word.
	maxValue = 900
	// maxAddress is the longest address in bytes: 64 and 255 around the sign
	// (RFC 5321 section 4.5.3.1).
	maxAddress = 64 + 1 + 255
	// maxName is the longest file name in bytes, which become three times as
	// many where they are not ASCII.
	maxName = 240
)

// cut shortens s to at most n bytes at the border of a letter.
func cut(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return strings.TrimSpace(s[:n])
}

// encoded is a cleaned text, in encoded words (RFC 2047) where it is not ASCII.
func encoded(s string) string { return mime.QEncoding.Encode("utf-8", clean(s)) }

// address is a cleaned address with its name.
func address(a ingest.Address) (string, error) {
	addr := clean(a.Address)
	parsed, err := mail.ParseAddress("<" + addr + ">")
	if err != nil || parsed.Address != addr || len(a.Address) > maxAddress {
		return "", fmt.Errorf("%q: %w", a.Address, ErrAddress)
	}
	return (&mail.Address{Name: clean(a.Name), Address: addr}).String(), nil
}

// ids is a list of message ids in angle brackets. What could end a bracket
// early is left out, and so is an id too long for a line.
func ids(list ...string) string {
	var out []string
	for _, id := range list {
		id = strings.Map(func(r rune) rune {
			if r <= ' ' || r > '~' || r == '<' || r == '>' {
				return -1
			}
			return r
		}, id)
		if id != "" && len(id) <= maxValue {
			out = append(out, "<"+id+">")
		}
	}
	return strings.Join(out, " ")
}

// replyPrefixes are what mail programs put before the subject of an answer,
// lower case.
var replyPrefixes = []string{"re", "ré", "réf", "aw", "antw", "sv", "vs", "rif", "odp", "ynt", "res"}

// ReplySubject returns the customer's subject with exactly one "Re: " before
// it. "Fwd:" and the like belong to the subject and stay.
func ReplySubject(subject string) string {
	s := clean(subject)
	for {
		word, rest, ok := strings.Cut(s, ":")
		word, _, _ = strings.Cut(strings.ToLower(strings.TrimSpace(word)), "[") // "Re[2]:"
		if !ok || !isReplyPrefix(strings.TrimSpace(word)) {
			break
		}
		s = strings.TrimSpace(rest)
	}
	return strings.TrimSpace("Re: " + s)
}

func isReplyPrefix(word string) bool {
	for _, p := range replyPrefixes {
		if word == p {
			return true
		}
	}
	return false
}

func dateField(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(dateLayout)
}
