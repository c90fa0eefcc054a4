package desk

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/smtp"
)

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
