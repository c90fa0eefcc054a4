package desk

import (
	"errors"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // a machine may have no time zone database

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/reply/smtp"
)

const day = 24 * time.Hour

func (w *world) tick() {
	w.t.Helper()
	d := w.desk()
	if err := d.Tick(w.t.Context()); err != nil {
		w.t.Fatal(err)
	}
	w.work(d)
}

// saidAnything reports that a text with these words was said.
func (w *world) saidAnything(words string) bool {
	for _, text := range w.said {
		if strings.Contains(text, words) {
			return true
		}
	}
	return false
}

// saidTimes counts how often words were said.
func (w *world) saidTimes(words string) (n int) {
	for _, text := range w.said {
		if strings.Contains(text, words) {
			n++
		}
	}
	return n
}

func TestReminders(t *testing.T) {
	w, _ := oddWorld(t)
	w.send(1)
	w.now = w.now.Add(5*day - time.Minute)
	w.tick()
	if l := w.openLetter(1); l != "" {
		t.Fatalf("reminded too early:\n%s", l)
	}
	for n := 1; n <= 2; n++ {
		w.now = w.now.Add(time.Minute)
		w.tick()
		w.tick() // a restart a moment later
		// The letter that went out answers the same mail: it is no answer by hand.
		if err := w.desk().LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
		if got := w.saidTimes("a reminder waits"); got != n || w.openLetter(1) == "" {
			t.Fatalf("%d reminders were said, want %d", got, n)
		}
		if len(w.letters) != n {
			t.Fatal("a reminder went out without a decision")
		}
		w.send(1)
		w.now = w.now.Add(-3 * day) // the clock goes back
		w.tick()
		w.now = w.now.Add(3*day + 5*day)
	}
	w.tick()
	if w.openLetter(1) != "" || w.saidTimes("a reminder waits") != 2 {
		t.Error("a third reminder was drafted")
	}
	if r := w.job(1).Rounds; r != 1 {
		t.Errorf("reminders count as rounds: %d", r)
	}
}

// A reminder that perhaps did not leave is written anew as the same reminder,
// also in the last round, in which no other letter would be written.
func TestReminderThatPerhapsLeft(t *testing.T) {
	w, _ := oddWorld(t)
	w.send(1)
	s, _ := odd(1)
	s.Stations[6].HullGirth.Value -= parse.Inches(3)
	w.says("second", s)
	w.arrive(mail{uid: 2, from: ann, subject: "second", id: "2@tarn.example"})
	w.send(1)
	w.now = w.now.Add(5 * day)
	w.tick()
	w.server = func(to []string, _ []byte) []smtp.Result {
		return []smtp.Result{{To: to[0], Outcome: smtp.Unknown, Err: errors.New("gone")}}
	}
	w.send(1)
	w.orders(1, ledger.ChooseReopen, "")
	if l := w.openLetter(1); !strings.Contains(l, "A reminder") {
		t.Errorf("the letter that waits is:\n%s", l)
	}
	w.server = w.takes
	w.send(1)
	if len(w.letters) != 3 || w.job(1).Rounds != 2 {
		t.Errorf("%d letters in %d rounds", len(w.letters), w.job(1).Rounds)
	}
}

// Tracings that do not come are asked for again, at most as often; that they are
// on their way ends it.
func TestRemindersOfTracings(t *testing.T) {
	setUp := func(t *testing.T) *world {
		w := newWorld(t)
		w.says("my boat", survey(1))
		w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
		w.send(1)
		w.now = w.now.Add(5 * day)
		w.tick()
		return w
	}
	t.Run("twice", func(t *testing.T) {
		w := setUp(t)
		for range 4 {
			if l := w.openLetter(1); l != "" {
				if !strings.Contains(l, "A reminder") || strings.Contains(l, "measure again") {
					t.Errorf("the reminder says:\n%s", l)
				}
				w.send(1)
			}
			w.now = w.now.Add(5 * day)
			w.tick()
		}
		if n := w.saidTimes("a reminder waits"); n != 2 || w.job(1).Rounds != 0 {
			t.Errorf("%d reminders, %d rounds; want 2 and none", n, w.job(1).Rounds)
		}
	})
	t.Run("until they are in", func(t *testing.T) {
		w := setUp(t)
		w.orders(1, ledger.ChooseReceived, "tracings")
		if l := w.openLetter(1); strings.Contains(l, "tracing") {
			t.Errorf("the letter that waits still asks for tracings:\n%s", l)
		}
		if j := w.job(1); j.State != ledger.Ready {
			t.Errorf("the job is %s", j.State)
		}
	})
	t.Run("until the customer writes", func(t *testing.T) {
		w := setUp(t)
		w.surveys["posted"] = opener.Mail{Body: prose.Mail{Tracings: prose.Tracings{Bow: true, Stern: true}}}
		w.arrive(mail{uid: 2, from: ann, subject: "posted", id: "2@tarn.example", body: "Both tracings went off today."})
		w.now = w.now.Add(20 * day)
		w.tick()
		if w.openLetter(1) != "" || w.saidTimes("a reminder waits") != 1 || len(w.drafts) != 0 {
			t.Errorf("%d reminders, %d in Drafts", w.saidTimes("a reminder waits"), len(w.drafts))
		}
	})
}

