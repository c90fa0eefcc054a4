package signin

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/oauth2"

	"fairtape/cmd/internal/settings"
)

// provider is a token server that rotates refresh tokens: each is taken once,
// and one that comes twice ends the whole sign-in, as RFC 9700 section 4.14
// advises.
type provider struct {
	*httptest.Server
	mu      sync.Mutex
	current string // the refresh token that is good, "" for none
	issued  int
	pending int    // how often the device is told to wait
	refuse  string // error code of every answer, "" for none
	status  int    // of every answer with refuse or without; 0: as it should be
	bare    bool   // gives no refresh token
	asked   []string
}

func newProvider(t *testing.T) *provider {
	p := &provider{}
	mux := http.NewServeMux()
	mux.HandleFunc("POST /device", func(w http.ResponseWriter, r *http.Request) {
		fmt.Fprint(w, `{"device_code":"d1","user_code":"LOFT-1234","verification_uri":"https://provider.example/device","expires_in":60,"interval":1}`) //nolint:errcheck // a test's server
	})
	mux.HandleFunc("POST /token", p.token)
	p.Server = httptest.NewServer(mux)
	t.Cleanup(p.Close)
	return p
}

func (p *provider) token(w http.ResponseWriter, r *http.Request) {
	p.mu.Lock()
	defer p.mu.Unlock()
	grant := r.FormValue("grant_type")
	p.asked = append(p.asked, grant)
	deny := func(status int, code string) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		fmt.Fprintf(w, `{"error":%q,"error_description":"do not log: refresh-secret"}`, code) //nolint:errcheck // a test's server
	}
	switch {
	case p.status != 0:
		http.Error(w, "refresh-secret", p.status)
		return
	case p.refuse != "":
		deny(http.StatusBadRequest, p.refuse)
		return
	case grant == "refresh_token" && (p.current == "" || r.FormValue("refresh_token") != p.current):
		p.current = ""
		deny(http.StatusBadRequest, "invalid_grant")
		return
	case strings.HasSuffix(grant, "device_code") && p.pending > 0:
		p.pending--
		deny(http.StatusBadRequest, "authorization_pending")
		return
	}
	p.issued++
	p.current = fmt.Sprintf("refresh-%d", p.issued)
	answer := map[string]any{"access_token": fmt.Sprintf("access-%d", p.issued), "token_type": "Bearer", "expires_in": 7200, "refresh_token": p.current}
	if p.bare {
		delete(answer, "refresh_token")
	}
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(answer) //nolint:errcheck // a test's server
}

func (p *provider) settings(t *testing.T) settings.OAuth2 {
	return settings.OAuth2{
		ClientID: "fairtape", Scopes: []string{"mail", "offline_access"}, TokenFile: filepath.Join(t.TempDir(), "mail.token"),
		TokenURL: p.URL + "/token", DeviceURL: p.URL + "/device",
	}
}

func source(t *testing.T, c settings.OAuth2, ahead time.Duration) *Source {
	t.Helper()
	s, err := New(c, func() time.Time { return time.Now().Add(ahead) }, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func write(t *testing.T, file string, token oauth2.Token) {
	t.Helper()
	if err := save(file, &token); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, file string) (token oauth2.Token) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &token); err != nil {
		t.Fatal(err)
	}
	return token
}

