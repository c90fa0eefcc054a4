package ledger

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A ledger that can be opened, and of which a page was spoilt, is said to be
// damaged before anything is done with it; a backup like it is not restored.
func TestWhole(t *testing.T) {
	l := open(t)
	update(t, l, func(tx *Tx) error {
		for n := range 300 {
			if _, err := tx.AddJob(Job{Account: account, State: WaitingUs, Customer: fmt.Sprintf("ann%d@tarn.example", n)}); err != nil {
				return err
			}
		}
		return nil
	})
	if err := l.Whole(t.Context()); err != nil {
		t.Fatalf("as it is: %v", err)
	}
	backup := filepath.Join(t.TempDir(), "backup.db")
	if err := l.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(backup)
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096 // of SQLite, when nobody says otherwise
	missed := 0
	for at := page; at < len(data); at += page {
		spoilt := append([]byte(nil), data...)
		for n := range 100 { // the head of a page says what lies where in it
			spoilt[at+n] ^= 0xff
		}
		path := filepath.Join(t.TempDir(), "fairtape.db")
		if err := os.WriteFile(path, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		damaged, err := Open(t.Context(), path, noon)
		if err == nil {
			err = errors.Join(damaged.Whole(t.Context()), damaged.Close())
		}
		if err == nil {
			missed++
		} else if !errors.Is(err, ErrDamaged) {
			t.Errorf("page %d: %v, want ErrDamaged", at/page, err)
		}
		if _, err := Restore(t.Context(), path, filepath.Join(t.TempDir(), "other.db"), noon()); err == nil || !errors.Is(err, ErrNoBackup) {
			t.Errorf("page %d: restored, %v", at/page, err)
		}
	}
	if missed > 0 {
		t.Errorf("%d of %d pages can be spoilt unseen", missed, len(data)/page-1)
	}
}

// What customers write is for the owner of the ledger alone.
func TestLedgerIsForItsOwner(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fairtape.db")
	l, err := Open(t.Context(), path, noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() }) //nolint:errcheck // the test is over
	update(t, l, func(tx *Tx) error { _, err := tx.AddJob(Job{Account: account, State: WaitingUs}); return err })
	for _, end := range []string{"", "-wal", "-shm"} {
		info, err := os.Stat(path + end)
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v; want 0600", path+end, info, err)
		}
	}
}

// Why a ledger cannot be opened is said in the words of the file system.
func TestOpenSaysWhy(t *testing.T) {
	folder := t.TempDir()
	if _, err := Open(t.Context(), folder, noon); err == nil || !strings.Contains(err.Error(), folder+": is a directory") {
		t.Errorf("a folder: %v", err)
	}
	if _, err := Open(t.Context(), filepath.Join(folder, "nowhere", "fairtape.db"), noon); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("in a folder that is not there: %v", err)
	}
	others := filepath.Join(folder, "others.db")
	if err := os.WriteFile(others, nil, 0o400); err != nil {
		t.Fatal(err)
	}
	if f, err := os.OpenFile(others, os.O_RDWR, 0); err == nil {
		f.Close() //nolint:errcheck // whoever may write everything cannot be refused
		t.Skip("this user may write every file")
	}
	if _, err := Open(t.Context(), others, noon); !errors.Is(err, os.ErrPermission) {
		t.Errorf("a file that may not be written: %v", err)
	}
}
