package chat_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"fairtape/reply"
	"fairtape/reply/chat"
)

func TestPlain(t *testing.T) {
	s := sample()
	s.Headline += "\x1b[31m red \u202e"
	s.Question = "Can you\nmake it in green?"
	got := chat.Plain(s)
	want := `Job 14: Ida Brandt, cedar canoe, 15 ft 9 in: 1 number to measure again[31m red
From ida@brandt.example
15 ft 9 in, pointed stern
15 of 15 stations read
The customer asks, answer it first: Can you make it in green?
Odd:
- 7 ft, hull girth: read 41, expected 51 (50 to 51 1/2), probably a ten dropped, 98 %
Not surely read:
- page 2 of scan.pdf could not be read
Missing:
- stern height
The letter asks:
- measure hull girth at 7 ft again
- send the stern height

Letter 14-1:
  Dear Ida,

  Thank you for measuring.

  - 7 ft: hull girth

  Pinfold Cover Loft
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestPlainOfNothing(t *testing.T) {
	if got := chat.Plain(reply.Summary{Headline: "nothing new"}); got != "nothing new\n" {
		t.Errorf("got %q", got)
	}
}

func TestLook(t *testing.T) {
	s := sample()
	s.Headline = "Job 14: 3 < 4 & *stars*"
	messages := chat.Messages(s)
	first := messages[0].Look()
	if len(first.Lines) != 2 || first.Lines[0] != "Job 14: 3 < 4 & ∗stars∗" || !slices.Equal(first.Buttons, []string{"Send", "Edit", "Correct", "Hold"}) {
		t.Errorf("%+v", first)
	}
	s.Draft, s.State = "", "sent by Ann, 14:02"
	if got := chat.Messages(s)[0].Look(); got.Note != s.State || got.Buttons != nil {
		t.Errorf("%+v", got)
	}
	if letter := messages[len(messages)-1].Look(); letter.Lines[0] != "Letter 14-1:" || letter.Lines[1] != "Dear Ida," {
		t.Errorf("%+v", letter)
	}
	if picture := messages[2].Look(); string(picture.PNG) != "\x89PNG sample" {
		t.Errorf("%+v", picture)
	}
}

// The first post is taken in at once: three short lines at most, whatever there
// is to say.
func TestGlance(t *testing.T) {
	full := sample()
	full.Question, full.State = "Can you make it in green?", "waits for you"
	full.Headline = strings.Repeat("a long name ", 20)
	call := sample()
	call.Draft, call.Letter, call.Telephone, call.State = "", "", true, "no letter: this is round 3, please telephone"
	sent := sample()
	sent.Draft, sent.Letter, sent.Findings, sent.Problems, sent.Missing, sent.Asks = "", "", nil, nil, nil, nil
	sent.State = "sent by Ann, 14:02"
	for name, s := range map[string]reply.Summary{"a letter waits": sample(), "everything at once": full, "telephone": call, "sent": sent} {
		look := chat.Messages(s)[0].Look()
		lines := look.Lines
		if look.Note != "" {
			lines = append(lines, look.Note)
		}
		words := len(strings.Fields(strings.Join(lines, " ")))
		if len(lines) > 3 || words > 45 {
			t.Errorf("%s: %d lines, %d words: %q", name, len(lines), words, lines)
		}
	}
	if look := chat.Messages(call)[0].Look(); !strings.HasPrefix(look.Lines[1], "Telephone: measure hull girth at 7 ft again") {
		t.Errorf("what to telephone about: %q", look.Lines)
	}
	if list := chat.Messages(call)[1].Text; !strings.Contains(list, "Telephone, and ask\n") || strings.Contains(list, "The letter asks") {
		t.Errorf("the list to telephone with:\n%s", list)
	}
}

func TestMessageJSON(t *testing.T) {
	for _, m := range chat.Messages(sample()) {
		raw, err := m.JSON()
		if err != nil {
			t.Fatal(err)
		}
		var post struct {
			Text   string
			Blocks []struct{ Type string }
			File   string
		}
		if err := json.Unmarshal(raw, &post); err != nil || post.Text == "" && post.File == "" {
			t.Errorf("%s: %v", raw, err)
		}
	}
}

// No text of a summary, wherever it stands, reaches a post unescaped.
func TestNoFieldIsLeftUnescaped(t *testing.T) {
	const evil = "<!channel> <https://bad.example|x> `a` \u202e"
	s := reply.Summary{
		Job: 3, Draft: "3-1", Headline: evil, Facts: []string{evil}, Findings: []string{evil}, Missing: []string{evil},
		Problems: []string{evil}, Asks: []string{evil}, Letter: evil, Question: evil, State: evil,
		Picture: &reply.Picture{Alt: "alt \u202e", PNG: []byte("x")},
	}
	noDraft := s
	noDraft.Draft = ""
	for _, m := range append(chat.Messages(s), chat.Messages(noDraft)...) {
		raw, err := m.JSON()
		if err != nil {
			t.Fatal(err)
		}
		text := string(raw)
		// encoding/json writes < as an escape of its own.
		if strings.ContainsAny(text, "<>`\u202e") || strings.Contains(text, `\u003c`) {
			t.Errorf("unescaped: %s", text)
		}
	}
}
