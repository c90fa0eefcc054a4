package ledger

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"fairtape/ingest"
	"fairtape/reply"
)

func TestBackupAndRestore(t *testing.T) {
	l := open(t)
	update(t, l, func(tx *Tx) error {
		j, err := tx.AddJob(Job{Account: account, State: WaitingUs})
		return errors.Join(err,
			tx.SetCursor(ingest.Cursor{Account: account, Mailbox: "INBOX", UIDValidity: 7, LastUID: 70}),
			tx.Plan(Intent{Account: account, Draft: reply.DraftID{Job: j.ID, Version: 1}, Act: Send}),
			tx.Decide(Decision{Account: account, Draft: reply.DraftID{Job: j.ID, Version: 1}, Choice: ChooseSend}),
			tx.Decide(Decision{Account: account, Draft: reply.DraftID{Job: j.ID}, Choice: ChooseNote}))
	})
	dir := t.TempDir()
	backup := filepath.Join(dir, "backup.db")
	if err := l.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	if err := l.Backup(t.Context(), backup); !errors.Is(err, os.ErrExist) {
		t.Errorf("an existing backup is written over: %v", err)
	}
	info, err := os.Stat(backup)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the backup has mode %v, %v", info.Mode(), err)
	}
	update(t, l, func(tx *Tx) error {
		if of, err := tx.TakeUp(); err != nil || !of.IsZero() {
			t.Errorf("the ledger itself is taken for a backup of %v, %v", of, err)
		}
		_, err := tx.AddJob(Job{Account: account, State: WaitingUs})
		return err
	})

	path := filepath.Join(dir, "fairtape.db")
	if err := os.WriteFile(path, []byte("damaged"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(t.Context(), path, path, noon()); !errors.Is(err, ErrNoBackup) {
		t.Errorf("what is no ledger is restored: %v", err)
	}
	kept, err := Restore(t.Context(), backup, path, noon())
	if err != nil {
		t.Fatal(err)
	}
	if was, err := os.ReadFile(kept); err != nil || string(was) != "damaged" {
		t.Errorf("what was there is not kept: %q, %v", was, err)
	}
	keptToo, err := Restore(t.Context(), backup, path, noon()) // within the same second
	if err != nil || keptToo == kept {
		t.Errorf("restored once more, what was there is kept as %s, which is taken; %v", keptToo, err)
	}
	if was, err := os.ReadFile(kept); err != nil || string(was) != "damaged" {
		t.Errorf("what was kept is written over: %q, %v", was, err)
	}
	restored, err := Open(t.Context(), path, noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { restored.Close() }) //nolint:errcheck // the test is over
	update(t, restored, func(tx *Tx) error {
		of, err := tx.TakeUp()
		if err != nil || !of.Equal(noon()) {
			t.Errorf("a backup of %v, %v; want of %v", of, err, noon())
		}
		if again, err := tx.TakeUp(); err != nil || !again.IsZero() {
			t.Errorf("it is taken up twice: %v, %v", again, err)
		}
		waiting, err1 := tx.Waiting(account)
		if err := tx.Plan(Intent{Account: account, Act: Say}); err != nil {
			return err
		}
		if all, err := tx.Waiting(account); err != nil || len(all) != 2 || all[1].ID <= leapActs {
			t.Errorf("the next act bears a number that may be known: %+v, %v", all, err)
		}
		if len(waiting) != 1 || !waiting[0].Unsure {
			t.Errorf("what was to be sent is planned as before: %+v", waiting)
		}
		decisions, err2 := tx.Decisions(account)
		if len(decisions) != 1 || decisions[0].Choice != ChooseNote {
			t.Errorf("decisions that count still: %+v", decisions)
		}
		cursor, err3 := tx.Cursor(account, "INBOX")
		if cursor.UIDValidity != 0 {
			t.Errorf("the mailbox is not read anew: %+v", cursor)
		}
		old, err4 := tx.NextDraft(account, 1)
		j, err5 := tx.AddJob(Job{Account: account, State: WaitingUs})
		next, err6 := tx.NextDraft(account, j.ID)
		if old.String() != "1-101" || j.ID != 1001 || next.String() != "1001-1" {
			t.Errorf("the next letters are %s and %s, the next job is %d", old, next, j.ID)
		}
		return errors.Join(err1, err2, err3, err4, err5, err6)
	})

	// A backup of what was restored leaps once more.
	second := filepath.Join(dir, "second.db")
	if err := restored.Backup(t.Context(), second); err != nil {
		t.Fatal(err)
	}
	again, err := Open(t.Context(), second, noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { again.Close() }) //nolint:errcheck // the test is over
	update(t, again, func(tx *Tx) error {
		_, err := tx.TakeUp()
		old, err1 := tx.NextDraft(account, 1)
		j, err2 := tx.AddJob(Job{Account: account, State: WaitingUs})
		if old.String() != "1-201" || j.ID != 2001 {
			t.Errorf("after the second backup: letter %s, job %d", old, j.ID)
		}
		return errors.Join(err, err1, err2)
	})
}