// Any new mail stops reminders, also "the boat is sold".
func TestMailStopsReminders(t *testing.T) {
	w, _ := oddWorld(t)
	w.send(1)
	w.now = w.now.Add(5 * day)
	w.tick()
	w.surveys["sold"] = opener.Mail{Body: prose.Mail{Sold: true}}
	w.arrive(mail{uid: 2, from: ann, subject: "sold", id: "2@tarn.example"})
	if got := w.draftIDs(); len(got) != 0 {
		t.Errorf("in Drafts lie %v; the reminder is stale", got)
	}
	w.now = w.now.Add(20 * day)
	w.tick()
	if n := w.saidTimes("a reminder waits"); n != 1 {
		t.Errorf("%d reminders", n)
	}
	if j := w.job(1); !strings.Contains(j.Question, "sold") {
		t.Errorf("that the boat is sold is not said: %q", j.Question)
	}
}

func TestHeldUntil(t *testing.T) {
	w, _ := oddWorld(t)
	err := w.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: account, Draft: first, Choice: ledger.ChooseHold, Person: "Ann", Words: Until("2026-06-03", "away")})
	})
	if err != nil {
		t.Fatal(err)
	}
	w.work(w.desk())
	w.now = time.Date(2026, 6, 2, 23, 59, 0, 0, time.UTC)
	w.tick()
	if w.job(1).State != ledger.HeldJob || w.openLetter(1) != "" {
		t.Fatal("it came back before its day")
	}
	w.now = time.Date(2026, 6, 3, 0, 0, 0, 0, time.UTC)
	w.tick()
	w.tick()
	if w.job(1).State != ledger.WaitingUs || w.openLetter(1) == "" || w.saidTimes("The day has come") != 1 {
		t.Errorf("on its day the job is %s", w.job(1).State)
	}
}

func TestDigest(t *testing.T) {
	w := newWorld(t)
	at := func(d, hour, minute int) { w.now = time.Date(2026, 6, d, hour, minute, 0, 0, time.UTC); w.tick() }
	at(1, 8, 0)
	s, _ := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
	at(1, 20, 0)
	if n := w.saidTimes("The jobs today"); n != 0 {
		t.Fatalf("%d digests on the first day", n)
	}
	at(2, 7, 59)
	at(2, 8, 0)
	at(2, 8, 1)
	at(1, 9, 0) // the clock goes back a day
	at(2, 9, 0)
	if n := w.saidTimes("The jobs today"); n != 1 || !w.saidAnything("new: 1") || !w.saidAnything("waiting for us: 1") {
		t.Fatalf("%d digests, want 1: %v", n, w.said)
	}
	w.send(1)
	at(3, 8, 0)
	at(4, 8, 0)
	if n := w.saidTimes("The jobs today"); n != 1 {
		t.Errorf("quiet days are not quiet: %d digests", n)
	}
	at(30, 8, 0) // a clock far ahead, then right again
	n := w.saidTimes("The jobs today")
	at(7, 8, 0)
	at(7, 9, 0)
	if got := w.saidTimes("The jobs today"); got > n+1 {
		t.Errorf("%d digests after the clock was wrong, want at most %d", got, n+1)
	}
}

// Where clocks go forward or back, each day has one digest, not before its hour,
// and a letter that is held comes back on its day; what was sent is not sent
// again. The days are those of the IANA time zone database.
func TestSummerTime(t *testing.T) {
	for _, change := range []struct{ zone, day string }{
		{"America/Halifax", "2026-03-08"}, {"America/Halifax", "2026-11-01"}, // at 2 in the morning
		{"America/Santiago", "2026-09-06"}, {"America/Santiago", "2026-04-05"}, // at midnight: the day has none, or two
		{"America/Havana", "2026-03-08"}, {"America/Havana", "2026-11-01"},
	} {
		t.Run(change.zone+" "+change.day, func(t *testing.T) {
			t.Parallel()
			zone, err := time.LoadLocation(change.zone)
			if err != nil {
				t.Fatal(err)
			}
			w := newWorld(t)
			w.zone = zone
			day, err := time.ParseInLocation(time.DateOnly, change.day, zone)
			if err != nil {
				t.Fatal(err)
			}
			begin, end := day.AddDate(0, 0, -1).Add(-2*time.Hour), day.AddDate(0, 0, 3)
			w.now = begin
			for n, subject := range []string{"one", "two"} {
				s, _ := odd(uint64(n + 1))
				w.says(subject, s)
			}
			w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}, mail{uid: 2, from: "bo@fenn.example", subject: "two", id: "2@fenn.example"})
			w.send(1)
			held := reply.DraftID{Job: 2, Version: 1}
			err = w.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
				return tx.Decide(ledger.Decision{Account: account, Draft: held, Choice: ledger.ChooseHold, Person: "Ann", Words: Until(change.day, "away")})
			})
			if err != nil {
				t.Fatal(err)
			}
			w.work(w.desk())
			digests, back := map[string]int{}, ""
			for ; w.now.Before(end); w.now = w.now.Add(20 * time.Minute) {
				before, wasHeld := w.saidTimes("The jobs today"), w.job(2).State == ledger.HeldJob
				w.tick()
				local := w.now.In(zone)
				if w.saidTimes("The jobs today") > before {
					if digests[local.Format(time.DateOnly)]++; local.Hour() < 8 {
						t.Errorf("a digest at %v", local)
					}
				}
				if wasHeld && w.job(2).State != ledger.HeldJob {
					back = local.Add(time.Hour).Format(time.DateOnly) // a day without midnight begins at 23:00, by Go's count
				}
			}
			for d := day.Add(12 * time.Hour); d.Before(end); d = d.AddDate(0, 0, 1) {
				if n := digests[d.Format(time.DateOnly)]; n != 1 {
					t.Errorf("%d digests on %s: %v", n, d.Format(time.DateOnly), digests)
				}
			}
			if back != change.day {
				t.Errorf("held until %s, it came back on %q", change.day, back)
			}
			if len(w.letters) != 1 {
				t.Errorf("%d letters went out, want 1", len(w.letters))
			}
		})
	}
}
