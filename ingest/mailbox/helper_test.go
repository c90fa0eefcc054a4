package mailbox

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
)

// server is what both kinds of test server can do.
type server interface {
	Append(mailbox string, raw []byte, received time.Time, flags ...imap.Flag) (uint32, error)
	Messages(mailbox string) ([]mailboxtest.Message, error)
}

// servers runs a test against the server in memory and against Dovecot.
func servers(t *testing.T, test func(t *testing.T, s server, cfg Config)) {
	t.Run("memory", func(t *testing.T) {
		s := memory(t, mailboxtest.Options{})
		test(t, s, config(s.Addr))
	})
	t.Run("dovecot", func(t *testing.T) {
		d, err := mailboxtest.StartDovecot(mailboxtest.DovecotOptions{})
		if errors.Is(err, mailboxtest.ErrNoDovecot) {
			t.Skip(err)
		}
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { d.Close() })
		test(t, d, config(d.Addr))
	})
}

func memory(t *testing.T, options mailboxtest.Options) *mailboxtest.Server {
	t.Helper()
	s, err := mailboxtest.Start(options)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func config(addr string) Config {
	return Config{
		Account: "shop", Address: addr, Security: None,
		SignIn: SignIn{User: mailboxtest.User, Password: password(mailboxtest.Password)},
	}
}

func password(secret string) func() (string, error) {
	return func() (string, error) { return secret, nil }
}

// quick is a pace for tests: the pauses are too short to wait for.
var quick = pace{
	first: time.Millisecond, most: 5 * time.Millisecond, signIn: time.Hour, password: 5 * time.Millisecond,
	idle: time.Minute, command: time.Minute, batch: 3,
}

// ledger records deliveries as the service does.
type ledger struct {
	mu         sync.Mutex
	deliveries []Delivery
	rescans    []Rescanned
	troubles   []error
	changed    chan struct{}
	refuse     func(Delivery) error // nil: takes everything
}

func newLedger() *ledger { return &ledger{changed: make(chan struct{}, 1000)} }

func (l *ledger) deliver(_ context.Context, d Delivery) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	defer func() { l.changed <- struct{}{} }()
	if l.refuse != nil {
		if err := l.refuse(d); err != nil {
			return err
		}
	}
	l.deliveries = append(l.deliveries, d)
	return nil
}

func (l *ledger) rescanned(_ context.Context, r Rescanned) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.rescans = append(l.rescans, r)
	l.changed <- struct{}{}
	return nil
}

func (l *ledger) trouble(err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.troubles = append(l.troubles, err)
	l.changed <- struct{}{}
}

// cursor is what the service would have recorded last.
func (l *ledger) cursor() ingest.Cursor {
	l.mu.Lock()
	defer l.mu.Unlock()
	var c ingest.Cursor
	if n := len(l.rescans); n > 0 {
		c = l.rescans[n-1].Cursor
	}
	if n := len(l.deliveries); n > 0 && l.deliveries[n-1].Cursor.LastUID > c.LastUID {
		c = l.deliveries[n-1].Cursor
	}
	return c
}

// until waits for a condition on the ledger.
func (l *ledger) until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	limit := time.After(20 * time.Second)
	for {
		l.mu.Lock()
		done := ok()
		l.mu.Unlock()
		if done {
			return
		}
		select {
		case <-l.changed:
		case <-limit:
			t.Fatalf("waited in vain for %s: %d deliveries, %d rescans, %d troubles, the last %v",
				what, len(l.deliveries), len(l.rescans), len(l.troubles), l.troubles[max(0, len(l.troubles)-1):])
		}
	}
}

func (l *ledger) uids() []uint32 {
	l.mu.Lock()
	defer l.mu.Unlock()
	var out []uint32
	for _, d := range l.deliveries {
		out = append(out, d.Location.UID)
	}
	return out
}

// watching runs a watcher until the test ends or stop is called.
func watching(t *testing.T, l *ledger, cfg Config, start ingest.Cursor) (stop func()) {
	t.Helper()
	w := &Watcher{
		Config: cfg, Start: start, Poll: time.Minute, Since: 72 * time.Hour, Now: time.Now,
		Random:  func() float64 { return 0 },
		Deliver: l.deliver, Rescanned: l.rescanned, Trouble: l.trouble,
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- w.run(ctx, quick) }()
	var once sync.Once
	stop = func() {
		once.Do(func() {
			cancel()
			select {
			case err := <-done:
				if !errors.Is(err, context.Canceled) {
					t.Errorf("Run ended with %v, want the context's end", err)
				}
			case <-time.After(10 * time.Second):
				t.Error("Run did not end with its context")
			}
		})
	}
	t.Cleanup(stop)
	return stop
}

func surveyMail(n int) []byte {
	return fmt.Appendf(nil, "From: customer@example.example\r\nTo: orders@pinfold.example\r\n"+
		"Subject: survey %d\r\nMessage-ID: <m%d@example.example>\r\n\r\n15 ft 9 in, mail %d\r\n", n, n, n)
}

func put(t *testing.T, s server, mailbox string, n int, received time.Time) uint32 {
	t.Helper()
	uid, err := s.Append(mailbox, surveyMail(n), received)
	if err != nil {
		t.Fatal(err)
	}
	return uid
}
