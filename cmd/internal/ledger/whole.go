package ledger

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
)

// ErrDamaged: the file is no ledger, or not whole any more.
var ErrDamaged = errors.New("the ledger is damaged")

// What SQLite says of a file that is not what it was (sqlite.org/rescode.html).
const (
	codeCorrupt     = 11
	codeNotDatabase = 26
)

// damaged marks an error that says that the file is damaged.
func damaged(err error) error {
	var e *sqlite.Error
	if errors.As(err, &e) && (e.Code()&0xff == codeCorrupt || e.Code()&0xff == codeNotDatabase) {
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return err
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
