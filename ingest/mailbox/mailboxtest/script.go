package mailboxtest

import (
	"bufio"
	"errors"
	"fmt"
	"net"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// Script is an IMAP server that plays what a test tells it, to break the
// protocol on purpose. Each connection is handed to play, which may return at
// any time; then the connection is closed.
type Script struct {
	Addr string // host:port

	ln    net.Listener
	conns atomic.Int32
	wg    sync.WaitGroup
	mu    sync.Mutex
	open  map[net.Conn]bool
}

// StartScript starts a server on a free port of 127.0.0.1. The second argument
// of play counts connections from 1.
func StartScript(play func(c *ScriptConn, n int)) (*Script, error) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	s := &Script{Addr: ln.Addr().String(), ln: ln, open: make(map[net.Conn]bool)}
	s.wg.Go(func() { s.serve(play) })
	return s, nil
}

func (s *Script) serve(play func(*ScriptConn, int)) {
	for {
		nc, err := s.ln.Accept()
		if err != nil {
			return
		}
		n := int(s.conns.Add(1))
		s.mu.Lock()
		s.open[nc] = true
		s.mu.Unlock()
		s.wg.Go(func() {
			play(&ScriptConn{Conn: nc, r: bufio.NewReader(nc)}, n)
			nc.Close()
			s.mu.Lock()
			delete(s.open, nc)
			s.mu.Unlock()
		})
	}
}

// Connections is how many clients have connected so far.
func (s *Script) Connections() int { return int(s.conns.Load()) }

// Close ends the server and all connections, and waits for them.
func (s *Script) Close() error {
	err := s.ln.Close()
	s.mu.Lock()
	for nc := range s.open {
		nc.Close()
	}
	s.mu.Unlock()
	s.wg.Wait()
	return err
}

// ScriptConn is one connection of a Script.
type ScriptConn struct {
	net.Conn
	r *bufio.Reader
}

// errEnd says that the client went away.
var errEnd = errors.New("the client closed the connection")

// Send writes lines, each with its CRLF.
func (c *ScriptConn) Send(lines ...string) {
	for _, l := range lines {
		// A client that went away is what some scripts are about.
		fmt.Fprintf(c.Conn, "%s\r\n", l)
	}
}

// Next reads one command: its tag and the rest of its line. An error says that
// the client closed the connection.
func (c *ScriptConn) Next() (tag, command string, err error) {
	line, err := c.r.ReadString('\n')
	if err != nil {
		return "", "", errEnd
	}
	tag, command, _ = strings.Cut(strings.TrimRight(line, "\r\n"), " ")
	return tag, command, nil
}

// ScriptBox is a mailbox that a Script shows: one inbox whose messages have the
// UIDs 1 to Count, 10 bytes each.
type ScriptBox struct {
	Count       int
	UIDValidity uint32
}

// Serve plays a server that works, except for the commands in faults, whose
// function plays instead; it reports whether the connection goes on. Commands
// are matched by their beginning, the longest first.
func (c *ScriptConn) Serve(box ScriptBox, faults map[string]func(tag, command string) bool) {
	c.Send("* OK [CAPABILITY IMAP4rev1 IDLE UIDPLUS] ready")
	for {
		tag, command, err := c.Next()
		if err != nil {
			return
		}
		if fault := longest(faults, command); fault != nil {
			if !fault(tag, command) {
				return
			}
			continue
		}
		if !c.answer(box, tag, command) {
			return
		}
	}
}

func longest(faults map[string]func(string, string) bool, command string) func(string, string) bool {
	best := ""
	for prefix := range faults {
		if strings.HasPrefix(command, prefix) && len(prefix) > len(best) {
			best = prefix
		}
	}
	return faults[best]
}

// answer plays one command of a server that works.
func (c *ScriptConn) answer(box ScriptBox, tag, command string) bool {
	verb, args, _ := strings.Cut(command, " ")
	switch verb {
	case "CAPABILITY":
		c.Send("* CAPABILITY IMAP4rev1 IDLE UIDPLUS", tag+" OK done")
	case "EXAMINE", "SELECT":
		c.Send(fmt.Sprintf("* %d EXISTS", box.Count), `* FLAGS (\Seen)`,
			fmt.Sprintf("* OK [UIDVALIDITY %d] ok", box.UIDValidity),
			fmt.Sprintf("* OK [UIDNEXT %d] ok", box.Count+1),
			tag+" OK [READ-ONLY] done")
	case "IDLE":
		c.Send("+ idling")
		done, _, err := c.Next()
		if err != nil || done != "DONE" {
			return false
		}
		c.Send(tag + " OK done")
	case "UID":
		c.uid(box, tag, args)
	case "LOGOUT":
		c.Send("* BYE", tag+" OK")
		return false
	default:
		c.Send(tag + " OK done")
	}
	return true
}

func (c *ScriptConn) uid(box ScriptBox, tag, args string) {
	verb, rest, _ := strings.Cut(args, " ")
	switch verb {
	case "SEARCH":
		line := "* SEARCH"
		for uid := 1; uid <= box.Count; uid++ {
			line += fmt.Sprintf(" %d", uid)
		}
		c.Send(line, tag+" OK done")
	case "FETCH":
		set, items, _ := strings.Cut(rest, " ")
		for _, uid := range uidsOf(set, box.Count) {
			if strings.Contains(items, "BODY") {
				c.Send(fmt.Sprintf("* %d FETCH (UID %d BODY[] {10}", uid, uid), "message"+fmt.Sprintf("%3d)", uid))
				continue
			}
			c.Send(ScriptMeta(uid, 10))
		}
		c.Send(tag + " OK done")
	default:
		c.Send(tag + " OK done")
	}
}

// ScriptMeta is the answer to a look at a message.
func ScriptMeta(uid, size int) string {
	return fmt.Sprintf(`* %d FETCH (UID %d FLAGS () RFC822.SIZE %d INTERNALDATE "%s")`,
		uid, uid, size, time.Now().Format("02-Jan-2006 15:04:05 -0700"))
}

// uidsOf reads a set of UIDs, "*" being the last.
func uidsOf(set string, last int) []int {
	var out []int
	for r := range strings.SplitSeq(strings.ReplaceAll(set, "*", fmt.Sprint(last)), ",") {
		var from, to int
		if n, _ := fmt.Sscanf(r, "%d:%d", &from, &to); n < 2 {
			to = from
		}
		for uid := from; uid <= min(to, last); uid++ {
			out = append(out, uid)
		}
	}
	return out
}
