package desk

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/ledger/ledgertest"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/reply/smtp"
)

func newDisk(t *testing.T) *ledgertest.Disk {
	t.Helper()
	disk, err := ledgertest.NewDisk()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := disk.Close(); err != nil {
			t.Error(err)
		}
	})
	return disk
}

// sound asserts what has to hold at the end of the story, whatever happened on
// the way.
func (w *world) sound(when string) {
	w.t.Helper()
	for _, uid := range []uint32{1, 2} {
		if m := w.message(uid); m.End != ledger.Answered {
			w.t.Errorf("%s: mail %d ended as %s: %s", when, uid, m.End, m.Reason)
		}
	}
	if len(w.threads) != 1 || len(w.letters) > 1 || len(w.sent) > 1 {
		w.t.Errorf("%s: %d threads, %d letters sent, %d in Sent", when, len(w.threads), len(w.letters), len(w.sent))
	}
	state := w.draftState(lastDraft(w.t, w))
	sure := len(w.letters) == 1 && state == ledger.DraftSent && len(w.drafts) == 0 && len(w.sent) == 1
	asked := state == ledger.DraftUnsure && w.saidAnything("not known whether")
	if !sure && !asked {
		w.t.Errorf("%s: the letter is %s, %d sent, %d in Drafts, %d in Sent", when, state, len(w.letters), len(w.drafts), len(w.sent))
	}
}

// A disk that fails once, or from some moment on until it is mended, costs
// time and nothing else: no mail is lost, nothing is done twice.
func TestDiskFails(t *testing.T) {
	const stride = 61 // of the writes and syncs; each combination begins elsewhere
	disk := newDisk(t)
	begin := 0
	for _, how := range []ledgertest.Failure{ledgertest.Full, ledgertest.Broken, ledgertest.Unsynced, ledgertest.ReadOnly} {
		for _, lasting := range []bool{false, true} {
			begin += stride / 9
			for n := begin; ; n += stride {
				w := newWorld(t)
				s, _ := odd(1)
				w.says("one", s)
				w.says("two", survey(1))
				disk.Fail(n, lasting, how)
				if err := w.live(disk); err != nil {
					t.Fatalf("failure %d at write %d, lasting %v: %v", how, n, lasting, err)
				}
				failed := disk.Mend()
				w.sound(fmt.Sprintf("failure %d at write %d, lasting %v", how, n, lasting))
				if !failed {
					if n < 3*stride {
						t.Errorf("the story makes %d writes only", n)
					}
					break
				}
			}
		}
	}
}

// live plays the story as the service does on a disk that may fail: what went
// wrong is tried again, and somebody mends the disk after the third time.
func (w *world) live(disk *ledgertest.Disk) error {
	d := w.desk()
	acts := []func(context.Context) error{
		func(ctx context.Context) error {
			return d.Receive(ctx, mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}.delivery())
		},
		d.Work,
		func(ctx context.Context) error {
			return d.Receive(ctx, mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"}.delivery())
		},
		d.Work,
		func(ctx context.Context) error {
			return w.ledger.Update(ctx, func(tx *ledger.Tx) error {
				draft, err := tx.OpenDraft(account, 1)
				return errors.Join(err, tx.Decide(ledger.Decision{Account: account, Draft: draft.ID, Choice: ledger.ChooseSend, Person: "Ann"}))
			})
		},
		d.Work,
	}
	for n, act := range acts {
		for try := 1; ; try++ {
			err := act(w.t.Context())
			if err == nil {
				break
			}
			if try == 3 {
				disk.Mend()
			}
			if try > 5 {
				return fmt.Errorf("act %d: %w", n, err)
			}
		}
	}
	return nil
}

// Power is lost at any point: what the desk built on is there, and the story
// ends as after a kill.
func TestPowerLoss(t *testing.T) {
	disk := newDisk(t)
	for k := 1; ; k++ {
		w := newWorld(t)
		random := rand.New(rand.NewPCG(1, uint64(k)))
		lost := ""
		points := 0
		w.crash = func(point string) {
			if points++; points != k || lost != "" {
				return
			}
			lost = filepath.Join(t.TempDir(), "fairtape.db")
			if err := disk.Copy(filepath.Dir(w.path), filepath.Dir(lost), random); err != nil {
				t.Fatal(err)
			}
			panic(killed{point})
		}
		for w.dies() {
			w.close()
			w.path = lost
			w.open()
		}
		w.sound(fmt.Sprintf("power lost at point %d", k))
		if lost == "" {
			break
		}
	}
}

// dies plays the story, and reports that the desk was killed in it.
func (w *world) dies() (dead bool) {
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

// unready is a reader that cannot start its child.
type unready struct{}

// Read implements Reader.
func (unready) Read(context.Context, ingest.Message, string) (opener.Mail, error) {
	return opener.Mail{}, fmt.Errorf("open survey.pdf: %w", opener.ErrNotStarted)
}

// A machine that has no room for a child is no fault of a mail: the mail waits,
// and is worked off as soon as there is room.
func TestNoRoomForAChild(t *testing.T) {
	w := newWorld(t)
	w.says("one", survey(1))
	w.reader = unready{}
	one := mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}
	d := w.desk()
	for range 2 * maxTries {
		if err := d.Receive(t.Context(), one.delivery()); !errors.Is(err, opener.ErrNotStarted) {
			t.Fatalf("got %v", err)
		}
	}
	w.reader = nil
	w.arrive(one)
	if m := w.message(1); m.End != ledger.Answered {
		t.Errorf("ended as %s (%s)", m.End, m.Reason)
	}
}

// A clock that jumps by days, either way, neither repeats a letter nor makes
// what waits wait for days.
func TestClockJumps(t *testing.T) {
	for _, jump := range []time.Duration{-48 * time.Hour, -24 * time.Hour, 24 * time.Hour, 48 * time.Hour} {
		w, _ := oddWorld(t)
		w.decide(ledger.ChooseSend, first, "Ann")
		works := w.server
		w.server = func(to []string, _ []byte) []smtp.Result {
			return []smtp.Result{{To: to[0], Outcome: smtp.Temporary, Err: errors.New("busy")}}
		}
		w.work(w.desk()) // put off
		w.server = works
		w.now = w.now.Add(jump)
		for range 3 {
			w.now = w.now.Add(mostPause)
			w.work(w.desk())
			w.tick()
		}
		if len(w.letters) != 1 || w.draftState(first) != ledger.DraftSent {
			t.Errorf("after %v: %d letters went out, it is %s", jump, len(w.letters), w.draftState(first))
		}
		w.now = w.now.Add(-jump)
		w.tick()
		w.work(w.desk())
		if len(w.letters) != 1 || len(w.sent) != 1 {
			t.Errorf("after %v and back: %d letters went out", jump, len(w.letters))
		}
	}
}
