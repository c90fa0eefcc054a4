package desk

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
)

var first = reply.DraftID{Job: 1, Version: 1}

// odd is a survey with a ten dropped at 7 ft.
func odd(seed uint64) (s parse.Survey, right parse.Length) {
	s = survey(seed)
	s.Stations = slices.Clone(s.Stations)
	right = s.Stations[6].HullGirth.Value
	s.Stations[6].HullGirth.Value -= parse.Inches(10)
	return s, right
}

func TestSurveyIsAnswered(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 5, from: "Ann Tarn <Ann@Tarn.example>", subject: "my boat", id: "1@tarn.example"})

	if got := w.draftIDs(); !slices.Equal(got, []string{"1-1"}) {
		t.Fatalf("in Drafts lie %v, want one letter 1-1", got)
	}
	if m := w.message(5); m.End != ledger.Answered || m.Job != 1 {
		t.Errorf("the message ended as %q (%s) in job %d", m.End, m.Reason, m.Job)
	}
	if j := w.job(1); j.State != ledger.WaitingUs || j.Customer != ann {
		t.Errorf("the job is %s, of %s", j.State, j.Customer)
	}
	post := strings.Join(w.threads[1], "\n")
	if !strings.Contains(post, "7 ft") || len(w.threads) != 1 {
		t.Errorf("the post does not speak of 7 ft:\n%s", post)
	}
	raw := string(w.drafts[0].raw)
	for _, want := range []string{"In-Reply-To: <1@tarn.example>", "X-Fairtape-Job: 1", "X-Fairtape-Draft: 1-1", "Subject: Re: my boat"} {
		if !strings.Contains(raw, want) {
			t.Errorf("the draft has no %q", want)
		}
	}
	if len(w.letters) != 0 {
		t.Error("a letter was sent without a decision")
	}
}

func TestEnds(t *testing.T) {
	ask := opener.Mail{Body: prose.Mail{Questions: []string{"Which colours do you have?"}}}
	tests := []struct {
		name   string
		mail   mail
		says   opener.Mail
		end    ledger.End
		reason string
		drafts int
		posts  int
	}{
		{"out of office", mail{from: ann, header: "Auto-Submitted: auto-replied\r\n"}, opener.Mail{}, ledger.Ignored, "", 0, 0},
		{"newsletter", mail{from: ann, header: "List-Id: <x.example>\r\n"}, opener.Mail{}, ledger.Ignored, "", 0, 0},
		{"our own", mail{from: shopBox}, opener.Mail{}, ledger.Ignored, "own", 0, 0},
		{"nothing to do with us", mail{from: ann, body: "Lunch?"}, opener.Mail{}, ledger.Ignored, "nothing about a survey", 0, 0},
		{"a file that says nothing", mail{from: ann}, opener.Mail{Files: []parse.Document{{File: "mail/x.xlsx"}}}, ledger.Held, "a person has to look", 0, 1},
		{"a question alone", mail{from: ann}, ask, ledger.Held, "Which colours", 0, 1},
		{"two boats", mail{from: ann}, opener.Mail{Files: []parse.Document{
			{File: "a.csv", Surveys: []parse.Survey{survey(1)}}, {File: "b.csv", Surveys: []parse.Survey{survey(2)}}}}, ledger.Held, "two boats", 0, 1},
		{"from nowhere we can believe", mail{from: "liar@tarn.example"}, opener.Mail{Files: []parse.Document{
			{File: "a.csv", Surveys: []parse.Survey{survey(1)}}}}, ledger.Held, "not genuine", 0, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := newWorld(t)
			w.distrust = "liar@tarn.example"
			tt.mail.uid, tt.mail.id, tt.mail.subject = 1, "x@tarn.example", "hello"
			w.surveys["hello"] = tt.says
			w.arrive(tt.mail)
			m := w.message(1)
			if m.End != tt.end || !strings.Contains(m.Reason, tt.reason) || m.Reason == "" {
				t.Errorf("ended as %q because %q, want %q because %q", m.End, m.Reason, tt.end, tt.reason)
			}
			if len(w.drafts) != tt.drafts || len(w.threads) != tt.posts {
				t.Errorf("%d drafts and %d threads, want %d and %d", len(w.drafts), len(w.threads), tt.drafts, tt.posts)
			}
		})
	}
}