func TestTokenRefuses(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(*testing.T, *provider, settings.OAuth2)
		want  error // nil: an error of no kind of its own
	}{
		{"nobody signed in", func(*testing.T, *provider, settings.OAuth2) {}, ErrNone},
		{"the file is empty", func(t *testing.T, _ *provider, c settings.OAuth2) {
			if err := os.WriteFile(c.TokenFile, nil, 0o600); err != nil {
				t.Fatal(err)
			}
		}, ErrNone},
		{"revoked", func(t *testing.T, _ *provider, c settings.OAuth2) {
			write(t, c.TokenFile, oauth2.Token{AccessToken: "old", RefreshToken: "revoked", Expiry: time.Now()})
		}, ErrRevoked},
		{"no refresh token", func(t *testing.T, _ *provider, c settings.OAuth2) {
			write(t, c.TokenFile, oauth2.Token{AccessToken: "old", Expiry: time.Now()})
		}, ErrRevoked},
		{"provider down", func(t *testing.T, p *provider, c settings.OAuth2) {
			p.status = http.StatusServiceUnavailable
			write(t, c.TokenFile, oauth2.Token{RefreshToken: "refresh-0"})
		}, nil},
		{"wrong client", func(t *testing.T, p *provider, c settings.OAuth2) {
			p.refuse = "invalid_client"
			write(t, c.TokenFile, oauth2.Token{RefreshToken: "refresh-0"})
		}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := newProvider(t)
			c := p.settings(t)
			tt.spoil(t, p, c)
			_, err := source(t, c, 0).Token(t.Context())
			if err == nil || tt.want != nil && !errors.Is(err, tt.want) || tt.want == nil && (errors.Is(err, ErrNone) || errors.Is(err, ErrRevoked)) {
				t.Errorf("error %v, want %v", err, tt.want)
			}
			if err != nil && strings.Contains(err.Error(), "refresh-secret") {
				t.Errorf("what the provider said is told: %v", err)
			}
		})
	}
}

func TestTokenRotates(t *testing.T) {
	p := newProvider(t)
	p.current = "refresh-0"
	c := p.settings(t)
	write(t, c.TokenFile, oauth2.Token{AccessToken: "access-0", RefreshToken: "refresh-0", Expiry: time.Now().Add(time.Hour)})
	for _, step := range []struct {
		ahead time.Duration
		want  string
	}{
		{0, "access-0"},                // good for an hour
		{50 * time.Minute, "access-0"}, // for ten minutes
		{57 * time.Minute, "access-1"}, // under five: replaced
		{57 * time.Minute, "access-1"}, // and kept
		{2 * time.Hour, "access-2"},
	} {
		// A new source each time, as after a restart.
		got, err := source(t, c, step.ahead).Token(t.Context())
		if err != nil || got != step.want {
			t.Errorf("%v ahead: %q, %v; want %q", step.ahead, got, err, step.want)
		}
	}
	if kept := read(t, c.TokenFile); kept.RefreshToken != "refresh-2" {
		t.Errorf("the file holds %q", kept.RefreshToken)
	}
	if info, err := os.Stat(c.TokenFile); runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	if left, err := filepath.Glob(c.TokenFile + ".*"); err != nil || !slices.Equal(left, []string{c.TokenFile + ".lock"}) {
		t.Errorf("left beside it: %v, %v", left, err)
	}
}

// A provider that gives no new refresh token means the old one to go on.
func TestTokenKeepsRefreshToken(t *testing.T) {
	p := newProvider(t)
	p.current, p.bare = "refresh-0", true
	c := p.settings(t)
	write(t, c.TokenFile, oauth2.Token{RefreshToken: "refresh-0"})
	if got, err := source(t, c, 0).Token(t.Context()); err != nil || got != "access-1" {
		t.Errorf("%q, %v", got, err)
	}
	if kept := read(t, c.TokenFile); kept.RefreshToken != "refresh-0" {
		t.Errorf("the file holds %q", kept.RefreshToken)
	}
}

// Sources side by side, as of receiving, of sending and of another process, ask
// for one fresh token between them.
func TestTokenOnceForAll(t *testing.T) {
	p := newProvider(t)
	p.current = "refresh-0"
	c := p.settings(t)
	write(t, c.TokenFile, oauth2.Token{RefreshToken: "refresh-0"})
	var wg sync.WaitGroup
	for range 8 {
		s := source(t, c, 0)
		wg.Go(func() {
			if got, err := s.Token(context.Background()); err != nil || got != "access-1" {
				t.Errorf("%q, %v", got, err)
			}
		})
	}
	wg.Wait()
	if p.issued != 1 {
		t.Errorf("%d tokens were asked for", p.issued)
	}
}

