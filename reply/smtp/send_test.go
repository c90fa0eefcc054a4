package smtp

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"net"
	"net/http/httptest"
	"net/textproto"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-sasl"

	"fairtape/reply/smtp/smtptest"
)

const (
	shop = "orders@pinfold.example"
	ann  = "ann@customer.example"
	bob  = "bob@customer.example"
)

var raw = []byte("From: orders@pinfold.example\r\nSubject: Re: canoe\r\n\r\n.a line that begins with a dot\r\n")

func start(t *testing.T, options smtptest.Options) (*smtptest.Server, Sender) {
	t.Helper()
	s, err := smtptest.Start(options)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s, Sender{Address: s.Addr, Security: None}
}

func plain(password string) func() (sasl.Client, error) {
	return func() (sasl.Client, error) { return sasl.NewPlainClient("", "orders", password), nil }
}

func TestSendOutcomes(t *testing.T) {
	type want struct {
		outcome Outcome
		code    int
	}
	both := func(o Outcome, code int) [2]want { return [2]want{{o, code}, {o, code}} }
	tests := []struct {
		name   string
		faults smtptest.Faults
		want   [2]want // for ann and bob
		taken  int     // letters that the server took over
	}{
		{"4xx to EHLO", smtptest.Faults{Hello: 421}, both(Temporary, 421), 0},
		{"5xx to EHLO", smtptest.Faults{Hello: 550}, both(Refused, 550), 0},
		{"4xx to MAIL", smtptest.Faults{Mail: 451}, both(Temporary, 451), 0},
		{"5xx to MAIL", smtptest.Faults{Mail: 550}, both(Refused, 550), 0},
		{"4xx to all RCPT", smtptest.Faults{Rcpt: map[string]int{"": 450}}, both(Temporary, 450), 0},
		{"5xx to all RCPT", smtptest.Faults{Rcpt: map[string]int{"": 550}}, both(Refused, 550), 0},
		{"one of two refused", smtptest.Faults{Rcpt: map[string]int{bob: 550}}, [2]want{{Sent, 250}, {Refused, 550}}, 1},
		{"one of two put off", smtptest.Faults{Rcpt: map[string]int{ann: 450}}, [2]want{{Temporary, 450}, {Sent, 250}}, 1},
		{"4xx after the dot", smtptest.Faults{Data: 451}, both(Temporary, 451), 0},
		{"5xx after the dot", smtptest.Faults{Data: 554}, both(Refused, 554), 0},
		{"lost after the dot, not taken", smtptest.Faults{DropAfterDot: true}, both(Unknown, 0), 0},
		{"lost after the dot, taken", smtptest.Faults{DropAfterDot: true, KeepDropped: true}, both(Unknown, 0), 1},
		{"refused and lost", smtptest.Faults{DropAfterDot: true, Rcpt: map[string]int{bob: 550}}, [2]want{{Unknown, 0}, {Refused, 550}}, 0},
		{"works", smtptest.Faults{}, both(Sent, 250), 1},
		{"works slowly", smtptest.Faults{Delay: 20 * time.Millisecond}, both(Sent, 250), 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, sender := start(t, smtptest.Options{})
			s.Fail(tt.faults)
			got := sender.Send(t.Context(), shop, []string{ann, bob}, raw)
			for i, w := range tt.want {
				r := got[i]
				if r.To != []string{ann, bob}[i] || r.Outcome != w.outcome || r.Code != w.code || (r.Err == nil) != (w.outcome == Sent) {
					t.Errorf("%s: %v, code %d, %v; want %v, code %d", r.To, r.Outcome, r.Code, r.Err, w.outcome, w.code)
				}
			}
			letters := s.Letters()
			if len(letters) != tt.taken {
				t.Fatalf("%d letters taken, want %d", len(letters), tt.taken)
			}
			for _, l := range letters {
				if string(l.Raw) != string(raw) || l.From != shop {
					t.Errorf("from %s came %q, want %q", l.From, l.Raw, raw)
				}
			}
		})
	}
}

