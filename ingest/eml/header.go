package eml

import (
	"bufio"
	"bytes"
	"fmt"
	"mime"
	"net/mail"
	"regexp"
	"strings"
	"time"

	"github.com/emersion/go-message"
	"github.com/emersion/go-message/charset"
	"github.com/emersion/go-message/textproto"

	"fairtape/ingest"
)

// Limits on single header values.
const (
	maxValueBytes   = 16 << 10 // a signature or a trace of authentication stays under 4 KB
	maxSubjectRunes = 500
	maxReferences   = 200
)

// header reads the header at the start of raw and returns what follows it.
// Lines that are no fields are dropped and noted, because go-message gives up a
// whole part for one of them.
func (w *walker) header(raw []byte, limit int, path string) (message.Header, []byte) {
	fields, body, trouble := splitHeader(raw, limit)
	if trouble != "" {
		w.note(NoteHeader, path, trouble)
	}
	h, err := textproto.ReadHeader(bufio.NewReader(bytes.NewReader(fields)))
	if err != nil {
		w.note(NoteHeader, path, "Part of the header could not be read.")
	}
	return message.Header{Header: h}, body
}

// splitHeader returns the well-formed fields of the header, with CRLF line
// ends and a blank line after them, and the body. A line without a colon among
// the fields is dropped; such lines behind the last field are the body, as
// there some program forgot the blank line.
func splitHeader(raw []byte, limit int) (fields, body []byte, trouble string) {
	var out, stray bytes.Buffer
	rest := raw
	keep := false // the current field is kept, and so are its continuation lines
	strayAt := raw[:0]
	for len(rest) > 0 {
		here := rest
		var line []byte
		line, rest = cutLine(rest)
		if len(line) == 0 {
			break
		}
		switch {
		case line[0] == ' ' || line[0] == '\t':
			if !keep {
				continue
			}
		case isField(line):
			if stray.Len() > 0 {
				trouble = "A line in the header that is no header field was passed over."
				stray.Reset()
			}
			keep = true
		case bytes.HasPrefix(line, []byte("From ")) || bytes.HasPrefix(line, []byte(">From ")):
			keep = false // a mailbox file's separator
			continue
		default:
			if stray.Len() == 0 {
				strayAt = here
			}
			stray.Write(line)
			keep = false
			continue
		}
		if out.Len()+len(line) > limit {
			trouble = fmt.Sprintf("The header is over %d KB; the rest of it was passed over.", limit>>10)
			keep = false
			continue
		}
		out.Write(line)
		out.WriteString("\r\n")
	}
	if stray.Len() > 0 {
		if bytes.Contains(bytes.ToLower(out.Bytes()), []byte("base64")) {
			trouble = "A line in the header that is no header field was passed over."
		} else {
			rest = strayAt
		}
	}
	out.WriteString("\r\n")
	return out.Bytes(), rest, trouble
}

// cutLine returns the first line without its end, and what follows.
func cutLine(b []byte) (line, rest []byte) {
	i := bytes.IndexByte(b, '\n')
	if i < 0 {
		return bytes.TrimSuffix(b, []byte("\r")), nil
	}
	return bytes.TrimSuffix(b[:i], []byte("\r")), b[i+1:]
}

// isField reports whether a line begins with a field name and a colon
// (RFC 5322 section 2.2), blanks before the colon allowed.
func isField(line []byte) bool {
	i := bytes.IndexByte(line, ':')
	name := bytes.TrimRight(line[:max(i, 0)], " \t")
	if len(name) == 0 {
		return false
	}
	for _, c := range name {
		if c <= ' ' || c > '~' {
			return false
		}
	}
	return true
}

// envelope fills in what the mail's own header says.
func (w *walker) envelope(h message.Header) {
	m := w.msg
	m.Header = fields(h)
	from := addresses(h, "From")
	switch len(from) {
	case 0:
		w.note(NoteFrom, "", "The mail names no sender.")
	case 1:
		m.From = from[0]
	default:
		m.From = from[0]
		w.note(NoteFrom, "", "The mail names several senders; the first is taken for the writer.")
	}
	m.Sender = first(addresses(h, "Sender"))
	m.ReplyTo = addresses(h, "Reply-To")
	m.To = addresses(h, "To")
	m.Cc = addresses(h, "Cc")
	m.ID = firstID(h)
	m.InReplyTo = messageIDs(h, "In-Reply-To")
	m.References = messageIDs(h, "References")
	m.Subject = subject(h)
	m.Language = languageTag(m.Header)
	m.Date = date(h)
	if m.Date.IsZero() {
		w.note(NoteDate, "", "The mail has no date that can be read.")
	}
}

