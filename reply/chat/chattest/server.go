// Package chattest is a chat service on loopback for tests: it speaks as much
// of Slack's published Web API and Socket Mode as the shop's bot uses, keeps to
// the published limits, writes down every call, fails on demand, and lets a
// test play the people of the channel.
//
// Sources: docs.slack.dev, the reference of each Web API method, "Using Socket
// Mode", "Block Kit reference".
package chattest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"sync"
	"time"
)

// The invented workspace that every server begins with.
const (
	TeamID   = "T0LOFT"
	AppID    = "A0FAIR"
	BotID    = "B0FAIR"
	BotUser  = "U0FAIR"
	Channel  = "C0SURVEYS"
	BotToken = "xoxb-loopback"
	AppToken = "xapp-loopback"
)

// Ann and Ben sit in the channel; Cleo is of the team but not in the channel.
const (
	Ann  = "U0ANN"
	Ben  = "U0BEN"
	Cleo = "U0CLEO"
)

// Server is one chat service. Its methods are safe for several goroutines.
type Server struct {
	// AckWait is how long an envelope waits for its acknowledgement before the
	// service counts it as lost. Set before use.
	AckWait time.Duration
	// PingEvery is the time between two pings of the socket. Set before use.
	PingEvery time.Duration
	// Channel is the id of the one channel. Set before use.
	Channel string
	// Front is the address, host:port, that clients are told to come to when
	// something stands between them and the server; "" for its own. Set before
	// use.
	Front string

	http *httptest.Server

	mu       sync.Mutex
	seq      int
	messages []*Message
	whispers []Whisper
	files    map[string]*File
	views    []*View
	triggers map[string]trigger
	calls    []Call
	faults   []*Fault
	members  []string
	scopes   []string
	names    map[string]string
	archived bool
	revoked  bool
	down     bool
	tickets  map[string]bool
	sockets  []*socket
	sockWake chan struct{} // closed and renewed when a socket comes
	waiting  map[string]chan Ack
}

// Message is a post as the service keeps it.
type Message struct {
	TS, ThreadTS string
	User, BotID  string
	Text         string
	Blocks       json.RawMessage // nil for none
	Metadata     json.RawMessage // nil for none
	Files        []*File
	Updates      int // how often it was changed
}

// Whisper is a message that one person saw.
type Whisper struct{ User, ThreadTS, Text string }

// File is an uploaded file.
type File struct {
	ID, Name, Title, MediaType, Alt string
	Data                            []byte
	length                          int
	done                            bool
}

// Call is one call of the Web API.
type Call struct {
	Method string
	Args   map[string]string // without the token
	At     time.Time
}

type trigger struct {
	user string
	at   time.Time
}

// New starts a server. Close it.
func New() *Server {
	s := &Server{
		Channel:   Channel,
		AckWait:   3 * time.Second,
		PingEvery: 5 * time.Second,
		files:     make(map[string]*File),
		triggers:  make(map[string]trigger),
		members:   []string{BotUser, Ann, Ben},
		scopes: []string{"app_mentions:read", "channels:history", "channels:read", "chat:write",
			"files:read", "files:write", "users:read"},
		names:    map[string]string{Ann: "Ann", Ben: "Ben", Cleo: "Cleo", BotUser: "fairtape"},
		tickets:  make(map[string]bool),
		sockWake: make(chan struct{}),
		waiting:  make(map[string]chan Ack),
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/api/{method}", s.serveMethod)
	mux.HandleFunc("POST /upload/{id}", s.serveUpload)
	mux.HandleFunc("GET /files/{id}", s.serveFile)
	mux.HandleFunc("GET /link", s.serveSocket)
	s.http = httptest.NewServer(mux)
	return s
}

// URL is the base address for the api_url setting.
func (s *Server) URL() string { return s.base() + "/api/" }

// Addr is the server's own address, host:port.
func (s *Server) Addr() string { return s.http.Listener.Addr().String() }

// base is what every address begins with that a client is told.
func (s *Server) base() string {
	if s.Front != "" {
		return "http://" + s.Front
	}
	return s.http.URL
}

// Close ends the server and its sockets.
func (s *Server) Close() {
	s.Cut()
	s.http.CloseClientConnections()
	s.http.Close()
}

// Messages returns all posts in order, those of threads among them.
func (s *Server) Messages() []Message {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := make([]Message, len(s.messages))
	for i, m := range s.messages {
		all[i] = *m
	}
	return all
}

// Thread returns a first post and its answers.
func (s *Server) Thread(ts string) []Message {
	var thread []Message
	for _, m := range s.Messages() {
		if m.TS == ts || m.ThreadTS == ts {
			thread = append(thread, m)
		}
	}
	return thread
}

// Whispers returns what single people were told.
func (s *Server) Whispers() []Whisper {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]Whisper(nil), s.whispers...)
}

// Calls returns the calls of a method, or all with "".
func (s *Server) Calls(method string) []Call {
	s.mu.Lock()
	defer s.mu.Unlock()
	var calls []Call
	for _, c := range s.calls {
		if method == "" || c.Method == method {
			calls = append(calls, c)
		}
	}
	return calls
}

// Delete takes a message away, as a person can.
func (s *Server) Delete(ts string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i, m := range s.messages {
		if m.TS == ts {
			s.messages = append(s.messages[:i:i], s.messages[i+1:]...)
			return
		}
	}
}

// Archive closes the channel, or opens it again.
func (s *Server) Archive(archived bool) { s.set(&s.archived, archived) }

// Grant sets what the bot's token may do, by the service's names.
func (s *Server) Grant(scopes ...string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.scopes = scopes
}

// Uninvite takes the bot out of the channel.
func (s *Server) Uninvite() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.members = slices.DeleteFunc(s.members, func(user string) bool { return user == BotUser })
}

// Revoke makes both tokens bad, or good again.
func (s *Server) Revoke(revoked bool) { s.set(&s.revoked, revoked) }

// Down answers everything with 503 and lets no socket in, or not.
func (s *Server) Down(down bool) {
	s.set(&s.down, down)
	if down {
		s.Cut()
	}
}

func (s *Server) set(flag *bool, value bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	*flag = value
}

// next returns a number that was not given before. The caller holds mu.
func (s *Server) next() int {
	s.seq++
	return s.seq
}

// id makes an identifier of the service's kind. The caller holds mu.
func (s *Server) id(kind string) string { return fmt.Sprintf("%s%07d", kind, s.next()) }

// stamp makes the timestamp of a new message: unique and rising. The caller
// holds mu.
func (s *Server) stamp() string {
	return fmt.Sprintf("%d.%06d", time.Now().Unix(), s.next())
}

// Fault is something that goes wrong with a method.
type Fault struct {
	Method string
	Times  int // how many calls; 0 counts as 1
	// Done: the method does its work and only the answer is lost.
	Done bool

	Status     int           // HTTP status to answer with
	RetryAfter string        // header, "1"
	Code       string        // error code to answer with, "internal_error"
	Hang       time.Duration // wait before anything, and then cut the connection
}

// Fail makes the next calls of a method go wrong. Faults of one method happen
// in the order they were given.
func (s *Server) Fail(fault Fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	fault.Times = max(fault.Times, 1)
	s.faults = append(s.faults, &fault)
}

// fault takes the next fault of a method. The caller holds mu.
func (s *Server) fault(method string) *Fault {
	for _, f := range s.faults {
		if f.Method == method && f.Times > 0 {
			f.Times--
			return f
		}
	}
	return nil
}
