// Package smtp hands a letter to the shop's mail server, and tells apart the
// four ways that can end: sent, refused, to be tried again, and unknown.
package smtp

import (
	"crypto/x509"
	"errors"

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

// Outcome is what became of a letter for one recipient.
type Outcome int

// The outcomes. Only Temporary may be tried again without a person.
const (
	Sent      Outcome = iota + 1 // the server took it over
	Temporary                    // 4xx, or the connection failed before the letter had ended
	Refused                      // 5xx
	Unknown                      // the connection was lost after the final dot: perhaps sent
)

// String names the outcome for a log.
func (o Outcome) String() string {
	switch o {
	case Sent:
		return "sent"
	case Temporary:
		return "temporary"
	case Refused:
		return "refused"
	case Unknown:
		return "unknown"
	}
	return "none"
}

// Result is the outcome for one recipient.
type Result struct {
	To      string
	Outcome Outcome
	Code    int   // the server's reply code, 0 when it gave none
	Err     error // nil when sent; errors.Is tells ErrSignIn, ErrCertificate, ErrPlainText
}

// Sender is how to reach the mail server. The zero Hello is "localhost".
type Sender struct {
	Address  string // host:port
	Security Security
	Roots    *x509.CertPool // trusted roots; nil: the system's
	Hello    string         // name given in EHLO
	// SASL makes a new client for one sign-in; nil: no sign-in.
	SASL func() (sasl.Client, error)
}

// Errors that a caller can tell apart. They are trouble of the connection, not
// of the letter: a letter that met one has the outcome Temporary.
var (
	ErrSignIn = errors.New("the mail server refused the sign-in")
	// ErrNoSignIn: the server offers no sign-in here, or not the kind that the
	// settings name. It comes with ErrSignIn.
	ErrNoSignIn    = errors.New("it does not offer this kind of sign-in")
	ErrCertificate = errors.New("the mail server's certificate is not trusted")
	ErrPlainText   = errors.New("the connection would not be encrypted")
	// ErrSender: the server does not take letters from this address. Of Probe
	// only.
	ErrSender = errors.New("the mail server refused the sender's address")
)
