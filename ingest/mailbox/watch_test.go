package mailbox

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
)

func TestWatchDeliversOldestFirst(t *testing.T) {
	servers(t, func(t *testing.T, s server, cfg Config) {
		now := time.Now()
		put(t, s, "INBOX", 1, now.AddDate(0, 0, -30)) // before since
		for n := 2; n <= 9; n++ {
			put(t, s, "INBOX", n, now)
		}
		l := newLedger()
		stop := watching(t, l, cfg, ingest.Cursor{})
		l.until(t, "the first scan", func() bool { return len(l.rescans) == 1 })
		if got, want := l.uids(), []uint32{2, 3, 4, 5, 6, 7, 8, 9}; !slices.Equal(got, want) {
			t.Errorf("delivered UIDs %v, want %v", got, want)
		}
		r := l.rescans[0]
		if r.Older != 1 || r.Cursor.LastUID != 9 || r.Cursor.Account != "shop" || r.Cursor.Mailbox != "INBOX" {
			t.Errorf("rescan ended with %+v, want one older mail and the cursor at 9", r)
		}
		for i, d := range l.deliveries {
			if string(d.Raw) != string(surveyMail(i+2)) {
				t.Errorf("UID %d: %q", d.Location.UID, d.Raw)
			}
			if !d.Rescan || d.Cursor.UIDValidity != 0 {
				t.Errorf("UID %d: rescan %v, cursor %+v; a rescan must start over when it is cut off", d.Location.UID, d.Rescan, d.Cursor)
			}
		}

		// IDLE tells of new mail long before the poll, a minute away.
		put(t, s, "INBOX", 10, now)
		l.until(t, "new mail", func() bool { return len(l.deliveries) == 9 })
		d := l.deliveries[8]
		if d.Rescan || d.Cursor.LastUID != 10 || d.Cursor.UIDValidity != r.Cursor.UIDValidity {
			t.Errorf("new mail came with %+v", d.Cursor)
		}
		stop()

		// A new start begins where the last one ended.
		put(t, s, "INBOX", 11, now)
		again := newLedger()
		watching(t, again, cfg, l.cursor())
		again.until(t, "mail that came meanwhile", func() bool { return len(again.deliveries) > 0 })
		if got := again.uids(); !slices.Equal(got, []uint32{11}) {
			t.Errorf("after a new start came %v, want 11", got)
		}
		seen := unseen(t, s)
		if seen != 11 {
			t.Errorf("%d of 11 messages are still unseen, want all", seen)
		}
	})
}

func unseen(t *testing.T, s server) int {
	t.Helper()
	list, err := s.Messages("INBOX")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, m := range list {
		if !slices.Contains(m.Flags, imap.FlagSeen) {
			n++
		}
	}
	return n
}

func TestWatchCursorWaitsForTheLedger(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	cfg := config(s.Addr)
	put(t, s, "INBOX", 1, time.Now())
	l := newLedger()
	tries := 0
	l.refuse = func(d Delivery) error {
		if tries++; tries <= 3 {
			return errors.New("disk full")
		}
		return nil
	}
	looked := make(chan int, 10) // how many messages were taken when a look ended well
	w := &Watcher{Config: cfg, Poll: time.Minute, Since: time.Hour, Now: time.Now, Deliver: l.deliver, Rescanned: l.rescanned, Trouble: l.trouble,
		Looked: func() { looked <- len(l.uids()) }}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error)
	go func() { ended <- w.run(ctx, quick) }()
	l.until(t, "the message", func() bool { return len(l.deliveries) == 1 && len(l.rescans) == 1 })
	if n := <-looked; n != 1 {
		t.Errorf("a look ended well with %d messages taken: a supervisor would not hear of the full disk", n)
	}
	stop()
	<-ended
	if tries != 4 {
		t.Errorf("delivered after %d tries, want 4", tries)
	}
	for _, err := range l.troubles {
		if err != nil {
			t.Errorf("the ledger's trouble was told as the mailbox's: %v", err)
		}
	}
}

