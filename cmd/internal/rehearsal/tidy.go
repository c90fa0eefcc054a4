package rehearsal

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	ingesteml "fairtape/ingest/eml"
	"fairtape/reply/chat/chattest"
)

// What differs between two plays of one conversation: days, times and ids.
var (
	dayWords  = regexp.MustCompile(`(?:(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day[ \x{a0}])?\d{1,2}[ \x{a0}](?:January|February|March|April|May|June|July|August|September|October|November|December)`)
	clockTime = regexp.MustCompile(`\b\d\d:\d\d\b`)
	madeID    = regexp.MustCompile(`\b[a-z2-7]{26}@`)
	pictureID = regexp.MustCompile(`(job-\d+)-[0-9a-f]{12}`)
	// What the judge makes of a number is tested where it judges.
	expected = regexp.MustCompile(`expected [^\n]*`)
)

func tidy(s string) string {
	s = dayWords.ReplaceAllString(strings.ReplaceAll(s, "\r\n", "\n"), "DAY")
	return madeID.ReplaceAllString(clockTime.ReplaceAllString(s, "TIME"), "ID@")
}

// Letters writes the letters that went out, all that a customer sees of them
// and every header field, but for dates and ids. Of pictures and papers it
// gives name and kind: what they hold is tested where they are made.
func (f *Floor) Letters() (string, error) {
	var b strings.Builder
	for n, l := range f.Server.Letters() {
		m, err := ingesteml.Parse(l.Raw)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&b, "==== letter %d: MAIL FROM %s, RCPT TO %s\n", n+1, l.From, strings.Join(l.To, ", "))
		head, _, _ := strings.Cut(strings.ReplaceAll(string(l.Raw), "\r\n", "\n"), "\n\n")
		var fields []string
		for _, line := range strings.Split(strings.NewReplacer("\n ", " ", "\n\t", " ").Replace(head), "\n") {
			name, value, _ := strings.Cut(line, ":")
			switch strings.ToLower(name) {
			case "date":
				value = " DATE"
			case "content-type":
				value, _, _ = strings.Cut(value, ";")
			}
			fields = append(fields, name+":"+value)
		}
		slices.Sort(fields)
		b.WriteString(tidy(strings.Join(fields, "\n")) + "\n\n" + tidy(m.Text) + "\n---- HTML\n" + tidy(m.HTML) + "\n")
		for _, a := range m.Attachments {
			fmt.Fprintf(&b, "---- %s, %s, inline %v\n", a.Name, a.MediaType, a.Inline)
		}
	}
	return b.String(), nil
}

// Posts writes what stands in chat, in order.
func (f *Floor) Posts() string {
	var b strings.Builder
	for _, m := range f.Chat.Messages() {
		if m.User != chattest.BotUser && m.BotID == "" {
			continue
		}
		where := "thread"
		if m.ThreadTS == "" || m.ThreadTS == m.TS {
			where = "channel"
		}
		fmt.Fprintf(&b, "==== %s\n%s\n", where, expected.ReplaceAllString(tidy(m.Text), "expected ..."))
		for _, button := range m.Buttons() {
			fmt.Fprintf(&b, "[%s] %s %s\n", button.Label, button.ActionID, button.Value)
		}
		for _, file := range m.Files {
			fmt.Fprintf(&b, "(%s, described: %v)\n", pictureID.ReplaceAllString(file.Name, "$1-ID"), file.Alt != "")
		}
	}
	return b.String()
}
