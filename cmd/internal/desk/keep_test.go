package desk

import (
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
)

// A customer is forgotten when nothing has come for as long as customers are
// remembered, and not while a letter waits for a person.
func TestSilentCustomersAreForgotten(t *testing.T) {
	const keep = 400 * day
	w := newWorld(t)
	s, _ := odd(1)
	w.says("one", s)
	w.says("two", survey(3))
	w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
	w.arrive(mail{uid: 2, from: "ben@larch.example", subject: "two", id: "2@larch.example"})
	w.orders(2, ledger.ChooseClose, "")
	look := func(after time.Duration) {
		t.Helper()
		w.now = w.now.Add(after)
		d := w.desk()
		d.Keep = keep
		if err := d.Tick(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.work(d)
	}
	look(keep - time.Minute)
	if w.job(2).Customer == "" {
		t.Error("forgotten before the time")
	}
	look(time.Hour)
	if w.job(2).Customer != "" {
		t.Errorf("still known: %+v", w.job(2))
	}
	if w.job(1).Customer != ann || w.openLetter(1) == "" {
		t.Error("a customer whose letter waits was forgotten")
	}
}
