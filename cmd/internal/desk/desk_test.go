package desk

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/reply/smtp"
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

func TestNumbersWithAQuestionWaitForAnAnswer(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("my boat", s)
	m := w.surveys["my boat"]
	m.Body.Questions = []string{"Do you have it in green?"}
	w.surveys["my boat"] = m
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
	if len(w.drafts) != 1 {
		t.Fatalf("%d drafts, want 1", len(w.drafts))
	}
	w.decide(ledger.ChooseSend, first, "Ann")
	w.work(w.desk())
	if len(w.letters) != 0 || !w.saidAnything("Do you have it in green?") {
		t.Fatal("a letter went out that does not answer the question")
	}
	w.decide(ledger.ChooseAnswered, first, "Ann")
	w.decide(ledger.ChooseSend, first, "Ann")
	w.work(w.desk())
	if len(w.letters) != 1 {
		t.Errorf("%d letters went out after the answer, want 1", len(w.letters))
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
func TestBounce(t *testing.T) {
	w := newWorld(t)
	w.says("one", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	report := mail{uid: 2, from: "mailer-daemon@tarn.example", subject: "Undelivered", id: "2@tarn.example",
		header: "MIME-Version: 1.0\r\nContent-Type: multipart/report; report-type=delivery-status; boundary=b\r\n",
		body: "--b\r\nContent-Type: text/plain\r\n\r\nNo such user.\r\n--b\r\nContent-Type: message/delivery-status\r\n\r\nReporting-MTA: dns; tarn.example\r\n\r\n" +
			"--b\r\nContent-Type: text/rfc822-headers\r\n\r\nMessage-ID: <letter-1@pinfold.example>\r\nSubject: Re: one\r\n\r\n--b--"}
	w.arrive(report)
	if m := w.message(2); m.End != ledger.Ignored || m.Job != 1 || len(w.drafts) != 1 {
		t.Errorf("the report ended as %s in job %d; %d letters", m.End, m.Job, len(w.drafts))
	}
	if !w.saidAnything("came back") {
		t.Error("nobody was told")
	}
}

// An edited letter is a new one in the place of the old, and what is sent.
func TestEdit(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	err := w.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: account, Draft: first, Choice: ledger.ChooseEdit, Person: "Ann", Words: "Dear Ann,\n\nis <this> right?\n"})
	})
	if err != nil {
		t.Fatal(err)
	}
	w.work(w.desk())
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) {
		t.Fatalf("in Drafts lie %v, want 1-2 alone", got)
	}
	w.decide(ledger.ChooseSend, reply.DraftID{Job: 1, Version: 2}, "Ann")
	w.work(w.desk())
	if len(w.letters) != 1 || !bytes.Contains(w.letters[0], []byte("is <this> right?")) || !bytes.Contains(w.letters[0], []byte("&lt;this&gt;")) {
		t.Errorf("%d letters; the words in it are not the person's", len(w.letters))
	}
}

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

