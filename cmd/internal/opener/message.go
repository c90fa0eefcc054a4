package opener

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/prose"
)

// ours is a header field that only the shop's own letters bear.
const ours = "X-Fairtape-Job"

// Mail is what a whole message says: its body, and every file it brought.
type Mail struct {
	Body  prose.Mail
	Files []parse.Document // mails forwarded in it, then what was attached; without logos and the like
}

// Documents returns the body's document and those of the files.
func (m Mail) Documents() []parse.Document {
	return append([]parse.Document{m.Body.Document}, m.Files...)
}

// Read opens a message, its body and every attachment. Sources begin with
// name: "mail.eml" for the body, "mail.eml/form.xlsx" for a file. An error is
// our own failure, as with [Opener.Open].
func (o *Opener) Read(ctx context.Context, msg ingest.Message, name string) (Mail, error) {
	body, err := o.body(ctx, msg, name)
	if err != nil {
		return Mail{}, fmt.Errorf("read the body of %s: %w", name, err)
	}
	for _, n := range msg.Notes {
		body.Document.Problems = append(body.Document.Problems, parse.Problem{
			Code: parse.Code(n.Code), Source: parse.Source{File: partName(name, n.Part)}, Message: n.Message,
		})
	}
	mail := Mail{Body: body}
	for i, f := range msg.Forwarded {
		if len(f.Header[ours]) > 0 {
			continue // our own letter, sent back: its numbers are old ones
		}
		inside, err := o.body(ctx, ingest.Message{Text: f.Text, HTML: f.HTML}, partName(name, fmt.Sprintf("forwarded mail %d", i+1)))
		if err != nil {
			return Mail{}, fmt.Errorf("read a mail forwarded in %s: %w", name, err)
		}
		mail.Files = append(mail.Files, inside.Document)
	}
	for _, a := range msg.Attachments {
		file := partName(name, a.Name)
		opened, err := o.open(ctx, file, a.Data)
		if err != nil {
			return Mail{}, fmt.Errorf("open %s: %w", file, err)
		}
		if !decoration(a, msg.HTML, opened) {
			mail.Files = append(mail.Files, opened.Document)
		}
	}
	mail.heed()
	return mail, nil
}

// heed tells the files what the body says of their numbers. What a person would
// have been asked of a sentence that was followed is settled; of one that names
// no number a person is told.
func (m *Mail) heed() {
	for i := range m.Files {
		for _, n := range prose.Heed(&m.Files[i], m.Body.Notices) {
			m.Body.Document.Problems = slices.DeleteFunc(m.Body.Document.Problems, func(p parse.Problem) bool { return p.Source.Place == n.Source.Place })
		}
	}
	m.Body.Document.Problems = append(m.Body.Document.Problems, prose.Unheeded(m.Body.Notices, m.Documents()...)...)
}

// fewDigits is the least that the plain text of a survey holds.
const fewDigits = 20

// body reads the plain text in process. HTML goes to a child, and is looked at
// where a survey cannot be in the plain text or a table would be lost in it.
func (o *Opener) body(ctx context.Context, msg ingest.Message, name string) (prose.Mail, error) {
	digits := 0
	for _, r := range msg.Text {
		if unicode.IsDigit(r) {
			digits++
		}
	}
	if msg.HTML == "" || digits >= fewDigits && !strings.Contains(strings.ToLower(msg.HTML), "<td") {
		return prose.Read(name, msg.Text, ""), nil
	}
	if len(msg.Text)+len(msg.HTML) > inputMost {
		return prose.Mail{Document: tooLarge(name, len(msg.Text)+len(msg.HTML))}, nil
	}
	job := order{Name: name, Kind: kindMail, Size: len(msg.Text) + len(msg.HTML), HTML: len(msg.HTML)}
	answer, err := o.delegate(ctx, job, []byte(msg.Text+msg.HTML))
	if err != nil {
		return prose.Mail{}, err
	}
	if answer.Mail == nil { // the child failed; the plain text is still there
		mail := prose.Read(name, msg.Text, "")
		mail.Document.Problems = append(mail.Document.Problems, answer.Document.Problems...)
		return mail, nil
	}
	return *answer.Mail, nil
}

func partName(mail, part string) string {
	if part == "" {
		return mail
	}
	return mail + "/" + part
}

// What a picture may measure at most and still be taken for a logo or the
// divider of a signature. A form is legible from some 600 pixels a side.
const (
	logoSide  = 320 // pixels, of the shorter side
	logoBytes = 64 << 10
)

// decoration reports a small picture that the body shows, as signatures do. A
// photograph that a telephone puts into the body is larger.
func decoration(a ingest.Attachment, html string, o opened) bool {
	if o.Width == 0 || len(a.Data) > logoBytes || min(o.Width, o.Height) > logoSide {
		return false
	}
	return a.Inline || a.ContentID != "" && strings.Contains(html, "cid:"+a.ContentID)
}
