// Package mailboxtest has IMAP servers on loopback, for tests and for the demo:
// one in memory, one that plays a script of faults, and a real Dovecot where
// that is installed.
package mailboxtest

import (
	"bytes"
	"crypto/tls"
	"fmt"
	"io"
	"log"
	"maps"
	"net"
	"slices"
	"sync"
	"time"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-imap/v2/imapclient"
	"github.com/emersion/go-imap/v2/imapserver"
	"github.com/emersion/go-imap/v2/imapserver/imapmemserver"
)

// The one account of the server in memory.
const (
	User     = "orders"
	Password = "loopback-only"
)

// Options is how the server listens and what it can do. The zero value is
// plain text, with IDLE, UIDPLUS and SPECIAL-USE, Drafts and Sent.
type Options struct {
	TLS      *tls.Config // nil: plain text
	Implicit bool        // TLS from the first byte; otherwise STARTTLS
	// Special are the mailboxes beside INBOX and what they are marked with; nil
	// means Drafts and Sent, marked so.
	Special map[string]imap.MailboxAttr
	// ReadOnly are mailboxes in which nobody may change anything.
	ReadOnly []string
	// Late is how long the server takes from when a message for a mailbox has
	// come until it stores it, also if the client is gone by then; nil means no
	// time.
	Late func(mailbox string) time.Duration
	// Plain takes away UIDPLUS and SPECIAL-USE, and the marks of mailboxes.
	Plain bool
}

// Server is an IMAP server that keeps its mail in memory.
type Server struct {
	Addr string // host:port

	options Options
	user    *imapmemserver.User
	server  *imapserver.Server

	mu       sync.Mutex
	names    map[string]imap.MailboxAttr
	validity map[string]uint32 // what is said in place of the real one
	logins   int
	stalled  map[string]stall // by mailbox
}

// Start starts a server on a free port of 127.0.0.1.
func Start(options Options) (*Server, error) {
	if options.Special == nil {
		options.Special = map[string]imap.MailboxAttr{
			"Drafts": imap.MailboxAttrDrafts, "Sent": imap.MailboxAttrSent,
		}
	}
	s := &Server{
		options:  options,
		user:     imapmemserver.NewUser(User, Password),
		names:    maps.Clone(options.Special),
		validity: make(map[string]uint32),
		stalled:  make(map[string]stall),
	}
	s.names["INBOX"] = ""
	for name := range s.names {
		if err := s.user.Create(name, nil); err != nil {
			return nil, fmt.Errorf("making %s: %w", name, err)
		}
	}
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	s.Addr = ln.Addr().String()
	config := &imapserver.Options{
		NewSession: func(*imapserver.Conn) (imapserver.Session, *imapserver.GreetingData, error) {
			return &session{server: s}, nil, nil
		},
		InsecureAuth: true,
		Logger:       log.New(io.Discard, "", 0),
		Caps: imap.CapSet{
			imap.CapIMAP4rev1: {}, imap.CapUIDPlus: {}, imap.CapSpecialUse: {}, imap.CapListExtended: {},
		},
	}
	if options.Plain {
		config.Caps = imap.CapSet{imap.CapIMAP4rev1: {}}
	}
	if options.TLS != nil && options.Implicit {
		ln = tls.NewListener(ln, options.TLS)
	} else {
		config.TLSConfig = options.TLS
	}
	s.server = imapserver.New(config)
	go s.server.Serve(ln)
	return s, nil
}

// Close ends the server and all connections.
func (s *Server) Close() error { return s.server.Close() }

// Append puts a message into a mailbox and returns its UID.
func (s *Server) Append(mailbox string, raw []byte, received time.Time, flags ...imap.Flag) (uint32, error) {
	data, err := s.user.Append(mailbox, bytes.NewReader(raw), &imap.AppendOptions{Time: received, Flags: flags})
	if err != nil {
		return 0, fmt.Errorf("appending to %s: %w", mailbox, err)
	}
	return uint32(data.UID), nil
}

