package status

import (
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
)

func get(t *testing.T, h http.Handler, path string) (int, string) {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
	body, err := io.ReadAll(w.Result().Body)
	if err != nil {
		t.Fatal(err)
	}
	return w.Code, string(body)
}

func TestHealth(t *testing.T) {
	now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	fine := func(context.Context) (ledger.Counts, error) { return ledger.Counts{}, nil }
	stuck := func(context.Context) (ledger.Counts, error) { return ledger.Counts{}, errors.New("disk I/O error") }
	tests := []struct {
		name  string
		tell  func(*Board)
		count Count
		later time.Duration
		want  string // "" for healthy
	}{
		{"the ledger is stuck", func(b *Board) { b.Looked("a") }, stuck, 0, "the ledger does not answer: disk I/O error"},
		{"never looked", func(*Board) {}, fine, 6 * time.Minute, "not looked at for 6m0s"},
		{"lost for long", func(b *Board) { b.Looked("a"); b.Trouble("a", errors.New("refused")) }, fine, 6 * time.Minute, "for 6m0s: refused"},
		{"the chat is deaf", func(b *Board) { b.Looked("a"); b.Deaf() }, fine, 0, "chat is not heard"},
		{"lost a moment ago", func(b *Board) { b.Looked("a"); b.Trouble("a", errors.New("refused")) }, fine, time.Minute, ""},
		{"one of two is lost", func(b *Board) { b.Looked("a"); b.Trouble("b", errors.New("refused")) }, fine, 6 * time.Minute, "the inbox of b was not looked at for 6m0s: refused"},
		{"just started", func(*Board) {}, fine, time.Minute, ""},
		{"found again", func(b *Board) { b.Trouble("a", errors.New("refused")); b.Looked("a") }, fine, time.Minute, ""},
	}
	for _, tt := range tests {
		at := now
		b := NewBoard(func() time.Time { return at }, "a")
		tt.tell(b)
		at = now.Add(tt.later)
		code, body := get(t, b.Handler(tt.count, 5*time.Minute), "/healthz")
		switch {
		case tt.want == "" && (code != http.StatusOK || body != "ok\n"):
			t.Errorf("%s: %d %q", tt.name, code, body)
		case tt.want != "" && (code != http.StatusServiceUnavailable || !strings.Contains(body, tt.want)):
			t.Errorf("%s: %d %q, want %q", tt.name, code, body, tt.want)
		}
	}
}

// line is a sample of the text format of Prometheus.
var line = regexp.MustCompile(`^fairtape_[a-z_]+(\{[a-z]+="[a-z-]+"\})? [0-9.e+]+$`)

func TestMetrics(t *testing.T) {
	b := NewBoard(func() time.Time { return time.Unix(1000, 500e6) }, "a")
	b.Looked("a")
	count := func(context.Context) (ledger.Counts, error) {
		return ledger.Counts{
			Jobs:     map[string]int{"waiting-us": 2, "closed": 3},
			Messages: map[string]int{"answered": 5},
		}, nil
	}
	code, body := get(t, b.Handler(count, time.Minute), "/metrics")
	if code != http.StatusOK {
		t.Fatalf("%d %s", code, body)
	}
	for _, want := range []string{
		"# TYPE fairtape_jobs gauge\nfairtape_jobs{state=\"closed\"} 3\nfairtape_jobs{state=\"waiting-us\"} 2\n",
		"fairtape_messages_total{end=\"answered\"} 5\n", "fairtape_mailbox_watched 1\n", "fairtape_mailbox_last_look_seconds 1000.5\n",
	} {
		if !strings.Contains(body, want) {
			t.Errorf("%q is missing in\n%s", want, body)
		}
	}
	for l := range strings.Lines(body) {
		if l = strings.TrimSuffix(l, "\n"); !strings.HasPrefix(l, "# ") && !line.MatchString(l) {
			t.Errorf("no sample: %q", l)
		}
	}
}

func TestServe(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error)
	go func() { ended <- Serve(ctx, "127.0.0.1:0", http.NotFoundHandler()) }()
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if err := Serve(t.Context(), "192.0.2.1:1", nil); err == nil {
		t.Error("it listens at an address of another machine")
	}
}
