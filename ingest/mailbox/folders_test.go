package mailbox

import (
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-imap/v2"
	"github.com/emersion/go-sasl"

	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
)

func letter(draft, id string) []byte {
	return fmt.Appendf(nil, "From: orders@pinfold.example\r\nTo: Ann Customer <Ann@customer.example>\r\n"+
		"Subject: Re: survey\r\nMessage-ID: <%s>\r\nIn-Reply-To: <m1@customer.example>\r\n"+
		"References: <m0@customer.example> <m1@customer.example>\r\n"+
		"X-Fairtape-Job: 14\r\nX-Fairtape-Draft: %s\r\n\r\nPlease measure again.\r\n", id, draft)
}

func TestFolders(t *testing.T) {
	servers(t, func(t *testing.T, s server, cfg Config) {
		f := NewFolders(cfg)
		t.Cleanup(func() { f.Close() })
		ctx := t.Context()

		raw := letter("14-2", "d14-2@pinfold.example")
		at, err := f.FileDraft(ctx, raw, "d14-2@pinfold.example")
		if err != nil {
			t.Fatal(err)
		}
		again, err := f.FileDraft(ctx, raw, "d14-2@pinfold.example")
		if err != nil || again != at {
			t.Errorf("filing the same draft again: %+v, %v; want %+v", again, err, at)
		}
		other, err := f.FileDraft(ctx, letter("15-1", "d15-1@pinfold.example"), "d15-1@pinfold.example")
		if err != nil {
			t.Fatal(err)
		}
		stored, err := s.Messages("Drafts")
		if err != nil || len(stored) != 2 {
			t.Fatalf("%d messages in Drafts, %v; want 2", len(stored), err)
		}
		if m := stored[0]; !slices.Contains(m.Flags, imap.FlagDraft) || !slices.Contains(m.Flags, imap.FlagSeen) || string(m.Raw) != string(raw) {
			t.Errorf("the draft lies there with %v: %q", m.Flags, m.Raw)
		}

		list, err := f.Drafts(ctx)
		if err != nil || len(list) != 2 {
			t.Fatalf("listed %d drafts, %v; want 2", len(list), err)
		}
		l := list[0]
		if l.Location != at || l.MessageID != "d14-2@pinfold.example" || l.Job != "14" || l.Draft != "14-2" ||
			!slices.Equal(l.To, []string{"ann@customer.example"}) || !slices.Equal(l.InReplyTo, []string{"m1@customer.example"}) {
			t.Errorf("listed %+v", l)
		}
		if got, err := f.Fetch(ctx, at); err != nil || string(got) != string(raw) {
			t.Errorf("fetched %q, %v", got, err)
		}

		if err := f.DeleteDraft(ctx, at); err != nil {
			t.Fatal(err)
		}
		if err := f.DeleteDraft(ctx, at); err != nil {
			t.Errorf("deleting what is gone: %v", err)
		}
		if _, err := f.Fetch(ctx, at); !errors.Is(err, ErrGone) {
			t.Errorf("fetching what is gone: %v, want ErrGone", err)
		}
		stale := other
		stale.UIDValidity++
		if err := f.DeleteDraft(ctx, stale); !errors.Is(err, ErrRenumbered) {
			t.Errorf("deleting by an old numbering: %v, want ErrRenumbered", err)
		}
		if list, err = f.Drafts(ctx); err != nil || len(list) != 1 || list[0].Location != other {
			t.Errorf("after deleting one draft: %+v, %v; want the other one", list, err)
		}
		testSent(t, f)
	})
}

