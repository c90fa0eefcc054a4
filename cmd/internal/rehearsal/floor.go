// Package rehearsal plays a whole conversation on the real program: a mailbox, a
// mail server and a chat on loopback, a customer and two people of the shop, and
// the service between them, which may be killed at any moment. It is used by
// tests and by the benchmark of crashes.
package rehearsal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat/chattest"
	"fairtape/reply/smtp/smtptest"
)

// Box is a mail server that keeps mailboxes: one in memory, or a real one.
type Box interface {
	Append(mailbox string, raw []byte, received time.Time, flags ...imap.Flag) (uint32, error)
	Messages(mailbox string) ([]mailboxtest.Message, error)
	Close() error
}

// account is the mailbox's name on the ledger.
const account = "orders@127.0.0.1"

// Floor is everything around the service.
type Floor struct {
	Dir     string // of settings and ledger
	Program string // the binary
	Box     Box
	Server  *smtptest.Server
	Chat    *chattest.Server
	Log     io.Writer // what the service says

	process *exec.Cmd
}

// New sets up the servers, and settings that name them, in dir. Box listens at
// address. Close the floor.
func New(dir, program string, box Box, address string) (*Floor, error) {
	f := &Floor{Dir: dir, Program: program, Box: box, Chat: chattest.New(), Log: io.Discard}
	var err error
	if f.Server, err = smtptest.Start(smtptest.Options{}); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	for name, text := range map[string]string{
		"imap.password": mailboxtest.Password,
		"bot.token":     chattest.BotToken,
		"app.token":     chattest.AppToken,
		"fairtape.toml": fmt.Sprintf(settings, address, mailboxtest.User, f.Server.Addr, chattest.Channel, f.Chat.URL()),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			return nil, errors.Join(err, f.Close())
		}
	}
	return f, nil
}

const settings = `
[shop]
name = "Pinfold Cover Loft"
from = "orders@pinfold.example"
phone = "555 0137"
post = "4 Mill Lane, Pinfold"
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
`

// Close ends the service and the servers.
func (f *Floor) Close() error {
	f.Kill()
	f.Chat.Close()
	err := f.Box.Close()
	if f.Server != nil {
		err = errors.Join(err, f.Server.Close())
	}
	return err
}

// Command is the program with the floor's settings.
func (f *Floor) Command(args ...string) *exec.Cmd {
	cmd := exec.Command(f.Program, append(args, "--config", filepath.Join(f.Dir, "fairtape.toml"))...)
	cmd.Stdout, cmd.Stderr = f.Log, f.Log
	return cmd
}

// Start starts the service.
func (f *Floor) Start() error {
	f.process = f.Command("watch")
	return f.process.Start()
}

// Kill ends the service the hard way.
func (f *Floor) Kill() {
	if f.process == nil {
		return
	}
	f.process.Process.Kill() //nolint:errcheck // it may have ended
	f.process.Wait()         //nolint:errcheck // it was killed
	f.process = nil
}

// Restart kills the service and starts it again.
func (f *Floor) Restart() error {
	f.Kill()
	return f.Start()
}

// view looks at the ledger from outside, as the command "jobs" does.
func (f *Floor) view(ctx context.Context, look func(*ledger.Tx) error) (err error) {
	l, err := ledger.Open(ctx, filepath.Join(f.Dir, "fairtape.db"), time.Now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.Close()) }()
	return l.View(ctx, look)
}

// quiet reports that nothing is left to do on the ledger.
func (f *Floor) quiet(ctx context.Context) (quiet bool) {
	err := f.view(ctx, func(tx *ledger.Tx) error {
		waiting, err1 := tx.Waiting(account)
		decisions, err2 := tx.Decisions(account)
		quiet = len(waiting)+len(decisions) == 0
		return errors.Join(err1, err2)
	})
	return err == nil && quiet
}

// job returns the conversation's job.
func (f *Floor) job(ctx context.Context) (j ledger.Job, err error) {
	err = f.view(ctx, func(tx *ledger.Tx) error {
		j, err = tx.Job(account, 1)
		return err
	})
	return j, err
}

// draft returns the job's newest letter.
func (f *Floor) draft(ctx context.Context) (d ledger.Draft, err error) {
	err = f.view(ctx, func(tx *ledger.Tx) error {
		d, err = tx.LastDraft(account, 1)
		return err
	})
	return d, err
}

// age makes the last letter as old as some days: the calendar moves on.
func (f *Floor) age(ctx context.Context, days int) (err error) {
	l, err := ledger.Open(ctx, filepath.Join(f.Dir, "fairtape.db"), func() time.Time { return time.Now().AddDate(0, 0, -days) })
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.Close()) }()
	return l.Update(ctx, func(tx *ledger.Tx) error {
		d, err := tx.LastDraft(account, 1)
		if err != nil {
			return err
		}
		return tx.SetDraft(account, d.ID, d.State, d.SettledBy)
	})
}
