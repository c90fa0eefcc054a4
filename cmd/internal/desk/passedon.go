package desk

import (
	netmail "net/mail"
	"regexp"
	"slices"
	"strings"

	"fairtape/ingest"
)

// byStaff reports that a mail comes from somebody of the shop.
func (d *Desk) byStaff(from string) bool {
	return slices.ContainsFunc(d.Staff, func(a string) bool { return strings.EqualFold(a, from) })
}

// passedOn returns the customer's mail that a person of the shop has passed on,
// as an attached message or in the text, and whether one was found.
func passedOn(m ingest.Message) (ingest.Message, bool) {
	if len(m.Forwarded) > 0 {
		f := m.Forwarded[0]
		if f.From.Address == "" {
			return m, false
		}
		inner := ingest.Message{ID: f.ID, From: f.From, Subject: f.Subject, Date: f.Date, Received: m.Received,
			Text: f.Text, HTML: f.HTML, Attachments: m.Attachments, Notes: m.Notes, Language: m.Language}
		return inner, true
	}
	return inlineForward(m)
}

// How mail programs mark a mail that is passed on in the text, and the header
// lines that they repeat below (common practice, no source).
var (
	forwardMark = regexp.MustCompile(`(?im)^(?:[-_ ]{2,} ?(?:forwarded message|message transféré)[-_ ]*|begin forwarded message:|début du message transféré ?:|[-_ ]{2,} ?original message[-_ ]*)\s*$`)
	forwardLine = regexp.MustCompile(`(?i)^\*?(from|de|date|sent|envoyé|to|à|cc|subject|objet|reply-to) ?: ?\*? ?(.*)$`)
	mailtoMark  = regexp.MustCompile(`\[mailto:([^\]]+)\]`)
)

func inlineForward(m ingest.Message) (ingest.Message, bool) {
	text := strings.ReplaceAll(m.Text, "\r\n", "\n")
	mark := forwardMark.FindStringIndex(text)
	if mark == nil {
		return m, false
	}
	inner := ingest.Message{Received: m.Received, Attachments: m.Attachments, Notes: m.Notes, Language: m.Language, Subject: m.Subject}
	lines := strings.Split(strings.TrimLeft(text[mark[1]:], "\n"), "\n")
	body := 0
	for i, line := range lines {
		f := forwardLine.FindStringSubmatch(strings.TrimSpace(line))
		if f == nil {
			if strings.TrimSpace(line) == "" && inner.From.Address == "" {
				continue
			}
			body = i
			break
		}
		switch strings.ToLower(f[1]) {
		case "from", "de":
			inner.From = sender(f[2])
		case "subject", "objet":
			inner.Subject = strings.TrimSpace(f[2])
		}
	}
	inner.Text = strings.Join(lines[body:], "\n")
	return inner, inner.From.Address != ""
}

// sender reads "Ann Tarn <ann@tarn.example>" as mail programs write it in a
// text.
func sender(s string) ingest.Address {
	s = mailtoMark.ReplaceAllString(s, "<$1>")
	a, err := netmail.ParseAddress(strings.TrimSpace(s))
	if err != nil {
		return ingest.Address{}
	}
	return ingest.Address{Name: a.Name, Address: a.Address}
}
