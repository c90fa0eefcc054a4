package desk

import (
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/smtp"
)

// killed is what a desk dies of at a crash point.
type killed struct{ point string }

// story is a survey, a better one, and a letter that goes out.
func story(w *world) {
	s, _ := odd(1)
	w.says("one", s)
	w.says("two", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.arrive(mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
	err := w.ledger.Update(w.t.Context(), func(tx *ledger.Tx) error {
		decisions, err := tx.DecisionsOf(account, 1)
		if err != nil || len(decisions) > 0 {
			return err
		}
		draft, err := tx.OpenDraft(account, 1)
		if err != nil {
			return err
		}
		return tx.Decide(ledger.Decision{Account: account, Draft: draft.ID, Choice: ledger.ChooseSend, Person: "Ann"})
	})
	if err != nil {
		w.t.Fatal(err)
	}
	w.work(w.desk())
}

// tell plays the story, begun anew after each kill, and returns the points it
// passed.
func tell(w *world, kill int) (points []string) {
	w.crash = func(point string) {
		points = append(points, point)
		if len(points) == kill {
			panic(killed{point})
		}
	}
	attempt := func() (dead bool) {
		defer func() {
			if p := recover(); p != nil {
				if _, ok := p.(killed); !ok {
					panic(p)
				}
				dead = true
			}
		}()
		story(w)
		return false
	}
	for attempt() {
		w.close()
		w.open()
	}
	return points
}

// Killed at any point, the story ends as it would have: each mail in one end,
// one thread, at most one letter out.
func TestKilledAnywhere(t *testing.T) {
	all := tell(newWorld(t), 0)
	if len(all) < 20 {
		t.Fatalf("the story passes only %d points: %v", len(all), all)
	}
	for k := 1; k <= len(all); k++ {
		w := newWorld(t)
		tell(w, k)
		point := all[k-1]
		for _, uid := range []uint32{1, 2} {
			if m := w.message(uid); m.End != ledger.Answered {
				t.Errorf("killed at %d (%s): mail %d ended as %s", k, point, uid, m.End)
			}
		}
		if len(w.threads) != 1 || len(w.letters) > 1 || len(w.sent) > 1 {
			t.Errorf("killed at %d (%s): %d threads, %d letters sent, %d in Sent", k, point, len(w.threads), len(w.letters), len(w.sent))
		}
		state := w.draftState(lastDraft(t, w))
		sure := len(w.letters) == 1 && state == ledger.DraftSent && len(w.drafts) == 0 && len(w.sent) == 1
		asked := state == ledger.DraftUnsure && w.saidAnything("not known whether")
		if !sure && !asked {
			t.Errorf("killed at %d (%s): the letter is %s, %d sent, %d in Drafts, %d in Sent", k, point, state, len(w.letters), len(w.drafts), len(w.sent))
		}
		if strings.HasPrefix(point, "message") && !sure {
			t.Errorf("killed at %d (%s): before anything was sent, yet the letter is %s", k, point, state)
		}
	}
}

// A server that files copies itself leaves no doubt at any point.
func TestKilledAnywhereWithProof(t *testing.T) {
	proof := func(w *world) {
		w.server = func(to []string, raw []byte) []smtp.Result {
			w.sent = append(w.sent, stored{w.place("Sent"), raw})
			return w.takes(to, raw)
		}
	}
	w := newWorld(t)
	proof(w)
	all := tell(w, 0)
	for k := 1; k <= len(all); k++ {
		w := newWorld(t)
		proof(w)
		tell(w, k)
		state := w.draftState(lastDraft(t, w))
		after := !slices.Contains([]string{CrashBegun + string(ledger.Send), CrashSending}, all[k-1])
		if len(w.letters) > 1 || len(w.sent) > 1 || after && (state != ledger.DraftSent || len(w.letters) != 1 || len(w.drafts) != 0) {
			t.Errorf("killed at %d (%s): the letter is %s, %d sent, %d in Sent, %d in Drafts", k, all[k-1], state, len(w.letters), len(w.sent), len(w.drafts))
		}
	}
}

func lastDraft(t testing.TB, w *world) (id reply.DraftID) {
	t.Helper()
	err := w.ledger.View(t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.LastDraft(account, 1)
		id = d.ID
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return id
}
