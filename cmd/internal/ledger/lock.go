package ledger

import (
	"fmt"
	"os"
)

// Claim makes this process the one that serves the ledger at path, until the
// returned function is called or the process ends, however it ends. The error
// is ErrInUse when another process holds it.
//
// The lock is on a file beside the ledger: closing any other descriptor of the
// ledger's own file would drop its locks.
func Claim(path string) (release func() error, err error) {
	f, err := os.OpenFile(path+".lock", os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, fmt.Errorf("claim ledger: %w", err)
	}
	if err := lock(f); err != nil {
		f.Close() //nolint:errcheck // nothing was written
		return nil, fmt.Errorf("claim ledger %s: %w", path, err)
	}
	return f.Close, nil
}
