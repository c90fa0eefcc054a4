// Package status answers, on this machine only, whether the service works:
// /healthz for a supervisor, /metrics for Prometheus. Neither tells whom the
// shop writes with.
package status

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
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
	looked  time.Time // when the inbox was last looked at
	trouble error     // with the mailbox, nil for none
	deaf    bool      // the chat is not heard any more
}

// NewBoard returns the board of a service that starts now.
func NewBoard(now func() time.Time) *Board { return &Board{now: now, started: now()} }

// Looked notes that the inbox was looked at.
func (b *Board) Looked() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.looked, b.trouble = b.now(), nil
}

// Trouble notes that the mailbox is lost.
func (b *Board) Trouble(err error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.trouble = err
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
	since := b.looked
	if since.IsZero() {
		since = b.started
	}
	switch ago := b.now().Sub(since); {
	case ago > patience && b.trouble != nil:
		wrong = append(wrong, fmt.Sprintf("the inbox was not looked at for %v: %v", ago.Round(time.Second), b.trouble))
	case ago > patience:
		wrong = append(wrong, fmt.Sprintf("the inbox was not looked at for %v", ago.Round(time.Second)))
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
