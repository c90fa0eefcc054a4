package main

import (
	"fmt"
	"os"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// A disk that takes nothing more, or a machine without a descriptor left, costs
// no mail: the service lives on, and works off what waited when there is room
// again. Of the disk the shop is told, once, and told again.
func TestWatchWithoutRoom(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name         string
		resource     int
		most         func(pid int) (uint64, error)
		told, andNow string // "" for nothing
	}{
		{"disk", unix.RLIMIT_FSIZE, func(int) (uint64, error) { return 1, nil }, // no file may be written beyond its first byte
			"The ledger cannot be written", "can be written again"},
		{"descriptors", unix.RLIMIT_NOFILE, func(pid int) (uint64, error) {
			open, err := os.ReadDir(fmt.Sprintf("/proc/%d/fd", pid))
			return uint64(len(open)), err
		}, "", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
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
			if err := unix.Prlimit(cmd.Process.Pid, tt.resource, nil, &was); err != nil {
				t.Fatal(err)
			}
			most, err := tt.most(cmd.Process.Pid)
			if err != nil {
				t.Fatal(err)
			}
			if err := unix.Prlimit(cmd.Process.Pid, tt.resource, &unix.Rlimit{Cur: most, Max: was.Max}, nil); err != nil {
				t.Fatal(err)
			}
			put("01-clean-spreadsheet") // a child has to read it
			f.await("the chat is told", func() bool { return tt.told == "" || f.told(tt.told) > 0 })
			time.Sleep(time.Second) // some tries more
			if f.settled(2)() {
				t.Error("it was worked off without room")
			}
			if err := unix.Prlimit(cmd.Process.Pid, tt.resource, &was, nil); err != nil {
				t.Fatal(err)
			}
			f.await("the mail that waited is worked off", f.settled(2))
			f.await("the chat is told again", func() bool { return tt.andNow == "" || f.told(tt.andNow) > 0 })
			if n := len(f.in("Drafts")); n != 2 || tt.told != "" && f.told(tt.told) != 1 {
				t.Errorf("%d letters in Drafts, want 2; told %d times", n, f.told(tt.told))
			}
			f.end(cmd)
		})
	}
}
