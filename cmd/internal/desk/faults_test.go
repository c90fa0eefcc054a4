package desk

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest/eml"
	"fairtape/ingest/mailbox"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply/chat"
	"fairtape/reply/smtp"
	"fairtape/reply/smtp/smtptest"
)

// served is a world whose letters go to a real mail server by the real client,
// with a letter that waits.
func served(t *testing.T) (*world, *smtptest.Server) {
	t.Helper()
	server, err := smtptest.Start(smtptest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { server.Close() })
	w := newWorld(t)
	sender := smtp.Sender{Address: server.Addr, Security: smtp.None}
	w.server = func(to []string, raw []byte) []smtp.Result { return sender.Send(t.Context(), shopBox, to, raw) }
	s, _ := odd(1)
	w.says("one", s)
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	return w, server
}

func TestMailServerFaults(t *testing.T) {
	at := map[string]func(code int) smtptest.Faults{
		"greeting":  func(code int) smtptest.Faults { return smtptest.Faults{Hello: code} },
		"sender":    func(code int) smtptest.Faults { return smtptest.Faults{Mail: code} },
		"recipient": func(code int) smtptest.Faults { return smtptest.Faults{Rcpt: map[string]int{"": code}} },
		"letter":    func(code int) smtptest.Faults { return smtptest.Faults{Data: code} },
	}
	for name, faults := range at {
		t.Run("put off at the "+name+", then taken", func(t *testing.T) {
			t.Parallel()
			w, server := served(t)
			server.Fail(faults(451))
			w.decide(ledger.ChooseSend, first, "Ann")
			var pauses []time.Duration
			for range 4 {
				w.work(w.desk())
				pauses = append(pauses, w.untilNextTry())
				w.now = w.now.Add(w.untilNextTry())
			}
			for i := 1; i < len(pauses); i++ {
				if pauses[i] < 2*pauses[i-1] {
					t.Errorf("tried again after %v: it does not back off", pauses)
				}
			}
			server.Fail(smtptest.Faults{})
			w.work(w.desk())
			if n := len(server.Letters()); n != 1 || w.draftState(first) != ledger.DraftSent {
				t.Errorf("%d letters, it is %s", n, w.draftState(first))
			}
		})
		t.Run("put off at the "+name+" for days", func(t *testing.T) {
			t.Parallel()
			w, server := served(t)
			server.Fail(faults(451))
			w.decide(ledger.ChooseSend, first, "Ann")
			for end := w.now.Add(deadline + 2*mostPause); w.now.Before(end); w.now = w.now.Add(mostPause) {
				w.work(w.desk())
			}
			w.told(t, server, "was not sent")
		})
		t.Run("refused at the "+name, func(t *testing.T) {
			t.Parallel()
			w, server := served(t)
			server.Fail(faults(550))
			w.decide(ledger.ChooseSend, first, "Ann")
			w.work(w.desk())
			w.told(t, server, "was not sent")
		})
	}
	for _, kept := range []bool{false, true} {
		t.Run(fmt.Sprintf("connection lost after the final dot, the letter kept: %v", kept), func(t *testing.T) {
			w, server := served(t)
			server.Fail(smtptest.Faults{DropAfterDot: true, KeepDropped: kept})
			w.decide(ledger.ChooseSend, first, "Ann")
			w.work(w.desk())
			server.Fail(smtptest.Faults{})
			for range 50 {
				w.now = w.now.Add(mostPause)
				w.work(w.desk())
			}
			if n := len(server.Letters()); kept != (n == 1) || w.draftState(first) != ledger.DraftUnsure || !w.saidAnything("not known whether") {
				t.Errorf("%d letters, it is %s: it must not go again by itself, and a person must be asked", n, w.draftState(first))
			}
			w.orders(1, ledger.ChooseReopen, "")
			if got := w.draftIDs(); len(got) != 1 || got[0] != "1-2" || w.draftState(first) != ledger.DraftReplaced {
				t.Errorf("a person said that it did not leave; in Drafts lie %v", got)
			}
		})
	}
	t.Run("a yes that comes after we stopped to wait", func(t *testing.T) {
		w, server := served(t)
		server.Fail(smtptest.Faults{DropAfterDot: true, KeepDropped: true})
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(w.desk())
		server.Fail(smtptest.Faults{})
		w.now = w.now.Add(9 * time.Minute) // the provider files its copy when it is done
		w.sent = append(w.sent, stored{w.place("Sent"), server.Letters()[0].Raw})
		if err := w.desk().LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.work(w.desk())
		if n := len(server.Letters()); n != 1 || w.draftState(first) != ledger.DraftSent || len(w.sent) != 1 {
			t.Errorf("%d letters, it is %s, %d copies in Sent", n, w.draftState(first), len(w.sent))
		}
	})
	t.Run("one of two recipients refused", func(t *testing.T) {
		w, server := served(t)
		// A person adds somebody in the mail program.
		w.drafts[0].raw = bytes.Replace(w.drafts[0].raw, []byte("\r\nSubject:"), []byte("\r\nCc: bo@fenn.example\r\nSubject:"), 1)
		server.Fail(smtptest.Faults{Rcpt: map[string]int{"bo@fenn.example": 550}})
		w.decide(ledger.ChooseSend, first, "Ann")
		w.work(w.desk())
		w.now = w.now.Add(day)
		w.work(w.desk())
		if n := len(server.Letters()); n != 1 || server.Letters()[0].To[0] != ann || !w.saidAnything("did not reach everybody: bo@fenn.example") {
			t.Errorf("%d letters, said %v", n, w.said)
		}
	})
}