// Logins is how often somebody tried to sign in.
func (s *Server) Logins() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.logins
}

// Renumber changes what the server says is the mailbox's UIDVALIDITY, as if it
// had been made anew. The UIDs stay.
func (s *Server) Renumber(mailbox string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.validity[mailbox] += 1000
}

// Stall lets the next append to a mailbox wait, once the whole message has
// come, until resume is called. It is done then even if the client is gone.
// Came is closed when it waits.
func (s *Server) Stall(mailbox string) (came <-chan struct{}, resume func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	one := stall{came: make(chan struct{}), over: make(chan struct{})}
	s.stalled[mailbox] = one
	return one.came, sync.OnceFunc(func() { close(one.over) })
}

// stall is an append that waits.
type stall struct{ came, over chan struct{} }

// wait waits if the next append to the mailbox is to.
func (s *Server) wait(mailbox string) {
	s.mu.Lock()
	one, ok := s.stalled[mailbox]
	delete(s.stalled, mailbox)
	s.mu.Unlock()
	if ok {
		close(one.came)
		<-one.over
	}
	if s.options.Late != nil {
		time.Sleep(s.options.Late(mailbox))
	}
}

// Empty makes the mailbox anew, without messages and with the UIDs starting
// over, but under its old UIDVALIDITY: what a careless restore does.
func (s *Server) Empty(mailbox string) error {
	old, err := s.user.Status(mailbox, &imap.StatusOptions{UIDValidity: true})
	if err != nil {
		return err
	}
	if err := s.user.Delete(mailbox); err != nil {
		return err
	}
	if err := s.user.Create(mailbox, nil); err != nil {
		return err
	}
	now, err := s.user.Status(mailbox, &imap.StatusOptions{UIDValidity: true})
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.validity[mailbox] += old.UIDValidity - now.UIDValidity
	return nil
}

// Messages returns all messages of a mailbox.
func (s *Server) Messages(mailbox string) ([]Message, error) {
	var tlsConfig *tls.Config
	if s.options.TLS != nil {
		tlsConfig = &tls.Config{InsecureSkipVerify: true} // our own server, on loopback
	}
	return Messages(s.Addr, tlsConfig, s.options.Implicit, User, Password, mailbox)
}

// said is the UIDVALIDITY that is told for a mailbox.
func (s *Server) said(mailbox string, real uint32) uint32 {
	s.mu.Lock()
	defer s.mu.Unlock()
	return real + s.validity[mailbox]
}

// session is one connection. Before the sign-in UserSession is nil.
type session struct {
	*imapmemserver.UserSession
	server *Server
}

// Login implements imapserver.Session.
func (s *session) Login(user, password string) error {
	s.server.mu.Lock()
	s.server.logins++
	s.server.mu.Unlock()
	if err := s.server.user.Login(user, password); err != nil {
		return err
	}
	s.UserSession = imapmemserver.NewUserSession(s.server.user)
	return nil
}

// List implements imapserver.Session: the server in memory has no way to mark
// mailboxes.
func (s *session) List(w *imapserver.ListWriter, ref string, patterns []string, options *imap.ListOptions) error {
	s.server.mu.Lock()
	names := maps.Clone(s.server.names)
	s.server.mu.Unlock()
	for _, name := range slices.Sorted(maps.Keys(names)) {
		matches := slices.ContainsFunc(patterns, func(p string) bool {
			return imapserver.MatchList(name, '/', ref, p)
		})
		if !matches {
			continue
		}
		data := &imap.ListData{Mailbox: name, Delim: '/'}
		if use := names[name]; use != "" && !s.server.options.Plain {
			data.Attrs = []imap.MailboxAttr{use}
		}
		if err := w.WriteList(data); err != nil {
			return err
		}
	}
	return nil
}

