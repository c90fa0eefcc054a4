package eml

import (
	"bytes"
	"fmt"
	"html"
	"strings"

	"github.com/emersion/go-message"

	"fairtape/ingest"
)

// walker takes one mail apart. It counts parts over the whole mail.
type walker struct {
	msg     *ingest.Message
	parts   int
	tooMany bool
}

// place is where in the mail a part stands.
type place struct {
	path      string // "2.1", "" for the mail itself
	depth     int
	root      bool // the only part: the mail or the forwarded message itself
	forwarded bool
	related   bool // beside an HTML body that shows it
	text      *segments
}

func (p place) child(i int) place {
	p.depth++
	p.root = false
	if p.path != "" {
		p.path += "."
	}
	p.path += fmt.Sprint(i + 1)
	return p
}

// segment is a stretch of the body, in one form or in both.
type segment struct {
	text, html string
	flowed     bool
}

type segments []segment

func (s *segments) add(seg segment) { *s = append(*s, seg) }

func (w *walker) note(code, part, message string) {
	w.msg.Notes = append(w.msg.Notes, ingest.Note{Code: code, Part: part, Message: message})
}

// part takes in one part, whatever it is.
func (w *walker) part(h message.Header, raw []byte, at place) {
	if at.depth > MaxDepth {
		w.note(NoteTooDeep, at.path, "The mail is nested too deep; what lies deeper was not read.")
		return
	}
	if w.parts++; w.parts > MaxParts {
		w.full()
		return
	}
	mediaType, params := contentType(h)
	switch {
	case strings.HasPrefix(mediaType, "multipart/"):
		w.multipart(h, raw, at, mediaType, params)
	case mediaType == "message/rfc822" || mediaType == "message/global" || mediaType == "text/rfc822-headers":
		w.inner(h, raw, at)
	case mediaType == "message/external-body":
		w.note(NoteNotHere, at.path, "An attachment is only a link to another place; please have it sent as a file.")
	case mediaType == "message/partial":
		w.note(NoteNotHere, at.path, "The mail was cut into several; please have it sent in one.")
	case mediaType == "message/delivery-status" || mediaType == "message/disposition-notification" ||
		mediaType == "message/feedback-report":
		// For programs; the text beside it says the same.
	default:
		w.leaf(h, raw, at, mediaType, params)
	}
}

// multipart walks the parts of a container.
func (w *walker) multipart(h message.Header, raw []byte, at place, mediaType string, params map[string]string) {
	switch mediaType {
	case "multipart/encrypted":
		w.note(NoteEncrypted, at.path, "The mail is encrypted and cannot be read here; please have it sent without encryption.")
		return
	case "multipart/signed":
		w.note(NoteSigned, at.path, "The mail carries a signature, which was not checked.")
	case "multipart/related":
		at.related = true
	}
	parts := w.split(h, raw, at, params["boundary"])
	if parts == nil {
		w.note(NoteBoundary, at.path, "The mail does not say where its parts begin; it was read as one text.")
		w.leaf(h, raw, at, "text/plain", params)
		return
	}
	outer := at.text
	var both segments
	if mediaType == "multipart/alternative" {
		at.text = &both
	}
	for i, p := range parts {
		if w.parts >= MaxParts {
			w.full()
			break
		}
		child := at.child(i)
		ph, body := w.header(p, MaxPartHeaderBytes, child.path)
		if mediaType == "multipart/digest" && !ph.Has("Content-Type") {
			ph.Set("Content-Type", "message/rfc822")
		}
		w.part(ph, body, child)
	}
	if mediaType == "multipart/alternative" && len(both) > 0 {
		outer.add(both.alternative())
	}
}

// alternative makes one segment of the forms of the same text.
func (s segments) alternative() segment {
	var out segment
	for _, seg := range s {
		out.text = joinText(out.text, seg.text)
		out.html += seg.html
		out.flowed = out.flowed || seg.flowed
	}
	return out
}

// split returns the parts of a container, nil when there is no boundary to be
// found. A container must not be encoded as a whole (RFC 2045 section 6.4), but
// some are.
func (w *walker) split(h message.Header, raw []byte, at place, boundary string) [][]byte {
	if parts := splitParts(raw, boundary, MaxParts+1); parts != nil {
		return parts
	}
	if data, _ := decodeTransfer(h.Get("Content-Transfer-Encoding"), raw); len(data) != len(raw) {
		if parts := splitParts(data, boundary, MaxParts+1); parts != nil {
			return parts
		}
	}
	parts := splitParts(raw, guessBoundary(raw), MaxParts+1)
	if parts != nil {
		w.note(NoteBoundary, at.path, "The mail does not say where its parts begin; that was guessed.")
	}
	return parts
}

