// Package smtptest is a mail server on loopback for tests and for the demo: it
// takes letters into memory, and fails when told to.
package smtptest

import (
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"net"
	"slices"
	"sync"
	"time"

	"github.com/emersion/go-sasl"
	gosmtp "github.com/emersion/go-smtp"
)

// Letter is what the server took over.
type Letter struct {
	From string
	To   []string
	Raw  []byte
}

// Faults says how the server fails from now on. The zero value is a server
// that works.
type Faults struct {
	Hello, Auth, Mail, Data int            // reply code at that command, 0: none; Data after the dot
	Rcpt                    map[string]int // reply code by recipient; "" is for all others
	DropInData              bool           // closes the connection before the letter has ended
	DropAfterDot            bool           // closes the connection without an answer
	KeepDropped             bool           // with DropAfterDot: the letter was taken over all the same
	Delay                   time.Duration  // before each answer
}

// Options is how the server listens. The zero value is plain text without a
// sign-in.
type Options struct {
	User, Password string      // sign-in demanded when set
	TLS            *tls.Config // nil: plain text
	Implicit       bool        // TLS from the first byte; otherwise STARTTLS
	// Took is called with each letter before the client hears that it was taken
	// over; nil does nothing.
	Took func(Letter)
}

// Server is a running mail server.
type Server struct {
	Addr string // host:port

	options Options
	server  *gosmtp.Server

	mu      sync.Mutex
	faults  Faults
	letters []Letter
	arrived chan struct{}
}

// Start starts a server on a free port of 127.0.0.1.
func Start(options Options) (*Server, error) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	s := &Server{Addr: ln.Addr().String(), options: options, arrived: make(chan struct{}, 1)}
	s.server = gosmtp.NewServer(gosmtp.BackendFunc(s.newSession))
	s.server.Domain = "mail.test.example"
	s.server.AllowInsecureAuth = true
	s.server.ErrorLog = silent{}
	if options.TLS != nil && options.Implicit {
		ln = tls.NewListener(ln, options.TLS)
	} else {
		s.server.TLSConfig = options.TLS
	}
	go s.server.Serve(ln)
	return s, nil
}

// Close ends the server and all connections.
func (s *Server) Close() error { return s.server.Close() }

// Fail sets the faults from now on.
func (s *Server) Fail(f Faults) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = f
}

// Letters returns what was taken over, in order.
func (s *Server) Letters() []Letter {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.letters)
}

// Arrived tells, without fail for the last one, that letters came.
func (s *Server) Arrived() <-chan struct{} { return s.arrived }

func (s *Server) fault() Faults {
	s.mu.Lock()
	f := s.faults
	s.mu.Unlock()
	time.Sleep(f.Delay)
	return f
}

func (s *Server) keep(l Letter) {
	if s.options.Took != nil {
		s.options.Took(l)
	}
	s.mu.Lock()
	s.letters = append(s.letters, l)
	s.mu.Unlock()
	select {
	case s.arrived <- struct{}{}:
	default:
	}
}

func (s *Server) newSession(c *gosmtp.Conn) (gosmtp.Session, error) {
	if err := reply(s.fault().Hello); err != nil {
		return nil, err
	}
	sess := &session{server: s, conn: c}
	if s.options.User == "" {
		sess.signedIn = true
		return sess, nil
	}
	return &authSession{sess}, nil
}

// session is one client's.
type session struct {
	server   *Server
	conn     *gosmtp.Conn
	signedIn bool
	letter   Letter
}

// Mail implements gosmtp.Session.
func (s *session) Mail(from string, _ *gosmtp.MailOptions) error {
	if err := reply(s.server.fault().Mail); err != nil {
		return err
	}
	if !s.signedIn {
		return gosmtp.ErrAuthRequired
	}
	s.letter = Letter{From: from}
	return nil
}

// Rcpt implements gosmtp.Session.
func (s *session) Rcpt(to string, _ *gosmtp.RcptOptions) error {
	f := s.server.fault()
	code, ok := f.Rcpt[to]
	if !ok {
		code = f.Rcpt[""]
	}
	if err := reply(code); err != nil {
		return err
	}
	s.letter.To = append(s.letter.To, to)
	return nil
}

// Data implements gosmtp.Session.
func (s *session) Data(r io.Reader) error {
	f := s.server.fault()
	if f.DropInData {
		s.conn.Conn().Close()
		return errors.New("dropped")
	}
	raw, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	l := s.letter
	l.Raw = raw
	if f.DropAfterDot {
		if f.KeepDropped {
			s.server.keep(l)
		}
		s.conn.Conn().Close()
		return errors.New("dropped")
	}
	if err := reply(f.Data); err != nil {
		return err
	}
	s.server.keep(l)
	return nil
}

// Reset implements gosmtp.Session.
func (s *session) Reset() { s.letter = Letter{} }

// Logout implements gosmtp.Session.
func (s *session) Logout() error { return nil }

// authSession is a session that demands a sign-in.
type authSession struct{ *session }

// AuthMechanisms implements gosmtp.AuthSession.
func (s *authSession) AuthMechanisms() []string { return []string{sasl.Plain} }

// Auth implements gosmtp.AuthSession.
func (s *authSession) Auth(string) (sasl.Server, error) {
	if err := reply(s.server.fault().Auth); err != nil {
		return nil, err
	}
	return sasl.NewPlainServer(func(_, user, password string) error {
		if user != s.server.options.User || password != s.server.options.Password {
			return gosmtp.ErrAuthFailed
		}
		s.signedIn = true
		return nil
	}), nil
}

// reply is the error that makes the server answer with a code; nil for 0.
func reply(code int) error {
	if code == 0 {
		return nil
	}
	return &gosmtp.SMTPError{
		Code:         code,
		EnhancedCode: gosmtp.EnhancedCode{code / 100, 0, 0},
		Message:      "told to answer so",
	}
}

// silent drops what the library would log about dropped connections.
type silent struct{}

// Printf implements gosmtp.Logger.
func (silent) Printf(string, ...any) {}

// Println implements gosmtp.Logger.
func (silent) Println(...any) {}
