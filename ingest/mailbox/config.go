package mailbox

import (
	"crypto/x509"
	"errors"
	"fmt"
	"log/slog"
	"net"

	"github.com/emersion/go-sasl"
)

// Security says how a connection is protected.
type Security string

// The three ways; their words are those of the settings file.
const (
	Implicit Security = "implicit" // TLS from the first byte
	StartTLS Security = "starttls" // TLS after STARTTLS, never without it
	None     Security = "none"     // plain text, to a loopback address only
)

// Config is how to reach one mailbox account.
type Config struct {
	Account  string // the name that cursors and locations carry
	Address  string // host:port
	Security Security
	Roots    *x509.CertPool // trusted roots; nil: the system's
	SignIn   SignIn

	Inbox  string // "" means INBOX
	Drafts string // "" means the mailbox marked \Drafts, else one with a usual name
	Sent   string // "" means the mailbox marked \Sent, else one with a usual name

	Log *slog.Logger // nil: nothing is logged
}

// SignIn is how the account is entered. Exactly one of Password and SASL is
// used; SASL wins.
type SignIn struct {
	User string
	// Password is asked at each sign-in, for LOGIN: one that was changed is
	// taken without a new start.
	Password func() (string, error)
	// SASL makes a new client for one sign-in, so that a fresh access token can
	// be fetched each time.
	SASL func() (sasl.Client, error)
}

// Errors that a caller can tell apart.
var (
	// ErrSignIn: the server refused user or password. Trying again soon does
	// harm: accounts get locked.
	ErrSignIn = errors.New("the mail server refused the sign-in")
	// ErrCertificate: the server's certificate is not to be trusted.
	ErrCertificate = errors.New("the mail server's certificate is not trusted")
	// ErrPlainText: TLS is switched off for an address that is not loopback,
	// or the server does not offer STARTTLS.
	ErrPlainText = errors.New("the connection would not be encrypted")
	// ErrNoMailbox: the server knows no mailbox of that name, or shows it to
	// others only.
	ErrNoMailbox = errors.New("the mail server has no such mailbox")
	// ErrTooLarge: the message is over MaxMessageBytes and was not fetched.
	ErrTooLarge = errors.New("the message is too large")
	// ErrGone: the message is no longer there.
	ErrGone = errors.New("the message is no longer in the mailbox")
	// ErrRenumbered: UIDVALIDITY changed, so the location means nothing now.
	ErrRenumbered = errors.New("the mailbox was numbered anew")
	// ErrBreaks: fetching the message broke the connection each time.
	ErrBreaks = errors.New("fetching the message breaks the connection")
)

// MaxMessageBytes is the largest message that is fetched: 50 MB, as phones and
// scanners send mails of 40 MB.
const MaxMessageBytes = 50 << 20

func (c Config) inbox() string {
	if c.Inbox == "" {
		return "INBOX"
	}
	return c.Inbox
}

func (c Config) log() *slog.Logger {
	if c.Log == nil {
		return slog.New(slog.DiscardHandler)
	}
	return c.Log
}

// check refuses a configuration that would send a password in plain text.
func (c Config) check() (host string, err error) {
	host, _, err = net.SplitHostPort(c.Address)
	if err != nil {
		return "", fmt.Errorf("mail server address %q: %w", c.Address, err)
	}
	switch c.Security {
	case Implicit, StartTLS:
	case None:
		if !loopback(host) {
			return "", fmt.Errorf("%w: tls is \"none\" for %s, which is not this machine", ErrPlainText, host)
		}
	default:
		return "", fmt.Errorf("mail server tls %q: want implicit, starttls or none", c.Security)
	}
	return host, nil
}

func loopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
