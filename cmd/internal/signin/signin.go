// Package signin signs in to mail servers with tokens (OAuth 2): it gets them
// by the device flow (RFC 8628), keeps them in a file of its owner alone, gets
// fresh ones in time (RFC 6749 section 6), and hands them to the servers
// (XOAUTH2, and OAUTHBEARER of RFC 7628).
package signin

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net/http"
	"os"
	"sync"
	"time"

	"golang.org/x/oauth2"

	"fairtape/cmd/internal/settings"
)

// Errors that a caller can tell apart. After any of them a person has to sign
// in anew; every other error may pass by itself.
var (
	// ErrNone: nobody has signed in yet.
	ErrNone = errors.New("nobody has signed in yet")
	// ErrRevoked: the provider does not take the refresh token any more.
	ErrRevoked = errors.New("the provider has ended the sign-in")
	// ErrDenied: the person at the other device said no, or took too long.
	ErrDenied = errors.New("the sign-in was not allowed")
)

const (
	// early is how long before its end a token is replaced, so that it holds
	// through a slow sign-in. Providers give an hour.
	early = 5 * time.Minute
	// requestTime bounds one request to the provider.
	requestTime = 30 * time.Second
)

// Source gives access tokens. Several sources, in this process and in others,
// may share a token file: only one at a time asks for a fresh token, as a
// provider that rotates refresh tokens takes each of them once.
type Source struct {
	config oauth2.Config
	file   string
	seed   string // where a first token may lie, "" for nowhere
	now    func() time.Time
	log    *slog.Logger
	client *http.Client

	mu      sync.Mutex
	unsaved *oauth2.Token // one that could not be written to the file, nil for none
}

// New returns the source of a connection's tokens. Its settings must have a
// token URL. A nil log says nothing.
func New(c settings.OAuth2, now func() time.Time, log *slog.Logger) (*Source, error) {
	secret, err := c.ClientSecret()
	if err != nil {
		return nil, err
	}
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	return &Source{
		config: oauth2.Config{
			ClientID: c.ClientID, ClientSecret: secret, Scopes: c.Scopes,
			Endpoint: oauth2.Endpoint{TokenURL: c.TokenURL, DeviceAuthURL: c.DeviceURL, AuthStyle: oauth2.AuthStyleInParams},
		},
		file: c.TokenFile, seed: settings.Credential(c.TokenFile),
		now: now, log: log, client: &http.Client{Timeout: requestTime},
	}, nil
}

// Token returns an access token that is good for some minutes more.
func (s *Source) Token(ctx context.Context) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	token, err := s.load()
	if err != nil {
		return "", err
	}
	if s.fresh(token) && s.unsaved == nil {
		return token.AccessToken, nil
	}
	unlock, err := lockFile(s.file + ".lock")
	if err != nil {
		return "", fmt.Errorf("wait for the token: %w", err)
	}
	defer unlock()
	// Another process may have been quicker.
	if token, err = s.load(); err != nil {
		return "", err
	}
	if !s.fresh(token) {
		if token, err = s.refresh(ctx, token); err != nil {
			return "", err
		}
	}
	s.keep(token)
	return token.AccessToken, nil
}

func (s *Source) fresh(t *oauth2.Token) bool {
	return t.AccessToken != "" && (t.Expiry.IsZero() || t.Expiry.After(s.now().Add(early)))
}

// keep writes a token to the file. When that fails the token is used all the
// same and written the next time: the one in the file may be spent.
func (s *Source) keep(t *oauth2.Token) {
	if err := save(s.file, t); err != nil {
		s.log.Error("the token cannot be kept; after a restart somebody has to sign in anew", "error", err)
		s.unsaved = t
		return
	}
	s.unsaved = nil
}

func (s *Source) refresh(ctx context.Context, old *oauth2.Token) (*oauth2.Token, error) {
	if old.RefreshToken == "" {
		return nil, fmt.Errorf("%w: it gave no refresh token", ErrRevoked)
	}
	ctx = context.WithValue(ctx, oauth2.HTTPClient, s.client)
	token, err := s.config.TokenSource(ctx, &oauth2.Token{RefreshToken: old.RefreshToken}).Token()
	if err == nil {
		return token, nil
	}
	if code := refusal(err); code == "invalid_grant" || code == "interaction_required" || code == "unauthorized_client" {
		return nil, fmt.Errorf("%w (%s)", ErrRevoked, code)
	}
	return nil, fmt.Errorf("get a fresh token: %w", withoutBody(err))
}

// refusal is the code of the provider's answer (RFC 6749 section 5.2), "" when
// the error is of another kind.
func refusal(err error) string {
	if answer, ok := errors.AsType[*oauth2.RetrieveError](err); ok {
		return answer.ErrorCode
	}
	return ""
}

// withoutBody keeps what a provider answers out of errors and logs: it may hold
// tokens.
func withoutBody(err error) error {
	if answer, ok := errors.AsType[*oauth2.RetrieveError](err); ok {
		if answer.ErrorCode != "" {
			return fmt.Errorf("the provider refuses: %s", answer.ErrorCode)
		}
		if answer.Response != nil {
			return fmt.Errorf("the provider answers %s", answer.Response.Status)
		}
	}
	return err
}

// load reads the token file, or what the system handed over for a start.
func (s *Source) load() (*oauth2.Token, error) {
	if s.unsaved != nil {
		return s.unsaved, nil
	}
	data, err := os.ReadFile(s.file)
	if errors.Is(err, fs.ErrNotExist) && s.seed != "" {
		data, err = os.ReadFile(s.seed)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%w: %s is not there", ErrNone, s.file)
	}
	if err != nil {
		return nil, fmt.Errorf("read the token: %w", err)
	}
	var token oauth2.Token
	if err := json.Unmarshal(data, &token); err != nil || token.AccessToken == "" && token.RefreshToken == "" {
		return nil, fmt.Errorf("%w: %s holds no token", ErrNone, s.file)
	}
	return &token, nil
}