// splitParts cuts a container's body at its delimiter lines (RFC 2046 section
// 5.1.1). A missing last delimiter is no fault. It returns at most limit parts,
// and nil when no delimiter stands in the body.
func splitParts(body []byte, boundary string, limit int) [][]byte {
	if boundary == "" {
		return nil
	}
	delim := []byte("--" + boundary)
	var parts [][]byte
	start, pos := -1, 0
	for len(parts) < limit {
		i := bytes.Index(body[pos:], delim)
		if i < 0 {
			break
		}
		i += pos
		pos = i + len(delim)
		line, _ := cutLine(body[pos:])
		tail := bytes.TrimRight(line, " \t")
		last := bytes.Equal(tail, []byte("--"))
		if i > 0 && body[i-1] != '\n' || len(tail) > 0 && !last {
			continue
		}
		if start >= 0 {
			parts = append(parts, trimLineEnd(body[start:max(i, start)]))
		}
		if last {
			return append(make([][]byte, 0), parts...)
		}
		start = len(body)
		if n := bytes.IndexByte(body[pos:], '\n'); n >= 0 {
			start = pos + n + 1
		}
	}
	if start >= 0 && len(parts) < limit {
		parts = append(parts, body[start:])
	}
	return parts
}

// trimLineEnd removes the line end that belongs to the delimiter after it.
func trimLineEnd(b []byte) []byte {
	return bytes.TrimSuffix(bytes.TrimSuffix(b, []byte("\n")), []byte("\r"))
}

// guessBoundary returns the first line that begins with two dashes and has a
// part's header after it.
func guessBoundary(body []byte) string {
	for rest := body; len(rest) > 0; {
		var line []byte
		line, rest = cutLine(rest)
		if len(line) < 4 || len(line) > 200 || !bytes.HasPrefix(line, []byte("--")) {
			continue
		}
		next, _ := cutLine(rest)
		if len(next) > 8 && strings.EqualFold(string(next[:8]), "content-") {
			return string(bytes.TrimRight(line[2:], " \t"))
		}
	}
	return ""
}

// inner takes in a message that stands in this one.
func (w *walker) inner(h message.Header, raw []byte, at place) {
	if data, _ := decodeTransfer(h.Get("Content-Transfer-Encoding"), raw); len(data) > 0 {
		raw = data
	}
	path := at.path
	ih, body := w.header(raw, MaxHeaderBytes, path)
	f := ingest.Forwarded{
		ID:      firstID(ih),
		From:    first(addresses(ih, "From")),
		Subject: subject(ih),
		Date:    date(ih),
		Header:  fields(ih),
	}
	slot := len(w.msg.Forwarded)
	w.msg.Forwarded = append(w.msg.Forwarded, f)
	var text segments
	w.part(ih, body, place{path: path, depth: at.depth + 1, root: true, forwarded: true, text: &text})
	in := &w.msg.Forwarded[slot]
	in.Text, in.HTML, _ = w.body(text, path, true)
}

// body makes the texts of a message out of its segments. The first segment
// says in which form the message is written: a later one that has only the
// other form is kept, as an attachment or in the HTML, so that nothing is lost.
func (w *walker) body(s segments, path string, forwarded bool) (text, htm string, flowed bool) {
	plain := false
	for _, seg := range s {
		if strings.TrimSpace(seg.text) != "" {
			plain = true
		}
		if plain || seg.html != "" {
			break
		}
	}
	for i, seg := range s {
		switch {
		case !plain && seg.html == "" && strings.TrimSpace(seg.text) != "":
			htm += "<pre>" + html.EscapeString(seg.text) + "</pre>"
		case plain && strings.TrimSpace(seg.text) == "" && seg.html != "":
			w.attach(ingest.Attachment{
				Name: fmt.Sprintf("text-%d.html", i+1), MediaType: "text/html",
				Inline: true, Forwarded: forwarded, Data: []byte(seg.html),
			})
		default:
			if plain {
				text = joinText(text, seg.text)
			}
			htm += seg.html
			flowed = flowed || seg.flowed
		}
	}
	return w.limit(text, path), w.limit(htm, path), flowed && plain
}

func (w *walker) limit(s, path string) string {
	if len(s) <= MaxTextBytes {
		return s
	}
	w.note(NoteTextTooLong, path, fmt.Sprintf("The text is over %d KB; only its beginning was read.", MaxTextBytes>>10))
	return cutBytes(s, MaxTextBytes)
}

func (w *walker) attach(a ingest.Attachment) {
	w.msg.Attachments = append(w.msg.Attachments, a)
}

// full notes, once, that there are too many parts.
func (w *walker) full() {
	if !w.tooMany {
		w.tooMany = true
		w.note(NoteTooMany, "", fmt.Sprintf("The mail has over %d parts; the rest was not read.", MaxParts))
	}
}

func joinText(a, b string) string {
	if a == "" || b == "" || strings.HasSuffix(a, "\n") {
		return a + b
	}
	return a + "\n" + b
}
