package ledger

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"time"
)

// ErrNoBackup: the file is no ledger that Backup wrote.
var ErrNoBackup = errors.New("the file is no backup of a ledger")

// Backup writes the ledger as it is now to a new file, while it is in use. The
// copy knows that it is one, see TakeUp. An existing file is not written over.
func (l *Ledger) Backup(ctx context.Context, path string) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600) // SQLite fills an empty file
	if err != nil {
		return fmt.Errorf("back up the ledger: %w", err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("back up the ledger: %w", err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(fmt.Errorf("back up the ledger: %w", err), os.Remove(path))
		}
	}()
	if _, err := l.write.ExecContext(ctx, `VACUUM INTO ?`, path); err != nil {
		return err
	}
	copied, err := Open(ctx, path, l.now)
	if err != nil {
		return err
	}
	err = copied.Update(ctx, func(tx *Tx) error { return tx.SetMark("", backupMark, tx.now.Format(time.RFC3339)) })
	return errors.Join(err, copied.Settle(ctx), copied.Close())
}

// Restore puts a backup in the place of the ledger at path, which nobody may
// have open: claim it first. What was there is kept beside it, and its name
// returned; "" when nothing was there. The error is ErrNoBackup when the file is
// none.
func Restore(ctx context.Context, backup, path string, now time.Time) (kept string, err error) {
	if err := checkBackup(ctx, backup); err != nil {
		return "", err
	}
	part := path + ".restoring"
	if err := copyFile(backup, part); err != nil {
		return "", fmt.Errorf("restore the ledger: %w", err)
	}
	if _, err := os.Stat(path); err == nil {
		if kept, err = freeName(path + now.UTC().Format(".20060102-150405")); err != nil {
			return "", fmt.Errorf("restore the ledger: %w", err)
		}
		// The log goes with its ledger: beside another it would be taken for that one's.
		for _, end := range []string{"-wal", "-shm", ""} {
			if err := os.Rename(path+end, kept+end); err != nil && !errors.Is(err, os.ErrNotExist) {
				return "", fmt.Errorf("restore the ledger: %w", err)
			}
		}
	}
	if err := os.Rename(part, path); err != nil {
		return kept, fmt.Errorf("restore the ledger: %w", err)
	}
	return kept, nil
}

// freeName returns a name that no file bears, so that nothing that is kept is
// written over.
func freeName(name string) (string, error) {
	for n, free := 2, name; ; n++ {
		_, err := os.Lstat(free)
		if errors.Is(err, os.ErrNotExist) {
			return free, nil
		}
		if err != nil {
			return "", err
		}
		free = fmt.Sprintf("%s-%d", name, n)
	}
}

// checkBackup asks a file whether it is a whole backup. It is opened as a copy:
// a backup may lie where nothing can be written.
func checkBackup(ctx context.Context, backup string) (err error) {
	dir, err := os.MkdirTemp("", "fairtape-backup-")
	if err != nil {
		return fmt.Errorf("look at the backup: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	trial := dir + "/trial.db"
	if err := copyFile(backup, trial); err != nil {
		return fmt.Errorf("look at the backup: %w", err)
	}
	l, err := Open(ctx, trial, time.Now)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrNoBackup, err)
	}
	defer func() { err = errors.Join(err, l.Close()) }()
	if err := l.Whole(ctx); err != nil {
		return fmt.Errorf("%w: %w", ErrNoBackup, err)
	}
	return l.View(ctx, func(tx *Tx) error {
		at, err := tx.Mark("", backupMark)
		if err == nil && at == "" {
			return ErrNoBackup
		}
		return err
	})
}

func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close() //nolint:errcheck // only read
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	if _, err := io.Copy(out, in); err != nil {
		return err
	}
	return out.Sync()
}

// How far numbers leap when a backup is taken up, so that no new job, letter or
// post bears the number of one that was made after the backup and that only
// mailbox and chat know. A shop opens some hundred jobs a year.
const (
	leapJobs     = 1000
	leapVersions = 100
	leapActs     = 100_000 // posts are tagged with the numbers of acts
)

// TakeUp makes a ledger that was restored from a backup safe to serve, and
// returns the moment of the backup, zero when it is none. It knows nothing of
// what happened since, so: whatever was meant to be done may have been done,
// and is looked for before it is repeated; nothing that was to be sent is sent
// without a new decision; mailboxes are read anew, old mail left alone; new
// numbers are far from all that may be known outside.
func (t *Tx) TakeUp() (time.Time, error) {
	mark, err := t.Mark("", backupMark)
	if err != nil || mark == "" {
		return time.Time{}, err
	}
	of, err := time.Parse(time.RFC3339, mark)
	if err != nil {
		return time.Time{}, fmt.Errorf("the ledger is a backup of an unknown day: %w", err)
	}
	var last int
	if err := t.tx.QueryRowContext(t.ctx, `SELECT COALESCE(MAX(id), 0) FROM jobs`).Scan(&last); err != nil {
		return time.Time{}, err
	}
	version, err := t.number(firstVersionMark)
	return of, errors.Join(err,
		t.exec("restoring", `UPDATE intents SET state = 'unsure' WHERE state IN ('planned', 'trying')`),
		t.exec("restoring", `UPDATE decisions SET done = ?, outcome = 'not taken: the ledger was restored from a backup'
			WHERE done = 0 AND kind = ?`, millis(t.now), ChooseSend),
		t.exec("restoring", `UPDATE cursors SET uid_validity = 0, last_uid = 0`),
		t.SetMark("", firstJobMark, strconv.Itoa((last/leapJobs+1)*leapJobs+1)),
		t.SetMark("", firstVersionMark, strconv.Itoa((version/leapVersions+1)*leapVersions+1)),
		t.exec("restoring", `INSERT INTO intents (id, account, job, version, kind, words, state, tries, due, outcome, made, settled)
			SELECT COALESCE(MAX(id), 0) + ?, '', 0, 0, ?, '', 'dropped', 0, 0, 'numbers begin anew', ?, ? FROM intents`,
			leapActs, Say, millis(t.now), millis(t.now)),
		t.exec("restoring", `DELETE FROM marks WHERE account = '' AND name = ?`, backupMark))
}

// number returns what a mark counts, 1 when it was never set.
func (t *Tx) number(name Mark) (int, error) {
	value, err := t.Mark("", name)
	if err != nil || value == "" {
		return 1, err
	}
	return strconv.Atoi(value)
}