func testSent(t *testing.T, f *Folders) {
	ctx := t.Context()
	raw := letter("14-2", "d14-2@pinfold.example")
	at, already, err := f.FileSent(ctx, raw, "d14-2@pinfold.example")
	if err != nil || already {
		t.Fatalf("filing into Sent: already %v, %v", already, err)
	}
	if again, already, err := f.FileSent(ctx, raw, "d14-2@pinfold.example"); err != nil || !already || again != at {
		t.Errorf("filing into Sent again: %+v, already %v, %v", again, already, err)
	}
	tests := []struct {
		name string
		want Wanted
		by   Match
	}{
		{"another letter", Wanted{MessageID: "d14-3@pinfold.example", Draft: "14-3"}, NoMatch},
		{"part of an id", Wanted{MessageID: "d14-2@pinfold"}, NoMatch},
		{"another draft whose id begins alike", Wanted{Draft: "14"}, NoMatch},
		{"the same thread to somebody else", Wanted{Answers: "m1@customer.example", To: "bob@other.example"}, NoMatch},
		{"nothing", Wanted{}, NoMatch},
		{"draft", Wanted{Draft: "14-2"}, ByDraft},
		{"message id", Wanted{MessageID: "d14-2@pinfold.example"}, ByMessageID},
		{"answered message", Wanted{Answers: "m1@customer.example", To: "Ann@Customer.example"}, ByReference},
	}
	for _, tt := range tests {
		found, err := f.FindSent(ctx, tt.want)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case tt.by == NoMatch && len(found) > 0:
			t.Errorf("%s: found %+v", tt.name, found)
		case tt.by != NoMatch && (len(found) != 1 || found[0].Location != at || found[0].Match(tt.want) != tt.by):
			t.Errorf("%s: found %+v", tt.name, found)
		}
	}
	list, err := f.SentSince(ctx, time.Now())
	if err != nil || len(list) != 1 {
		t.Errorf("listed %d sent letters, %v; want 1", len(list), err)
	}
	h, err := f.Probe(ctx)
	if err != nil || h.Drafts != "Drafts" || h.Sent != "Sent" || !h.Idle || h.Inbox != "INBOX" {
		t.Errorf("probe: %+v, %v", h, err)
	}
}

func TestProbeFinds(t *testing.T) {
	s := memory(t, mailboxtest.Options{ReadOnly: []string{"Sent"}})
	tests := []struct {
		name          string
		change        func(*Config)
		want          error
		missing, only []string
	}{
		{"no such inbox", func(c *Config) { c.Inbox = "Surveys" }, ErrNoMailbox, []string{"Surveys"}, []string{"Sent"}},
		{"no such Drafts", func(c *Config) { c.Drafts = "Draughts" }, nil, []string{"Draughts"}, []string{"Sent"}},
		{"Sent is read-only", func(*Config) {}, nil, nil, []string{"Sent"}},
		{"all is well", func(c *Config) { c.Sent = "INBOX" }, nil, nil, nil},
	}
	for _, tt := range tests {
		cfg := config(s.Addr)
		tt.change(&cfg)
		f := NewFolders(cfg)
		h, err := f.Probe(t.Context())
		if !errors.Is(err, tt.want) || tt.want == nil && err != nil {
			t.Errorf("%s: error %v, want %v", tt.name, err, tt.want)
		}
		if !slices.Equal(h.Missing, tt.missing) || !slices.Equal(h.ReadOnly, tt.only) || len(h.Mailboxes) != 3 {
			t.Errorf("%s: %+v", tt.name, h)
		}
		f.Close()
	}
}

// Without a Drafts mailbox one is made, with UIDPLUS or without.
func TestFoldersAreMade(t *testing.T) {
	d, err := mailboxtest.StartDovecot(mailboxtest.DovecotOptions{NoSpecial: true})
	if errors.Is(err, mailboxtest.ErrNoDovecot) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	plain := memory(t, mailboxtest.Options{Plain: true, Special: map[string]imap.MailboxAttr{}})
	for addr, s := range map[string]server{d.Addr: d, plain.Addr: plain} {
		f := NewFolders(config(addr))
		if list, err := f.Drafts(t.Context()); err != nil || len(list) != 0 {
			t.Errorf("listed %v, %v", list, err)
		}
		at, err := f.FileDraft(t.Context(), letter("1-1", "a@pinfold.example"), "a@pinfold.example")
		if err != nil || at.UID != 1 || at.Mailbox != "Drafts" {
			t.Errorf("filed at %+v, %v", at, err)
		}
		if err := f.DeleteDraft(t.Context(), at); err != nil {
			t.Error(err)
		}
		if left, err := s.Messages("Drafts"); err != nil || len(left) != 0 {
			t.Errorf("%d left in Drafts, %v", len(left), err)
		}
		f.Close()
	}
}