// Create implements imapserver.Session.
func (s *session) Create(name string, options *imap.CreateOptions) error {
	if err := s.UserSession.Create(name, options); err != nil {
		return err
	}
	s.server.mu.Lock()
	defer s.server.mu.Unlock()
	s.server.names[name] = ""
	return nil
}

// Select implements imapserver.Session.
func (s *session) Select(name string, options *imap.SelectOptions) (*imap.SelectData, error) {
	data, err := s.UserSession.Select(name, options)
	if err == nil {
		data.UIDValidity = s.server.said(name, data.UIDValidity)
		if slices.Contains(s.server.options.ReadOnly, name) {
			data.PermanentFlags = nil
		}
	}
	return data, err
}

// Append implements imapserver.Session. No part of a message is kept when the
// client is gone before all of it has come (RFC 9051 section 6.3.12); the server
// in memory would keep it.
func (s *session) Append(name string, r imap.LiteralReader, options *imap.AppendOptions) (*imap.AppendData, error) {
	if slices.Contains(s.server.options.ReadOnly, name) {
		return nil, &imap.Error{Type: imap.StatusResponseTypeNo, Code: imap.ResponseCodeNoPerm, Text: "this mailbox is read-only"}
	}
	raw := make([]byte, r.Size())
	if _, err := io.ReadFull(r, raw); err != nil {
		return nil, fmt.Errorf("appending to %s: %w", name, err)
	}
	s.server.wait(name)
	data, err := s.UserSession.Append(name, bytes.NewReader(raw), options)
	if err == nil {
		data.UIDValidity = s.server.said(name, data.UIDValidity)
	}
	return data, err
}

// idleTick is how soon an idling client is told of new mail.
const idleTick = 20 * time.Millisecond

// Idle implements imapserver.Session. The one of the server in memory does not
// tell what came between the last command and IDLE.
func (s *session) Idle(w *imapserver.UpdateWriter, stop <-chan struct{}) error {
	tick := time.NewTicker(idleTick)
	defer tick.Stop()
	for {
		select {
		case <-stop:
			return nil
		case <-tick.C:
			if err := s.Poll(w, true); err != nil {
				return err
			}
		}
	}
}

// Message is what lies in a mailbox.
type Message struct {
	UID      uint32
	Flags    []imap.Flag
	Received time.Time
	Raw      []byte
}

// Messages returns all messages of a mailbox of any server. A nil config means
// plain text.
func Messages(addr string, config *tls.Config, implicit bool, user, password, mailbox string) ([]Message, error) {
	c, err := connect(addr, config, implicit)
	if err != nil {
		return nil, fmt.Errorf("connecting: %w", err)
	}
	defer c.Close()
	if err := c.Login(user, password).Wait(); err != nil {
		return nil, fmt.Errorf("signing in: %w", err)
	}
	selected, err := c.Select(mailbox, &imap.SelectOptions{ReadOnly: true}).Wait()
	if err != nil {
		return nil, fmt.Errorf("opening %s: %w", mailbox, err)
	}
	if selected.NumMessages == 0 {
		return nil, nil
	}
	section := &imap.FetchItemBodySection{Peek: true}
	found, err := c.Fetch(imap.SeqSet{{Start: 1, Stop: 0}}, &imap.FetchOptions{
		UID: true, Flags: true, InternalDate: true, BodySection: []*imap.FetchItemBodySection{section},
	}).Collect()
	if err != nil {
		return nil, fmt.Errorf("fetching: %w", err)
	}
	var out []Message
	for _, m := range found {
		out = append(out, Message{
			UID: uint32(m.UID), Flags: m.Flags, Received: m.InternalDate, Raw: m.FindBodySection(section),
		})
	}
	return out, nil
}

func connect(addr string, config *tls.Config, implicit bool) (*imapclient.Client, error) {
	options := &imapclient.Options{TLSConfig: config}
	switch {
	case config == nil:
		return imapclient.DialInsecure(addr, options)
	case implicit:
		return imapclient.DialTLS(addr, options)
	}
	return imapclient.DialStartTLS(addr, options)
}
