package desk

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/prose"
)

func TestPassedOn(t *testing.T) {
	inner := ingest.Forwarded{ID: "c@tarn.example", From: ingest.Address{Name: "Ann Tarn", Address: ann}, Subject: "my boat", Text: "here"}
	tests := []struct {
		name string
		mail ingest.Message
		from string
		text string
	}{
		{"nothing passed on", ingest.Message{Text: "From: me\nlunch?"}, "", ""},
		{"nobody named", ingest.Message{Text: "Begin forwarded message:\n\nSubject: boat\n\n1 ft 35 42"}, "", ""},
		{"nobody in the header", ingest.Message{Forwarded: []ingest.Forwarded{{Text: "x"}}}, "", ""},
		{"attached", ingest.Message{Text: "see below", Forwarded: []ingest.Forwarded{inner}}, ann, "here"},
		{"dashes", ingest.Message{Text: "fyi\n\n---------- Forwarded message ---------\nFrom: Ann Tarn <Ann@tarn.example>\nDate: Mon\nSubject: my boat\nTo: <dee@x.example>\n\n\n1 ft 35 42\n"}, "Ann@tarn.example", "1 ft 35 42"},
		{"apple", ingest.Message{Text: "Begin forwarded message:\r\n\r\nFrom: \"Tarn, Ann\" <ann@tarn.example>\r\nSubject: my boat\r\n\r\n1 ft 35 42\r\n"}, ann, "1 ft 35 42"},
		{"french", ingest.Message{Text: "---------- Message transféré ---------\nDe : Ann <ann@tarn.example>\nObjet : canot\n\n1 pi 35 42\n"}, ann, "1 pi 35 42"},
		{"bold", ingest.Message{Text: "-----Original Message-----\n*From:* Ann Tarn [mailto:ann@tarn.example]\n*Sent:* Monday\n\n1 ft 35 42\n"}, ann, "1 ft 35 42"},
	}
	for _, tt := range tests {
		got, ok := passedOn(tt.mail)
		if ok != (tt.from != "") || ok && (got.From.Address != tt.from || strings.TrimSpace(got.Text) != tt.text) {
			t.Errorf("%s: %v from %q, %q", tt.name, ok, got.From.Address, got.Text)
		}
	}
}

// A survey that a person of the shop passes on is the customer's.
func TestStaffForward(t *testing.T) {
	w := newWorld(t)
	s, _ := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 1, from: staff, subject: "Fwd: my boat", id: "1@pinfold-home.example",
		body: "---------- Forwarded message ---------\r\nFrom: Ann Tarn <Ann@tarn.example>\r\nSubject: my boat\r\n\r\nhere it is"})
	if j := w.job(1); j.Customer != ann || j.CustomerName != "Ann Tarn" || !strings.Contains(string(w.drafts[0].raw), "To: \"Ann Tarn\" <ann@tarn.example>") {
		t.Errorf("the job is of %s (%s)", j.Customer, j.CustomerName)
	}
}

// A mail that seems to belong to a job is held until a person has said so.
func TestPerhaps(t *testing.T) {
	question := opener.Mail{Body: prose.Mail{Questions: []string{"When?"}}}
	tests := []struct {
		name    string
		mail    mail
		says    opener.Mail
		perhaps int
	}{
		{"another boat", mail{from: "bo@fenn.example"}, opener.Mail{Files: []parse.Document{{File: "a.csv", Surveys: []parse.Survey{survey(9)}}}}, 0},
		{"a first name in common", mail{from: "Ann <annie@fenn.example>", body: "When can you make a cover?"}, question, 0},
		{"the same numbers", mail{from: "bo@fenn.example"}, opener.Mail{Files: []parse.Document{{File: "a.csv", Surveys: []parse.Survey{survey(1)}}}}, 1},
		{"the job's number", mail{from: "bo@fenn.example", body: "about job 1: when?"}, question, 1},
		{"a mention and nothing else", mail{from: "bo@fenn.example", body: "About job 1: on Sunday."}, opener.Mail{}, 1},
		{"the same name", mail{from: "Ann  TARN <work@fenn.example>"}, question, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w, _ := oddWorld(t)
			w.surveys["hello"] = tt.says
			tt.mail.uid, tt.mail.id, tt.mail.subject = 2, "2@fenn.example", "hello"
			w.arrive(tt.mail)
			j := w.job(2)
			if j.Perhaps != tt.perhaps || tt.perhaps != 0 && (j.State != ledger.HeldJob || w.openLetter(2) != "") {
				t.Errorf("perhaps job %d, %s; want %d", j.Perhaps, j.State, tt.perhaps)
			}
			if post := strings.Join(w.threads[2], ""); tt.perhaps != 0 && !strings.Contains(post, "job 1") {
				t.Errorf("the post does not ask:\n%s", post)
			}
		})
	}
}

