//go:build unix

package signin

import (
	"os"

	"golang.org/x/sys/unix"
)

// lockFile waits until no other holds the file.
func lockFile(path string) (unlock func(), err error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	for {
		err = unix.Flock(int(f.Fd()), unix.LOCK_EX)
		if err != unix.EINTR {
			break
		}
	}
	if err != nil {
		f.Close() //nolint:errcheck // nothing was written
		return nil, err
	}
	return func() { f.Close() }, nil
}