func TestChangedLetterIsLeft(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	w.says("two", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.drafts[0].raw = append(bytes.TrimSpace(w.drafts[0].raw), []byte("\r\nPS: see you on Sunday\r\n")...)
	w.arrive(mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-1"}) || !bytes.Contains(w.drafts[0].raw, []byte("Sunday")) {
		t.Fatalf("in Drafts lie %v: a person's text was thrown away or doubled", got)
	}
	if !w.saidAnything("changed by a person") {
		t.Error("chat does not ask")
	}
	w.decide(ledger.ChooseSend, first, "Ann")
	w.work(w.desk())
	if len(w.letters) != 1 || !bytes.Contains(w.letters[0], []byte("Sunday")) {
		t.Error("what a person wrote in Drafts is not what was sent")
	}
	if len(w.drafts) != 0 || len(w.sent) != 1 {
		t.Errorf("%d in Drafts and %d in Sent, want 0 and 1", len(w.drafts), len(w.sent))
	}
}

func TestSend(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.decide(ledger.ChooseSend, first, "Ann")
	w.decide(ledger.ChooseSend, first, "Ben")
	w.decide(ledger.ChooseHold, first, "Cleo")
	w.work(w.desk())
	w.work(w.desk())
	if len(w.letters) != 1 || len(w.sent) != 1 || len(w.drafts) != 0 {
		t.Fatalf("%d sent, %d in Sent, %d in Drafts; want 1, 1, 0", len(w.letters), len(w.sent), len(w.drafts))
	}
	if bytes.Contains(w.letters[0], []byte("Auto-Submitted")) {
		t.Error("a letter that a person approved calls itself automatic")
	}
	if j := w.job(1); j.State != ledger.WaitingCustomer || j.Rounds != 1 || !strings.Contains(j.Summary.State, "sent by Ann") {
		t.Errorf("the job is %s in round %d: %s", j.State, j.Rounds, j.Summary.State)
	}
	if !w.saidAnything("Cleo: letter 1-1 is") {
		t.Errorf("the one who came late was not told: %v", w.said)
	}
}

func TestSendingTrouble(t *testing.T) {
	result := func(o smtp.Outcome) func([]string, []byte) []smtp.Result {
		return func(to []string, _ []byte) []smtp.Result {
			return []smtp.Result{{To: to[0], Outcome: o, Err: errors.New("the server's words")}}
		}
	}
	setUp := func(t *testing.T, o smtp.Outcome) *world {
		w := newWorld(t)
		w.says("one", survey(1))
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
		w.server = result(o)
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(w.desk())
		return w
	}
	t.Run("refused", func(t *testing.T) {
		w := setUp(t, smtp.Refused)
		if got := w.draftState(first); got != ledger.DraftOpen || !w.saidAnything("the server's words") {
			t.Errorf("the letter is %s", got)
		}
		if len(w.drafts) != 1 {
			t.Error("the letter left Drafts without being sent")
		}
	})
	t.Run("later", func(t *testing.T) {
		w := setUp(t, smtp.Temporary)
		w.server = w.takes
		w.work(w.desk())
		if len(w.letters) != 0 {
			t.Error("it was tried again at once")
		}
		w.now = w.now.Add(firstPause + time.Second)
		w.work(w.desk())
		if len(w.letters) != 1 || w.draftState(first) != ledger.DraftSent {
			t.Errorf("%d letters, %s", len(w.letters), w.draftState(first))
		}
	})
	t.Run("for two days", func(t *testing.T) {
		w := setUp(t, smtp.Temporary)
		w.now = w.now.Add(deadline + time.Hour)
		w.work(w.desk())
		if w.draftState(first) != ledger.DraftOpen || !w.saidAnything("was not sent") {
			t.Errorf("the letter is %s, and a person was not told", w.draftState(first))
		}
	})
	t.Run("unknown without proof", func(t *testing.T) {
		w := setUp(t, smtp.Unknown)
		w.server = w.takes
		w.now = w.now.Add(time.Hour)
		w.work(w.desk())
		if len(w.letters) != 0 || w.draftState(first) != ledger.DraftUnsure || !w.saidAnything("not known whether") {
			t.Errorf("%d letters, %s", len(w.letters), w.draftState(first))
		}
	})
	t.Run("unknown with proof", func(t *testing.T) {
		w := newWorld(t)
		w.says("one", survey(1))
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
		w.server = func(to []string, raw []byte) []smtp.Result { // the server files a copy itself
			w.sent = append(w.sent, stored{w.place("Sent"), raw})
			return result(smtp.Unknown)(to, raw)
		}
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(w.desk())
		if w.draftState(first) != ledger.DraftSent || len(w.sent) != 1 {
			t.Errorf("%s, %d copies in Sent", w.draftState(first), len(w.sent))
		}
	})
}

// New mail stops a letter that has not left yet, and leaves one alone that may
// just be leaving.
func TestNewMailWhileSending(t *testing.T) {
	setUp := func(t *testing.T, outcome smtp.Outcome) *world {
		w := newWorld(t)
		s, _ := odd(1)
		w.says("one", s)
		w.says("two", survey(1))
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
		w.server = func(to []string, _ []byte) []smtp.Result {
			if outcome == 0 {
				panic(killed{"sending"})
			}
			return []smtp.Result{{To: to[0], Outcome: outcome, Err: errors.New("busy")}}
		}
		w.decide(ledger.ChooseSend, first, "Ann")
		func() {
			defer func() { recover() }() //nolint:errcheck // the kill that was asked for
			w.work(w.desk())
		}()
		w.server = w.takes
		return w
	}
	second := mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"}
	t.Run("not left", func(t *testing.T) {
		w := setUp(t, smtp.Temporary)
		w.arrive(second)
		w.now = w.now.Add(time.Hour)
		w.work(w.desk())
		if len(w.letters) != 0 || !slices.Equal(w.draftIDs(), []string{"1-2"}) {
			t.Errorf("%d letters sent, %v in Drafts; want none and 1-2", len(w.letters), w.draftIDs())
		}
	})
	t.Run("perhaps leaving", func(t *testing.T) {
		w := setUp(t, 0)
		if err := w.desk().Receive(t.Context(), second.delivery()); err != nil {
			t.Fatal(err)
		}
		if m := w.message(2); m.End != ledger.Held || w.draftState(first) != ledger.DraftSending {
			t.Errorf("the mail ended as %s, the letter is %s", m.End, w.draftState(first))
		}
	})
}

// A letter whose fate was unknown is settled when it turns up in Sent.
func TestProofTurnsUp(t *testing.T) {
	w := newWorld(t)
	w.says("one", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.server = func(to []string, _ []byte) []smtp.Result {
		return []smtp.Result{{To: to[0], Outcome: smtp.Unknown, Err: errors.New("gone")}}
	}
	w.decide(ledger.ChooseSend, first, "Ann")
	w.work(w.desk())
	d := w.desk()
	for range missedLooks {
		if err := d.LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	if got := w.draftState(first); got != ledger.DraftUnsure {
		t.Fatalf("without proof the letter is %s", got)
	}
	w.sent = append(w.sent, w.drafts...)
	if err := d.LookAround(t.Context()); err != nil {
		t.Fatal(err)
	}
	if got := w.draftState(first); got != ledger.DraftSent {
		t.Errorf("with a copy in Sent the letter is %s", got)
	}
}

func TestMailProgram(t *testing.T) {
	setUp := func(t *testing.T) *world {
		w := newWorld(t)
		s, _ := odd(1)
		w.says("one", s)
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
		return w
	}
	look := func(t *testing.T, w *world, d *Desk) {
		if err := d.LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.work(d)
	}
	t.Run("sent from there", func(t *testing.T) {
		w := setUp(t)
		w.sent, w.drafts = w.drafts, nil
		look(t, w, w.desk())
		if got := w.draftState(first); got != ledger.DraftSent || w.job(1).Rounds != 1 {
			t.Errorf("the letter is %s in round %d", got, w.job(1).Rounds)
		}
	})
	t.Run("answered by hand", func(t *testing.T) {
		w := setUp(t)
		w.sent = append(w.sent, stored{w.place("Sent"), []byte("From: " + shopBox + "\r\nTo: " + ann + "\r\nSubject: Re: one\r\nMessage-ID: <hand@pinfold.example>\r\nIn-Reply-To: <1@tarn.example>\r\n\r\nAll is well.\r\n")})
		look(t, w, w.desk())
		if got := w.draftState(first); got != ledger.DraftSettled || !w.saidAnything("by hand") || len(w.drafts) != 0 {
			t.Errorf("the letter is %s, %d in Drafts", got, len(w.drafts))
		}
	})
	t.Run("thrown away", func(t *testing.T) {
		w := setUp(t)
		w.drafts = nil
		d := w.desk()
		for n := 1; n < missedLooks; n++ {
			look(t, w, d)
			if got := w.draftState(first); got != ledger.DraftOpen {
				t.Fatalf("after %d looks the letter is %s: an edit may be under way", n, got)
			}
		}
		look(t, w, d)
		if got := w.draftState(first); got != ledger.DraftHeld || w.job(1).State != ledger.HeldJob {
			t.Errorf("the letter is %s, the job %s", got, w.job(1).State)
		}
	})
	t.Run("edited, headers dropped", func(t *testing.T) {
		w := setUp(t)
		w.drafts = []stored{{w.place("Drafts"), []byte("From: " + shopBox + "\r\nTo: " + ann + "\r\nSubject: Re: one\r\nMessage-ID: <edit@pinfold.example>\r\nReferences: <1@tarn.example>\r\n\r\nEdited.\r\n")}}
		d := w.desk()
		for range missedLooks + 1 {
			look(t, w, d)
		}
		if got := w.draftState(first); got != ledger.DraftOpen {
			t.Fatalf("the letter is %s", got)
		}
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(d)
		if len(w.letters) != 1 || !bytes.Contains(w.letters[0], []byte("Edited.")) || len(w.drafts) != 0 {
			t.Errorf("%d letters, %d in Drafts", len(w.letters), len(w.drafts))
		}
	})
	t.Run("a person's own draft beside ours", func(t *testing.T) {
		w := setUp(t)
		own := stored{w.place("Drafts"), []byte("From: " + shopBox + "\r\nTo: " + ann + "\r\nMessage-ID: <own@pinfold.example>\r\nReferences: <1@tarn.example>\r\n\r\nHalf a thought\r\n")}
		w.drafts = append(w.drafts, own)
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(w.desk())
		if len(w.letters) != 1 || bytes.Contains(w.letters[0], []byte("Half a thought")) {
			t.Error("a person's half letter was sent")
		}
		if len(w.drafts) != 1 || w.drafts[0].at != own.at {
			t.Error("a person's half letter was thrown away")
		}
	})
}
