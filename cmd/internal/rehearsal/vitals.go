package rehearsal

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"strings"
	"time"
)

// Vitals is what the service holds of the machine at one moment, without its
// children.
type Vitals struct {
	Memory      int64 // bytes that are resident
	Descriptors int   // open files and connections
	Goroutines  int
}

// ErrNoVitals: this system does not show what a process holds.
var ErrNoVitals = errors.New("this system has no /proc")

// Vitals looks at the running service, by what Linux shows of it in /proc
// (proc(5)) and by its own metrics at the address status.
func (f *Floor) Vitals(status string) (v Vitals, err error) {
	pid, err := f.pid()
	if err != nil {
		return v, err
	}
	of := fmt.Sprintf("/proc/%d/", pid)
	text, err := os.ReadFile(of + "status")
	if errors.Is(err, os.ErrNotExist) {
		return v, fmt.Errorf("%w, or the service has ended", ErrNoVitals)
	}
	if err != nil {
		return v, err
	}
	var kilobytes int64
	if err := field(string(text), "VmRSS:", &kilobytes); err != nil {
		return v, err
	}
	v.Memory = kilobytes << 10
	open, err := os.ReadDir(of + "fd")
	if err != nil {
		return v, err
	}
	v.Descriptors = len(open)
	client := http.Client{Timeout: 10 * time.Second, Transport: &http.Transport{DisableKeepAlives: true}}
	answer, err := client.Get("http://" + status + "/metrics")
	if err != nil {
		return v, err
	}
	defer answer.Body.Close() //nolint:errcheck // read to its end
	metrics, err := io.ReadAll(answer.Body)
	if err != nil {
		return v, err
	}
	return v, field(string(metrics), "\nfairtape_goroutines ", &v.Goroutines)
}

func (f *Floor) pid() (int, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.process == nil {
		return 0, errors.New("the service does not run")
	}
	return f.process.Process.Pid, nil
}

// field reads the number behind a name.
func field(text, name string, into any) error {
	_, after, ok := strings.Cut(text, name)
	if !ok {
		return fmt.Errorf("%q is not told", strings.TrimSpace(name))
	}
	_, err := fmt.Sscan(after, into)
	return err
}
