package mailbox

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"sync/atomic"
	"time"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-imap/v2/imapclient"
)

// Deadlines and limits of a single command.
const (
	dialTime    = 30 * time.Second
	commandTime = 60 * time.Second // searching a large mailbox without an index takes tens of seconds
	// slowestBytes is the slowest line that a body may come over, a second:
	// 50 MB over it take 26 minutes.
	slowestBytes = 32 << 10
	// answerBytes is what a command may bring that fetches no bodies. A search
	// that finds 100,000 messages brings 0.8 MB.
	answerBytes = 8 << 20
	// bodySlack is what may come around a body.
	bodySlack = 256 << 10
)

// conn is one connection, signed in.
type conn struct {
	client *imapclient.Client
	wire   *meter
	caps   imap.CapSet
	news   chan struct{} // told when the selected mailbox grew
	// patience is how long a command may take, beside the body that it brings.
	patience time.Duration
}

// dial connects and signs in.
func dial(ctx context.Context, cfg Config) (*conn, error) {
	host, err := cfg.check()
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, dialTime)
	defer cancel()
	var d net.Dialer
	raw, err := d.DialContext(ctx, "tcp", cfg.Address)
	if err != nil {
		return nil, fmt.Errorf("connecting to the mail server: %w", err)
	}
	c := &conn{wire: &meter{Conn: raw}, news: make(chan struct{}, 1), patience: commandTime}
	c.wire.allow(answerBytes)
	if err := c.open(ctx, cfg, host); err != nil {
		raw.Close()
		return nil, err
	}
	return c, nil
}

// open does what stands between the connection and the first command.
func (c *conn) open(ctx context.Context, cfg Config, host string) error {
	options := &imapclient.Options{
		TLSConfig:             &tls.Config{ServerName: host, RootCAs: cfg.Roots, MinVersion: tls.VersionTLS12},
		UnilateralDataHandler: &imapclient.UnilateralDataHandler{Mailbox: c.grown},
	}
	// The library closes what it was given, so closing the wire from outside
	// ends whatever it waits for.
	stop := context.AfterFunc(ctx, func() { c.wire.Conn.Close() })
	defer stop()

	switch cfg.Security {
	case Implicit:
		t := tls.Client(c.wire, options.TLSConfig)
		if err := t.HandshakeContext(ctx); err != nil {
			return fmt.Errorf("securing the connection: %w", certificate(err))
		}
		c.client = imapclient.New(t, options)
	case StartTLS:
		client, err := imapclient.NewStartTLS(c.wire, options)
		if err != nil {
			return fmt.Errorf("securing the connection: %w", startTLSError(err))
		}
		c.client = client
	case None:
		c.client = imapclient.New(c.wire, options)
	}
	if err := c.client.WaitGreeting(); err != nil {
		return fmt.Errorf("waiting for the mail server's greeting: %w", temporary(err))
	}
	if err := c.signIn(cfg.SignIn); err != nil {
		return err
	}
	c.caps = c.client.Caps()
	if c.caps == nil {
		return errors.New("the mail server does not say what it can do")
	}
	return nil
}

func (c *conn) signIn(s SignIn) error {
	if c.client.State() == imap.ConnStateAuthenticated { // PREAUTH
		return nil
	}
	var err error
	secret := ""
	if s.SASL != nil {
		client, serr := s.SASL()
		if serr != nil {
			return fmt.Errorf("preparing the sign-in: %w", serr)
		}
		err = c.client.Authenticate(client)
	} else {
		if secret, err = s.Password(); err != nil {
			return fmt.Errorf("preparing the sign-in: %w", err)
		}
		err = c.client.Login(s.User, secret).Wait()
	}
	if err == nil {
		return nil
	}
	if no := refusal(err); no != nil && refusesSignIn(no) {
		return &refused{text: no.Text, password: secret}
	}
	return fmt.Errorf("signing in: %w", err)
}

// refused is a refused sign-in: ErrSignIn, and the password that was tried.
type refused struct{ text, password string }

// Error implements error. It does not tell the password.
func (r *refused) Error() string { return ErrSignIn.Error() + ": " + r.text }

// Unwrap makes it ErrSignIn.
func (r *refused) Unwrap() error { return ErrSignIn }

// changed reports that the password is another one since the sign-in was
// refused. A token is another one each time, so that says nothing.
func (s SignIn) changed(err error) bool {
	var r *refused
	if s.SASL != nil || !errors.As(err, &r) {
		return false
	}
	now, err := s.Password()
	return err == nil && now != r.password
}

