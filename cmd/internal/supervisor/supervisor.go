// Package supervisor tells systemd how the service is (sd_notify(3)): that it
// is ready, that it lives, that it reads its settings anew, that it ends. Where
// nothing supervises, it says nothing.
package supervisor

import (
	"context"
	"fmt"
	"net"
	"strconv"
	"time"
)

// Supervisor is who started the service; nil when nobody listens.
type Supervisor struct {
	socket *net.UnixAddr
	every  time.Duration // between two signs of life, 0 for none
}

// New finds the supervisor in the environment. pid is this process's.
func New(getenv func(string) string, pid int) *Supervisor {
	name := getenv("NOTIFY_SOCKET")
	if name == "" {
		return nil
	}
	s := &Supervisor{socket: &net.UnixAddr{Name: name, Net: "unixgram"}}
	if whose := getenv("WATCHDOG_PID"); whose == "" || whose == strconv.Itoa(pid) {
		if micros, err := strconv.ParseInt(getenv("WATCHDOG_USEC"), 10, 64); err == nil && micros > 0 {
			s.every = time.Duration(micros) * time.Microsecond / 3 // two may be late
		}
	}
	return s
}

// Ready tells that the service has started.
func (s *Supervisor) Ready() error { return s.say("READY=1") }

// Stopping tells that the service ends.
func (s *Supervisor) Stopping() error { return s.say("STOPPING=1") }

// Status tells people what the service does, in one line.
func (s *Supervisor) Status(line string) error { return s.say("STATUS=" + line) }

func (s *Supervisor) say(state string) error {
	if s == nil {
		return nil
	}
	conn, err := net.DialUnix("unixgram", nil, s.socket)
	if err != nil {
		return fmt.Errorf("tell the supervisor: %w", err)
	}
	defer conn.Close() //nolint:errcheck // the datagram has gone or not
	if _, err := conn.Write([]byte(state)); err != nil {
		return fmt.Errorf("tell the supervisor: %w", err)
	}
	return nil
}

// Live gives signs of life as long as alive returns nil, until ctx ends. A
// service that is not alive says nothing, and is started anew.
func (s *Supervisor) Live(ctx context.Context, alive func(context.Context) error, failed func(error)) {
	if s == nil || s.every == 0 {
		return
	}
	tick := time.NewTicker(s.every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			if err := alive(ctx); err != nil {
				failed(err)
				continue
			}
			if err := s.say("WATCHDOG=1"); err != nil {
				failed(err)
			}
		}
	}
}
