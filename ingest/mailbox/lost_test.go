package mailbox

import (
	"context"
	"log/slog"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
)

// A connection that is lost in IDLE, or whose other end falls silent in any
// command, is made anew, and what came meanwhile is handed over once.
func TestLostAndMadeAnew(t *testing.T) {
	cut := func(*mailboxtest.ScriptConn) bool { return false }
	silent := func(*mailboxtest.ScriptConn) bool { return true } // keeps the line, says nothing
	tests := []struct {
		name, command string
		fault         func(*mailboxtest.ScriptConn) bool
	}{
		{"cut at the start of IDLE", "IDLE", cut},
		{"cut in IDLE", "IDLE", func(c *mailboxtest.ScriptConn) bool { c.Send("+ idling"); return false }},
		{"cut at the end of IDLE", "IDLE", func(c *mailboxtest.ScriptConn) bool { c.Send("+ idling"); c.Next(); return false }}, //nolint:errcheck // the client says DONE
		{"silent in IDLE", "IDLE", func(c *mailboxtest.ScriptConn) bool { c.Send("+ idling"); return true }},
		{"silent at the start of IDLE", "IDLE", silent},
		{"silent at EXAMINE", "EXAMINE", silent},
		{"silent at SEARCH", "UID SEARCH", silent},
		{"silent while looking at messages", "UID FETCH 1", silent},
		{"silent in a body", "UID FETCH 1 (UID BODY", func(c *mailboxtest.ScriptConn) bool { c.Send("* 1 FETCH (UID 1 BODY[] {10}", "mes"); return true }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, n int) {
				if n > 1 {
					c.Serve(mailboxtest.ScriptBox{Count: 2, UIDValidity: 7}, nil)
					return
				}
				c.Serve(mailboxtest.ScriptBox{Count: 1, UIDValidity: 7}, map[string]func(string, string) bool{
					tt.command: func(string, string) bool { return tt.fault(c) },
				})
			})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			l := newLedger()
			w := &Watcher{Config: config(s.Addr), Start: ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: 7},
				Poll: time.Minute, Now: time.Now, Deliver: l.deliver, Trouble: l.trouble}
			hasty := quick
			hasty.idle, hasty.command = 20*time.Millisecond, 100*time.Millisecond
			ctx, stop := context.WithCancel(t.Context())
			ended := make(chan error)
			go func() { ended <- w.run(ctx, hasty) }()
			l.until(t, "both messages", func() bool { return len(l.deliveries) >= 2 })
			stop()
			<-ended
			if got := l.uids(); !slices.Equal(got, []uint32{1, 2}) || s.Connections() < 2 {
				t.Errorf("delivered %v over %d connections, want 1 and 2, each once, over two", got, s.Connections())
			}
		})
	}
}

// A server that is lost, or falls silent, at the goodbye holds nobody up.
func TestLostAtLogout(t *testing.T) {
	for name, goesOn := range map[string]bool{"cut": false, "silent": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var asked atomic.Bool
			s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
				c.Serve(mailboxtest.ScriptBox{UIDValidity: 7}, map[string]func(string, string) bool{
					"LOGOUT": func(string, string) bool { asked.Store(true); return goesOn },
				})
			})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			f := NewFolders(config(s.Addr))
			if _, err := f.Drafts(t.Context()); err != nil {
				t.Fatal(err)
			}
			start := time.Now()
			if err := f.Close(); err != nil || !asked.Load() || time.Since(start) > 10*time.Second {
				t.Errorf("closed after %v with %v; said goodbye: %v", time.Since(start), err, asked.Load())
			}
		})
	}
}

// pauses keeps the pauses that the log tells of.
type pauses struct {
	slog.Handler
	list chan time.Duration
}

// Handle implements slog.Handler.
func (p pauses) Handle(_ context.Context, r slog.Record) error {
	r.Attrs(func(a slog.Attr) bool {
		if a.Key == "pause" {
			p.list <- a.Value.Duration()
		}
		return true
	})
	return nil
}

// A server that cannot be had is asked ever more seldom, up to a limit, and
// never by all clients at the same moment.
func TestWatchBacksOff(t *testing.T) {
	for _, spread := range []float64{0, 1} {
		p := pauses{slog.NewTextHandler(new(strings.Builder), nil), make(chan time.Duration, 100)}
		cfg := config("127.0.0.1:1") // nobody listens there
		cfg.Log = slog.New(p)
		w := &Watcher{Config: cfg, Now: time.Now, Random: func() float64 { return spread }}
		slow := quick
		slow.first, slow.most = 2*time.Millisecond, 10*time.Millisecond
		ctx, stop := context.WithCancel(t.Context())
		ended := make(chan error)
		go func() { ended <- w.run(ctx, slow) }()
		for n, whole := range []time.Duration{2, 4, 8, 10, 10} { // milliseconds
			half := whole * time.Millisecond / 2
			if got, want := <-p.list, half+time.Duration(spread*float64(half)); got != want {
				t.Errorf("spread %v: pause %d is %v, want %v", spread, n+1, got, want)
			}
		}
		stop()
		<-ended
	}
}
