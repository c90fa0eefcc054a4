package main

import (
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A running service tells its supervisor that it is ready and lives, answers
// how it is, and keeps its old letters when the changed ones are broken.
func TestWatchUpkeep(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	listen := freeAddress(t)
	text, err := os.ReadFile(filepath.Join(f.dir, "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	f.write("fairtape.toml", string(text)+"\n[status]\nlisten = \""+listen+"\"\n")
	super := filepath.Join(f.dir, "notify")
	heard, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: super, Net: "unixgram"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { heard.Close() }) //nolint:errcheck // the test is over
	cmd := f.command("watch")
	cmd.Env = append(os.Environ(), "NOTIFY_SOCKET="+super, "WATCHDOG_USEC=300000")
	log, err := os.Create(filepath.Join(f.dir, "log")) // read while it is written
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { log.Close() }) //nolint:errcheck // the test is over
	cmd.Stdout, cmd.Stderr = log, log
	said := func(what string) bool {
		data, err := os.ReadFile(log.Name())
		return err == nil && strings.Contains(string(data), what)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"READY=1", "WATCHDOG=1", "WATCHDOG=1"} {
		if got := datagram(t, heard); got != want {
			t.Fatalf("the supervisor hears %q, want %q", got, want)
		}
	}
	go func() { // whoever does not read blocks the service in time
		for datagram(t, heard) != "" {
		}
	}()
	f.await("the inbox is watched", func() bool {
		return strings.Contains(page(t, listen, "/metrics"), "fairtape_mailbox_watched 1\n")
	})
	if got := page(t, listen, "/healthz"); got != "ok\n" {
		t.Errorf("health: %q", got)
	}
	health := f.command("health")
	health.Stdout = nil
	if out, err := health.Output(); err != nil || string(out) != "ok\n" {
		t.Errorf("fairtape health: %q, %v", out, err)
	}
	hup := func(what string) {
		t.Helper()
		if err := cmd.Process.Signal(syscall.SIGHUP); err != nil {
			t.Fatal(err)
		}
		f.await(what, func() bool { return said(what) })
	}
	hup("read anew")
	f.write("fairtape.toml", string(text)+"\n[judge]\ncost_mis = 3\n")
	hup("the old ones stay")
	f.await("the chat is told", func() bool {
		for _, m := range f.chat.Messages() {
			if strings.Contains(m.Text, "judge.cost_miss") {
				return true
			}
		}
		return false
	})
	f.end(cmd)
}

func datagram(t *testing.T, conn *net.UnixConn) string {
	buffer := make([]byte, 200)
	if err := conn.SetReadDeadline(time.Now().Add(patience)); err != nil {
		return ""
	}
	n, err := conn.Read(buffer)
	if err != nil {
		return ""
	}
	return string(buffer[:n])
}

func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close() //nolint:errcheck // it is closed on purpose
	return l.Addr().String()
}

func page(t *testing.T, address, path string) string {
	t.Helper()
	answer, err := http.Get("http://" + address + path)
	if err != nil {
		return ""
	}
	defer answer.Body.Close() //nolint:errcheck // read to its end below
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}
