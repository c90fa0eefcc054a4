package ledger

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/validate"
)

const account = "orders@mail.example"

func noon() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

func open(t *testing.T) *Ledger {
	t.Helper()
	l, err := Open(t.Context(), filepath.Join(t.TempDir(), "a b?.db"), noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	})
	return l
}

func update(t *testing.T, l *Ledger, change func(*Tx) error) {
	t.Helper()
	if err := l.Update(t.Context(), change); err != nil {
		t.Fatal(err)
	}
}

func TestOpenRefusesNewer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fairtape.db")
	l, err := Open(t.Context(), path, noon)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.write.Exec("PRAGMA user_version = 999"); err != nil {
		t.Fatal(err)
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), path, noon); !errors.Is(err, ErrNewer) {
		t.Errorf("got %v, want ErrNewer", err)
	}
}

func TestOpenRefusesDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fairtape.db")
	if err := os.WriteFile(path, []byte("this is no database, and long enough to be looked at"), 0o600); err != nil {
		t.Fatal(err)
	}
	if l, err := Open(t.Context(), path, noon); err == nil {
		t.Error(errors.Join(errors.New("a damaged file was taken"), l.Close()))
	}
}

// The settings that durability and waiting hang on are in force on every
// connection, also of the read pool.
func TestPragmas(t *testing.T) {
	l := open(t)
	want := map[string]string{"journal_mode": "wal", "synchronous": "2", "busy_timeout": "5000", "foreign_keys": "1"}
	for name, value := range want {
		var got string
		if err := l.write.QueryRow("PRAGMA " + name).Scan(&got); err != nil || got != value {
			t.Errorf("%s = %q, %v; want %q", name, got, err, value)
		}
	}
	if err := l.View(t.Context(), func(tx *Tx) error { return tx.SetCursor(ingest.Cursor{}) }); err == nil {
		t.Error("a view wrote")
	}
}

func TestUpdateTakesBackEverything(t *testing.T) {
	l := open(t)
	broken := errors.New("broken")
	err := l.Update(t.Context(), func(tx *Tx) error {
		if _, err := tx.AddJob(Job{Account: account, State: WaitingUs}); err != nil {
			return err
		}
		return broken
	})
	if !errors.Is(err, broken) {
		t.Fatalf("got %v", err)
	}
	update(t, l, func(tx *Tx) error {
		jobs, err := tx.Jobs(account)
		if len(jobs) != 0 {
			t.Errorf("a job is left: %+v", jobs)
		}
		return err
	})
}

func TestMessageEndsOnce(t *testing.T) {
	l := open(t)
	at := ingest.Location{Account: account, Mailbox: "INBOX", UIDValidity: 7, UID: 12}
	m := Message{At: at, MailID: "a@b.example", Hash: "00ff", From: ingest.Address{Name: "Ann", Address: "ann@b.example"},
		Subject: "my boat", Received: noon(), Size: 99}
	update(t, l, func(tx *Tx) error {
		if _, err := tx.MessageAt(at); !errors.Is(err, ErrNone) {
			t.Errorf("got %v, want ErrNone", err)
		}
		id, err := tx.AddMessage(m)
		m.ID, m.End = id, New
		return err
	})
	update(t, l, func(tx *Tx) error {
		got, err := tx.MessageAt(at)
		if !reflect.DeepEqual(got, m) {
			t.Errorf("got  %+v\nwant %+v", got, m)
		}
		if _, err := tx.AddMessage(m); err == nil {
			t.Error("one place held two messages")
		}
		return err
	})
	update(t, l, func(tx *Tx) error { return tx.EndMessage(m.ID, Ignored, "out of office", 0) })
	if err := l.Update(t.Context(), func(tx *Tx) error { return tx.EndMessage(m.ID, Answered, "", 1) }); err == nil {
		t.Error("an ignored message was answered")
	}
}