// refusesSignIn tells a wrong password, or a way to sign in that the server does
// not have, from a server that is busy or unwell (RFC 5530 section 3).
func refusesSignIn(no *imap.Error) bool {
	switch no.Code {
	case imap.ResponseCodeUnavailable, imap.ResponseCodeInUse, imap.ResponseCodeLimit, imap.ResponseCodeServerBug:
		return false
	}
	return no.Type == imap.StatusResponseTypeNo || no.Type == imap.StatusResponseTypeBad
}

// refusal returns the server's NO, BAD or BYE in an error, nil when the error
// is of another kind.
func refusal(err error) *imap.Error {
	var no *imap.Error
	if errors.As(err, &no) {
		return no
	}
	return nil
}

// certificate marks an error that is about trust.
func certificate(err error) error {
	var verify *tls.CertificateVerificationError
	var unknown x509.UnknownAuthorityError
	var invalid x509.CertificateInvalidError
	var name x509.HostnameError
	if errors.As(err, &verify) || errors.As(err, &unknown) || errors.As(err, &invalid) || errors.As(err, &name) {
		return fmt.Errorf("%w: %w", ErrCertificate, err)
	}
	return err
}

// startTLSError tells a server without STARTTLS from a bad certificate.
func startTLSError(err error) error {
	if no := refusal(err); no != nil && no.Type != imap.StatusResponseTypeBye {
		return fmt.Errorf("%w: the server refuses STARTTLS: %s", ErrPlainText, no.Text)
	}
	return certificate(err)
}

// temporary keeps an error as it is; a BYE in place of a greeting is a server
// that has no room now.
func temporary(err error) error {
	if no := refusal(err); no != nil {
		return fmt.Errorf("the server is not ready: %s", no.Text)
	}
	return err
}

// grown runs in the library's reader, so it must not wait for anything.
func (c *conn) grown(data *imapclient.UnilateralDataMailbox) {
	if data.NumMessages == nil {
		return
	}
	select {
	case c.news <- struct{}{}:
	default:
	}
}

// do runs one command. It ends the connection when the command takes longer
// than limit, brings more than n bytes, or ctx ends.
func (c *conn) do(ctx context.Context, what string, limit time.Duration, n int64, command func() error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	c.wire.allow(n)
	var late atomic.Bool
	timer := time.AfterFunc(limit, func() {
		late.Store(true)
		c.wire.lost.Store(true)
		c.wire.Conn.Close()
	})
	defer timer.Stop()
	stop := context.AfterFunc(ctx, func() { c.wire.Conn.Close() })
	defer stop()

	err := command()
	switch {
	case err == nil:
		return nil
	case ctx.Err() != nil:
		return ctx.Err()
	case late.Load():
		return fmt.Errorf("%s: the mail server did not answer within %v", what, limit)
	case c.wire.spent.Load():
		return fmt.Errorf("%s: %w", what, errFlood)
	}
	return fmt.Errorf("%s: %w", what, err)
}

// close says goodbye if the server still listens, and closes.
func (c *conn) close() {
	timer := time.AfterFunc(time.Second, func() { c.wire.Conn.Close() })
	defer timer.Stop()
	c.wire.allow(answerBytes)
	if c.client.State() != imap.ConnStateLogout {
		c.client.Logout().Wait() // a courtesy; the connection is closed in any case
	}
	c.wire.Conn.Close()
}

// abort closes without a word, for a connection in an unknown state.
func (c *conn) abort() { c.wire.Conn.Close() }

// idle waits until the mailbox grows, d has passed or the connection breaks.
// Without IDLE it only waits.
func (c *conn) idle(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	if !c.caps.Has(imap.CapIdle) {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-timer.C:
		case <-c.news:
		case <-c.client.Closed():
		}
		return nil
	}
	var cmd *imapclient.IdleCommand
	err := c.do(ctx, "IDLE", c.patience, answerBytes, func() (err error) {
		cmd, err = c.client.Idle()
		return err
	})
	if err != nil {
		return err
	}
	select {
	case <-ctx.Done():
		c.abort()
	case <-timer.C:
	case <-c.news:
	case <-c.client.Closed():
	}
	return c.do(ctx, "ending IDLE", c.patience, answerBytes, func() error {
		err := cmd.Close()
		if werr := cmd.Wait(); err == nil {
			err = werr
		}
		return err
	})
}
