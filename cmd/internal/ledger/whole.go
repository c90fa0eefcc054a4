package ledger

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"

	"modernc.org/sqlite"
)

// ErrDamaged: the file is no ledger, or not whole any more.
var ErrDamaged = errors.New("the ledger is damaged")

// What SQLite says of a file that is not what it was, or that it cannot write
// (sqlite.org/rescode.html).
const (
	codeReadOnly   = 8
	codeIO         = 10
	codeCorrupt    = 11
	codeFull       = 13
	codeNotOpened  = 14
	codeNoDatabase = 26
)

// unopened says why a ledger cannot be opened: of a file that belongs to somebody
// else SQLite says only that it cannot.
func unopened(path string, err error) error {
	if isOneOf(err, codeReadOnly, codeNotOpened) {
		f, why := os.OpenFile(path, os.O_RDWR, 0)
		if why != nil {
			return why
		}
		err = errors.Join(err, f.Close())
	}
	return fmt.Errorf("%s: %w", path, damaged(err))
}

// damaged marks an error that says that the file is damaged.
func damaged(err error) error {
	if isOneOf(err, codeCorrupt, codeNoDatabase) {
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return err
}

// Unwritable reports that an error of a change is the disk's: nothing can be
// recorded before somebody has seen to it.
func Unwritable(err error) bool {
	return isOneOf(err, codeReadOnly, codeIO, codeCorrupt, codeFull, codeNotOpened)
}

func isOneOf(err error, codes ...int) bool {
	var e *sqlite.Error
	return errors.As(err, &e) && slices.Contains(codes, e.Code()&0xff)
}

// Whole reads the ledger to its end, which for a shop takes a fraction of a
// second. The error is ErrDamaged when a part of it cannot be read.
func (l *Ledger) Whole(ctx context.Context) error {
	var said string
	if err := l.read.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&said); err != nil {
		return fmt.Errorf("read ledger %s: %w", l.path, damaged(err))
	}
	if said != "ok" {
		return fmt.Errorf("read ledger %s: %w: %s", l.path, ErrDamaged, said)
	}
	return nil
}