func TestWatchRescans(t *testing.T) {
	tests := []struct {
		name   string
		change func(*mailboxtest.Server) error
		reason string
		want   []uint32
	}{
		{"UIDVALIDITY changes", func(s *mailboxtest.Server) error { s.Renumber("INBOX"); return nil },
			"the mail server numbered the mailbox anew", []uint32{1, 2, 3}},
		{"UIDNEXT falls", func(s *mailboxtest.Server) error {
			if err := s.Empty("INBOX"); err != nil {
				return err
			}
			_, err := s.Append("INBOX", surveyMail(3), time.Now())
			return err
		}, "the mail server went back to an older state of the mailbox", []uint32{1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := memory(t, mailboxtest.Options{})
			for n := 1; n <= 3; n++ {
				put(t, s, "INBOX", n, time.Now())
			}
			l := newLedger()
			stop := watching(t, l, config(s.Addr), ingest.Cursor{})
			l.until(t, "the first scan", func() bool { return len(l.rescans) == 1 })
			stop()
			if err := tt.change(s); err != nil {
				t.Fatal(err)
			}
			again := newLedger()
			watching(t, again, config(s.Addr), l.cursor())
			again.until(t, "the rescan", func() bool { return len(again.rescans) == 1 })
			if got := again.uids(); !slices.Equal(got, tt.want) {
				t.Errorf("delivered %v, want %v", got, tt.want)
			}
			if again.rescans[0].Reason != tt.reason {
				t.Errorf("reason %q, want %q", again.rescans[0].Reason, tt.reason)
			}
		})
	}
}

// An inbox that was empty at the first start is no rescan later on: what came
// while the service was down counts, however long that was.
func TestWatchEmptyInboxIsNoRescan(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	l := newLedger()
	stop := watching(t, l, config(s.Addr), ingest.Cursor{})
	l.until(t, "the first scan", func() bool { return len(l.rescans) == 1 })
	stop()
	put(t, s, "INBOX", 1, time.Now().AddDate(0, 0, -20))
	again := newLedger()
	watching(t, again, config(s.Addr), l.cursor())
	again.until(t, "the mail", func() bool { return len(again.deliveries) == 1 })
	if again.deliveries[0].Rescan {
		t.Error("the mailbox was read anew")
	}
}

func TestWatchSignIn(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	cfg := config(s.Addr)
	cfg.SignIn.Password = password("wrong")
	l := newLedger()
	watching(t, l, cfg, ingest.Cursor{})
	l.until(t, "the refusal", func() bool { return len(l.troubles) > 0 })
	if !errors.Is(l.troubles[0], ErrSignIn) {
		t.Errorf("trouble %v, want ErrSignIn", l.troubles[0])
	}
	time.Sleep(100 * time.Millisecond) // twenty of the pauses between other tries
	if n := s.Logins(); n != 1 {
		t.Errorf("%d sign-ins after a refusal, want 1", n)
	}
}

