package doctor

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"strings"
	"syscall"
	"time"

	"fairtape/cmd/internal/settings"
)

// greetTime is how long a server may take for its greeting. Those that test a
// client's patience wait some six seconds.
const greetTime = 8 * time.Second

// soonExpired is how long before its end a certificate is warned of; those that
// renew themselves do so some 30 days before.
const soonExpired = 14 * 24 * time.Hour

// service is what should answer at an address.
type service struct {
	name     string // "imap", as in the settings
	greeting string // what it begins with
	ports    string // which are usual
}

var (
	imapService = service{"imap", "* ", "993 with tls = \"implicit\", 143 with tls = \"starttls\""}
	smtpService = service{"smtp", "220", "465 with tls = \"implicit\", 587 with tls = \"starttls\""}
)

// answer is what was found at an address.
type answer struct {
	secured  bool // TLS from the first byte
	greeting string
	expires  time.Time // of the certificate, with secured
}

// reach tells whether the right kind of server answers in the right way, before
// anything secret is sent to it.
func (x *examination) reach(ctx context.Context, s service, c settings.Connection) bool {
	name := s.name + " connection"
	got, err := look(ctx, c.Address)
	if err != nil {
		x.unreachable(name, s, c, err)
		return false
	}
	wantSecured := c.TLS == settings.Implicit
	switch {
	case got.greeting != "" && !strings.HasPrefix(got.greeting, s.greeting):
		x.fault(name, "wrong-service", fmt.Sprintf("What answers at %s is no %s server; it says %q.", c.Address, strings.ToUpper(s.name), clip(got.greeting)),
			fmt.Sprintf("Look up host and port for %s with your provider; usual ports are %s.", strings.ToUpper(s.name), s.ports), x.Again)
		return false
	case wantSecured && !got.secured:
		x.fault(name, "wrong-tls", fmt.Sprintf("%s.tls is \"implicit\", but %s does not begin with TLS.", s.name, c.Address),
			fmt.Sprintf("Set %s.tls = \"starttls\", or take the other port; usual are %s.", s.name, s.ports), x.Again)
		return false
	case !wantSecured && got.secured:
		x.fault(name, "wrong-tls", fmt.Sprintf("%s.tls is %q, but %s begins with TLS at once.", s.name, c.TLS, c.Address),
			fmt.Sprintf("Set %s.tls = \"implicit\", or take the other port; usual are %s.", s.name, s.ports), x.Again)
		return false
	}
	if got.secured && got.expires.After(x.Now()) && got.expires.Before(x.Now().Add(soonExpired)) {
		x.warn(name, "certificate-ends-soon", fmt.Sprintf("The certificate of %s ends on %s.", c.Address, got.expires.Format(time.DateOnly)),
			"If the server is yours, renew it; else the provider will.", "")
	}
	x.ok(name, "%s answers.", c.Address)
	return true
}

// unreachable names why nothing answered.
func (x *examination) unreachable(name string, s service, c settings.Connection, err error) {
	host, _, _ := net.SplitHostPort(c.Address) // the settings were checked
	var dns *net.DNSError
	switch {
	case errors.As(err, &dns) && dns.IsNotFound:
		x.fault(name, "unknown-host", fmt.Sprintf("There is no server called %s.", host),
			fmt.Sprintf("Correct %s.address in %s; the provider's help pages name the server.", s.name, x.File), x.Again)
	case errors.As(err, &dns):
		x.fault(name, "no-name-service", fmt.Sprintf("The name %s cannot be looked up: %s.", host, dns.Err),
			"See that this machine is on the network.", "ping -c 1 "+host)
	case errors.Is(err, syscall.ECONNREFUSED):
		x.fault(name, "closed-port", fmt.Sprintf("Nothing listens at %s.", c.Address),
			fmt.Sprintf("Correct the port in %s.address; usual are %s.", s.name, s.ports), x.Again)
	case errors.Is(err, errSilent):
		x.fault(name, "silent", fmt.Sprintf("%s takes the connection, but says nothing.", c.Address),
			fmt.Sprintf("Check host and port; usual are %s. A firewall or virus scanner in between does this too.", s.ports), x.Again)
	case isTimeout(err):
		x.fault(name, "no-answer", fmt.Sprintf("%s does not answer.", c.Address),
			"A firewall may be in between, or the port may be wrong; usual are "+s.ports+".", x.Again)
	default:
		x.fault(name, "unreachable", fmt.Sprintf("%s cannot be reached: %v.", c.Address, err), "See that this machine is on the network.", x.Again)
	}
}

