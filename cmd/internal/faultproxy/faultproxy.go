// Package faultproxy stands between a client and a server on loopback and
// spoils connections on purpose: closed, reset, fallen silent or slow, each
// after so many bytes. It knows nothing of what passes through it.
package faultproxy

import (
	"fmt"
	"net"
	"sync"
	"sync/atomic"
	"time"
)

// Kind is what happens to a connection.
type Kind int

// The kinds.
const (
	None  Kind = iota // nothing
	Close             // both ends are closed; TCP makes a reset of it where bytes are unread
	Reset             // the client's end is reset
	Stall             // nothing passes any more, and nobody is told: a link that is half open
	Slow              // a few bytes at a time from here on
)

// String implements fmt.Stringer.
func (k Kind) String() string { return [...]string{"none", "close", "reset", "stall", "slow"}[k] }

// Fault is what happens to one connection, and when.
type Fault struct {
	Kind  Kind
	After int // bytes that pass before
	// FromClient counts the bytes that the client sends, not those of the
	// server.
	FromClient bool
	// Life ends the connection after so long, whatever its kind; 0 for never.
	Life time.Duration
}

// How slow a slow connection is: some 3 kB a second.
const (
	slowBytes = 64
	slowPause = 20 * time.Millisecond
)

// Proxy is a running proxy.
type Proxy struct {
	Addr string // host:port

	target string
	plan   func(n int) Fault
	ln     net.Listener
	conns  atomic.Int64
	wg     sync.WaitGroup

	mu     sync.Mutex
	open   map[*link]bool
	closed bool
}

// Start listens on a free port of 127.0.0.1 and passes connections on to
// target. Plan says what happens to each; they are counted from 1. Nil spoils
// nothing.
func Start(target string, plan func(n int) Fault) (*Proxy, error) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	if plan == nil {
		plan = func(int) Fault { return Fault{} }
	}
	p := &Proxy{Addr: ln.Addr().String(), target: target, plan: plan, ln: ln, open: map[*link]bool{}}
	p.wg.Go(p.serve)
	return p, nil
}

// Conns is how many connections there were.
func (p *Proxy) Conns() int { return int(p.conns.Load()) }

// Close ends the proxy and all its connections.
func (p *Proxy) Close() error {
	err := p.ln.Close()
	p.mu.Lock()
	p.closed = true
	for l := range p.open {
		l.end()
	}
	p.mu.Unlock()
	p.wg.Wait()
	return err
}

func (p *Proxy) serve() {
	for {
		client, err := p.ln.Accept()
		if err != nil {
			return
		}
		f := p.plan(int(p.conns.Add(1)))
		p.wg.Go(func() { p.pass(client, f) })
	}
}

// pass carries one connection until either end or its fault ends it.
func (p *Proxy) pass(client net.Conn, f Fault) {
	server, err := net.Dial("tcp", p.target)
	if err != nil {
		client.Close() //nolint:errcheck // the server is down, and so is the way to it
		return
	}
	l := &link{client: client, server: server, fault: f}
	defer l.end()
	p.mu.Lock()
	if p.closed {
		p.mu.Unlock()
		return
	}
	p.open[l] = true
	p.mu.Unlock()
	if f.Life > 0 {
		defer time.AfterFunc(f.Life, l.end).Stop()
	}
	var both sync.WaitGroup
	both.Go(func() { l.carry(true) })
	both.Go(func() { l.carry(false) })
	both.Wait()
	p.mu.Lock()
	delete(p.open, l)
	p.mu.Unlock()
}

// link is one connection: two ends and what happens between them.
type link struct {
	client, server net.Conn
	fault          Fault
	silent         atomic.Bool // fallen silent
}

// end closes both ends; that they are closed already is nothing.
func (l *link) end() {
	l.client.Close() //nolint:errcheck // see above
	l.server.Close() //nolint:errcheck // see above
}

// carry passes on what one end sends.
func (l *link) carry(fromClient bool) {
	from, to := l.server, l.client
	if fromClient {
		from, to = l.client, l.server
	}
	left := -1 // bytes until the fault, -1 for none in this direction
	if l.fault.Kind != None && l.fault.FromClient == fromClient {
		left = l.fault.After
	}
	buffer := make([]byte, 16<<10)
	for {
		if left == 0 && l.fault.Kind != Slow && l.spoil() {
			return
		}
		n, err := from.Read(l.room(buffer, left))
		if n > 0 && !l.silent.Load() {
			if _, err := to.Write(buffer[:n]); err != nil {
				break
			}
			if left == 0 {
				time.Sleep(slowPause)
			}
		}
		left -= min(n, max(left, 0))
		if err != nil {
			break
		}
	}
	if l.silent.Load() && !fromClient {
		return // the client is not told that the server went away
	}
	l.end()
}

// room is how much is read at once: no more than up to the fault.
func (l *link) room(buffer []byte, left int) []byte {
	switch {
	case left < 0 || l.silent.Load():
		return buffer
	case left == 0:
		return buffer[:slowBytes]
	}
	return buffer[:min(len(buffer), left)]
}

// spoil lets the fault happen, and reports that the connection is over.
func (l *link) spoil() (over bool) {
	switch l.fault.Kind {
	case Stall:
		l.silent.Store(true)
		return false
	case Reset:
		if tcp, ok := l.client.(*net.TCPConn); ok {
			tcp.SetLinger(0) //nolint:errcheck // without it the end is closed in order
		}
	}
	l.end()
	return true
}
