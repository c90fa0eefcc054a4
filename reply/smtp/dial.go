package smtp

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"sync/atomic"
	"time"

	"github.com/emersion/go-sasl"
	gosmtp "github.com/emersion/go-smtp"
)

// client is one connection, signed in.
type client struct {
	*gosmtp.Client
	wire *wire
	stop func() bool // ends the watch over ctx
}

// wire remembers whether a write failed. The last write of a letter holds the
// final dot: when it failed, the dot did not go out whole.
type wire struct {
	net.Conn
	failed atomic.Bool
}

// Write implements io.Writer.
func (w *wire) Write(p []byte) (int, error) {
	n, err := w.Conn.Write(p)
	if err != nil {
		w.failed.Store(true)
	}
	return n, err
}

func (s Sender) dial(ctx context.Context) (*client, error) {
	host, _, err := net.SplitHostPort(s.Address)
	if err != nil {
		return nil, fmt.Errorf("mail server address %q: %w", s.Address, err)
	}
	if s.Security == None && !loopback(host) {
		return nil, fmt.Errorf("%w: tls is \"none\" for %s, which is not this machine", ErrPlainText, host)
	}
	d := net.Dialer{Timeout: commandTime}
	raw, err := d.DialContext(ctx, "tcp", s.Address)
	if err != nil {
		return nil, fmt.Errorf("connecting to the mail server: %w", err)
	}
	c := &client{wire: &wire{Conn: raw}}
	c.stop = context.AfterFunc(ctx, func() { raw.Close() })
	if err := s.open(ctx, c, host); err != nil {
		c.close()
		return nil, err
	}
	return c, nil
}

// open secures the connection, greets and signs in.
func (s Sender) open(ctx context.Context, c *client, host string) error {
	config := &tls.Config{ServerName: host, RootCAs: s.Roots, MinVersion: tls.VersionTLS12}
	switch s.Security {
	case Implicit:
		t := tls.Client(c.wire, config)
		shake, cancel := context.WithTimeout(ctx, commandTime)
		defer cancel()
		if err := t.HandshakeContext(shake); err != nil {
			return fmt.Errorf("securing the connection: %w", certificate(err))
		}
		c.use(gosmtp.NewClient(t))
	case StartTLS:
		// The library waits five minutes for each answer here.
		timer := time.AfterFunc(commandTime, func() { c.wire.Close() })
		defer timer.Stop()
		client, err := gosmtp.NewClientStartTLS(c.wire, config)
		if err != nil {
			return fmt.Errorf("securing the connection: %w", startTLSError(err))
		}
		c.use(client)
	case None:
		c.use(gosmtp.NewClient(c.wire))
	default:
		return fmt.Errorf("mail server tls %q: want implicit, starttls or none", s.Security)
	}
	if err := s.greet(c); err != nil {
		return err
	}
	return s.signIn(c)
}

func (c *client) use(g *gosmtp.Client) {
	g.CommandTimeout, g.SubmissionTimeout = commandTime, finalTime
	c.Client = g
}

func (s Sender) greet(c *client) error {
	hello := s.Hello
	if hello == "" {
		hello = "localhost"
	}
	if err := c.Hello(hello); err != nil {
		return fmt.Errorf("greeting the mail server: %w", certificate(err))
	}
	return nil
}

func (s Sender) signIn(c *client) error {
	if s.SASL == nil {
		return nil
	}
	auth, err := s.SASL()
	if err != nil {
		return fmt.Errorf("preparing the sign-in: %w", err)
	}
	if err := offered(c, auth); err != nil {
		return err
	}
	err = c.Auth(auth)
	if reply := replyOf(err); reply != nil && reply.Code/100 == 5 {
		return fmt.Errorf("%w: %s", ErrSignIn, reply.Message)
	}
	if err != nil {
		return fmt.Errorf("signing in: %w", err)
	}
	return nil
}

// offered tells whether the server offers a kind of sign-in (RFC 4954 section
// 3). Asking for one that is not offered would end as a wrong password does.
func offered(c *client, auth sasl.Client) error {
	kind, _, err := auth.Start()
	if err != nil {
		return fmt.Errorf("preparing the sign-in: %w", err)
	}
	if c.SupportsAuth(kind) {
		return nil
	}
	if _, others := c.Extension("AUTH"); others != "" {
		return fmt.Errorf("%w: %w: %s is asked for, it offers %s", ErrSignIn, ErrNoSignIn, kind, others)
	}
	return fmt.Errorf("%w: %w: it offers none on this port", ErrSignIn, ErrNoSignIn)
}

func (c *client) close() {
	c.stop()
	c.wire.Close()
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

// startTLSError marks a server that does not offer STARTTLS.
func startTLSError(err error) error {
	if err.Error() == "smtp: server doesn't support STARTTLS" {
		return fmt.Errorf("%w: the server does not offer STARTTLS", ErrPlainText)
	}
	return certificate(err)
}

func loopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
