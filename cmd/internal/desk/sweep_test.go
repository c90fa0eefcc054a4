package desk

import (
	"bytes"
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"fairtape/ingest/mailbox"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply"
)

// The program is killed while it files a letter, and the mail server finishes
// filing it long after: when the letter has been replaced and was looked for.
func TestLetterIsFiledLate(t *testing.T) {
	server, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { server.Close() })
	w := newWorld(t)
	folders := func() *mailbox.Folders {
		f := mailbox.NewFolders(mailbox.Config{
			Account: account, Address: server.Addr, Security: mailbox.None,
			SignIn: mailbox.SignIn{User: mailboxtest.User, Password: func() (string, error) { return mailboxtest.Password, nil }},
		})
		t.Cleanup(func() { f.Close() })
		return f
	}
	w.says("one", survey(1))
	w.says("two", survey(1))
	came, resume := server.Stall("Drafts")
	t.Cleanup(resume)

	w.folders = folders()
	killed := w.desk()
	if err := killed.Receive(t.Context(), mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}.delivery()); err != nil {
		t.Fatal(err)
	}
	ctx, kill := context.WithCancel(t.Context())
	ended := make(chan error)
	go func() { ended <- killed.Work(ctx) }()
	<-came
	kill()
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}

	w.folders = folders()
	w.arrive(mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
	if n := lyingIn(t, server, "Drafts"); n != 1 {
		t.Fatalf("%d letters in Drafts before the first is filed; want the second alone", n)
	}
	resume()
	for end := time.Now().Add(10 * time.Second); lyingIn(t, server, "Drafts") != 2 && time.Now().Before(end); {
		time.Sleep(time.Millisecond)
	}
	d := w.desk()
	if err := d.LookAround(t.Context()); err != nil {
		t.Fatal(err)
	}
	w.work(d)
	list, err := w.folders.Drafts(t.Context())
	if err != nil || len(list) != 1 || list[0].Draft != "1-2" {
		t.Errorf("in Drafts lie %+v, %v; want letter 1-2 alone", list, err)
	}
}

func lyingIn(t *testing.T, server *mailboxtest.Server, name string) int {
	t.Helper()
	list, err := server.Messages(name)
	if err != nil {
		t.Fatal(err)
	}
	return len(list)
}

func TestSweep(t *testing.T) {
	// replaced is a world with letter 1-2 in Drafts, and 1-1 as it once lay there.
	replaced := func(t *testing.T) (*world, stored) {
		w := newWorld(t)
		w.says("one", survey(1))
		w.says("two", survey(1))
		w.arrive(mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"})
		old := w.drafts[0]
		w.arrive(mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
		if got := w.draftIDs(); len(got) != 1 || got[0] != "1-2" {
			t.Fatalf("in Drafts lie %v", got)
		}
		return w, old
	}
	put := func(w *world, letters ...stored) {
		for _, l := range letters {
			l.at = w.place("Drafts")
			w.drafts = append(w.drafts, l)
		}
	}
	look := func(w *world) []string {
		t.Helper()
		d := w.desk()
		for range 2 {
			if err := d.LookAround(t.Context()); err != nil {
				t.Fatal(err)
			}
			w.work(d)
		}
		return w.draftIDs()
	}
	want := func(t *testing.T, got []string, want ...string) {
		t.Helper()
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("in Drafts lie %v; want %v", got, want)
		}
	}
	t.Run("one that a person has changed", func(t *testing.T) {
		w, old := replaced(t)
		old.raw = append(slices.Clone(old.raw), "And bring the boat.\r\n"...)
		put(w, old)
		want(t, look(w), "1-1", "1-2")
	})
	t.Run("one that a person wrote from it", func(t *testing.T) {
		w, old := replaced(t)
		old.raw = bytes.Replace(old.raw, []byte("letter-1@"), []byte("mine@"), 1)
		put(w, old)
		want(t, look(w), "1-1", "1-2")
	})
	t.Run("one that a person puts back again and again", func(t *testing.T) {
		w, old := replaced(t)
		for range mostSweeps {
			put(w, old)
			want(t, look(w), "1-2")
		}
		put(w, old)
		want(t, look(w), "1-1", "1-2")
	})
	t.Run("one that a person threw away and fetched back", func(t *testing.T) {
		w, _ := replaced(t)
		thrown := w.drafts[0]
		w.drafts = nil
		d := w.desk()
		for range missedLooks {
			if err := d.LookAround(t.Context()); err != nil {
				t.Fatal(err)
			}
		}
		w.work(d)
		put(w, thrown)
		want(t, look(w), "1-2")
	})
	t.Run("one of a ledger that is not ours", func(t *testing.T) {
		w, old := replaced(t)
		old.raw = bytes.Replace(old.raw, []byte("X-Fairtape-Draft: 1-1"), []byte("X-Fairtape-Draft: 77-1"), 1)
		put(w, old)
		want(t, look(w), "1-2", "77-1")
	})
	t.Run("several at once", func(t *testing.T) {
		w, old := replaced(t)
		put(w, old, old)
		want(t, look(w), "1-2")
	})
	t.Run("a second copy of the one that waits", func(t *testing.T) {
		w, _ := replaced(t)
		put(w, w.drafts[0])
		want(t, look(w), "1-2")
		if w.draftState(reply.DraftID{Job: 1, Version: 2}) != "open" {
			t.Error("the letter waits no longer")
		}
	})
	t.Run("one that was sent", func(t *testing.T) {
		w, _ := replaced(t)
		late := w.drafts[0]
		w.decide("send", reply.DraftID{Job: 1, Version: 2}, "Ann")
		w.work(w.desk())
		put(w, late)
		want(t, look(w))
		if len(w.letters) != 1 {
			t.Errorf("%d letters went out", len(w.letters))
		}
	})
}