// untilNextTry is how long it takes until an act is tried again.
func (w *world) untilNextTry() (pause time.Duration) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		waiting, err := tx.Waiting(account)
		for _, i := range waiting {
			if i.Act == ledger.Send {
				pause = i.Due.Sub(w.now)
			}
		}
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return pause
}

// told checks that no letter went out, that it waits again and that a person
// was told why.
func (w *world) told(t *testing.T, server *smtptest.Server, words string) {
	t.Helper()
	if n := len(server.Letters()); n != 0 || w.draftState(first) != ledger.DraftOpen || !w.saidAnything(words) {
		t.Errorf("%d letters, it is %s, said %v", n, w.draftState(first), w.said)
	}
	for range 5 {
		w.now = w.now.Add(day)
		w.work(w.desk())
	}
	if n := w.saidTimes(words); n != 1 || len(w.drafts) != 1 {
		t.Errorf("said %d times, %d in Drafts", n, len(w.drafts))
	}
}

func TestMailFaults(t *testing.T) {
	t.Run("one mail under two numbers, in two mailboxes, by two ways", func(t *testing.T) {
		w := newWorld(t)
		w.says("one", survey(1))
		copies := []mail{
			{uid: 1, from: ann, subject: "one", id: "1@tarn.example"},
			{uid: 9, from: ann, subject: "one", id: "1@tarn.example", header: "Received: by another way\r\n"},
		}
		w.arrive(copies...)
		elsewhere := copies[0].delivery()
		elsewhere.Location.Mailbox, elsewhere.Cursor.Mailbox = "Orders", "Orders"
		if err := w.desk().Receive(t.Context(), elsewhere); err != nil {
			t.Fatal(err)
		}
		w.work(w.desk())
		if n, err := w.letterCount(1); n != 1 || err != nil || len(w.threads) != 1 {
			t.Errorf("%d letters, %d threads, %v", n, len(w.threads), err)
		}
	})
	t.Run("another text under a Message-ID that is known", func(t *testing.T) {
		w := newWorld(t)
		w.says("one", survey(1))
		w.says("two", survey(2))
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}, mail{uid: 2, from: ann, subject: "two", id: "1@tarn.example"})
		if m := w.message(2); m.End != ledger.Held || len(w.drafts) != 1 {
			t.Errorf("it ended as %s, %d letters wait", m.End, len(w.drafts))
		}
	})
}