// A large letter meets the lost connection while it is still being sent.
func TestSendLostInData(t *testing.T) {
	s, sender := start(t, smtptest.Options{})
	s.Fail(smtptest.Faults{DropInData: true})
	large := append(raw, strings.Repeat("a line of the letter\r\n", 500_000)...)
	r := sender.Send(t.Context(), shop, []string{ann}, large)[0]
	if r.Outcome != Temporary {
		t.Errorf("outcome %v, %v; want temporary: the final dot never went out", r.Outcome, r.Err)
	}
}

// scripted plays a server's lines: one reply for each of the client's.
func scripted(t *testing.T, replies ...string) Sender {
	t.Helper()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { ln.Close() })
	go func() {
		nc, err := ln.Accept()
		if err != nil {
			return
		}
		defer nc.Close()
		c := textproto.NewConn(nc)
		for _, reply := range replies {
			if err := c.PrintfLine("%s", reply); err != nil {
				return
			}
			if _, err := c.ReadLine(); err != nil {
				return
			}
		}
	}()
	return Sender{Address: ln.Addr().String(), Security: None}
}

func TestSendToAScript(t *testing.T) {
	tests := []struct {
		name    string
		replies []string
		outcome Outcome
		code    int
	}{
		{"nothing", nil, Temporary, 0},
		{"no room at the greeting", []string{"421 too many"}, Temporary, 421},
		{"turned away at the greeting", []string{"554 not you"}, Refused, 554},
		{"lost at RCPT", []string{"220 hi", "250 hi", "250 ok"}, Temporary, 0},
		{"4xx to DATA", []string{"220 hi", "250 hi", "250 ok", "250 ok", "451 later"}, Temporary, 451},
		{"5xx to DATA", []string{"220 hi", "250 hi", "250 ok", "250 ok", "554 no"}, Refused, 554},
		{"lost at DATA", []string{"220 hi", "250 hi", "250 ok", "250 ok"}, Temporary, 0},
		{"a letter over the server's SIZE", []string{"220 hi", "250-hi\r\n250 SIZE 10"}, Refused, 552},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := scripted(t, tt.replies...).Send(t.Context(), shop, []string{ann}, raw)[0]
			if r.Outcome != tt.outcome || r.Code != tt.code {
				t.Errorf("%v, code %d, %v; want %v, code %d", r.Outcome, r.Code, r.Err, tt.outcome, tt.code)
			}
		})
	}
}

// A server that puts off the sign-in, or the securing of the line, refuses
// neither.
func TestPutOffBeforeTheLetter(t *testing.T) {
	tests := []struct {
		name    string
		change  func(*Sender)
		replies []string
	}{
		{"STARTTLS", func(s *Sender) { s.Security = StartTLS }, []string{"220 hi", "250-hi\r\n250 STARTTLS", "454 TLS not available"}},
		{"AUTH", func(s *Sender) { s.SASL = plain("right") }, []string{"220 hi", "250-hi\r\n250 AUTH PLAIN", "454 Temporary authentication failure"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			sender := scripted(t, tt.replies...)
			tt.change(&sender)
			r := sender.Send(t.Context(), shop, []string{ann}, raw)[0]
			if r.Outcome != Temporary || r.Code != 454 || errors.Is(r.Err, ErrSignIn) || errors.Is(r.Err, ErrPlainText) {
				t.Errorf("%v, code %d, %v; want temporary, code 454", r.Outcome, r.Code, r.Err)
			}
		})
	}
}

func TestSendInjection(t *testing.T) {
	s, sender := start(t, smtptest.Options{})
	r := sender.Send(t.Context(), shop, []string{"ann@customer.example>\r\nRCPT TO:<bob@customer.example"}, raw)[0]
	if r.Outcome == Sent || len(s.Letters()) != 0 {
		t.Errorf("outcome %v; an address of two lines must not go out", r.Outcome)
	}
}

