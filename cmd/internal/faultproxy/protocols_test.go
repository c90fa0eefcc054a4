package faultproxy_test

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fairtape/cmd/internal/faultproxy"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
	"fairtape/reply/smtp"
	"fairtape/reply/smtp/smtptest"
)

// spoilings are faults at every few bytes of a conversation of some length.
func spoilings(length, step int) (all []faultproxy.Fault) {
	for n := 0; n <= length; n += step {
		for _, kind := range []faultproxy.Kind{faultproxy.Close, faultproxy.Reset} {
			all = append(all, faultproxy.Fault{Kind: kind, After: n}, faultproxy.Fault{Kind: kind, After: n, FromClient: true})
		}
	}
	return all
}

// once spoils the first connection only.
func once(f faultproxy.Fault) func(int) faultproxy.Fault {
	return func(n int) faultproxy.Fault {
		if n == 1 {
			return f
		}
		return faultproxy.Fault{}
	}
}

// through runs a test for each fault, some at a time.
func through(t *testing.T, target string, faults []faultproxy.Fault, test func(t *testing.T, addr string) error) {
	t.Helper()
	places := make(chan struct{}, 32)
	var all sync.WaitGroup
	for _, f := range faults {
		places <- struct{}{}
		all.Go(func() {
			defer func() { <-places }()
			p, err := faultproxy.Start(target, once(f))
			if err != nil {
				t.Error(err)
				return
			}
			if err := errors.Join(test(t, p.Addr), p.Close()); err != nil {
				t.Errorf("%s after %d bytes, the client's: %v: %v", f.Kind, f.After, f.FromClient, err)
			}
		})
	}
	all.Wait()
}

const patience = 30 * time.Second

// Wherever a connection to the mailbox breaks, from the handshake to the last
// body, each mail is handed over once and in order.
func TestMailboxCutAnywhere(t *testing.T) {
	cert, roots, err := mailboxtest.Certificate(time.Now().AddDate(0, 0, 1))
	if err != nil {
		t.Fatal(err)
	}
	s, err := mailboxtest.Start(mailboxtest.Options{TLS: &tls.Config{Certificates: []tls.Certificate{cert}}, Implicit: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() }) //nolint:errcheck // the test is over
	var want []string
	for n := range 3 {
		raw := fmt.Sprintf("Subject: survey %d\r\n\r\n%s\r\n", n, strings.Repeat("35 1/2 42\r\n", 20))
		if _, err := s.Append("INBOX", []byte(raw), time.Now()); err != nil {
			t.Fatal(err)
		}
		want = append(want, raw)
	}
	through(t, s.Addr, spoilings(4500, 300), func(t *testing.T, addr string) error {
		ctx, stop := context.WithTimeout(t.Context(), patience)
		defer stop()
		var got []string
		w := &mailbox.Watcher{
			Config: mailbox.Config{Account: "shop", Address: addr, Security: mailbox.Implicit, Roots: roots,
				SignIn: mailbox.SignIn{User: mailboxtest.User, Password: func() (string, error) { return mailboxtest.Password, nil }}},
			Poll: time.Minute, Since: time.Hour, Now: time.Now, Random: func() float64 { return 0 },
			Deliver:   func(_ context.Context, d mailbox.Delivery) error { got = append(got, string(d.Raw)); return d.Err },
			Rescanned: func(context.Context, mailbox.Rescanned) error { stop(); return nil },
		}
		w.Run(ctx) //nolint:errcheck // ends with its context
		if !slices.Equal(got, want) {
			return fmt.Errorf("%d mails were handed over, want each of %d once", len(got), len(want))
		}
		return nil
	})
}

// Wherever a connection to the mail server breaks, what is said of the letter
// is so: sent is there once, not sent is not there.
func TestSendingCutAnywhere(t *testing.T) {
	s, err := smtptest.Start(smtptest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() }) //nolint:errcheck // the test is over
	var mu sync.Mutex
	number := 0
	outcomes := map[smtp.Outcome]int{}
	through(t, s.Addr, spoilings(700, 7), func(t *testing.T, addr string) error {
		mu.Lock()
		number++
		to := fmt.Sprintf("ann%d@customer.example", number)
		mu.Unlock()
		raw := "From: orders@pinfold.example\r\nSubject: Re: canoe\r\n\r\n" + strings.Repeat("please measure again\r\n", 20)
		r := smtp.Sender{Address: addr, Security: smtp.None}.Send(t.Context(), "orders@pinfold.example", []string{to}, []byte(raw))[0]
		taken := 0
		for _, l := range s.Letters() {
			if slices.Equal(l.To, []string{to}) {
				if taken++; string(l.Raw) != raw {
					return fmt.Errorf("a letter of %d bytes was taken for whole", len(l.Raw))
				}
			}
		}
		mu.Lock()
		outcomes[r.Outcome]++
		mu.Unlock()
		switch {
		case taken > 1, r.Outcome == smtp.Sent && taken != 1, r.Outcome == smtp.Temporary && taken != 0, r.Outcome == smtp.Refused:
			return fmt.Errorf("the outcome is %v (%v), and the server took %d letters", r.Outcome, r.Err, taken)
		}
		return nil
	})
	for _, o := range []smtp.Outcome{smtp.Sent, smtp.Temporary, smtp.Unknown} {
		if outcomes[o] == 0 {
			t.Errorf("no fault led to %v: %v", o, outcomes)
		}
	}
}

// Wherever a connection to the chat breaks, what is to be said stands there
// once in the end.
func TestChatCutAnywhere(t *testing.T) {
	server := chattest.New()
	t.Cleanup(server.Close)
	var mu sync.Mutex
	number := 0
	through(t, server.Addr(), spoilings(1200, 60), func(t *testing.T, addr string) error {
		mu.Lock()
		number++
		words := fmt.Sprintf("words %d", number)
		mu.Unlock()
		p := chat.New(chat.Config{Channel: chattest.Channel, BotToken: chattest.BotToken, APIURL: "http://" + addr + "/api/",
			Client: &http.Client{Timeout: 5 * time.Second, Transport: &http.Transport{}},
			Sleep:  func(context.Context, time.Duration) error { return nil }})
		unsure := false
		for range 5 {
			_, err := p.Say(t.Context(), chat.Thread{}, words, words, unsure)
			if err == nil {
				break
			}
			if !errors.Is(err, chat.ErrUnsure) && !errors.Is(err, chat.ErrTemporary) {
				return err
			}
			unsure = unsure || errors.Is(err, chat.ErrUnsure)
		}
		said := 0
		for _, m := range server.Messages() {
			if m.Text == words {
				said++
			}
		}
		if said != 1 {
			return fmt.Errorf("%q stands there %d times", words, said)
		}
		return nil
	})
	if looks := len(server.Calls("conversations.history")); looks == 0 || looks == number {
		t.Errorf("for %d of %d posts it was looked whether they stand there: the faults miss their places", looks, number)
	}
}
