// Package status answers, on this machine only, whether the service works:
// /healthz for a supervisor, /metrics for Prometheus. Neither tells whom the
// shop writes with.
package status

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"fairtape/cmd/internal/ledger"
)

// Board is what the service knows about itself. It is safe for several
// goroutines.
type Board struct {
	now     func() time.Time
	started time.Time

	mu      sync.Mutex
	inboxes map[string]watched // by account
	deaf    bool               // the chat is not heard any more
}

// watched is how one inbox is.
type watched struct {
	looked  time.Time // when it was last looked at, zero for never
	trouble error     // with the mailbox, nil for none
}

// NewBoard returns the board of a service that starts now and watches the
// inboxes of these accounts.
func NewBoard(now func() time.Time, accounts ...string) *Board {
	b := &Board{now: now, started: now(), inboxes: map[string]watched{}}
	for _, account := range accounts {
		b.inboxes[account] = watched{}
	}
	return b
}

// Looked notes that the inbox of an account was looked at.
func (b *Board) Looked(account string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.inboxes[account] = watched{looked: b.now()}
}

// Trouble notes that the mailbox of an account is lost.
func (b *Board) Trouble(account string, err error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.inboxes[account] = watched{looked: b.inboxes[account].looked, trouble: err}
}

// Deaf notes that the chat is not heard any more.
func (b *Board) Deaf() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.deaf = true
}

// wrong says what does not work, nothing when all does. The inbox may go
// without a look for as long as patience.
func (b *Board) wrong(patience time.Duration) []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	var wrong []string
	for _, account := range slices.Sorted(maps.Keys(b.inboxes)) {
		in := b.inboxes[account]
		since := in.looked
		if since.IsZero() {
			since = b.started
		}
		ago := b.now().Sub(since)
		if ago <= patience {
			continue
		}
		line := fmt.Sprintf("the inbox was not looked at for %v", ago.Round(time.Second))
		if len(b.inboxes) > 1 {
			line = fmt.Sprintf("the inbox of %s was not looked at for %v", account, ago.Round(time.Second))
		}
		if in.trouble != nil {
			line += ": " + in.trouble.Error()
		}
		wrong = append(wrong, line)
	}
	if b.deaf {
		wrong = append(wrong, "the chat is not heard any more")
	}
	return wrong
}

// Count counts what is on the ledger.
type Count func(context.Context) (ledger.Counts, error)

// askTime bounds one look at the ledger.
const askTime = 10 * time.Second

// Handler answers /healthz and /metrics. The inbox may go without a look for as
// long as patience.
func (b *Board) Handler(count Count, patience time.Duration) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, r *http.Request) {
		wrong := b.wrong(patience)
		ctx, cancel := context.WithTimeout(r.Context(), askTime)
		defer cancel()
		if _, err := count(ctx); err != nil {
			wrong = append(wrong, "the ledger does not answer: "+err.Error())
		}
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		if len(wrong) == 0 {
			fmt.Fprintln(w, "ok") //nolint:errcheck // the client may be gone
			return
		}
		w.WriteHeader(http.StatusServiceUnavailable)
		fmt.Fprintln(w, strings.Join(wrong, "\n")) //nolint:errcheck // the client may be gone
	})
	mux.HandleFunc("GET /metrics", func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), askTime)
		defer cancel()
		counts, err := count(ctx)
		if err != nil {
			http.Error(w, "the ledger does not answer", http.StatusServiceUnavailable)
			return
		}
		w.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
		b.write(w, counts) //nolint:errcheck // the client may be gone
	})
	return mux
}

// Serve answers at address until ctx ends.
func Serve(ctx context.Context, address string, handler http.Handler) error {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return fmt.Errorf("status.listen: %w", err)
	}
	server := &http.Server{Handler: handler, ReadHeaderTimeout: askTime, WriteTimeout: 2 * askTime}
	stop := context.AfterFunc(ctx, func() { server.Close() })
	defer stop()
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("status.listen: %w", err)
	}
	return nil
}