func TestChatFaults(t *testing.T) {
	press := func(user, draft, id string) chat.Event {
		return by(user, chat.Event{Kind: chat.PressSend, Draft: draft, ID: id})
	}
	t.Run("an event that comes again after the service was started anew", func(t *testing.T) {
		w, _ := oddWorld(t)
		r := &room{}
		word := said("ann", "note in the blue tube")
		w.hears(r, nil, press("ann", "1-1", "x"), word)
		w.close()
		w.open()
		w.hears(r, nil, press("ann", "1-1", "x"), word)
		if len(w.letters) != 1 || w.saidTimes("noted") != 1 {
			t.Errorf("%d letters, noted %d times", len(w.letters), w.saidTimes("noted"))
		}
	})
	t.Run("a press on a post that is not on the ledger yet", func(t *testing.T) {
		w := newWorld(t)
		s, _ := odd(1)
		w.says("my boat", s)
		m := mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"}
		w.inbox = append(w.inbox, stored{m.delivery().Location, m.delivery().Raw})
		d := w.desk()
		if err := d.Receive(t.Context(), m.delivery()); err != nil {
			t.Fatal(err)
		}
		// The post stands in the channel; its outcome is not recorded.
		r := &room{}
		d.Hear(t.Context(), r, nil, press("ann", "1-1", "x"))
		w.work(d)
		if len(w.letters) != 1 || len(w.threads) != 1 || w.job(1).Thread == "" {
			t.Errorf("%d letters, %d threads", len(w.letters), len(w.threads))
		}
	})
	t.Run("words in a thread that is not on the ledger yet", func(t *testing.T) {
		w := newWorld(t)
		w.says("my boat", survey(1))
		d := w.desk()
		if err := d.Receive(t.Context(), mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"}.delivery()); err != nil {
			t.Fatal(err)
		}
		r := &room{}
		d.Hear(t.Context(), r, nil, said("ann", "tracings in"))
		if !r.whispered("ann", "once more") {
			t.Errorf("words went by without a word: %v", r.whispers)
		}
		w.work(d)
		w.hears(r, nil, by("ann", chat.Event{Kind: chat.Said, Text: "tracings in", InThread: true, ID: "again"}))
		if !w.job(1).Tracings.Both() {
			t.Error("said once more they are not taken")
		}
	})
	t.Run("a press on a letter that is not written yet", func(t *testing.T) {
		w, _ := oddWorld(t)
		r := &room{}
		w.hears(r, nil, press("ann", "1-2", "x"), press("ann", "7-1", "y"), press("ann", "nonsense", "z"))
		if len(w.letters) != 0 || !r.whispered("ann", "no letter 1-2") || !r.whispered("ann", "no letter 7-1") {
			t.Errorf("%d letters, %v", len(w.letters), r.whispers)
		}
	})
	t.Run("two hours without the chat", func(t *testing.T) {
		w, right := oddWorld(t)
		r := &room{}
		w.hears(r, nil, chat.Event{Kind: chat.Connected})
		w.surveys["my boat"] = opener.Mail{Files: []parse.Document{{File: "chat/page.jpg", Surveys: []parse.Survey{survey(1)}}}}
		at := w.now.Add(time.Hour)
		file := by("ben", chat.Event{Kind: chat.Said, ID: "drop", InThread: true, Files: []chat.File{{ID: "F1", Name: "page.jpg", URL: "bytes"}}})
		r.missed = map[string][]chat.Event{
			"ts-1": {said("ann", "tracings in"), file, said("ben", "what a boat")},
			"":     {by("ann", chat.Event{Kind: chat.Said, Text: "1 note the tube is green", Mention: true, ID: "m", At: at})},
		}
		w.now = w.now.Add(2 * time.Hour)
		w.hears(r, nil, chat.Event{Kind: chat.Connected}, chat.Event{Kind: chat.Connected})
		if !w.job(1).Tracings.Both() || hull7(w).Value != right || w.saidTimes("noted") != 1 {
			t.Errorf("tracings %+v, hull girth %v, noted %d times", w.job(1).Tracings, hull7(w).Value, w.saidTimes("noted"))
		}
	})
}

// A chat that nobody can write to any more is told in Drafts, once; what was to
// be said waits, and is said when the chat is open again.
func TestChatIsShut(t *testing.T) {
	w := newWorld(t)
	w.deaf = fmt.Errorf("%w: token_revoked (install the app again)", chat.ErrShut)
	s, _ := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
	w.says("yours", survey(2))
	w.arrive(mail{uid: 2, from: "bo@fenn.example", subject: "yours", id: "2@fenn.example"})
	for range 5 {
		w.now = w.now.Add(mostPause)
		w.work(w.desk())
	}
	notes := 0
	for _, d := range w.drafts {
		m, err := eml.Parse(d.raw)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(m.Text, "install the app again") {
			notes++
			if len(m.To) != 1 || m.To[0].Address != shopBox {
				t.Errorf("the note is to %v", m.To)
			}
		}
	}
	if notes != 1 || len(w.drafts) != 3 || len(w.threads) != 0 {
		t.Fatalf("%d notes among %d drafts, %d threads; want 1 of 3, and 0", notes, len(w.drafts), len(w.threads))
	}
	w.deaf = nil
	w.now = w.now.Add(2 * mostPause)
	w.work(w.desk())
	if len(w.threads) != 2 || len(w.drafts) != 2 {
		t.Errorf("open again: %d threads, %d drafts; want 2 and 2", len(w.threads), len(w.drafts))
	}
}