func TestWatchFaults(t *testing.T) {
	box := mailboxtest.ScriptBox{Count: 3, UIDValidity: 7}
	start := ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: 7}
	type fault = func(c *mailboxtest.ScriptConn) map[string]func(tag, command string) bool
	drop := func(string, string) bool { return false }
	tests := []struct {
		name  string
		fault fault
		until int // the connection up to which the fault plays
		bad   error
	}{
		{"drop at the greeting", nil, 1, nil},
		{"drop at LOGIN", func(*mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"LOGIN": drop}
		}, 1, nil},
		{"drop at EXAMINE", func(*mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"EXAMINE": drop}
		}, 1, nil},
		{"drop at SEARCH", func(*mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID SEARCH": drop}
		}, 1, nil},
		{"BYE at SEARCH", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID SEARCH": func(string, string) bool {
				c.Send("* BYE [UNAVAILABLE] restarting")
				return false
			}}
		}, 1, nil},
		{"NO to SEARCH", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID SEARCH": func(tag, _ string) bool {
				c.Send(tag + " NO [UNAVAILABLE] later")
				return true
			}}
		}, 1, nil},
		{"unknown untagged line", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"EXAMINE": func(string, string) bool {
				c.Send("* GREMLIN (((")
				return true
			}}
		}, 1, nil},
		{"drop in a body", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(string, string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[] {10}", "mes")
				return false
			}}
		}, 1, nil},
		{"drop in a body, time and again", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(string, string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[] {10}", "mes")
				return false
			}}
		}, mostCuts - 2, nil},
		{"drop while looking at messages, time and again", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 1": drop}
		}, mostCuts - 2, nil},
		{"refused for a while", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(tag, _ string) bool {
				c.Send(tag + " NO [SERVERBUG] not now")
				return true
			}}
		}, mostCuts - 2, nil},
		{"a body that is no IMAP", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(string, string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[ {{{")
				return true
			}}
		}, 1000, ErrBreaks},
		{"a body that always breaks", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(string, string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[] {10}", "mes")
				return false
			}}
		}, 1000, ErrBreaks},
		{"a gigabyte announced", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(string, string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[] {1073741824}", "message")
				return true
			}}
		}, 1000, ErrBreaks},
		{"a length that is too short", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(tag, _ string) bool {
				c.Send("* 2 FETCH (UID 2 BODY[] {4}", "message  2)", tag+" OK done")
				return true
			}}
		}, 1000, ErrBreaks},
		{"a message that cannot be looked at", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{
				"UID FETCH 1:3": func(string, string) bool { c.Send("* 2 FETCH (UID 2 FLAGS ((("); return false },
				"UID FETCH 2":   func(string, string) bool { c.Send("* 2 FETCH (UID 2 FLAGS ((("); return false },
			}
		}, 1000, ErrBreaks},
		{"too large", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 1:3": func(tag, _ string) bool {
				c.Send(mailboxtest.ScriptMeta(1, 10), mailboxtest.ScriptMeta(2, 200<<20), mailboxtest.ScriptMeta(3, 10), tag+" OK done")
				return true
			}}
		}, 1000, ErrTooLarge},
		{"an answer without end", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID SEARCH": func(string, string) bool {
				fmt.Fprint(c, "* SEARCH")
				for range answerBytes/10 + 10000 {
					if _, err := fmt.Fprint(c, " 123456789"); err != nil {
						return false
					}
				}
				return false
			}}
		}, 1, nil},
		{"messages of another kind in between", func(c *mailboxtest.ScriptConn) map[string]func(string, string) bool {
			return map[string]func(string, string) bool{"UID FETCH 2 (UID BODY": func(tag, _ string) bool {
				c.Send("* 4 EXISTS", `* 1 FETCH (FLAGS (\Seen))`, "* 2 FETCH (UID 2 BODY[] {10}", "message  2)", tag+" OK done")
				return true
			}}
		}, 1000, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, n int) {
				switch {
				case n > tt.until:
					c.Serve(box, nil)
				case tt.fault != nil:
					c.Serve(box, tt.fault(c))
				}
			})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			l := newLedger()
			watching(t, l, config(s.Addr), start)
			l.until(t, "three messages", func() bool { return len(l.deliveries) >= 3 })
			if got := l.uids(); !slices.Equal(got, []uint32{1, 2, 3}) {
				t.Errorf("delivered %v, want each of 1 2 3 once", got)
			}
			for i, want := range []error{nil, tt.bad, nil} {
				d := l.deliveries[i]
				if !errors.Is(d.Err, want) {
					t.Errorf("UID %d: error %v, want %v", i+1, d.Err, want)
				}
				if want := fmt.Sprintf("message%3d", i+1); d.Err == nil && string(d.Raw) != want {
					t.Errorf("UID %d: %q, want %q", i+1, d.Raw, want)
				}
			}
		})
	}
}

// A message that is expunged between search and fetch, or while it is fetched,
// is passed over, and the log says so.
func TestWatchVanished(t *testing.T) {
	s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
		c.Serve(mailboxtest.ScriptBox{Count: 3, UIDValidity: 7}, map[string]func(string, string) bool{
			"UID FETCH 2 (UID BODY": func(tag, _ string) bool { c.Send("* 2 EXPUNGE", tag+" OK done"); return true },
			"UID SEARCH UID 2":      func(tag, _ string) bool { c.Send("* SEARCH", tag+" OK done"); return true },
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	l := newLedger()
	cfg := config(s.Addr)
	var log bytes.Buffer
	cfg.Log = slog.New(slog.NewTextHandler(&log, nil))
	stop := watching(t, l, cfg, ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: 7})
	l.until(t, "two messages", func() bool { return len(l.deliveries) >= 2 })
	stop()
	if got := l.uids(); !slices.Equal(got, []uint32{1, 3}) {
		t.Errorf("delivered %v, want 1 and 3", got)
	}
	if !strings.Contains(log.String(), `msg="message deleted before it was read" uid=2`) {
		t.Errorf("the log says nothing of message 2:\n%s", &log)
	}
}

// A server that falls silent is left after the deadline.
func TestCommandDeadline(t *testing.T) {
	s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
		c.Serve(mailboxtest.ScriptBox{}, map[string]func(string, string) bool{
			"NOOP": func(string, string) bool { return true },
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	c, err := dial(t.Context(), config(s.Addr))
	if err != nil {
		t.Fatal(err)
	}
	err = c.do(t.Context(), "asking", 50*time.Millisecond, answerBytes, c.client.Noop().Wait)
	if err == nil || err.Error() != "asking: the mail server did not answer within 50ms" {
		t.Errorf("error %v, want the deadline's", err)
	}
}
