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
