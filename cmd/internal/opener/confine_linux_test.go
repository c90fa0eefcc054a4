package opener

import (
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// proberName makes this test binary a child that tries what a child must not.
const proberName = "fairtape-prober"

func probing() (status int, ok bool) {
	if len(os.Args) != 3 || os.Args[0] != proberName {
		return 0, false
	}
	return probe(os.Args[1], os.Args[2]), true
}

func probe(what, cache string) int {
	if err := confine(cache); err != nil {
		fmt.Println("confine:", err)
		return 1
	}
	go watchMemory()
	var err error
	switch what {
	case "run a program":
		err = exec.Command("/bin/true").Run()
	case "open the network":
		_, err = net.Dial("tcp", "127.0.0.1:1")
		if err != nil && !strings.Contains(err.Error(), "not permitted") && !strings.Contains(err.Error(), "denied") {
			err = nil // refused by the other side is not refused by us
		}
	case "read a file":
		_, err = os.ReadFile("/etc/hostname")
	case "write a file":
		err = os.WriteFile(filepath.Join(os.TempDir(), "fairtape-probe"), []byte("x"), 0o600)
	case "use the cache":
		err = os.WriteFile(filepath.Join(cache, "compiled"), []byte("x"), 0o600)
	case "grow":
		var held [][]byte
		for range 4096 {
			b := make([]byte, 1<<20)
			for i := 0; i < len(b); i += 4096 {
				b[i] = 1
			}
			held = append(held, b)
		}
		runtime.KeepAlive(held)
	}
	if err != nil {
		fmt.Println(err)
		return 3
	}
	return 0
}

// TestConfined holds that a child cannot do what no reader needs. Paths are
// only tested where the kernel has Landlock and the binary no C.
func TestConfined(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	paths := landlocked()
	tests := []struct {
		what   string
		status int
		run    bool
	}{
		{"run a program", 3, true},
		{"open the network", 3, true},
		{"grow", exitMemory, true},
		{"read a file", 3, paths},
		{"write a file", 3, paths},
		{"use the cache", 0, true},
	}
	for _, test := range tests {
		t.Run(test.what, func(t *testing.T) {
			if !test.run {
				t.Skip("no Landlock here")
			}
			cmd := exec.Command(self)
			cmd.Args = []string{proberName, test.what, t.TempDir()}
			cmd.Env = []string{}
			out, _ := cmd.CombinedOutput()
			got := cmd.ProcessState.ExitCode()
			// A child that outgrows its watchdog is ended for want of memory, by the
			// runtime or, under the race detector, by that.
			killed := test.what == "grow" && (got == 2 && strings.Contains(string(out), "memory") ||
				got == 66 && strings.Contains(string(out), "failed to allocate"))
			if got != test.status && !killed {
				t.Errorf("status %d, want %d: %.300s", got, test.status, out)
			}
		})
	}
}

// With no descriptors left no child can be started; once there are some again
// the same opener opens the same file.
func TestNoDescriptorsLeft(t *testing.T) {
	o := newOpener(t)
	if _, err := o.Open(t.Context(), "x.png", pngHeader(1, 1)); err != nil {
		t.Fatal(err) // it works, and the runtime has opened what it needs
	}
	var was unix.Rlimit
	if err := unix.Getrlimit(unix.RLIMIT_NOFILE, &was); err != nil {
		t.Fatal(err)
	}
	open, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		t.Fatal(err)
	}
	few := was
	few.Cur = uint64(len(open)) + 1 // a pipe takes two
	if err := unix.Setrlimit(unix.RLIMIT_NOFILE, &few); err != nil {
		t.Fatal(err)
	}
	_, err = o.Open(t.Context(), "x.png", pngHeader(1, 1))
	if err := unix.Setrlimit(unix.RLIMIT_NOFILE, &was); err != nil {
		t.Fatal(err)
	}
	if !errors.Is(err, ErrNotStarted) || !errors.Is(err, unix.EMFILE) {
		t.Errorf("without descriptors: %v, want ErrNotStarted", err)
	}
	if _, err := o.Open(t.Context(), "x.png", pngHeader(1, 1)); err != nil {
		t.Errorf("with descriptors again: %v", err)
	}
}
