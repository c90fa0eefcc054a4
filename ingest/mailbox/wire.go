package mailbox

import (
	"errors"
	"net"
	"sync/atomic"
	"time"
)

// errFlood says that an answer went on beyond what its command may bring.
var errFlood = errors.New("the mail server sends more than it was asked for")

// meter is a connection that reads only so many bytes for each command, so
// that a lying literal or an endless line ends the connection, not the memory.
type meter struct {
	net.Conn
	left  atomic.Int64
	spent atomic.Bool
	lost  atomic.Bool // it ended from outside, or fell silent
}

// allow sets how many bytes may be read from here on.
func (m *meter) allow(n int64) { m.left.Store(n) }

// Read implements io.Reader.
func (m *meter) Read(p []byte) (int, error) {
	left := m.left.Load()
	if left <= 0 {
		m.spent.Store(true)
		return 0, errFlood
	}
	if int64(len(p)) > left {
		p = p[:left]
	}
	n, err := m.Conn.Read(p)
	m.left.Add(-int64(n))
	m.note(err)
	return n, err
}

// Write implements io.Writer.
func (m *meter) Write(p []byte) (int, error) {
	n, err := m.Conn.Write(p)
	m.note(err)
	return n, err
}

// note keeps that a connection ended which was not closed here.
func (m *meter) note(err error) {
	if err != nil && !errors.Is(err, net.ErrClosed) {
		m.lost.Store(true)
	}
}

// SetReadDeadline does nothing: the library's fixed deadlines would end a slow
// but living transfer, and every command has one of its own here.
func (m *meter) SetReadDeadline(time.Time) error { return nil }
