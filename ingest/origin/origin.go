// Package origin tells who stands behind a mail: a person who may be answered,
// or a program that must not be (RFC 3834), and whether the sender's address
// has been proven.
package origin

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/ingest"
)

// Kind is what sort of sender a mail has.
type Kind string

// The kinds. Only Person gets a letter.
const (
	Person    Kind = "person"
	AutoReply Kind = "auto-reply" // out of office, ticket systems
	Bounce    Kind = "bounce"     // could not be delivered, or was delayed
	Receipt   Kind = "receipt"    // delivered, read, or reported as abuse
	List      Kind = "list"       // mailing list, newsletter, bulk mail
	Robot     Kind = "robot"      // an address nobody reads
	Ours      Kind = "ours"       // the shop's own mail come back
	Loop      Kind = "loop"       // has been on the way too long
	Nobody    Kind = "nobody"     // names no sender to answer
)

// Origin is a kind and why, in words for a person of the shop. The reason is
// "" for a person.
type Origin struct {
	Kind   Kind
	Reason string
}

// MaxReceived is how many Received fields a mail may have. RFC 5321 section 6.3
// lets servers cut loops at 100; honest mail has under 20, and a loop that runs
// through the shop must end before the servers end it.
const MaxReceived = 50

// Of tells what sort of sender a mail has. own are the shop's addresses.
func Of(m ingest.Message, own []string) Origin {
	for _, rule := range []func(ingest.Message, []string) Origin{
		loop, bounce, receipt, ours, list, robot, autoReply, outOfOffice, nobody,
	} {
		if o := rule(m, own); o.Kind != "" {
			return o
		}
	}
	return Origin{Kind: Person}
}

func loop(m ingest.Message, _ []string) Origin {
	if len(m.Header["Received"]) > MaxReceived {
		return Origin{Loop, "The mail has passed through too many servers; it seems to run in a circle."}
	}
	return Origin{}
}

// ours finds the shop's own mail: by its sender, or by the fields that only
// the shop's letters carry.
func ours(m ingest.Message, own []string) Origin {
	for _, a := range own {
		if a != "" && (strings.EqualFold(a, m.From.Address) || strings.EqualFold(a, m.Sender.Address)) {
			return Origin{Ours, "The mail comes from the shop's own address."}
		}
	}
	for key := range m.Header {
		if strings.HasPrefix(key, "X-Fairtape-") {
			return Origin{Ours, "The mail is one of the shop's own letters."}
		}
	}
	return Origin{}
}

// bounce finds notes of failed delivery: the null sender (RFC 5321 section
// 4.5.5), a delivery report (RFC 3464), or a mail server's own address.
func bounce(m ingest.Message, _ []string) Origin {
	mediaType, report := contentType(m)
	switch {
	case mediaType == "multipart/report" && report == "delivery-status":
		return Origin{Bounce, "The mail is a mail server's report about a delivery."}
	case len(m.Header["X-Failed-Recipients"]) > 0:
		return Origin{Bounce, "The mail is a mail server's report about a failed delivery."}
	}
	local, _, _ := strings.Cut(strings.ToLower(m.From.Address), "@")
	if local == "mailer-daemon" || local == "postmaster" {
		return Origin{Bounce, "The mail was written by a mail server, not by a person."}
	}
	if v := m.Header["Return-Path"]; len(v) > 0 && strings.ReplaceAll(v[0], " ", "") == "<>" {
		// Receipts and auto-replies have the null sender too.
		if receipt(m, nil).Kind == "" && autoReply(m, nil).Kind == "" {
			return Origin{Bounce, "The mail has no return address, so it was written by a program."}
		}
	}
	return Origin{}
}

// receipt finds read receipts (RFC 8098) and abuse reports (RFC 5965).
func receipt(m ingest.Message, _ []string) Origin {
	mediaType, report := contentType(m)
	if mediaType == "multipart/report" {
		switch report {
		case "disposition-notification":
			return Origin{Receipt, "The mail is a receipt that says a letter was read."}
		case "feedback-report":
			return Origin{Receipt, "The mail is a provider's report about a letter."}
		}
		return Origin{Receipt, "The mail is a program's report."}
	}
	if mediaType == "message/disposition-notification" {
		return Origin{Receipt, "The mail is a receipt that says a letter was read."}
	}
	return Origin{}
}

func list(m ingest.Message, _ []string) Origin {
	for _, key := range []string{"List-Id", "List-Unsubscribe", "List-Post", "Feedback-Id"} {
		if len(m.Header[key]) > 0 {
			return Origin{List, "The mail was sent to a mailing list or in bulk."}
		}
	}
	switch word(m, "Precedence") {
	case "bulk", "list", "junk":
		return Origin{List, "The mail was sent to a mailing list or in bulk."}
	}
	return Origin{}
}

// robotAddress is a local part that nobody reads. Common practice, no source.
var robotAddress = regexp.MustCompile(`^(no|do-?not|dont|ne-?pas|nicht|keine)[-_.]?(reply|replay|respond|repondre|antworten|antwort)\b|^(noreply|donotreply|nepasrepondre|bounces?|notifications?|mailer)([-_.+=]|$)|[-_.+](no-?reply|bounces?)$`)

func robot(m ingest.Message, _ []string) Origin {
	local, _, _ := strings.Cut(strings.ToLower(m.From.Address), "@")
	if robotAddress.MatchString(local) {
		return Origin{Robot, "Nobody reads answers to the address it came from."}
	}
	return Origin{}
}