// An unmarked program that answers everything is stopped, and said once.
func TestRobotIsStopped(t *testing.T) {
	w, _ := oddWorld(t)
	for n := range 40 {
		w.surveys[fmt.Sprint("re ", n)] = opener.Mail{}
		w.arrive(mail{uid: uint32(n + 2), from: ann, subject: fmt.Sprint("re ", n), id: fmt.Sprint(n, "@robot.example"), answers: "letter-1@pinfold.example"})
	}
	if n := w.saidTimes("may be a program"); n != 1 {
		t.Errorf("said %d times that it may be a program, want 1", n)
	}
	if m := w.message(41); m.End != ledger.Held || !strings.Contains(m.Reason, "within a day") {
		t.Errorf("the last mail ended as %s: %s", m.End, m.Reason)
	}
	drafts, err := w.letterCount(1)
	if err != nil || drafts > mostOfSender+1 {
		t.Errorf("%d letters were drafted for a program, %v", drafts, err)
	}
	w.now = w.now.Add(2 * day)
	w.says("better", survey(1))
	w.arrive(mail{uid: 60, from: ann, subject: "better", id: "60@tarn.example"})
	if m := w.message(60); m.End != ledger.Answered {
		t.Errorf("days later a mail ends as %s: %s", m.End, m.Reason)
	}
}

// Two programs that answer in one job are stopped, although each alone would not
// be.
func TestRobotsOfOneJobAreStopped(t *testing.T) {
	w, _ := oddWorld(t)
	w.says("from a friend", survey(1))
	w.arrive(mail{uid: 2, from: "bo@fenn.example", subject: "from a friend", id: "2@fenn.example"})
	w.orders(2, ledger.ChooseJoin, "1")
	senders := []string{ann, "bo@fenn.example"}
	const each = mostOfSender - 2
	for n := range 2 * each {
		subject := fmt.Sprint("re ", n)
		w.surveys[subject] = opener.Mail{}
		w.arrive(mail{uid: uint32(n + 3), from: senders[n%2], subject: subject, id: fmt.Sprint(n, "@robot.example"), answers: "letter-1@pinfold.example"})
	}
	if m := w.message(2*each + 2); m.End != ledger.Held || !strings.Contains(m.Reason, "for job 1 within a day") {
		t.Errorf("the last mail ended as %s: %s", m.End, m.Reason)
	}
	if n := w.saidTimes("may be answering each other"); n != 1 {
		t.Errorf("said %d times that they may be programs, want 1", n)
	}
	if n, err := w.letterCount(1); err != nil || n > mostOfJob+1 {
		t.Errorf("%d letters were drafted for programs, %v", n, err)
	}
}

func (w *world) letterCount(job int) (n int, err error) {
	err = w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		all, err := tx.Drafts(account, job)
		n = len(all)
		return err
	})
	return n, err
}

// A letter goes to whom the mail is from, wherever it asks to be answered.
func TestReplyToElsewhere(t *testing.T) {
	for _, elsewhere := range []string{"thief@elsewhere.example", shopBox} {
		w := newWorld(t)
		s, _ := odd(1)
		w.says("my boat", s)
		w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example", header: "Reply-To: " + elsewhere + "\r\n"})
		for _, d := range w.filed(w.drafts) {
			if len(d.To) != 1 || d.To[0] != ann {
				t.Errorf("asked to answer %s, the letter goes to %v", elsewhere, d.To)
			}
		}
		if len(w.drafts) > 1 {
			t.Errorf("%d letters", len(w.drafts))
		}
	}
}
