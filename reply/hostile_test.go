package reply

import (
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"strings"
	"testing"
	"unicode"

	"fairtape/parse"
	"fairtape/reply/replytest"
)

// Whatever a customer is called, asks and names their files, the letter has the
// tags of any other, fetches nothing, and hides nothing.
func TestLetterRepeatsHostileTexts(t *testing.T) {
	texts := loadTexts(t)
	write := func(s Sample, name string) Draft {
		s.Job.Customer.Name, s.Job.Answers.Subject = name, name
		s.Job.Request.Question, s.Job.Request.Answer = name, name
		s.Report.Survey.Boat, s.Report.Survey.Customer = name, name
		s.Report.Problems = []parse.Problem{{Code: "file-locked", Source: parse.Source{File: "mail.eml/" + name}, Message: name}}
		draft, _ := letterOf(t, texts, s.Report, s.Job)
		return draft
	}
	for _, s := range Samples()[2:5] {
		plain := tags(t, write(s, "a harmless name").HTML)
		for _, h := range replytest.Hostile() {
			draft := write(s, h)
			if got := tags(t, draft.HTML); !sameBut(got, plain) {
				t.Errorf("%s, %.60q: the letter has tags %v, want %v", s.Name, h, got, plain)
			}
			for what, text := range map[string]string{"subject": draft.Subject, "text": draft.Text, "HTML": draft.HTML} {
				if i := strings.IndexFunc(text, unseen); i >= 0 {
					t.Errorf("%s, %.60q: %q in the %s", s.Name, h, text[i:min(len(text), i+5)], what)
				}
			}
			if strings.ContainsAny(draft.Subject, "\r\n") {
				t.Errorf("%s, %.60q: the subject %q has several lines", s.Name, h, draft.Subject)
			}
		}
	}
}

func unseen(r rune) bool {
	return r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == 0xFEFF || r == 0x200B
}

// sameBut reports that two letters have the same tags, however many lines and
// paragraphs the name took up.
func sameBut(got, plain map[string]int) bool {
	got, plain = maps.Clone(got), maps.Clone(plain)
	for _, m := range []map[string]int{got, plain} {
		delete(m, "p")
		delete(m, "br")
	}
	return maps.Equal(got, plain)
}

// tags counts the elements of a page and the addresses in it.
func tags(t *testing.T, page string) map[string]int {
	t.Helper()
	count := map[string]int{}
	d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(page, "<!DOCTYPE html>")))
	d.Entity = xml.HTMLEntity
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return count
		}
		if err != nil {
			t.Fatalf("the page is broken: %v", err)
		}
		if start, ok := token.(xml.StartElement); ok {
			count[start.Name.Local]++
			for _, a := range start.Attr {
				if a.Name.Local == "href" || a.Name.Local == "src" || strings.HasPrefix(a.Name.Local, "on") {
					count[a.Name.Local+"="+a.Value]++
				}
			}
		}
	}
}