// autoReply finds answers by programs that say what they are.
func autoReply(m ingest.Message, _ []string) Origin {
	auto := Origin{AutoReply, "The mail was written by a program (an automatic answer)."}
	// RFC 3834 section 5: anything but "no" is automatic.
	if v := word(m, "Auto-Submitted"); v != "" && v != "no" {
		return auto
	}
	for _, key := range []string{"X-Autoreply", "X-Autorespond", "X-Autoresponder", "X-Auto-Response", "Autoresponder"} {
		if len(m.Header[key]) > 0 {
			return auto
		}
	}
	if word(m, "Precedence") == "auto_reply" {
		return auto
	}
	return Origin{}
}

// absence are subjects that mail programs put on out-of-office answers, in
// English, French and German, at the beginning of the subject. Common practice,
// no source.
var absence = regexp.MustCompile(`(?i)^\s*((automatic|auto)[- ]?(reply|response)|out of (the )?office|autoreply|` +
	`(i am |i'm )?(currently )?(away|on (holiday|vacation|leave))\b|vacation (reply|response)|` +
	`r[ée]ponse automatique|absence du bureau|absent\(?e?\)? du bureau|message d['’]absence|` +
	`notification d['’]absence|automatische antwort|abwesenheit|abwesend\b|außer haus)`)

// absenceText are the first words of such answers whose subject is only "Re:".
var absenceText = regexp.MustCompile(`(?i)(` +
	`\bi('m| am|’m) (currently |presently )?(out of (the )?office|away from (the office|my desk)|on (annual |maternity |paternity |sick )?leave|on (vacation|holiday))` +
	`|\bi (will|shall) be out of (the )?office` +
	`|this is an automat(ic|ed) (reply|response|message)` +
	`|je suis (actuellement )?(absente?|en (congé|vacances))` +
	`|ceci est (un message|une réponse) automatique` +
	`|ich bin (derzeit|zurzeit|zur zeit|momentan|bis|vom|ab)?.{0,60}(nicht (im (büro|haus)|erreichbar)|abwesend|im urlaub)` +
	`|dies ist eine automati(sche|sch erzeugte|sch generierte) (antwort|nachricht))`)

// absenceHead is how much of the text is looked at, in bytes: these answers
// say at once what they are.
const absenceHead = 300

// manyNumbers is more than an absence with dates and telephone numbers has,
// and fewer than a survey.
const manyNumbers = 25

// outOfOffice finds the answers that no header gives away. A mail with files or
// with the numbers of a survey is a person's, whatever it says; so is one that
// tells a measure beside a holiday, unless its subject is a program's.
func outOfOffice(m ingest.Message, _ []string) Origin {
	own := ownWords(m.Text)
	if hasFiles(m) || len(number.FindAllString(own, -1)) >= manyNumbers {
		return Origin{}
	}
	answers := len(m.InReplyTo)+len(m.References) > 0
	if absence.MatchString(m.Subject) ||
		answers && absenceText.MatchString(head(own, absenceHead)) && !measure.MatchString(own) {
		return Origin{AutoReply, "The mail looks like an automatic out-of-office answer."}
	}
	return Origin{}
}

func hasFiles(m ingest.Message) bool {
	return slices.ContainsFunc(m.Attachments, func(a ingest.Attachment) bool { return !a.Inline })
}

var number = regexp.MustCompile(`\d+`)

// measure is a number that somebody took with a tape: with a unit, a fraction
// or decimals.
var measure = regexp.MustCompile(`(?i)\d\s*(ft|feet|foot|in\.|inch(es)?|cm|mm|pieds?|pouces?|["'″′’”½¼¾⅛⅜⅝⅞])|\d/\d|\b\d{2,3}[.,]\d{1,2}\b`)

// ownWords is the text without quoted lines.
func ownWords(s string) string {
	var out strings.Builder
	for line := range strings.Lines(s) {
		if !strings.HasPrefix(strings.TrimSpace(line), ">") {
			out.WriteString(line)
		}
	}
	return strings.TrimSpace(out.String())
}

func head(s string, n int) string {
	if len(s) > n {
		s = strings.ToValidUTF8(s[:n], "")
	}
	return strings.Join(strings.Fields(s), " ")
}

func nobody(m ingest.Message, _ []string) Origin {
	if m.From.Address == "" {
		return Origin{Nobody, "The mail names no sender, so nobody can be answered."}
	}
	return Origin{}
}

// word is the first word of a field, in lower case.
func word(m ingest.Message, key string) string {
	if len(m.Header[key]) == 0 {
		return ""
	}
	w, _, _ := strings.Cut(strings.ToLower(m.Header[key][0]), ";")
	w, _, _ = strings.Cut(strings.TrimSpace(w), " ")
	return w
}

var reportType = regexp.MustCompile(`(?i)report-type\s*=\s*"?([a-z-]+)`)

// contentType is the mail's media type and, of a report, what it reports.
func contentType(m ingest.Message) (mediaType, report string) {
	if len(m.Header["Content-Type"]) == 0 {
		return "", ""
	}
	v := m.Header["Content-Type"][0]
	mediaType, _, _ = strings.Cut(strings.ToLower(v), ";")
	if found := reportType.FindStringSubmatch(v); found != nil {
		report = strings.ToLower(found[1])
	}
	return strings.TrimSpace(mediaType), report
}
