package faultproxy

import (
	"errors"
	"io"
	"net"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

// echo is a server that greets, and then sends back what it gets.
func echo(t *testing.T) string {
	t.Helper()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { ln.Close() }) //nolint:errcheck // the test is over
	go func() {
		for {
			c, err := ln.Accept()
			if err != nil {
				return
			}
			go func() {
				defer c.Close()          //nolint:errcheck // both ends go
				io.WriteString(c, "hi ") //nolint:errcheck // the proxy may be gone
				io.Copy(c, c)            //nolint:errcheck // as above
			}()
		}
	}()
	return ln.Addr().String()
}

func TestFaults(t *testing.T) {
	tests := []struct {
		fault Fault
		got   string // of "hi " and the client's "0123456789"
		end   error  // nil: the client's own, after it has got all
	}{
		{Fault{Kind: Close}, "", io.EOF},
		{Fault{Kind: Close, After: 5}, "hi 01", io.EOF},
		{Fault{Kind: Close, After: 4, FromClient: true}, "", io.EOF}, // the greeting may be overtaken
		{Fault{Kind: Reset, After: 5}, "", syscall.ECONNRESET},       // and here too
		{Fault{Kind: Stall}, "", os.ErrDeadlineExceeded},
		{Fault{Kind: Stall, After: 5}, "hi 01", os.ErrDeadlineExceeded},
		{Fault{Kind: Stall, After: 4, FromClient: true}, "", os.ErrDeadlineExceeded},
		{Fault{Kind: Stall, Life: 50 * time.Millisecond}, "", io.EOF},
		{Fault{Kind: Slow, After: 2}, "hi 0123456789", nil},
		{Fault{}, "hi 0123456789", nil},
	}
	for _, tt := range tests {
		t.Run(tt.fault.Kind.String(), func(t *testing.T) {
			t.Parallel()
			p, err := Start(echo(t), func(int) Fault { return tt.fault })
			if err != nil {
				t.Fatal(err)
			}
			c, err := net.Dial("tcp", p.Addr)
			if err != nil {
				t.Fatal(err)
			}
			io.WriteString(c, "0123456789") //nolint:errcheck // the answer tells
			if err := c.SetReadDeadline(time.Now().Add(300 * time.Millisecond)); err != nil {
				t.Fatal(err)
			}
			got := make([]byte, len("hi 0123456789"))
			n, err := io.ReadFull(c, got)
			if errors.Is(err, io.ErrUnexpectedEOF) || tt.end == io.EOF && errors.Is(err, syscall.ECONNRESET) {
				err = io.EOF
			}
			if !strings.HasPrefix(string(got[:n]), tt.got) || !errors.Is(err, tt.end) || tt.end == nil && err != nil {
				t.Errorf("%+v: got %q and then %v, want %q and %v", tt.fault, got[:n], err, tt.got, tt.end)
			}
			c.Close() //nolint:errcheck // the proxy has to end in any case
			if p.Conns() != 1 {
				t.Errorf("%d connections", p.Conns())
			}
			if err := p.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}

// A stalled connection goes away when the client gives it up, and with the
// proxy.
func TestStalledEnds(t *testing.T) {
	p, err := Start(echo(t), func(int) Fault { return Fault{Kind: Stall} })
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		c, err := net.Dial("tcp", p.Addr)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close() //nolint:errcheck // the first by hand
		if _, err := io.WriteString(c, "x"); err != nil {
			t.Fatal(err)
		}
		if p.Conns() == 1 {
			c.Close() //nolint:errcheck // given up
		}
	}
	if err := p.Close(); err != nil { // waits for all of them
		t.Error(err)
	}
}
