package reply

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fairtape/ingest"
)

func TestComposeWithoutALetter(t *testing.T) {
	for _, action := range []Action{Telephone, Leave, ""} {
		if _, err := loadTexts(t).Compose(Plan{Action: action}, Job{}); !errors.Is(err, ErrNoLetter) {
			t.Errorf("%q: %v, want ErrNoLetter", action, err)
		}
	}
}

func TestSubjectKeepsTheThread(t *testing.T) {
	texts := loadTexts(t)
	for _, test := range []struct{ in, want string }{
		{"", "Your boat survey"},
		{" \r\n\t", "Your boat survey"},
		{"Boat\r\nBcc: all@x.example", "Re: Boat Bcc: all@x.example"},
		{"Our canoe", "Re: Our canoe"},
		{"Re: Our canoe", "Re: Our canoe"},
		{"RE : Notre canot", "RE : Notre canot"},
		{"Reed boat", "Re: Reed boat"},
		{strings.Repeat("x", 5000), "Re: " + strings.Repeat("x", 149) + "…"},
	} {
		s := Samples()[0]
		s.Job.Answers.Subject = test.in
		if draft, _ := letterOf(t, texts, s.Report, s.Job); draft.Subject != test.want {
			t.Errorf("subject of %q: %q, want %q", test.in, draft.Subject, test.want)
		}
	}
}

// RFC 5322 section 3.6.4: the parent's References, or its In-Reply-To when it
// has one id and no References, and then the parent's own id.
func TestReferences(t *testing.T) {
	for _, test := range []struct {
		name    string
		answers ingest.Message
		want    []string
	}{
		{"no message", ingest.Message{}, nil},
		{"a message without an id", ingest.Message{References: []string{"a"}}, []string{"a"}},
		{"the first of a thread", ingest.Message{ID: "b"}, []string{"b"}},
		{"a reply", ingest.Message{ID: "c", References: []string{"a", "b"}, InReplyTo: []string{"b"}}, []string{"a", "b", "c"}},
		{"a reply without references", ingest.Message{ID: "b", InReplyTo: []string{"a"}}, []string{"a", "b"}},
		{"a reply to several", ingest.Message{ID: "c", InReplyTo: []string{"a", "b"}}, []string{"c"}},
	} {
		if got := references(Job{Answers: test.answers}); !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

func TestReferencesLeaveTheMessageAlone(t *testing.T) {
	refs := append(make([]string, 0, 8), "a")
	references(Job{Answers: ingest.Message{ID: "b", References: refs}})
	if refs[:2][1] != "" {
		t.Error("the message's own references were written over")
	}
}

func TestQuestionHoldsTheLetterUntilItIsAnswered(t *testing.T) {
	texts := loadTexts(t)
	s := Samples()[0]
	s.Job.Request = Request{Question: "Can it be green?"}
	draft, _ := letterOf(t, texts, s.Report, s.Job)
	if draft.Question != "Can it be green?" || strings.Contains(draft.Text, "green") {
		t.Errorf("open question %q in\n%s", draft.Question, draft.Text)
	}
	s.Job.Request.Answer = "Yes, dark green.\n\nThe price is the same."
	draft, _ = letterOf(t, texts, s.Report, s.Job)
	if draft.Question != "" || !strings.Contains(draft.Text, "Yes, dark green.\n\nThe price is the same.\n") {
		t.Errorf("open question %q in\n%s", draft.Question, draft.Text)
	}
}

func TestGreetingNeverUsesAnAddress(t *testing.T) {
	for _, test := range []struct{ survey, from, want string }{
		{"", "", ""},
		{"", "ann@hollis.example", ""},
		{"", "https://x.example", ""},
		{"ann@hollis.example", "Ann Hollis", "Ann Hollis"},
		{"Ann H.", "Bob", "Ann H."},
		{"", " Ann\r\n Hollis ", "Ann Hollis"},
	} {
		got := customerName(Plan{Customer: test.survey}, Job{Customer: ingest.Address{Name: test.from}})
		if got != test.want {
			t.Errorf("survey %q, sender %q: %q, want %q", test.survey, test.from, got, test.want)
		}
	}
}

func TestFilesAreAttachedOnlyWhereTheLetterSpeaksOfThem(t *testing.T) {
	texts := loadTexts(t)
	for _, s := range Samples() {
		s.Job.Form, s.Job.Slip = &File{Name: "form.pdf"}, &File{Name: "again.pdf"}
		draft, ok := letterOf(t, texts, s.Report, s.Job)
		if !ok {
			continue
		}
		for _, name := range []string{"form.pdf", "again.pdf"} {
			attached := slices.ContainsFunc(draft.Files, func(f File) bool { return f.Name == name })
			if said := strings.Contains(draft.Text, name); said != attached {
				t.Errorf("%s: %s attached %v, spoken of %v", s.Name, name, attached, said)
			}
		}
	}
}

func TestQuoted(t *testing.T) {
	for _, test := range []struct {
		name, body string
		want       []string
	}{
		{"nothing", "", nil},
		{"only what it quotes itself", "> a\n> b", nil},
		{"blank lines at the ends and in runs", "\n\na\n\n\n\nb\n\n", []string{"a", "", "b"}},
		{"a signature", "a\n-- \nAnn", []string{"a"}},
		{"an older mail", "a\n\nOn Tuesday 3 May Shop wrote:\n> b", []string{"a"}},
		{"un message plus ancien", "a\n\nLe 3 mai, Atelier a écrit :\n> b", []string{"a"}},
		{"a forwarded mail", "a\n---- Original Message ----\nb", []string{"a"}},
		{"a long line", strings.Repeat("x", 400), []string{strings.Repeat("x", 299) + "…"}},
	} {
		var got []string
		for _, it := range quoted(test.body) {
			got = append(got, it.Text)
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
	if got := len(quoted(strings.Repeat("a\n", 100))); got != mostQuoted {
		t.Errorf("%d lines of a long mail, want %d", got, mostQuoted)
	}
}
