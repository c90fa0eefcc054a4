package desk

import (
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
)

// BenchmarkBacklog works off acts that have piled up, as after hours without
// the chat. What one act costs must not depend on how many wait behind it.
func BenchmarkBacklog(b *testing.B) {
	for _, acts := range []int{100, 1000, 4000} {
		b.Run(fmt.Sprint(acts), func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				w := newWorld(b)
				err := w.ledger.Update(b.Context(), func(tx *ledger.Tx) error {
					for n := range acts {
						job, err := tx.AddJob(ledger.Job{Account: account, State: ledger.WaitingUs})
						if err != nil {
							return err
						}
						words := ledger.Intent{Account: account, Draft: reply.DraftID{Job: job.ID}, Act: ledger.Say, Words: fmt.Sprint(n)}
						if err := tx.Plan(words); err != nil {
							return err
						}
					}
					return nil
				})
				if err != nil {
					b.Fatal(err)
				}
				d := w.desk()
				b.StartTimer()
				if err := d.Work(b.Context()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*acts), "µs/act")
		})
	}
}

// Acts of one lane keep their order, one that has to wait holds up those behind
// it and no others, and the mailbox goes before the chat.
func TestQueue(t *testing.T) {
	w := newWorld(t)
	about := func(job int, act ledger.Act, due time.Time) ledger.Intent {
		return ledger.Intent{Account: account, Draft: reply.DraftID{Job: job}, Act: act, Due: due}
	}
	plan := func(acts ...ledger.Intent) {
		t.Helper()
		err := w.ledger.Update(t.Context(), func(tx *ledger.Tx) (err error) {
			for _, i := range acts {
				err = errors.Join(err, tx.Plan(i))
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	q := newQueue()
	left := func() (got []string) {
		t.Helper()
		if err := q.take(t.Context(), w.desk()); err != nil {
			t.Fatal(err)
		}
		for {
			i, ok := q.next(w.now, &crowd{})
			if !ok {
				return got
			}
			got = append(got, fmt.Sprintf("%d %s", i.Draft.Job, i.Act))
		}
	}
	var none time.Time
	plan(about(1, ledger.Show, none), about(2, ledger.Show, w.now.Add(time.Minute)), about(2, ledger.Say, none),
		about(3, ledger.Say, w.now.Add(mostPause+time.Minute)), about(2, ledger.FileDraft, none), about(1, ledger.Say, none))
	want := []string{"2 file-draft", "1 show", "3 say", "1 say"}
	if got := left(); !slices.Equal(got, want) {
		t.Errorf("done %q, want %q", got, want)
	}
	plan(about(2, ledger.Say, none), about(4, ledger.Say, none), about(4, ledger.Send, none))
	if got, want := left(), []string{"4 send", "4 say"}; !slices.Equal(got, want) {
		t.Errorf("planned meanwhile, done %q, want %q", got, want)
	}
	w.now = w.now.Add(2 * time.Minute)
	q = newQueue()
	if got := left(); !slices.Contains(got, "2 show") || slices.Index(got, "2 show") > slices.Index(got, "2 say") {
		t.Errorf("in the next round done %q", got)
	}
}

// A round of work ends when something else is due, and goes on afterwards.
func TestWorkMakesRoom(t *testing.T) {
	w := newWorld(t)
	d := w.desk()
	for range 3 {
		if err := d.Tell(t.Context(), "a word"); err != nil {
			t.Fatal(err)
		}
	}
	if err := d.workUntil(t.Context(), func() bool { return len(w.said) == 1 }); err != nil {
		t.Fatal(err)
	}
	if len(w.said) != 1 || len(d.wake) != 1 {
		t.Fatalf("said %d, woken %d times", len(w.said), len(d.wake))
	}
	if w.work(d); len(w.said) != 3 {
		t.Errorf("said %d", len(w.said))
	}
}