func TestCorrectionReplacesLetter(t *testing.T) {
	w := newWorld(t)
	s, right := odd(1)
	w.says("my boat", s)
	at := s.Stations[6].At
	w.surveys["Re: my boat"] = opener.Mail{Body: prose.Mail{Corrections: []prose.Correction{{
		Cell: parse.Cell{At: at, Measure: parse.HullGirth}, Placed: true,
		Values: []parse.Reading{{Value: right, Known: true, Confidence: 1, Source: parse.Source{File: "mail", Place: "line 1", Raw: "x"}}}}}}}
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "Re: my boat", id: "2@tarn.example", answers: "letter-1@pinfold.example"})
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) {
		t.Errorf("in Drafts lie %v, want 1-2 alone", got)
	}
	var versions []ledger.Version
	err := w.ledger.View(t.Context(), func(tx *ledger.Tx) (err error) {
		versions, err = tx.Surveys(account, 1)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(versions) != 2 || versions[0].Survey.Stations[6].HullGirth.Value == right || versions[1].Survey.Stations[6].HullGirth.Value != right {
		t.Error("the history does not hold the number before and after the correction")
	}
	if len(w.threads) != 1 {
		t.Errorf("%d threads, want 1", len(w.threads))
	}
}

// A letter that comes back is said in its job and not answered.
// An edited letter is a new one in the place of the old, and what is sent.
// The same odd number again is neither asked for a third time nor taken for the
// boat's own without a person.
func TestSameAgain(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	again := s.Stations[6].HullGirth
	w.surveys["Re: one"] = opener.Mail{Body: prose.Mail{Corrections: []prose.Correction{{
		Cell: parse.Cell{At: s.Stations[6].At}, Placed: true, Values: []parse.Reading{again}, Same: true, Sentence: "It still is that."}}}}
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "Re: one", id: "2@tarn.example", answers: "1@tarn.example"})
	if len(w.drafts) != 0 || w.message(2).End != ledger.Held {
		t.Errorf("%d letters wait, the mail ended as %s; want none, held", len(w.drafts), w.message(2).End)
	}
	if !strings.Contains(strings.Join(w.threads[1], ""), "It still is that.") {
		t.Error("chat does not show what the customer says")
	}
}

// Numbers without a unit are not taken into a survey in another unit.
func TestGuessedUnit(t *testing.T) {
	w := newWorld(t)
	cm := survey(1)
	cm.Unit = parse.Centimetre
	w.says("one", cm)
	part := parse.Survey{Unit: parse.Inch, Stations: []parse.Station{{At: cm.Stations[3].At, Pair: parse.Pair{HullGirth: cm.Stations[4].HullGirth}}}}
	w.surveys["two"] = opener.Mail{Files: []parse.Document{{File: "mail", Surveys: []parse.Survey{part},
		Problems: []parse.Problem{{Code: parse.CodeUnitGuessed, Source: parse.Source{File: "mail"}}}}}}
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
	if m := w.message(2); m.End != ledger.Held || w.job(m.Job).Perhaps != 1 || !strings.Contains(m.Reason, "look like in") {
		t.Errorf("ended as %s in job %d: %s", m.End, m.Job, m.Reason)
	}
}

// A mail without numbers makes the waiting letter stale: it waits for a person
// who has read that mail. After a letter was sent it brings no second one.
func TestWordsWithoutNumbers(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "Re: one", id: "2@tarn.example", answers: "1@tarn.example", body: "The tape was loose, I think."})
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) {
		t.Fatalf("in Drafts lie %v, want 1-2 alone", got)
	}
	second := reply.DraftID{Job: 1, Version: 2}
	w.decide(ledger.ChooseSend, second, "Ann")
	w.work(w.desk())
	if len(w.letters) != 0 {
		t.Fatal("a letter went out before anybody had read the newest mail")
	}
	w.decide(ledger.ChooseAnswered, second, "Ann")
	w.decide(ledger.ChooseSend, second, "Ann")
	w.work(w.desk())
	w.arrive(mail{uid: 3, from: ann, subject: "Re: one", id: "3@tarn.example", answers: "2@tarn.example", body: "Thanks, on Sunday!"})
	if len(w.letters) != 1 || len(w.drafts) != 0 {
		t.Errorf("%d letters sent and %d in Drafts, want 1 and 0", len(w.letters), len(w.drafts))
	}
	if m := w.message(3); m.End != ledger.Held {
		t.Errorf("the thanks ended as %s", m.End)
	}
}

