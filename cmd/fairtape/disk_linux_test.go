package main

import (
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// A disk that takes nothing more costs no mail: the shop is told once, and when
// there is room again the mail that waited is worked off, and that is told.
func TestWatchDiskIsFull(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	put := func(name string) {
		t.Helper()
		if _, err := f.box.Append("INBOX", mailOf(t, name), time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	put("02-a-ten-dropped")
	cmd := f.watch("")
	f.await("the first mail is worked off", f.settled(1))
	var was unix.Rlimit
	if err := unix.Prlimit(cmd.Process.Pid, unix.RLIMIT_FSIZE, nil, &was); err != nil {
		t.Fatal(err)
	}
	full := unix.Rlimit{Cur: 1, Max: was.Max} // no file may be written beyond its first byte
	if err := unix.Prlimit(cmd.Process.Pid, unix.RLIMIT_FSIZE, &full, nil); err != nil {
		t.Fatal(err)
	}
	put("03-swapped-pair")
	f.await("the chat is told", func() bool { return f.told("The ledger cannot be written") > 0 })
	time.Sleep(time.Second) // some tries more
	if err := unix.Prlimit(cmd.Process.Pid, unix.RLIMIT_FSIZE, &was, nil); err != nil {
		t.Fatal(err)
	}
	f.await("the mail that waited is worked off", f.settled(2))
	f.await("the chat is told again", func() bool { return f.told("can be written again") > 0 })
	if n := f.told("The ledger cannot be written"); n != 1 || len(f.in("Drafts")) != 2 {
		t.Errorf("told %d times, %d letters in Drafts; want once, and 2", n, len(f.in("Drafts")))
	}
	f.end(cmd)
}
