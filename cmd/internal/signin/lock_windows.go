package signin

import (
	"os"

	"golang.org/x/sys/windows"
)

// lockFile waits until no other holds the file.
func lockFile(path string) (unlock func(), err error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	if err := windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK, 0, 1, 0, new(windows.Overlapped)); err != nil {
		f.Close() //nolint:errcheck // nothing was written
		return nil, err
	}
	return func() { f.Close() }, nil
}