// errSilent: connected, but neither a greeting nor TLS came.
var errSilent = errors.New("the server says nothing")

func isTimeout(err error) bool {
	var n net.Error
	return errors.As(err, &n) && n.Timeout() || errors.Is(err, context.DeadlineExceeded)
}

// look finds out how a server begins, by waiting for its greeting and, on a
// second connection, offering TLS. Certificates are not judged here: nothing is
// sent that anybody could misuse, and the sign-in judges them.
func look(ctx context.Context, address string) (answer, error) {
	ctx, cancel := context.WithTimeout(ctx, greetTime)
	defer cancel() // ends the slower way
	type end struct {
		got answer
		err error
	}
	ways := []func(net.Conn, string) (answer, error){lookPlain, lookSecured}
	ends := make(chan end, len(ways))
	for _, way := range ways {
		go func() {
			got, err := lookOnce(ctx, address, way)
			ends <- end{got, err}
		}()
	}
	failure := errSilent
	for range ways {
		e := <-ends
		if e.err == nil {
			return e.got, nil
		}
		if op, ok := errors.AsType[*net.OpError](e.err); ok && op.Op == "dial" {
			failure = e.err
		}
	}
	return answer{}, failure
}

func lookOnce(ctx context.Context, address string, way func(net.Conn, string) (answer, error)) (answer, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return answer{}, err
	}
	conn, err := new(net.Dialer).DialContext(ctx, "tcp", address)
	if err != nil {
		return answer{}, err
	}
	stop := context.AfterFunc(ctx, func() { conn.Close() })
	defer stop()
	defer conn.Close() //nolint:errcheck // nothing was sent that could be lost
	return way(conn, host)
}

func lookPlain(conn net.Conn, _ string) (answer, error) {
	line, err := greeting(conn)
	return answer{greeting: line}, err
}

func lookSecured(conn net.Conn, host string) (answer, error) {
	t := tls.Client(conn, &tls.Config{ServerName: host, InsecureSkipVerify: true}) //nolint:gosec // see look
	if err := t.Handshake(); err != nil {
		return answer{}, err
	}
	got := answer{secured: true}
	if certs := t.ConnectionState().PeerCertificates; len(certs) > 0 {
		got.expires = certs[0].NotAfter
	}
	got.greeting, _ = greeting(t) // a server may still refuse the client's TLS here
	return got, nil
}

func greeting(conn net.Conn) (string, error) {
	const most = 1024
	line, err := bufio.NewReaderSize(conn, most).ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		err = nil
	}
	return strings.TrimRight(string(line), "\r\n"), err
}

// clip shortens what a stranger's server says.
func clip(s string) string {
	const most = 60
	if runes := []rune(s); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return s
}

// untrusted names what is wrong with a certificate.
func (x *examination) untrusted(name string, s service, c settings.Connection, err error) {
	host, _, _ := net.SplitHostPort(c.Address) // the settings were checked
	var invalid x509.CertificateInvalidError
	var hostname x509.HostnameError
	switch {
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired && x.Now().Before(invalid.Cert.NotBefore):
		x.fault(name, "certificate-not-yet", fmt.Sprintf("The certificate of %s holds from %s on, which has not come by this machine's clock.", host, invalid.Cert.NotBefore.Format(time.DateOnly)),
			"Set this machine's clock.", "timedatectl set-ntp true")
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired:
		x.fault(name, "certificate-expired", fmt.Sprintf("The certificate of %s ended on %s.", host, invalid.Cert.NotAfter.Format(time.DateOnly)),
			"If the server is yours, renew the certificate; else tell the provider. See that this machine's clock is right.", x.Again)
	case errors.As(err, &hostname):
		x.fault(name, "certificate-name", fmt.Sprintf("The server at %s shows a certificate that is not for that name.", host),
			fmt.Sprintf("Write the name into %s.address that the provider gives, not a number or a name of your own.", s.name), x.Again)
	default:
		x.fault(name, "certificate-unknown", fmt.Sprintf("The certificate of %s is signed by nobody that this machine knows.", host),
			fmt.Sprintf("If the server is yours, name its root in %s.ca_file. If not, somebody may be listening in between: a virus scanner, a guest network.", s.name), x.Again)
	}
}
