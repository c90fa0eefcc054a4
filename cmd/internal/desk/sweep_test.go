package desk

import (
	"bytes"
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply"
)

// The program is killed again and again while it files a letter, and the mail
// server finishes each filing long after: when the letter has been replaced and
// was looked for.
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
	w.folders = folders()
	if err := w.desk().Receive(t.Context(), mail{uid: 1, from: ann, subject: "one", id: "1@tarn.example"}.delivery()); err != nil {
		t.Fatal(err)
	}
	const kills = 4
	var late []func()
	for range kills {
		came, resume := server.Stall("Drafts")
		t.Cleanup(resume)
		late = append(late, resume)
		w.folders = folders()
		ctx, kill := context.WithCancel(t.Context())
		ended := make(chan error)
		go func() { ended <- w.desk().Work(ctx) }()
		<-came
		kill()
		if err := <-ended; !errors.Is(err, context.Canceled) {
			t.Fatal(err)
		}
	}

	w.folders = folders()
	w.arrive(mail{uid: 2, from: ann, subject: "two", id: "2@tarn.example", answers: "1@tarn.example"})
	if n := lyingIn(t, server, "Drafts"); n != 1 {
		t.Fatalf("%d letters in Drafts before the first is filed; want the second alone", n)
	}
	for n, resume := range late {
		resume()
		for end := time.Now().Add(10 * time.Second); lyingIn(t, server, "Drafts") != 2 && time.Now().Before(end); {
			time.Sleep(time.Millisecond)
		}
		if err := w.desk().LookAround(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.work(w.desk())
		list, err := w.folders.Drafts(t.Context())
		if err != nil || len(list) != 1 || list[0].Draft != "1-2" {
			t.Fatalf("filed late %d times: in Drafts lie %+v, %v; want letter 1-2 alone", n+1, list, err)
		}
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
	t.Run("one that comes again and again", func(t *testing.T) {
		w, old := replaced(t)
		for range 5 {
			put(w, old)
			want(t, look(w), "1-2")
		}
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
		put(w, w.drafts[0], w.drafts[0])
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
	t.Run("one on a server that only marks it as deleted", func(t *testing.T) {
		w, old := replaced(t)
		put(w, old, old)
		server := &marking{world: w, marked: map[ingest.Location]int{}}
		w.folders = server
		want(t, look(w), "1-1", "1-1", "1-2")
		if len(server.marked) != 2 {
			t.Errorf("%d letters are marked as deleted; want 2", len(server.marked))
		}
		for at, times := range server.marked {
			if times != 1 {
				t.Errorf("letter %d is marked %d times", at.UID, times)
			}
		}
	})
	t.Run("one that the server does not take out", func(t *testing.T) {
		w, old := replaced(t)
		put(w, old)
		w.folders = keeping{w}
		w.sent = append(w.sent, w.drafts[0])
		if err := w.desk().LookAround(t.Context()); !errors.Is(err, errKeeps) {
			t.Errorf("the look ends with %v", err)
		}
		if state := w.draftState(reply.DraftID{Job: 1, Version: 2}); state != ledger.DraftSent {
			t.Errorf("a letter that was sent from the mail program is %s", state)
		}
	})
}

// marking is a mail server without UIDPLUS: what is deleted stays, marked so.
type marking struct {
	*world
	marked map[ingest.Location]int
}

func (m *marking) DeleteDraft(_ context.Context, at ingest.Location) error {
	m.marked[at]++
	return nil
}

func (m *marking) Drafts(ctx context.Context) ([]mailbox.Filed, error) {
	list, err := m.world.Drafts(ctx)
	for i := range list {
		if m.marked[list[i].Location] > 0 {
			list[i].Flags = []string{`\Deleted`}
		}
	}
	return list, err
}

// keeping is a mail server that lets nobody delete anything.
type keeping struct{ *world }

var errKeeps = errors.New("this mailbox is read-only")

func (keeping) DeleteDraft(context.Context, ingest.Location) error { return errKeeps }
