// Package ledger keeps what the service knows and means to do, in one SQLite
// file: the messages that came and where each ended, jobs with every version
// of their survey and letter, what people decided, and every act outside with
// its outcome. An intention is recorded before the act, so that a service
// killed at any moment knows at its next start what it may have done.
//
// Every key holds the account, the mailbox's owner: one ledger serves several.
package ledger

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"
)

// Errors that a caller can tell apart.
var (
	// ErrInUse: another copy of the service holds the ledger.
	ErrInUse = errors.New("another copy of fairtape serves this ledger")
	// ErrNewer: the file was written by a later version of the program.
	ErrNewer = errors.New("the ledger was written by a newer fairtape; use that one")
	// ErrNone: there is no such record.
	ErrNone = errors.New("not on the ledger")
)

//go:embed migrations/*.sql
var migrations embed.FS

// readers is the size of the read pool; reads are short and few.
const readers = 4

// Ledger is an open ledger. It is safe for several goroutines; changes are made
// one after the other.
type Ledger struct {
	path  string
	write *sql.DB // one connection: SQLite has one writer
	read  *sql.DB
	now   func() time.Time
}

// Open opens the ledger at path, makes it when it is not there, and brings an
// older one up to date. Several processes may have one ledger open; only one
// may serve it, see Claim. The error is ErrNewer when the file is too new, and
// ErrDamaged when it is no ledger; see Whole for what lies deeper.
func Open(ctx context.Context, path string, now func() time.Time) (*Ledger, error) {
	if err := begin(path); err != nil {
		return nil, fmt.Errorf("open ledger: %w", err)
	}
	write, err := sql.Open("sqlite", dsn(path, ""))
	if err != nil {
		return nil, fmt.Errorf("open ledger: %w", err)
	}
	write.SetMaxOpenConns(1)
	if err := migrate(ctx, write); err != nil {
		return nil, errors.Join(fmt.Errorf("open ledger: %w", unopened(path, err)), write.Close())
	}
	read, err := sql.Open("sqlite", dsn(path, "&mode=ro"))
	if err != nil {
		return nil, errors.Join(fmt.Errorf("open ledger: %w", err), write.Close())
	}
	read.SetMaxOpenConns(readers)
	return &Ledger{path: path, write: write, read: read, now: now}, nil
}

// begin makes an empty file where there is none, for its owner alone: SQLite,
// which fills it, would let others of the machine read what customers write.
func begin(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return f.Close()
}

// dsn makes transactions immediate, so that two writers wait for each other
// instead of failing, and commits durable: an act outside follows a commit.
// What is deleted is overwritten, so that a customer who is forgotten is gone.
func dsn(path, more string) string {
	u := url.URL{Scheme: "file", Opaque: (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath()}
	return u.String() + "?_txlock=immediate&_busy_timeout=5000&_journal_mode=WAL&_synchronous=FULL&_foreign_keys=on&_defensive=1&_pragma=secure_delete(on)" + more
}

// Close closes the ledger.
func (l *Ledger) Close() error {
	return errors.Join(l.read.Close(), l.write.Close())
}

// Tx is a transaction. Its methods fail together or take effect together.
type Tx struct {
	tx  *sql.Tx
	ctx context.Context
	now time.Time // one moment for everything in the transaction
}

// Now returns the moment that the transaction's records carry.
func (t *Tx) Now() time.Time { return t.now }

// Update runs change in a transaction that is durable once Update returns nil.
func (l *Ledger) Update(ctx context.Context, change func(*Tx) error) error {
	return l.run(ctx, l.write, nil, change)
}

// View runs look in a transaction that sees one state of the ledger.
func (l *Ledger) View(ctx context.Context, look func(*Tx) error) error {
	return l.run(ctx, l.read, &sql.TxOptions{ReadOnly: true}, look)
}

func (l *Ledger) run(ctx context.Context, db *sql.DB, opts *sql.TxOptions, do func(*Tx) error) error {
	tx, err := db.BeginTx(ctx, opts)
	if err != nil {
		return fmt.Errorf("begin on the ledger: %w", err)
	}
	if err := do(&Tx{tx: tx, ctx: ctx, now: l.now().Truncate(time.Millisecond)}); err != nil {
		return errors.Join(err, ignoreDone(tx.Rollback()))
	}
	if err := tx.Commit(); err != nil {
		return fmt.Errorf("commit on the ledger: %w", err)
	}
	return nil
}

// ignoreDone drops the error of rolling back what the driver rolled back
// already, as it does when a context ends.
func ignoreDone(err error) error {
	if errors.Is(err, sql.ErrTxDone) {
		return nil
	}
	return err
}

// migrate brings the schema up to date, each step in a transaction of its own.
// The number of a file is the user_version that it leads to.
func migrate(ctx context.Context, db *sql.DB) error {
	files, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return err
	}
	var version int
	if err := db.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return fmt.Errorf("read schema version: %w", err)
	}
	if version > len(files) {
		return ErrNewer
	}
	for n := version; n < len(files); n++ {
		text, err := migrations.ReadFile(files[n])
		if err != nil {
			return err
		}
		if err := step(ctx, db, n, string(text)); err != nil {
			return fmt.Errorf("bring schema to version %d: %w", n+1, err)
		}
	}
	return nil
}

// step makes one migration, unless another process did so meanwhile.
func step(ctx context.Context, db *sql.DB, from int, text string) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // after Commit there is nothing to roll back
	var version int
	if err := tx.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version != from {
		return nil
	}
	if _, err := tx.ExecContext(ctx, text); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", from+1)); err != nil {
		return err
	}
	return tx.Commit()
}

// millis and moment carry times as whole milliseconds since 1970; 0 is no time.
func millis(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

func moment(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}
