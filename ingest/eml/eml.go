// Package eml takes a mail apart: MIME in, an ingest.Message out.
//
// It never refuses what a stranger can send, except for its size. What could
// not be read stands in the message's notes, and the rest still counts. Parts
// are split and walked here, within limits; headers, transfer encodings and
// charsets are read by go-message at the level of a single entity, with
// tolerant readers before it where mail in the wild breaks the rules.
package eml

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"

	"fairtape/ingest"
)

// Limits on what is read of one mail. What lies beyond one of them is left
// unread and noted; only MaxBytes makes an error.
const (
	// MaxBytes is the size of a whole mail: phones and scanners send 40 MB.
	MaxBytes = 50 << 20
	// MaxDepth is how deep parts may be nested, forwarded messages included.
	// Honest mail stays under 6, even when forwarded twice.
	MaxDepth = 10
	// MaxParts is the number of parts, containers and the mail itself included.
	MaxParts = 100
	// MaxHeaderBytes is the size of the mail's header. Signatures and traces of
	// a long way seldom reach 60 KB.
	MaxHeaderBytes = 256 << 10
	// MaxPartHeaderBytes is the size of a part's header.
	MaxPartHeaderBytes = 32 << 10
	// MaxTextBytes is the size of the plain body and of the HTML body, each.
	MaxTextBytes = 1 << 20
)

// ErrTooLarge is the one error for what a stranger can send.
var ErrTooLarge = errors.New("the mail is too large")

// Codes of the notes that Parse makes.
const (
	NoteTooDeep     = "too-deep"     // nested beyond MaxDepth
	NoteTooMany     = "too-many"     // more than MaxParts parts
	NoteHeader      = "bad-header"   // lines that are no header fields, or a header over its limit
	NoteBoundary    = "bad-boundary" // a multipart without a usable boundary
	NoteEncoding    = "bad-encoding" // junk in base64 or quoted-printable, or an unknown encoding
	NoteCharset     = "charset"      // the declared charset is unknown or wrong
	NoteTextTooLong = "text-too-long"
	NoteWinmail     = "winmail"    // a winmail.dat, which only Outlook can open
	NoteEncrypted   = "encrypted"  // encrypted, and so unreadable
	NoteSigned      = "signed"     // signed; the signature was not checked
	NoteNotHere     = "not-inside" // the content lies elsewhere, or in several mails
	NoteFrom        = "from"       // no sender, or several
	NoteDate        = "bad-date"
)

// Parse takes a mail apart. The only error is ErrTooLarge.
func Parse(raw []byte) (ingest.Message, error) {
	if len(raw) > MaxBytes {
		return ingest.Message{}, fmt.Errorf("%w: %d MB, at most %d are read", ErrTooLarge, len(raw)>>20, MaxBytes>>20)
	}
	sum := sha256.Sum256(raw)
	msg := ingest.Message{Hash: hex.EncodeToString(sum[:])}
	w := walker{msg: &msg}
	h, body := w.header(raw, MaxHeaderBytes, "")
	w.envelope(h)

	var text segments
	w.part(h, body, place{depth: 1, text: &text, root: true})
	msg.Text, msg.HTML, msg.FormatFlow = w.body(text, "", false)
	return msg, nil
}

// Read reads a mail to its end and takes it apart. The errors are those of r
// and ErrTooLarge.
func Read(r io.Reader) (ingest.Message, error) {
	raw, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return ingest.Message{}, fmt.Errorf("reading the mail: %w", err)
	}
	return Parse(raw)
}