// Without UIDPLUS an EXPUNGE would take along what others marked as deleted.
func TestDeleteDraftSparesOthers(t *testing.T) {
	s := memory(t, mailboxtest.Options{Plain: true})
	f := NewFolders(config(s.Addr))
	t.Cleanup(func() { f.Close() })
	if _, err := s.Append("Drafts", []byte("Subject: mine\r\n\r\n"), time.Now(), imap.FlagDeleted); err != nil {
		t.Fatal(err)
	}
	at, err := f.FileDraft(t.Context(), letter("1-1", "a@pinfold.example"), "a@pinfold.example")
	if err != nil {
		t.Fatal(err)
	}
	if err := f.DeleteDraft(t.Context(), at); err != nil {
		t.Fatal(err)
	}
	if left, err := s.Messages("Drafts"); err != nil || len(left) != 2 {
		t.Errorf("%d left, %v; want both, ours marked as deleted", len(left), err)
	}
}

func TestChooseMailbox(t *testing.T) {
	tests := []struct {
		name  string
		boxes []*imap.ListData
		use   imap.MailboxAttr
		want  string
	}{
		{"nothing", nil, imap.MailboxAttrDrafts, ""},
		{"a folder that cannot be opened", []*imap.ListData{{Mailbox: "Drafts", Attrs: []imap.MailboxAttr{imap.MailboxAttrNoSelect}}}, imap.MailboxAttrDrafts, ""},
		{"the mark wins over the name", []*imap.ListData{{Mailbox: "Drafts", Delim: '/'}, {Mailbox: "x", Attrs: []imap.MailboxAttr{imap.MailboxAttrDrafts}}}, imap.MailboxAttrDrafts, "x"},
		{"in INBOX", []*imap.ListData{{Mailbox: "INBOX.Drafts", Delim: '.'}}, imap.MailboxAttrDrafts, "INBOX.Drafts"},
		{"German", []*imap.ListData{{Mailbox: "Entwürfe", Delim: '/'}}, imap.MailboxAttrDrafts, "Entwürfe"},
		{"French", []*imap.ListData{{Mailbox: "Éléments envoyés", Delim: '/'}}, imap.MailboxAttrSent, "Éléments envoyés"},
	}
	for _, tt := range tests {
		if got := choose(tt.boxes, tt.use); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestConnect(t *testing.T) {
	cert, roots, err := mailboxtest.Certificate(time.Now().AddDate(0, 0, 1))
	if err != nil {
		t.Fatal(err)
	}
	expired, expiredRoots, err := mailboxtest.Certificate(time.Now().AddDate(0, 0, -1))
	if err != nil {
		t.Fatal(err)
	}
	with := func(c tls.Certificate, implicit bool) mailboxtest.Options {
		return mailboxtest.Options{TLS: &tls.Config{Certificates: []tls.Certificate{c}}, Implicit: implicit}
	}
	// The test certificate of net/http is for 127.0.0.1, not for localhost.
	web := httptest.NewTLSServer(nil)
	defer web.Close()
	webRoots := x509.NewCertPool()
	webRoots.AddCert(web.Certificate())
	webCert := web.TLS.Certificates[0]
	misnamed := func(s Security) func(*Config) {
		return func(c *Config) {
			c.Security, c.Roots, c.Address = s, webRoots, strings.Replace(c.Address, "127.0.0.1", "localhost", 1)
		}
	}
	tests := []struct {
		name   string
		server mailboxtest.Options
		change func(*Config)
		want   error
	}{
		{"plain text elsewhere", mailboxtest.Options{}, func(c *Config) { c.Address = "192.0.2.1:143" }, ErrPlainText},
		{"no STARTTLS", mailboxtest.Options{}, func(c *Config) { c.Security = StartTLS }, ErrPlainText},
		{"STARTTLS, unknown root", with(cert, false), func(c *Config) { c.Security = StartTLS }, ErrCertificate},
		{"STARTTLS, expired", with(expired, false), func(c *Config) { c.Security, c.Roots = StartTLS, expiredRoots }, ErrCertificate},
		{"implicit, unknown root", with(cert, true), func(c *Config) { c.Security = Implicit }, ErrCertificate},
		{"implicit, expired", with(expired, true), func(c *Config) { c.Security, c.Roots = Implicit, expiredRoots }, ErrCertificate},
		{"STARTTLS, for another name", with(webCert, false), misnamed(StartTLS), ErrCertificate},
		{"implicit, for another name", with(webCert, true), misnamed(Implicit), ErrCertificate},
		{"wrong password", mailboxtest.Options{}, func(c *Config) { c.SignIn.Password = password("x") }, ErrSignIn},
		{"wrong password by SASL", mailboxtest.Options{}, func(c *Config) {
			c.SignIn.SASL = func() (sasl.Client, error) { return sasl.NewPlainClient("", mailboxtest.User, "x"), nil }
		}, ErrSignIn},
		{"STARTTLS", with(cert, false), func(c *Config) { c.Security, c.Roots = StartTLS, roots }, nil},
		{"implicit", with(cert, true), func(c *Config) { c.Security, c.Roots = Implicit, roots }, nil},
		{"SASL", mailboxtest.Options{}, func(c *Config) {
			c.SignIn.SASL = func() (sasl.Client, error) {
				return sasl.NewPlainClient("", mailboxtest.User, mailboxtest.Password), nil
			}
		}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := memory(t, tt.server)
			cfg := config(s.Addr)
			tt.change(&cfg)
			f := NewFolders(cfg)
			t.Cleanup(func() { f.Close() })
			_, err := f.Probe(t.Context())
			if !errors.Is(err, tt.want) || tt.want == nil && err != nil {
				t.Errorf("error %v, want %v", err, tt.want)
			}
			if err != nil && strings.Contains(err.Error(), mailboxtest.Password) {
				t.Errorf("the error tells the password: %v", err)
			}
		})
	}
}

// Dovecot behind STARTTLS with a root of one's own.
func TestConnectDovecot(t *testing.T) {
	cert, roots, err := mailboxtest.Certificate(time.Now().AddDate(0, 0, 1))
	if err != nil {
		t.Fatal(err)
	}
	d, err := mailboxtest.StartDovecot(mailboxtest.DovecotOptions{Certificate: &cert, Roots: roots})
	if errors.Is(err, mailboxtest.ErrNoDovecot) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	cfg := config(d.Addr)
	cfg.Security = StartTLS
	f := NewFolders(cfg)
	if _, err := f.Probe(t.Context()); !errors.Is(err, ErrCertificate) {
		t.Errorf("without the root: %v, want ErrCertificate", err)
	}
	cfg.Roots = roots
	f = NewFolders(cfg)
	t.Cleanup(func() { f.Close() })
	if h, err := f.Probe(t.Context()); err != nil || h.Drafts != "Drafts" {
		t.Errorf("with the root: %+v, %v", h, err)
	}
	cfg.SignIn.Password = password("wrong")
	if _, err := NewFolders(cfg).Probe(t.Context()); !errors.Is(err, ErrSignIn) {
		t.Errorf("wrong password: %v, want ErrSignIn", err)
	}
}

// A refused sign-in is not repeated by the next calls.
func TestFoldersDoNotHammer(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	cfg := config(s.Addr)
	cfg.SignIn.Password = password("wrong")
	f := NewFolders(cfg)
	for range 5 {
		if _, err := f.Drafts(t.Context()); !errors.Is(err, ErrSignIn) {
			t.Errorf("error %v, want ErrSignIn", err)
		}
	}
	if n := s.Logins(); n != 1 {
		t.Errorf("%d sign-ins, want 1", n)
	}
}

// BenchmarkWatchLargeMailbox hands over 20 new messages of a mailbox of 10,000.
// What it costs must depend on the 20.
func BenchmarkWatchLargeMailbox(b *testing.B) {
	for _, old := range []int{100, 10_000} {
		b.Run(fmt.Sprint(old), func(b *testing.B) {
			s, err := mailboxtest.Start(mailboxtest.Options{})
			if err != nil {
				b.Fatal(err)
			}
			defer s.Close()
			for n := range old + 20 {
				if _, err := s.Append("INBOX", surveyMail(n), time.Now()); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				c, err := dial(b.Context(), config(s.Addr))
				if err != nil {
					b.Fatal(err)
				}
				l := newLedger()
				w := &watch{
					Watcher: &Watcher{Config: config(s.Addr), Now: time.Now, Deliver: l.deliver},
					pace:    usualPace, failed: make(map[imap.UID]failures),
					cursor: ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: validityOf(b, c), LastUID: uint32(old)},
				}
				if err := w.look(b.Context(), c); err != nil {
					b.Fatal(err)
				}
				if len(l.deliveries) != 20 {
					b.Fatalf("%d delivered, want 20", len(l.deliveries))
				}
				c.abort()
			}
		})
	}
}

func validityOf(b *testing.B, c *conn) uint32 {
	state, err := c.selectMailbox(b.Context(), "INBOX", true)
	if err != nil {
		b.Fatal(err)
	}
	return state.validity
}
