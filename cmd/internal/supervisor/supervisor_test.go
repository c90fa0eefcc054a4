package supervisor

import (
	"context"
	"errors"
	"net"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"
)

func listen(t *testing.T) (*net.UnixConn, string) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "notify")
	conn, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: name, Net: "unixgram"})
	if err != nil {
		t.Skip(err) // a system without such sockets has no systemd
	}
	t.Cleanup(func() { conn.Close() }) //nolint:errcheck // the test is over
	return conn, name
}

func next(t *testing.T, conn *net.UnixConn, wait time.Duration) string {
	t.Helper()
	if err := conn.SetReadDeadline(time.Now().Add(wait)); err != nil {
		t.Fatal(err)
	}
	buffer := make([]byte, 100)
	n, err := conn.Read(buffer)
	if err != nil {
		return ""
	}
	return string(buffer[:n])
}

func environment(vars map[string]string) func(string) string {
	return func(name string) string { return vars[name] }
}

func TestNobodyListens(t *testing.T) {
	s := New(environment(nil), 7)
	if err := s.Ready(); s != nil || err != nil {
		t.Errorf("%+v, %v", s, err)
	}
	s.Live(t.Context(), nil, nil) // returns at once
	gone := New(environment(map[string]string{"NOTIFY_SOCKET": filepath.Join(t.TempDir(), "gone")}), 7)
	if err := gone.Ready(); err == nil {
		t.Error("a supervisor that is gone heard us")
	}
}

func TestSays(t *testing.T) {
	conn, name := listen(t)
	s := New(environment(map[string]string{"NOTIFY_SOCKET": name}), 7)
	for want, say := range map[string]func() error{"READY=1": s.Ready, "STOPPING=1": s.Stopping, "STATUS=works": func() error { return s.Status("works") }} {
		if err := say(); err != nil {
			t.Fatal(err)
		}
		if got := next(t, conn, time.Second); got != want {
			t.Errorf("said %q, want %q", got, want)
		}
	}
}

func TestLive(t *testing.T) {
	conn, name := listen(t)
	vars := map[string]string{"NOTIFY_SOCKET": name, "WATCHDOG_USEC": "60000", "WATCHDOG_PID": "7"}
	if s := New(environment(vars), 8); s.every != 0 {
		t.Error("a sign of life is asked of another process")
	}
	var dead atomic.Bool
	failures := make(chan error, 100)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan bool)
	go func() {
		New(environment(vars), 7).Live(ctx, func(context.Context) error {
			if dead.Load() {
				return errors.New("the ledger does not answer")
			}
			return nil
		}, func(err error) { failures <- err })
		close(ended)
	}()
	if got := next(t, conn, 5*time.Second); got != "WATCHDOG=1" {
		t.Errorf("said %q", got)
	}
	dead.Store(true)
	<-failures
	for next(t, conn, 50*time.Millisecond) != "" { // what was said before
	}
	if got := next(t, conn, 100*time.Millisecond); got != "" {
		t.Errorf("dead, it said %q", got)
	}
	stop()
	<-ended
}