// Whoever is not a person, or not the one they say, gets no letter and learns
// nothing; what they bring changes nothing.
func TestHostileSenders(t *testing.T) {
	report := "MIME-Version: 1.0\r\nContent-Type: multipart/report; report-type=%s; boundary=b\r\n"
	loop := strings.Repeat("Received: from a by b; Mon, 1 Jun 2026 12:00:00 +0000\r\n", 120)
	tests := []struct {
		name string
		mail mail
		end  ledger.End
	}{
		{"out of office", mail{from: ann, header: "Auto-Submitted: auto-replied\r\n"}, ledger.Ignored},
		{"out of office that no field tells", mail{from: ann, subject: "Automatic reply: my boat", body: "Back on Monday."}, ledger.Ignored},
		{"delivery report", mail{from: "mailer-daemon@tarn.example", header: fmt.Sprintf(report, "delivery-status")}, ledger.Ignored},
		{"read receipt", mail{from: ann, header: fmt.Sprintf(report, "disposition-notification")}, ledger.Ignored},
		{"abuse report", mail{from: "fbl@provider.example", header: fmt.Sprintf(report, "feedback-report")}, ledger.Ignored},
		{"mailing list", mail{from: ann, header: "List-Id: <boats.example>\r\n"}, ledger.Ignored},
		{"bulk mail", mail{from: ann, header: "Precedence: bulk\r\n"}, ledger.Ignored},
		{"an address that nobody reads", mail{from: "no-reply@boats.example"}, ledger.Ignored},
		{"ourselves", mail{from: shopBox}, ledger.Ignored},
		{"our own letter under another name", mail{from: "orders@alias.example", header: "X-Fairtape-Draft: 1-1\r\n"}, ledger.Ignored},
		{"a circle of forwards", mail{from: ann, header: loop}, ledger.Ignored},
		{"a forged sender", mail{from: "liar@tarn.example"}, ledger.Held},
		{"a stranger who answers a letter of ours", mail{from: "eve@fenn.example"}, ledger.Held},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := newWorld(t)
			s, _ := odd(1)
			s.Boat = "Heron 17"
			w.says("my boat", s)
			w.arrive(mail{uid: 1, from: "Ann Tarn <" + ann + ">", subject: "my boat", id: "1@tarn.example"})
			w.send(1)
			w.distrust = "liar@tarn.example"
			before := w.surveyOf(1).Version
			if tt.mail.subject == "" {
				tt.mail.subject = "again"
			}
			w.surveys[tt.mail.subject] = opener.Mail{Files: []parse.Document{{File: "mail/a.csv", Surveys: []parse.Survey{survey(1)}}},
				Body: prose.Mail{Questions: []string{"What do you have of mine?"}}}
			tt.mail.uid, tt.mail.id, tt.mail.answers = 2, "2@x.example", "letter-1@pinfold.example"
			w.arrive(tt.mail)
			w.now = w.now.Add(30 * day)
			if m := w.message(2); m.End != tt.end {
				t.Errorf("it ended as %s: %s", m.End, m.Reason)
			}
			if len(w.letters) != 1 || len(w.drafts) != 0 {
				t.Errorf("%d letters, %d in Drafts", len(w.letters), len(w.drafts))
			}
			if w.surveyOf(1).Version != before {
				t.Error("it changed the survey")
			}
			if post := strings.Join(w.threads[2], "\n"); strings.Contains(post, "Heron") || strings.Contains(post, "Ann Tarn") {
				t.Errorf("the post of the new job tells of the other:\n%s", post)
			}
		})
	}
}

// A mail that could not be fetched is told to a person, and answered by nobody.
func TestMailThatIsNotFetched(t *testing.T) {
	for _, why := range []error{mailbox.ErrTooLarge, mailbox.ErrBreaks} {
		t.Run(why.Error(), func(t *testing.T) {
			w := newWorld(t)
			d := w.desk()
			large := mail{uid: 1}.delivery()
			large.Raw, large.Size, large.Err = nil, 200<<20, why
			if err := d.Receive(t.Context(), large); err != nil {
				t.Fatal(err)
			}
			w.work(d)
			if m := w.message(1); m.End != ledger.Held || w.job(m.Job).State != ledger.SetAside {
				t.Errorf("it ended as %s, its job is %s", m.End, w.job(m.Job).State)
			}
			if post := strings.Join(w.threads[1], "\n"); !strings.Contains(post, why.Error()) || len(w.drafts) != 0 {
				t.Errorf("%d letters; the post is\n%s", len(w.drafts), post)
			}
		})
	}
}

// A mail that nobody but one program, or one person, can open is neither lost
// nor answered: a person is told.
func TestSealedMail(t *testing.T) {
	for _, name := range []string{"encrypted", "winmail"} {
		t.Run(name, func(t *testing.T) {
			raw, err := os.ReadFile(filepath.Join("../../../testdata/mail", name+".eml"))
			if err != nil {
				t.Fatal(err)
			}
			w := newWorld(t)
			w.reader = bodies{}
			d := w.desk()
			sealed := mail{uid: 1}.delivery()
			sealed.Raw = raw
			if err := d.Receive(t.Context(), sealed); err != nil {
				t.Fatal(err)
			}
			w.work(d)
			if m := w.message(1); m.End == ledger.Ignored || len(w.threads) != 1 || len(w.letters) != 0 {
				t.Errorf("it ended as %s (%s), %d threads", m.End, m.Reason, len(w.threads))
			}
		})
	}
}
