package chattest

import (
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// Ack is what a client answered to an envelope.
type Ack struct {
	EnvelopeID string          `json:"envelope_id"`
	Payload    json.RawMessage `json:"payload"`
	After      time.Duration   `json:"-"` // how long it took
}

// ErrNoAck: no client took the envelope in time.
var ErrNoAck = errors.New("no client acknowledged the envelope")

// socket is one connected client.
type socket struct {
	conn    *websocket.Conn
	writing sync.Mutex
}

func (c *socket) write(v any) error {
	c.writing.Lock()
	defer c.writing.Unlock()
	return c.conn.WriteJSON(v)
}

func (s *Server) connectionsOpen() answer {
	ticket := s.id("ticket-")
	s.tickets[ticket] = true
	return answer{"ok": true, "url": "ws" + strings.TrimPrefix(s.base(), "http") + "/link?ticket=" + ticket}
}

// serveSocket lets a client with a ticket in, greets it, and reads its
// acknowledgements.
func (s *Server) serveSocket(w http.ResponseWriter, r *http.Request) {
	ticket := r.FormValue("ticket")
	s.mu.Lock()
	allowed := s.tickets[ticket] && !s.down
	delete(s.tickets, ticket)
	s.mu.Unlock()
	if !allowed {
		http.Error(w, "ticket", http.StatusForbidden)
		return
	}
	upgrader := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	conn, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	c := &socket{conn: conn}
	done := make(chan struct{})
	defer close(done)
	defer s.leave(c)
	if s.enter(c) != nil {
		return
	}
	go s.ping(c, done)
	for {
		var ack Ack
		if err := conn.ReadJSON(&ack); err != nil {
			return
		}
		s.mu.Lock()
		if waiting := s.waiting[ack.EnvelopeID]; waiting != nil {
			delete(s.waiting, ack.EnvelopeID)
			waiting <- ack
		}
		s.mu.Unlock()
	}
}

// enter greets a client. Whoever has been greeted gets envelopes, so it is
// listed before it can answer the greeting.
func (s *Server) enter(c *socket) error {
	c.writing.Lock()
	defer c.writing.Unlock()
	s.mu.Lock()
	s.sockets = append(s.sockets, c)
	close(s.sockWake)
	s.sockWake = make(chan struct{})
	s.mu.Unlock()
	return c.conn.WriteJSON(answer{
		"type": "hello", "num_connections": 1,
		"debug_info":      answer{"host": "applink-loopback", "build_number": 1, "approximate_connection_time": 18060},
		"connection_info": answer{"app_id": AppID},
	})
}

func (s *Server) leave(c *socket) {
	s.retire(c)
	_ = c.conn.Close()
}

// retire sends a client nothing more.
func (s *Server) retire(c *socket) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.sockets = slices.DeleteFunc(s.sockets, func(other *socket) bool { return other == c })
}

func (s *Server) ping(c *socket, done chan struct{}) {
	ticker := time.NewTicker(s.PingEvery)
	defer ticker.Stop()
	for {
		if c.conn.WriteControl(websocket.PingMessage, []byte("Ping from loopback"), time.Now().Add(time.Second)) != nil {
			return
		}
		select {
		case <-ticker.C:
		case <-done:
			return
		}
	}
}

// WaitConnected waits until a client is connected; false when none comes in
// time.
func (s *Server) WaitConnected(patience time.Duration) bool {
	end := time.After(patience)
	for {
		s.mu.Lock()
		n, wake := len(s.sockets), s.sockWake
		s.mu.Unlock()
		if n > 0 {
			return true
		}
		select {
		case <-wake:
		case <-end:
			return false
		}
	}
}

// Disconnect asks all clients to connect again, as the service does every few
// hours, and closes their sockets.
func (s *Server) Disconnect() {
	for _, c := range s.connected() {
		s.retire(c)
		_ = c.write(answer{"type": "disconnect", "reason": "refresh_requested", "debug_info": answer{"host": "applink-loopback"}})
		_ = c.conn.WriteControl(websocket.CloseMessage,
			websocket.FormatCloseMessage(websocket.CloseNormalClosure, ""), time.Now().Add(time.Second))
	}
}

// Cut breaks all sockets without a word.
func (s *Server) Cut() {
	for _, c := range s.connected() {
		_ = c.conn.UnderlyingConn().Close()
		s.leave(c)
	}
}

func (s *Server) connected() []*socket {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]*socket(nil), s.sockets...)
}

// Envelope is one message to the clients, before and after it is sent.
type Envelope struct {
	ID      string
	Type    string // "interactive", "events_api"
	Payload any
	Retry   int // for events_api: which repetition this is
}

// Deliver sends an envelope to one client and waits for its answer. The same
// envelope can be delivered again.
func (s *Server) Deliver(e Envelope) (Ack, error) {
	if e.ID == "" {
		s.mu.Lock()
		e.ID = s.id("envelope-")
		s.mu.Unlock()
	}
	body := answer{"envelope_id": e.ID, "type": e.Type, "payload": e.Payload,
		"accepts_response_payload": e.Type == "interactive"}
	if e.Type == "events_api" {
		body["retry_attempt"], body["retry_reason"] = e.Retry, ""
		if e.Retry > 0 {
			body["retry_reason"] = "timeout"
		}
	}
	answered := make(chan Ack, 1)
	s.mu.Lock()
	if len(s.sockets) == 0 {
		s.mu.Unlock()
		return Ack{}, ErrNoAck
	}
	c := s.sockets[len(s.sockets)-1]
	s.waiting[e.ID] = answered
	s.mu.Unlock()
	begin := time.Now()
	if c.write(body) != nil {
		return Ack{}, ErrNoAck
	}
	select {
	case ack := <-answered:
		ack.After = time.Since(begin)
		return ack, nil
	case <-time.After(s.AckWait):
		s.mu.Lock()
		delete(s.waiting, e.ID)
		s.mu.Unlock()
		return Ack{}, ErrNoAck
	}
}