// A token that cannot be written is used all the same, and written later.
func TestTokenUnsaved(t *testing.T) {
	p := newProvider(t)
	p.current = "refresh-0"
	c := p.settings(t)
	write(t, c.TokenFile, oauth2.Token{RefreshToken: "refresh-0"})
	s := source(t, c, 0)
	good := s.file
	first, err := s.load()
	if err != nil {
		t.Fatal(err)
	}
	token, err := s.refresh(t.Context(), first)
	if err != nil {
		t.Fatal(err)
	}
	s.file = filepath.Join(good, "below a file")
	s.keep(token)
	s.file = good
	if got, err := s.Token(t.Context()); err != nil || got != "access-1" || p.issued != 1 {
		t.Errorf("%q, %v, %d issued", got, err, p.issued)
	}
	if kept := read(t, c.TokenFile); kept.RefreshToken != "refresh-1" {
		t.Errorf("the file holds %q", kept.RefreshToken)
	}
}

// What systemd hands over is a start; what comes of it lies in the file.
func TestTokenFromCredentials(t *testing.T) {
	p := newProvider(t)
	p.current = "refresh-0"
	handed := t.TempDir()
	t.Setenv("CREDENTIALS_DIRECTORY", handed)
	write(t, filepath.Join(handed, "mail.token"), oauth2.Token{RefreshToken: "refresh-0"})
	c := p.settings(t)
	for range 2 {
		if got, err := source(t, c, 0).Token(t.Context()); err != nil || got != "access-1" {
			t.Errorf("%q, %v", got, err)
		}
	}
}

func TestByDevice(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(*provider, *settings.OAuth2)
		want  error
		fails bool
	}{
		{"no device flow", func(_ *provider, c *settings.OAuth2) { c.DeviceURL = "" }, ErrNoDevice, true},
		{"denied", func(p *provider, _ *settings.OAuth2) { p.refuse = "access_denied" }, ErrDenied, true},
		{"too late", func(p *provider, _ *settings.OAuth2) { p.refuse = "expired_token" }, ErrDenied, true},
		{"no lasting access", func(p *provider, _ *settings.OAuth2) { p.bare = true }, nil, true},
		{"allowed after a while", func(p *provider, _ *settings.OAuth2) { p.pending = 1 }, nil, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			p := newProvider(t)
			c := p.settings(t)
			tt.spoil(p, &c)
			var shown string
			s := source(t, c, 0)
			err := s.ByDevice(t.Context(), func(address, code string) { shown = address + " " + code })
			if (err != nil) != tt.fails || tt.want != nil && !errors.Is(err, tt.want) {
				t.Fatalf("error %v, want %v", err, tt.want)
			}
			if tt.fails {
				if _, err := os.Stat(c.TokenFile); err == nil {
					t.Error("a token was kept")
				}
				return
			}
			if shown != "https://provider.example/device LOFT-1234" {
				t.Errorf("shown: %s", shown)
			}
			if got, err := s.Token(t.Context()); err != nil || got != "access-1" {
				t.Errorf("%q, %v", got, err)
			}
		})
	}
}

func TestByRefreshToken(t *testing.T) {
	p := newProvider(t)
	p.current = "refresh-0"
	c := p.settings(t)
	s := source(t, c, 0)
	if err := s.ByRefreshToken(t.Context(), "mistyped"); !errors.Is(err, ErrRevoked) {
		t.Errorf("error %v, want ErrRevoked", err)
	}
	p.current = "refresh-0"
	if err := s.ByRefreshToken(t.Context(), "refresh-0"); err != nil {
		t.Error(err)
	}
	if got, err := s.Token(t.Context()); err != nil || got != "access-1" {
		t.Errorf("%q, %v", got, err)
	}
}