func TestSendStopsWithItsContext(t *testing.T) {
	s, sender := start(t, smtptest.Options{})
	s.Fail(smtptest.Faults{Delay: time.Second})
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if r := sender.Send(ctx, shop, []string{ann}, raw)[0]; r.Outcome != Temporary {
		t.Errorf("outcome %v, want temporary", r.Outcome)
	}
}

func TestConnect(t *testing.T) {
	// The test certificate of net/http is for 127.0.0.1.
	web := httptest.NewTLSServer(nil)
	defer web.Close()
	roots := x509.NewCertPool()
	roots.AddCert(web.Certificate())
	secure := &tls.Config{Certificates: web.TLS.Certificates}
	tests := []struct {
		name   string
		server smtptest.Options
		change func(*Sender)
		want   error
	}{
		{"plain text elsewhere", smtptest.Options{}, func(s *Sender) { s.Address = "192.0.2.1:25" }, ErrPlainText},
		{"no STARTTLS", smtptest.Options{}, func(s *Sender) { s.Security = StartTLS }, ErrPlainText},
		{"STARTTLS, unknown root", smtptest.Options{TLS: secure}, func(s *Sender) { s.Security = StartTLS }, ErrCertificate},
		{"implicit, unknown root", smtptest.Options{TLS: secure, Implicit: true}, func(s *Sender) { s.Security = Implicit }, ErrCertificate},
		{"wrong password", smtptest.Options{User: "orders", Password: "right"}, func(s *Sender) { s.SASL = plain("wrong") }, ErrSignIn},
		{"no sign-in offered", smtptest.Options{}, func(s *Sender) { s.SASL = plain("right") }, ErrNoSignIn},
		{"another sign-in offered", smtptest.Options{User: "orders", Password: "right"}, func(s *Sender) {
			s.SASL = func() (sasl.Client, error) { return sasl.NewAnonymousClient("orders"), nil }
		}, ErrNoSignIn},
		{"STARTTLS", smtptest.Options{TLS: secure}, func(s *Sender) { s.Security, s.Roots, s.Hello = StartTLS, roots, "shop.example" }, nil},
		{"implicit", smtptest.Options{TLS: secure, Implicit: true}, func(s *Sender) { s.Security, s.Roots = Implicit, roots }, nil},
		{"right password", smtptest.Options{User: "orders", Password: "right"}, func(s *Sender) { s.SASL = plain("right") }, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, sender := start(t, tt.server)
			tt.change(&sender)
			if err := sender.Probe(t.Context(), shop); !errors.Is(err, tt.want) || tt.want == nil && err != nil {
				t.Errorf("Probe: %v, want %v", err, tt.want)
			}
			r := sender.Send(t.Context(), shop, []string{ann}, raw)[0]
			wantOutcome, wantLetters := Sent, 1
			if tt.want != nil { // trouble of the connection is never a refusal of the letter
				wantOutcome, wantLetters = Temporary, 0
			}
			if r.Outcome != wantOutcome || !errors.Is(r.Err, tt.want) || len(s.Letters()) != wantLetters {
				t.Errorf("Send: %v, %v, %d letters", r.Outcome, r.Err, len(s.Letters()))
			}
		})
	}
}

func TestProbeRefusesSender(t *testing.T) {
	s, sender := start(t, smtptest.Options{})
	s.Fail(smtptest.Faults{Mail: 553})
	if err := sender.Probe(t.Context(), shop); !errors.Is(err, ErrSender) {
		t.Errorf("error %v, want ErrSender", err)
	}
	s.Fail(smtptest.Faults{Mail: 451})
	if err := sender.Probe(t.Context(), shop); err == nil || errors.Is(err, ErrSender) {
		t.Errorf("error %v, want one that may pass", err)
	}
}