// fields returns all fields, decoded, one line each.
func fields(h message.Header) ingest.Header {
	out := make(ingest.Header)
	for f := h.Fields(); f.Next(); {
		out[f.Key()] = append(out[f.Key()], decodeWords(f.Value(), maxValueBytes))
	}
	return out
}

// decodeWords undoes RFC 2047 encoding and makes the value one safe line.
func decodeWords(v string, limit int) string {
	v = toUTF8([]byte(v))
	d := mime.WordDecoder{CharsetReader: charset.Reader}
	if s, err := d.DecodeHeader(v); err == nil {
		v = s
	}
	return cutBytes(oneLine(v), limit)
}

func subject(h message.Header) string {
	s := decodeWords(h.Get("Subject"), maxValueBytes)
	if r := []rune(s); len(r) > maxSubjectRunes {
		s = string(r[:maxSubjectRunes])
	}
	return s
}

func languageTag(h ingest.Header) string {
	v := h["Content-Language"]
	if len(v) == 0 {
		return ""
	}
	tag, _, _ := strings.Cut(v[0], ",")
	return strings.TrimSpace(tag)
}

// addresses returns the addresses of all fields of that name.
func addresses(h message.Header, key string) []ingest.Address {
	p := mail.AddressParser{WordDecoder: &mime.WordDecoder{CharsetReader: charset.Reader}}
	var out []ingest.Address
	for _, v := range h.Values(key) {
		v = toUTF8([]byte(cutBytes(v, maxValueBytes)))
		list, err := p.ParseList(v)
		if err != nil {
			out = append(out, looseAddresses(v)...)
			continue
		}
		for _, a := range list {
			out = append(out, ingest.Address{Name: oneLine(a.Name), Address: oneLine(a.Address)})
		}
	}
	return out
}

var looseAddress = regexp.MustCompile(`[^\s<>()\[\],;:"']+@[^\s<>()\[\],;:"'@]+`)

// looseAddresses finds what looks like addresses in a field that breaks the
// grammar. The name is what stands before the first.
func looseAddresses(v string) []ingest.Address {
	var out []ingest.Address
	for i, at := range looseAddress.FindAllStringIndex(v, maxReferences) {
		a := ingest.Address{Address: oneLine(v[at[0]:at[1]])}
		if i == 0 {
			a.Name = strings.Trim(decodeWords(v[:at[0]], maxValueBytes), `<>" `)
		}
		out = append(out, a)
	}
	return out
}

func first(list []ingest.Address) ingest.Address {
	if len(list) == 0 {
		return ingest.Address{}
	}
	return list[0]
}

var bracketed = regexp.MustCompile(`<([^<>\s]+)>`)

// messageIDs returns the ids of a field without their angle brackets. A value
// without brackets counts when it is a single word.
func messageIDs(h message.Header, key string) []string {
	var out []string
	for _, v := range h.Values(key) {
		v = oneLine(toUTF8([]byte(v)))
		found := bracketed.FindAllStringSubmatch(v, maxReferences)
		for _, m := range found {
			out = append(out, m[1])
		}
		if len(found) == 0 && strings.Contains(v, "@") && !strings.ContainsAny(v, " <>") {
			out = append(out, v)
		}
	}
	if len(out) > maxReferences {
		out = out[len(out)-maxReferences:]
	}
	return out
}

// firstID returns the mail's own id, "" when it has none or one that no
// program could send back (RFC 5322 section 2.1.1 ends a line at 998).
func firstID(h message.Header) string {
	ids := messageIDs(h, "Message-Id")
	if len(ids) == 0 || len(ids[0]) > 996 {
		return ""
	}
	return ids[0]
}

// looseDates are forms of Date that programs write beside the right ones.
var looseDates = []string{
	time.RFC3339, time.ANSIC, time.UnixDate, time.RFC850,
	"2006-01-02 15:04:05 -0700", "2006-01-02 15:04:05",
	"Mon, 2 Jan 2006 15:04:05", "2 Jan 2006 15:04:05",
}

// date returns the date, zero when it cannot be read or cannot be true.
func date(h message.Header) time.Time {
	v, _, _ := strings.Cut(oneLine(h.Get("Date")), " (")
	t, err := mail.ParseDate(v)
	for i := 0; err != nil && i < len(looseDates); i++ {
		t, err = time.Parse(looseDates[i], v)
	}
	// Mail is older than 1970 or from after 2200 only by mistake.
	if err != nil || t.Year() < 1970 || t.Year() > 2200 {
		return time.Time{}
	}
	return t
}
