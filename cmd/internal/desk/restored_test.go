package desk

import (
	"path/filepath"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
)

// A ledger is restored that knows of a decision to send, and not that the
// letter went out since. The letter does not go again, whether there is proof
// of it or not, and mail that came since gets numbers of its own.
func TestRestoredLedger(t *testing.T) {
	for _, proof := range []bool{true, false} {
		w, _ := oddWorld(t)
		w.decide(ledger.ChooseSend, first, "Ann")
		if err := w.desk().decide(t.Context()); err != nil { // the letter is about to go
			t.Fatal(err)
		}
		backup := filepath.Join(t.TempDir(), "backup.db")
		if err := w.ledger.Backup(t.Context(), backup); err != nil {
			t.Fatal(err)
		}
		w.work(w.desk())
		w.says("two", survey(3))
		later := mail{uid: 9, from: "ben@larch.example", subject: "two", id: "9@larch.example"}
		w.arrive(later)
		if len(w.letters) != 1 || len(w.threads) != 2 {
			t.Fatalf("before: %d letters, %d jobs", len(w.letters), len(w.threads))
		}
		if !proof {
			w.sent = nil
		}

		w.close()
		w.path = backup
		w.open()
		w.now = w.now.Add(time.Hour)
		if err := TakeUp(t.Context(), w.ledger, time.UTC); err != nil {
			t.Fatal(err)
		}
		w.said = map[string]string{} // the ids of what is said begin anew
		w.arrive(later)
		for range 5 {
			w.now = w.now.Add(mostPause)
			if err := w.desk().LookAround(t.Context()); err != nil {
				t.Fatal(err)
			}
			w.work(w.desk())
		}
		want := ledger.DraftSent
		if !proof {
			want = ledger.DraftUnsure
		}
		if state := w.draftState(first); len(w.letters) != 1 || state != want {
			t.Errorf("proof %v: %d letters went out, the letter is %s, want %s", proof, len(w.letters), state, want)
		}
		if j := w.job(1001); j.Customer != "ben@larch.example" || w.draftState(reply.DraftID{Job: 1001, Version: 1}) != ledger.DraftOpen {
			t.Errorf("proof %v: the mail that came since has %+v", proof, j)
		}
		if n := w.saidTimes("I work with a backup of Monday 1 June 2026, 12:00"); n != 1 {
			t.Errorf("proof %v: said %d times that it is a backup: %v", proof, n, w.said)
		}
	}
}

// Mail that came and was answered after the backup was made comes again to the
// ledger that is put back. No answer to it waits in the end, and none goes out.
func TestRestoredLedgerMeetsAnsweredMail(t *testing.T) {
	w := newWorld(t)
	backup := filepath.Join(t.TempDir(), "backup.db")
	if err := w.ledger.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	s, _ := odd(1)
	w.says("my boat", s)
	answered := mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"}
	w.arrive(answered)
	w.send(1)
	if len(w.letters) != 1 || len(w.sent) != 1 {
		t.Fatalf("before: %d letters, %d in Sent", len(w.letters), len(w.sent))
	}

	w.close()
	w.path = backup
	w.open()
	w.now = w.now.Add(time.Hour)
	if err := TakeUp(t.Context(), w.ledger, time.UTC); err != nil {
		t.Fatal(err)
	}
	w.said, w.threads = map[string]string{}, map[int][]string{}
	w.arrive(answered)
	for range 5 {
		w.now = w.now.Add(mostPause)
		if err := w.desk().LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.work(w.desk())
	}
	if len(w.letters) != 1 || len(w.drafts) != 0 {
		t.Errorf("%d letters went out, %d in Drafts; want 1 and none", len(w.letters), len(w.drafts))
	}
	if !w.saidAnything("answered") {
		t.Errorf("nobody is told that it was answered: %v", w.said)
	}
}