func TestTwins(t *testing.T) {
	l := open(t)
	at := func(uid uint32) ingest.Location {
		return ingest.Location{Account: account, Mailbox: "INBOX", UIDValidity: 1, UID: uid}
	}
	rows := []Message{
		{At: at(1), MailID: "one@x.example", Hash: "1"},
		{At: at(2), MailID: "one@x.example", Hash: "2"},   // same id, other text
		{At: at(3), MailID: "other@x.example", Hash: "1"}, // "yes", said twice
		{At: at(4), MailID: "", Hash: ""},
		{At: at(5), MailID: "", Hash: ""},
		{At: at(6), MailID: "", Hash: "1"},
		{At: at(7), MailID: "", Hash: "1"},
	}
	update(t, l, func(tx *Tx) error {
		for i := range rows {
			id, err := tx.AddMessage(rows[i])
			if err != nil {
				return err
			}
			rows[i].ID = id
		}
		for i, want := range []int{1, 1, 0, 0, 0, 1, 1} {
			twins, err := tx.Twins(rows[i])
			if err != nil {
				return err
			}
			if len(twins) != want {
				t.Errorf("message %d has %d twins, want %d", i+1, len(twins), want)
			}
		}
		return nil
	})
}

func TestOneOpenDraft(t *testing.T) {
	l := open(t)
	draft := func(version int) Draft {
		return Draft{Account: account, ID: reply.DraftID{Job: 1, Version: version}, MailID: string(rune('a'+version)) + "@x.example",
			Letter: "Dear Ann", MIME: []byte("raw")}
	}
	update(t, l, func(tx *Tx) error {
		if _, err := tx.AddJob(Job{Account: account, State: WaitingUs}); err != nil {
			return err
		}
		return tx.AddDraft(draft(1))
	})
	if err := l.Update(t.Context(), func(tx *Tx) error { return tx.AddDraft(draft(2)) }); err == nil {
		t.Error("a job has two open drafts")
	}
	update(t, l, func(tx *Tx) error {
		if err := tx.SetDraft(account, reply.DraftID{Job: 1, Version: 1}, DraftReplaced, "job 1"); err != nil {
			return err
		}
		next, err := tx.NextDraft(account, 1)
		if next.Version != 2 {
			t.Errorf("next is %v, want 1-2", next)
		}
		return errors.Join(err, tx.AddDraft(draft(2)))
	})
	update(t, l, func(tx *Tx) error {
		got, err := tx.OpenDraft(account, 1)
		if got.ID.String() != "1-2" || string(got.MIME) != "raw" {
			t.Errorf("got %+v", got)
		}
		job, err2 := tx.JobOfMails(account, []string{"", "nobody@x.example", draft(1).MailID})
		if job.ID != 1 {
			t.Errorf("an answer to a replaced letter leads to job %d", job.ID)
		}
		return errors.Join(err, err2)
	})
}

func TestSurveysKeepHistory(t *testing.T) {
	l := open(t)
	first := parse.Survey{Unit: parse.Inch, Stern: parse.Pointed, LengthOverall: parse.Reading{Value: parse.Inches(189), Known: true, Confidence: 1,
		Source: parse.Source{File: "a.csv", Place: "line 2", Raw: `15'9"`}}}
	second := first
	second.BowHeight = parse.Reading{Value: parse.Inches(18.5), Known: true, Confidence: 1}
	update(t, l, func(tx *Tx) error {
		if _, err := tx.AddJob(Job{Account: account, State: WaitingUs}); err != nil {
			return err
		}
		return errors.Join(
			tx.AddSurvey(account, 1, Version{Cause: "message 1", Survey: first, Verdict: validate.Incomplete}),
			tx.AddSurvey(account, 1, Version{Cause: "message 2", Survey: second, Verdict: validate.Clean}))
	})
	update(t, l, func(tx *Tx) error {
		all, err := tx.Surveys(account, 1)
		if len(all) != 2 || !reflect.DeepEqual(all[0].Survey, first) || !reflect.DeepEqual(all[1].Survey, second) {
			t.Errorf("got %+v", all)
		}
		return err
	})
}