func TestWhichJob(t *testing.T) {
	same, other := survey(1), survey(2)
	part := parse.Survey{Unit: parse.Inch, BowHeight: same.BowHeight}
	tests := []struct {
		name    string
		second  mail
		says    parse.Survey
		job     int
		perhaps int
	}{
		{"answers our letter", mail{from: ann, answers: "letter-1@pinfold.example"}, part, 1, 0},
		{"answers own mail", mail{from: ann, answers: "1@tarn.example"}, part, 1, 0},
		{"same address, more of the same boat", mail{from: "ANN@tarn.example"}, part, 1, 0},
		{"same address, another boat", mail{from: ann}, other, 2, 0},
		{"answers our letter with another boat", mail{from: ann, answers: "letter-1@pinfold.example"}, other, 2, 0},
		{"answers our letter from another address", mail{from: "ben@tarn.example", answers: "letter-1@pinfold.example"}, part, 2, 1},
		{"a stranger", mail{from: "ben@tarn.example"}, other, 2, 0},
		{"claims to be the customer", mail{from: ann, header: "X-Lie: 1\r\n", answers: "letter-1@pinfold.example"}, part, 2, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := newWorld(t)
			w.says("one", same)
			w.says("two", tt.says)
			w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
			if tt.second.header != "" {
				w.distrust = ann
			}
			tt.second.uid, tt.second.subject, tt.second.id = 2, "two", "2@tarn.example"
			w.arrive(tt.second)
			m := w.message(2)
			if m.Job != tt.job || w.job(m.Job).Perhaps != tt.perhaps {
				t.Fatalf("job %d, perhaps %d; want %d and %d", m.Job, w.job(m.Job).Perhaps, tt.job, tt.perhaps)
			}
			if tt.perhaps != 0 {
				if m.End != ledger.Held || slices.Contains(w.draftIDs(), "2-1") {
					t.Errorf("a mail that may belong to another job ended as %s, with letters %v", m.End, w.draftIDs())
				}
				if !slices.Contains(w.draftIDs(), "1-1") {
					t.Error("it touched the letter of that job")
				}
			}
		})
	}
}

func TestSameMailTwice(t *testing.T) {
	w := newWorld(t)
	w.says("one", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "one", id: "1@tarn.example", header: "Received: by another way\r\n"})
	if m := w.message(2); m.End != ledger.Ignored || len(w.drafts) != 1 {
		t.Errorf("the second copy ended as %s, with %d drafts", m.End, len(w.drafts))
	}
	w.arrive(mail{uid: 3, from: ann, subject: "one", id: "1@tarn.example", body: "other words"})
	if m := w.message(3); m.End != ledger.Held || len(w.drafts) != 1 {
		t.Errorf("another text under the same Message-ID ended as %s, with %d drafts", m.End, len(w.drafts))
	}
}

func TestPoisonIsSetAside(t *testing.T) {
	w := newWorld(t)
	w.surveys["bad"] = opener.Mail{Files: []parse.Document{{File: "poison"}}}
	w.says("good", survey(1))
	d := w.desk()
	bad := mail{uid: 1, from: ann, subject: "bad", id: "1@tarn.example"}.delivery()
	for try := 1; try < maxTries; try++ {
		if err := d.Receive(t.Context(), bad); err == nil {
			t.Fatalf("try %d went well", try)
		}
	}
	if err := d.Receive(t.Context(), bad); err != nil {
		t.Fatalf("the last try does not set it aside: %v", err)
	}
	w.arrive(mail{uid: 2, from: "ben@larch.example", subject: "good", id: "2@larch.example"})
	if m := w.message(1); m.End != ledger.Held || w.job(m.Job).State != ledger.SetAside {
		t.Errorf("the mail ended as %s, its job is %s", m.End, w.job(m.Job).State)
	}
	if !strings.Contains(strings.Join(w.threads[1], ""), "could not be worked off") {
		t.Error("chat was not told")
	}
	if m := w.message(2); m.End != ledger.Answered {
		t.Errorf("the next mail ended as %s", m.End)
	}
}

// A mail server that is down is no fault of a mail.
func TestMailServerDown(t *testing.T) {
	w := newWorld(t)
	w.says("one", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.down = errors.New("no route")
	again := mail{uid: 2, from: ann, subject: "one", id: "2@tarn.example", answers: "1@tarn.example"}
	d := w.desk()
	for range 2 * maxTries {
		if err := d.Receive(t.Context(), again.delivery()); !errors.Is(err, w.down) {
			t.Fatalf("got %v", err)
		}
	}
	w.down = nil
	w.arrive(again)
	if m := w.message(2); m.End != ledger.Answered || !slices.Equal(w.draftIDs(), []string{"1-2"}) {
		t.Errorf("ended as %s (%s), in Drafts lie %v", m.End, m.Reason, w.draftIDs())
	}
}

// New mail stops a letter that has not left yet, and leaves one alone that may
// just be leaving.
// A letter whose fate was unknown is settled when it turns up in Sent.
