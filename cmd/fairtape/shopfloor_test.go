package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/cmd/fairtape/sample"
	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat/chattest"
	"fairtape/reply/smtp/smtptest"
)

// patience is how long a test waits for what the service does in seconds.
const patience = 60 * time.Second

// inbox is a mail server: one in memory, or a real one.
type inbox interface {
	Append(mailbox string, raw []byte, received time.Time, flags ...imap.Flag) (uint32, error)
	Messages(mailbox string) ([]mailboxtest.Message, error)
	Close() error
}

// sharedLog is what several commands write side by side.
type sharedLog struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *sharedLog) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *sharedLog) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// shopFloor is everything around a running service.
type shopFloor struct {
	t      *testing.T
	dir    string
	box    inbox
	server *smtptest.Server
	chat   *chattest.Server
	log    sharedLog
}

func newShopFloor(t *testing.T, box inbox, address string) *shopFloor {
	t.Helper()
	f := &shopFloor{t: t, dir: t.TempDir(), box: box, chat: chattest.New()}
	t.Cleanup(f.chat.Close)
	var err error
	if f.server, err = smtptest.Start(smtptest.Options{}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.server.Close(); box.Close() }) //nolint:errcheck // the test is over
	f.write("imap.password", mailboxtest.Password)
	f.write("bot.token", chattest.BotToken)
	f.write("app.token", chattest.AppToken)
	f.write("fairtape.toml", fmt.Sprintf(`
[shop]
name = "Pinfold Cover Loft"
from = "orders@pinfold.example"
[imap]
address = %q
tls = "none"
user = %q
password_file = "imap.password"
poll = "1s"
[smtp]
address = %q
tls = "none"
[slack]
channel = %q
bot_token_file = "bot.token"
app_token_file = "app.token"
api_url = %q
`, address, mailboxtest.User, f.server.Addr, chattest.Channel, f.chat.URL()))
	return f
}

func (f *shopFloor) write(name, text string) {
	f.t.Helper()
	if err := os.WriteFile(filepath.Join(f.dir, name), []byte(text), 0o600); err != nil {
		f.t.Fatal(err)
	}
}

// command is the program, as installed.
func (f *shopFloor) command(args ...string) *exec.Cmd {
	cmd := exec.Command("fairtape", append(args, "--config", filepath.Join(f.dir, "fairtape.toml"))...)
	cmd.Stdout, cmd.Stderr = &f.log, &f.log
	return cmd
}

// watch starts the service, to be killed at a point, "" for never.
func (f *shopFloor) watch(point string) *exec.Cmd {
	f.t.Helper()
	cmd := f.command("watch")
	cmd.Env = append(os.Environ(), crashVariable+"="+point)
	if err := cmd.Start(); err != nil {
		f.t.Fatal(err)
	}
	return cmd
}

// end tells the service to end, which it does with status 0.
func (f *shopFloor) end(cmd *exec.Cmd) {
	f.t.Helper()
	if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
		f.t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		f.t.Errorf("told to end, the service ended with: %v\n%s", err, f.log.String())
	}
}

// await waits until something is so.
func (f *shopFloor) await(what string, so func() bool) {
	f.t.Helper()
	for deadline := time.Now().Add(patience); !so(); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(deadline) {
			f.t.Fatalf("not so in time: %s\n%s", what, f.log.String())
		}
	}
}

func (f *shopFloor) in(mailbox string) []mailboxtest.Message {
	f.t.Helper()
	list, err := f.box.Messages(mailbox)
	if err != nil {
		f.t.Fatal(err)
	}
	return list
}

// settled reports that so many mails have ended and nothing is left to do.
func (f *shopFloor) settled(mails int) func() bool {
	return func() bool {
		l, err := ledger.Open(f.t.Context(), filepath.Join(f.dir, "fairtape.db"), time.Now)
		if err != nil {
			return false
		}
		defer l.Close() //nolint:errcheck // only read
		done := false
		err = l.View(f.t.Context(), func(tx *ledger.Tx) error {
			waiting, err := tx.Waiting("orders@127.0.0.1")
			if err != nil {
				return err
			}
			decisions, err := tx.Decisions("orders@127.0.0.1")
			if err != nil {
				return err
			}
			jobs, err := tx.Jobs("orders@127.0.0.1")
			ended := 0
			for _, j := range jobs {
				messages, err := tx.MessagesOf("orders@127.0.0.1", j.ID)
				if err != nil {
					return err
				}
				ended += len(messages)
			}
			done = len(waiting) == 0 && len(decisions) == 0 && ended >= mails
			return err
		})
		return err == nil && done
	}
}

// one asserts that a mail brought one letter and one thread, and is unseen.
func (f *shopFloor) one() {
	f.t.Helper()
	if n := len(f.in("Drafts")); n != 1 {
		f.t.Errorf("%d letters in Drafts, want 1", n)
	}
	for _, m := range f.in("INBOX") {
		if slices.Contains(m.Flags, imap.FlagSeen) {
			f.t.Error("the customer's mail is marked as seen")
		}
	}
	threads := 0
	said := map[string]int{}
	for _, m := range f.chat.Messages() {
		if m.ThreadTS == "" || m.ThreadTS == m.TS {
			threads++
		}
		if m.Text != "" {
			said[m.Text]++
		}
	}
	if threads != 1 {
		f.t.Errorf("%d threads in chat, want 1", threads)
	}
	for text, n := range said {
		if n != 1 {
			f.t.Errorf("said %d times: %.60s", n, text)
		}
	}
	if len(f.server.Letters()) != 0 {
		f.t.Error("a letter was sent without a decision")
	}
}

// mailOf returns a mail of the sample week.
func mailOf(t *testing.T, name string) []byte {
	t.Helper()
	all, err := sample.Mails()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range all {
		if m.Name == name {
			return m.Raw
		}
	}
	t.Fatalf("no sample mail %s", name)
	return nil
}

func inMemory(t *testing.T) *shopFloor {
	t.Helper()
	box, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return newShopFloor(t, box, box.Addr)
}

func dovecot(t *testing.T) *shopFloor {
	t.Helper()
	box, err := mailboxtest.StartDovecot(mailboxtest.DovecotOptions{})
	if errors.Is(err, mailboxtest.ErrNoDovecot) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	return newShopFloor(t, box, box.Addr)
}

// output runs a command that has to end with a status, and returns what it says.
func (f *shopFloor) output(status int, args ...string) string {
	f.t.Helper()
	cmd := f.command(args...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); cmd.ProcessState == nil || cmd.ProcessState.ExitCode() != status {
		f.t.Errorf("%v ended with %v, want %d: %s", args, err, status, errs.String())
	}
	return out.String()
}
