package doctor

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
	"fairtape/reply/smtp"
	"fairtape/reply/smtp/smtptest"
)

func TestMain(m *testing.M) {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	os.Exit(m.Run())
}

// world is a shop whose set-up works, to be broken in one place.
type world struct {
	t   *testing.T
	dir string

	imap    mailboxtest.Options
	smtp    smtptest.Options
	faults  smtptest.Faults
	chat    *chattest.Server
	address map[string]string // of imap and smtp, in place of the servers'
	add     map[string]string // lines to a table of the settings
	replace map[string]string // in the text of the settings
	later   time.Duration     // how much this machine's clock is ahead
	free    uint64
	env     map[string]string
	before  func(w *world) // just before the examination
}

func newWorld(t *testing.T) *world {
	w := &world{
		t: t, dir: t.TempDir(), chat: chattest.New(),
		smtp:    smtptest.Options{User: mailboxtest.User, Password: mailboxtest.Password},
		address: map[string]string{}, add: map[string]string{}, replace: map[string]string{}, env: map[string]string{},
		free: 20 << 30,
	}
	t.Cleanup(w.chat.Close)
	w.write("imap.password", mailboxtest.Password)
	w.write("bot.token", chattest.BotToken)
	w.write("app.token", chattest.AppToken)
	return w
}

func (w *world) path(name string) string { return filepath.Join(w.dir, name) }

func (w *world) write(name, text string) {
	w.t.Helper()
	if err := os.WriteFile(w.path(name), []byte(text), 0o600); err != nil {
		w.t.Fatal(err)
	}
}

// text is the settings file.
func (w *world) text(imapAddress, smtpAddress string) string {
	text := fmt.Sprintf(`[shop]
name = "Pinfold Cover Loft"
from = "orders@pinfold.example"
[imap]
address = %q
tls = "none"
user = %q
password_file = "imap.password"
%s
[smtp]
address = %q
tls = "none"
user = %q
password_file = "imap.password"
%s
[slack]
channel = %q
bot_token_file = "bot.token"
app_token_file = "app.token"
api_url = %q
%s
`, imapAddress, mailboxtest.User, w.add["imap"], smtpAddress, mailboxtest.User, w.add["smtp"], chattest.Channel, w.chat.URL(), w.add["slack"])
	for old, with := range w.replace {
		text = strings.Replace(text, old, with, 1)
	}
	return text
}

// examine starts the servers and examines.
func (w *world) examine() Report {
	w.t.Helper()
	box, err := mailboxtest.Start(w.imap)
	if err != nil {
		w.t.Fatal(err)
	}
	w.t.Cleanup(func() { box.Close() }) //nolint:errcheck // the test is over
	out, err := smtptest.Start(w.smtp)
	if err != nil {
		w.t.Fatal(err)
	}
	w.t.Cleanup(func() { out.Close() }) //nolint:errcheck // the test is over
	out.Fail(w.faults)
	for name, addr := range map[string]string{"imap": box.Addr, "smtp": out.Addr} {
		if w.address[name] == "" {
			w.address[name] = addr
		}
	}
	file := w.path("fairtape.toml")
	w.write("fairtape.toml", w.text(w.address["imap"], w.address["smtp"]))
	conf, err := settings.Load(file)
	if wrong, ok := err.(*settings.Error); ok {
		return Broken(file, "fairtape doctor", wrong)
	}
	if err != nil {
		w.t.Fatal(err)
	}
	if w.before != nil {
		w.before(w)
	}
	return w.doctor(file, conf).Examine(w.t.Context())
}

func (w *world) doctor(file string, conf settings.Settings) *Doctor {
	return &Doctor{
		File: file, Again: "fairtape doctor", SignIn: "fairtape signin", Settings: conf,
		Folders: func() (*mailbox.Folders, error) {
			c := conf.IMAP
			return mailbox.NewFolders(mailbox.Config{
				Address: c.Address, Security: mailbox.Security(c.TLS), Roots: w.roots(c.CAFile),
				SignIn: mailbox.SignIn{User: c.User, Password: c.Password},
				Inbox:  c.Inbox, Drafts: c.Drafts, Sent: c.Sent,
			}), nil
		},
		Sender: func() (smtp.Sender, error) {
			c := conf.SMTP
			s := smtp.Sender{Address: c.Address, Security: smtp.Security(c.TLS), Roots: w.roots(c.CAFile)}
			if c.User != "" {
				s.SASL = func() (sasl.Client, error) {
					password, err := c.Password()
					return sasl.NewPlainClient("", c.User, password), err
				}
			}
			return s, nil
		},
		Chat: func() (*chat.Poster, error) {
			bot, err := conf.Slack.BotToken()
			if err != nil {
				return nil, err
			}
			app, err := conf.Slack.AppToken()
			return chat.New(chat.Config{Channel: conf.Slack.Channel, BotToken: bot, AppToken: app, APIURL: conf.Slack.APIURL}), err
		},
		Opener: func() (*opener.Opener, error) { return opener.New("", w.path("cache")) },
		Texts:  func() error { return nil },
		Now:    func() time.Time { return time.Now().Add(w.later) },
		Free:   func(string) (uint64, error) { return w.free, nil },
		Getenv: func(name string) string { return w.env[name] },
	}
}

func (w *world) roots(file string) *x509.CertPool {
	if file == "" {
		return nil
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return nil // one of the set-ups
	}
	pool := x509.NewCertPool()
	pool.AppendCertsFromPEM(data)
	return pool
}

// secure gives the mail server a certificate, and TLS from the first byte if
// asked. The root is written to ca.pem.
func (w *world) secure(until time.Time, implicit bool) {
	w.t.Helper()
	cert, _, err := mailboxtest.Certificate(until)
	if err != nil {
		w.t.Fatal(err)
	}
	w.imap.TLS = &tls.Config{Certificates: []tls.Certificate{cert}}
	w.imap.Implicit = implicit
	w.write("ca.pem", string(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: cert.Certificate[0]})))
}

// closedPort is an address at which nothing listens.
func closedPort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close() //nolint:errcheck // it is closed on purpose
	return l.Addr().String()
}

// serving answers every connection with a text and leaves it open.
func serving(t *testing.T, text string) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() }) //nolint:errcheck // the test is over
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			t.Cleanup(func() { c.Close() }) //nolint:errcheck // the test is over
			fmt.Fprint(c, text)             //nolint:errcheck // the client may be gone
		}
	}()
	return l.Addr().String()
}
