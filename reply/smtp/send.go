package smtp

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"sync/atomic"
	"time"

	gosmtp "github.com/emersion/go-smtp"
)

// Deadlines. RFC 5321 section 4.5.3.2 allows a server up to ten minutes after
// the dot; a server of submission answers in seconds, and a letter whose
// outcome is unknown goes to a person, not to a second try.
const (
	commandTime = 30 * time.Second
	finalTime   = 120 * time.Second
)

// Send hands a whole message to the server for the given recipients, and
// returns one result for each, in their order. Before the letter has ended,
// the end of ctx stops it; behind the final dot the answer is waited for in any
// case, as stopping there would only make the outcome unknown.
//
// A message without bare line feeds goes out byte for byte.
func (s Sender) Send(ctx context.Context, from string, to []string, raw []byte) []Result {
	results := make([]Result, len(to))
	for i := range to {
		results[i].To = to[i]
	}
	c, err := s.dial(ctx)
	if err != nil {
		return settle(results, err)
	}
	defer c.close()
	if err := c.envelope(from, results, len(raw)); err != nil {
		return settle(results, err)
	}
	if !anyOpen(results) {
		c.Quit()
		return results
	}
	return c.data(ctx, results, raw)
}

// Probe connects, signs in and leaves, for a live test of the settings.
func (s Sender) Probe(ctx context.Context) error {
	c, err := s.dial(ctx)
	if err != nil {
		return err
	}
	defer c.close()
	if err := c.Noop(); err != nil {
		return fmt.Errorf("asking the mail server: %w", err)
	}
	c.Quit()
	return nil
}

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
	err = c.Auth(auth)
	if reply := replyOf(err); reply != nil && reply.Code/100 == 5 {
		return fmt.Errorf("%w: %s", ErrSignIn, reply.Message)
	}
	if err != nil {
		return fmt.Errorf("signing in: %w", err)
	}
	return nil
}

func (c *client) close() {
	c.stop()
	c.wire.Close()
}

// envelope names sender and recipients. Recipients that are turned down get
// their result; an error turns down the letter.
func (c *client) envelope(from string, results []Result, size int) error {
	if most, ok := c.MaxMessageSize(); ok && most > 0 && size > most {
		return &gosmtp.SMTPError{Code: 552, Message: fmt.Sprintf("the letter has %d bytes, the mail server takes %d", size, most)}
	}
	options := &gosmtp.MailOptions{Size: int64(size)}
	if utf8, _ := c.Extension("SMTPUTF8"); utf8 && !allASCII(from, results) {
		options.UTF8 = true
	}
	if err := c.Mail(from, options); err != nil {
		return fmt.Errorf("naming the sender: %w", err)
	}
	for i := range results {
		err := c.Rcpt(results[i].To, nil)
		if err == nil {
			continue
		}
		if replyOf(err) == nil {
			return fmt.Errorf("naming the recipient: %w", err)
		}
		results[i] = judge(results[i].To, err)
	}
	return nil
}

// data sends the letter itself to the recipients that are still open.
func (c *client) data(ctx context.Context, results []Result, raw []byte) []Result {
	w, err := c.Data()
	if err != nil {
		return settle(results, fmt.Errorf("beginning the letter: %w", err))
	}
	c.wire.SetWriteDeadline(time.Now().Add(finalTime))
	if _, err := bytes.NewReader(raw).WriteTo(w); err != nil {
		return settle(results, fmt.Errorf("sending the letter: %w", err))
	}
	c.stop() // from here on the answer is waited for
	if ctx.Err() != nil {
		return settle(results, ctx.Err())
	}
	err = w.Close()
	switch {
	case err == nil:
		for i := range results {
			if results[i].Outcome == 0 {
				results[i].Outcome, results[i].Code = Sent, 250
			}
		}
		c.Quit()
		return results
	case replyOf(err) != nil || c.wire.failed.Load():
		return settle(results, fmt.Errorf("ending the letter: %w", err))
	}
	for i := range results {
		if results[i].Outcome == 0 {
			results[i].Outcome, results[i].Err = Unknown, fmt.Errorf("no answer after the whole letter was sent: %w", err)
		}
	}
	return results
}

func anyOpen(results []Result) bool {
	for _, r := range results {
		if r.Outcome == 0 {
			return true
		}
	}
	return false
}

// settle gives all open recipients the result of err.
func settle(results []Result, err error) []Result {
	for i := range results {
		if results[i].Outcome == 0 {
			results[i] = judge(results[i].To, err)
		}
	}
	return results
}

// judge tells a refusal from trouble that may pass. A refused sign-in says
// nothing about the letter, so it is no refusal of it.
func judge(to string, err error) Result {
	r := Result{To: to, Outcome: Temporary, Err: err}
	if reply := replyOf(err); reply != nil {
		r.Code = reply.Code
		if reply.Code/100 == 5 {
			r.Outcome = Refused
		}
	}
	return r
}

// replyOf returns the server's reply in an error, nil when there was none.
func replyOf(err error) *gosmtp.SMTPError {
	var reply *gosmtp.SMTPError
	if errors.As(err, &reply) {
		return reply
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

func allASCII(from string, results []Result) bool {
	all := from
	for _, r := range results {
		all += r.To
	}
	for _, c := range []byte(all) {
		if c >= 0x80 {
			return false
		}
	}
	return true
}
