package eml

import (
	"bytes"
	"io"
	"strings"

	"github.com/emersion/go-message"
	// Teaches go-message the charsets that mail is written in.
	_ "github.com/emersion/go-message/charset"

	"fairtape/ingest"
)

// leaf takes in a part that holds no others: a text of the body, or a file.
func (w *walker) leaf(h message.Header, raw []byte, at place, mediaType string, params map[string]string) {
	disposition, dparams := disposition(h)
	name := fileName(dparams["filename"], params["name"])
	label := name
	if label == "" {
		label = at.path
	}
	if w.unreadable(mediaType, params, name, label) {
		return
	}
	data, ok := decodeTransfer(h.Get("Content-Transfer-Encoding"), raw)
	if !ok {
		w.note(NoteEncoding, label, "The part was damaged on its way; it was read as far as possible.")
	}
	if isBody(mediaType, disposition, name, at) {
		w.text(h, data, at, mediaType, params)
		return
	}
	if name == "" {
		name = madeUpName(at.path, mediaType)
	}
	w.attach(ingest.Attachment{
		Name:      name,
		MediaType: mediaType,
		ContentID: contentID(h),
		Inline:    disposition == "inline" || disposition == "" && at.related,
		Forwarded: at.forwarded,
		Data:      data,
	})
}

// isBody tells the text of a mail from a file that happens to be text. A file
// has a name, or says that it is one.
func isBody(mediaType, disposition, name string, at place) bool {
	if mediaType != "text/plain" && mediaType != "text/html" {
		return false
	}
	return disposition != "attachment" && (name == "" || at.root)
}

// unreadable notes the parts that nothing here can open, and drops signatures.
func (w *walker) unreadable(mediaType string, params map[string]string, name, label string) bool {
	switch mediaType {
	case "application/pgp-signature", "application/pkcs7-signature", "application/x-pkcs7-signature",
		"application/pgp-keys":
		return true
	case "application/pkcs7-mime", "application/x-pkcs7-mime":
		if strings.EqualFold(params["smime-type"], "signed-data") {
			w.note(NoteEncrypted, label, "The mail is wrapped in a signature that only some mail programs open; please have it sent without.")
		} else {
			w.note(NoteEncrypted, label, "The mail is encrypted and cannot be read here; please have it sent without encryption.")
		}
		return true
	}
	if mediaType == "application/ms-tnef" || mediaType == "application/vnd.ms-tnef" || strings.EqualFold(name, "winmail.dat") {
		w.note(NoteWinmail, label, "The attachments are packed in a winmail.dat, which only Outlook opens; please have them sent as ordinary files.")
		return true
	}
	return false
}

// text takes in a text of the body.
func (w *walker) text(h message.Header, data []byte, at place, mediaType string, params map[string]string) {
	s, ok := decodeCharset(h, data, params["charset"])
	if !ok {
		w.note(NoteCharset, at.path, "The text does not say rightly in which alphabet it is written; some letters may be wrong.")
	}
	s = cleanText(s)
	if strings.Contains(s, "-----BEGIN PGP MESSAGE-----") {
		w.note(NoteEncrypted, at.path, "The text is encrypted and cannot be read here; please have it sent without encryption.")
	}
	if mediaType == "text/html" {
		at.text.add(segment{html: s})
		return
	}
	flowed := strings.EqualFold(params["format"], "flowed")
	if flowed {
		s = unflow(s, strings.EqualFold(params["delsp"], "yes"))
	}
	at.text.add(segment{text: s, flowed: flowed})
}

// decodeCharset returns the text as UTF-8, and whether the declared charset
// did. Bytes that are UTF-8 with at least one letter beyond ASCII are taken for
// that under a one-byte charset too: in no Latin alphabet do such pairs make
// words, and a half sign read as two letters would spoil a number.
func decodeCharset(h message.Header, data []byte, declared string) (string, bool) {
	declared = strings.ToLower(declared)
	ascii := isASCII(data)
	switch declared {
	case "", "us-ascii", "ascii", "utf-8", "utf8":
		if ascii || validUTF8(data) {
			return string(data), ascii || !strings.HasSuffix(declared, "ascii")
		}
		return toUTF8(data), declared == ""
	}
	if !ascii && oneByte(declared) && validUTF8(data) {
		return string(data), false
	}
	th := h.Copy()
	th.Del("Content-Transfer-Encoding") // undone already
	e, err := message.New(th, bytes.NewReader(data))
	if err != nil {
		return toUTF8(data), ascii
	}
	out, err := io.ReadAll(e.Body)
	if err != nil {
		return toUTF8(data), false
	}
	return string(out), true
}

// oneByte names the charsets in which each byte is a letter.
func oneByte(charset string) bool {
	return strings.HasPrefix(charset, "iso-8859-") || strings.HasPrefix(charset, "windows-125") ||
		strings.HasPrefix(charset, "cp125") || strings.HasPrefix(charset, "latin") || charset == "macintosh"
}