func TestIntents(t *testing.T) {
	l := open(t)
	waiting := func() (all []Intent) {
		update(t, l, func(tx *Tx) (err error) { all, err = tx.Waiting(account); return err })
		return all
	}
	update(t, l, func(tx *Tx) error {
		return tx.Plan(Intent{Account: account, Draft: reply.DraftID{Job: 1, Version: 1}, Act: FileDraft})
	})
	if w := waiting(); len(w) != 1 || w[0].Unsure {
		t.Fatalf("planned: %+v", w)
	}
	// said reports what is said of an act: planned, and waiting.
	said := func(version int, act Act) (said [2]bool) {
		update(t, l, func(tx *Tx) (err error) {
			id := reply.DraftID{Job: 1, Version: version}
			said[0], err = tx.Planned(account, id, act)
			if err == nil {
				said[1], err = tx.Waits(account, id, act)
			}
			return err
		})
		return said
	}
	if said(2, FileDraft) != [2]bool{} || said(1, DropDraft) != [2]bool{} || said(1, FileDraft) != [2]bool{true, true} {
		t.Error("an act that is planned is not told from others")
	}
	id := waiting()[0].ID
	update(t, l, func(tx *Tx) error { _, err := tx.Begin(id); return err })
	if w := waiting(); len(w) != 1 || !w[0].Unsure || w[0].Tries != 1 {
		t.Fatalf("begun and cut off: %+v", w)
	}
	if said(1, FileDraft) != [2]bool{false, true} {
		t.Error("an act that was begun does not wait, or is planned")
	}
	update(t, l, func(tx *Tx) error { return tx.Again(id, false, noon().Add(time.Minute), "no answer") })
	if w := waiting(); len(w) != 1 || w[0].Unsure || !w[0].Due.Equal(noon().Add(time.Minute)) {
		t.Fatalf("to be tried again: %+v", w)
	}
	update(t, l, func(tx *Tx) error { return tx.Done(id, "") })
	if w := waiting(); len(w) != 0 {
		t.Fatalf("done: %+v", w)
	}
	if said(1, FileDraft) != [2]bool{} {
		t.Error("an act that is done waits")
	}
	update(t, l, func(tx *Tx) error {
		if begun, err := tx.Begin(id); err != nil || begun {
			t.Errorf("what is done is begun again: %v, %v", begun, err)
		}
		_, err := tx.Begin(id + 1)
		return err
	})
}

// Two processes on one ledger: the second is told so, also when the first is
// ended the hard way afterwards.
func TestClaim(t *testing.T) {
	if path := os.Getenv("FAIRTAPE_TEST_CLAIM"); path != "" {
		if _, err := Claim(path); err != nil {
			os.Exit(3)
		}
		os.Stdout.WriteString("held\n") //nolint:errcheck // the parent sees that nothing came
		select {}
	}
	path := filepath.Join(t.TempDir(), "fairtape.db")
	other := exec.Command(os.Args[0], "-test.run=^TestClaim$")
	other.Env = append(os.Environ(), "FAIRTAPE_TEST_CLAIM="+path)
	out, err := other.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := other.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := out.Read(make([]byte, 5)); err != nil {
		t.Fatal(err)
	}
	if _, err := Claim(path); !errors.Is(err, ErrInUse) {
		t.Errorf("got %v, want ErrInUse", err)
	}
	if err := other.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	other.Wait() //nolint:errcheck // it was killed
	release, err := Claim(path)
	if err != nil {
		t.Fatalf("after the other was killed: %v", err)
	}
	if err := release(); err != nil {
		t.Error(err)
	}
}

// Two writers wait for each other instead of failing.
func TestTwoWriters(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fairtape.db")
	const each = 20
	errs := make(chan error)
	for range 2 {
		go func() { errs <- addJobs(t.Context(), path, each) }()
	}
	if err := errors.Join(<-errs, <-errs); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", dsn(path, ""))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close() //nolint:errcheck // only read
	var n, last int
	if err := db.QueryRow("SELECT COUNT(*), MAX(id) FROM jobs").Scan(&n, &last); err != nil || n != 2*each || last != n {
		t.Errorf("%d jobs, the last %d, %v; want %d", n, last, err, 2*each)
	}
}

func addJobs(ctx context.Context, path string, n int) error {
	l, err := Open(ctx, path, noon)
	if err != nil {
		return err
	}
	for range n {
		err = errors.Join(err, l.Update(ctx, func(tx *Tx) error {
			_, err := tx.AddJob(Job{Account: account, State: WaitingUs})
			return err
		}))
	}
	return errors.Join(err, l.Close())
}
