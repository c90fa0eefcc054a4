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
	"runtime"
	"sync"
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

// Account is the mailbox's name on the ledger.
const Account = "orders@127.0.0.1"

// Floor is everything around the service.
type Floor struct {
	Dir     string // of settings and ledger
	Program string // the binary
	Box     Box
	Server  *smtptest.Server
	Chat    *chattest.Server
	Log     io.Writer // what the service says
	// FilesSent: the mail server files copies of what it sends, as some
	// providers do. Set before the first letter goes out.
	FilesSent bool

	mu      sync.Mutex
	process *exec.Cmd      // nil when the service does not run; under mu
	book    *ledger.Ledger // nil when it is not open here; under mu
	more    int            // letters that had to be written once more
}

// New sets up the servers, and settings that name them, in dir. Box listens at
// address. Close the floor.
func New(dir, program string, box Box, address string) (*Floor, error) {
	f := &Floor{Dir: dir, Program: program, Box: box, Chat: chattest.New(), Log: io.Discard}
	var err error
	if f.Server, err = smtptest.Start(smtptest.Options{Took: f.took}); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	for name, text := range map[string]string{
		"imap.password": mailboxtest.Password,
		"bot.token":     chattest.BotToken,
		"app.token":     chattest.AppToken,
	} {
		if err := f.write(name, text); err != nil {
			return nil, errors.Join(err, f.Close())
		}
	}
	if err := f.Settle(Ways{IMAP: address, SMTP: f.Server.Addr, Poll: time.Second}); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// Ways is how the service gets to its servers, and how it is asked how it does.
type Ways struct {
	IMAP, SMTP string // host:port; those of the chat are in its own URL
	Poll       time.Duration
	Status     string // host:port for health and metrics, "" for none
}

// Settle writes the settings file anew. It is read when the service starts.
func (f *Floor) Settle(w Ways) error {
	return f.write("fairtape.toml", fmt.Sprintf(settings, w.IMAP, mailboxtest.User, w.Poll, w.SMTP, chattest.Channel, f.Chat.URL(), w.Status))
}

func (f *Floor) write(name, text string) error {
	return os.WriteFile(filepath.Join(f.Dir, name), []byte(text), 0o600)
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
poll = %q
[smtp]
address = %q
tls = "none"
[slack]
channel = %q
bot_token_file = "bot.token"
app_token_file = "app.token"
api_url = %q
[status]
listen = %q
`

// Close ends the service and the servers.
func (f *Floor) Close() error {
	err := f.Kill()
	f.Chat.Close()
	err = errors.Join(err, f.Box.Close())
	if f.Server != nil {
		err = errors.Join(err, f.Server.Close())
	}
	return err
}

// took files a copy of what the mail server took over, where it does so.
func (f *Floor) took(l smtptest.Letter) {
	if !f.FilesSent {
		return
	}
	if _, err := f.Box.Append("Sent", l.Raw, time.Now()); err != nil {
		fmt.Fprintln(f.Log, "the mail server could not file a copy:", err) //nolint:errcheck // there is no other way to say so
	}
}

// Command is the program with the floor's settings.
func (f *Floor) Command(args ...string) *exec.Cmd {
	cmd := exec.Command(f.Program, append(args, "--config", filepath.Join(f.Dir, "fairtape.toml"))...)
	cmd.Stdout, cmd.Stderr = f.Log, f.Log
	return cmd
}

// Start starts the service.
func (f *Floor) Start() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.start()
}

func (f *Floor) start() error {
	f.process = f.Command("watch")
	return f.process.Start()
}

// ErrEnded: the service had ended by itself.
var ErrEnded = errors.New("the service had ended by itself")

// Kill ends the service the hard way. ErrEnded says that there was nothing left
// to kill; a service that was never started, or was told to end, is no error.
func (f *Floor) Kill() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.kill()
}

// kill closes the ledger here first: the next start of the service has to mend
// it alone.
func (f *Floor) kill() (err error) {
	if f.book != nil {
		err = f.book.Close()
		f.book = nil
	}
	if f.process == nil {
		return err
	}
	f.process.Process.Kill()                                                                          //nolint:errcheck // it may have ended
	f.process.Wait()                                                                                  //nolint:errcheck // its state tells
	if state := f.process.ProcessState; state != nil && state.Exited() && runtime.GOOS != "windows" { // which knows no other end
		err = errors.Join(err, fmt.Errorf("%w: %v", ErrEnded, state))
	}
	f.process = nil
	return err
}

// Restart kills the service and starts it again, also when it had ended by
// itself.
func (f *Floor) Restart() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return errors.Join(f.kill(), f.start())
}

// End tells the service to end, and waits for it.
func (f *Floor) End() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.process.Process.Signal(os.Interrupt); err != nil {
		return err
	}
	err := f.process.Wait()
	f.process = nil
	return err
}

// View looks at the ledger from outside, as the command "jobs" does.
func (f *Floor) View(ctx context.Context, look func(*ledger.Tx) error) (err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.book == nil {
		if f.book, err = ledger.Open(ctx, filepath.Join(f.Dir, "fairtape.db"), time.Now); err != nil {
			return err
		}
	}
	return f.book.View(ctx, look)
}

// quiet reports that nothing is left to do on the ledger.
func (f *Floor) quiet(ctx context.Context) (quiet bool) {
	err := f.View(ctx, func(tx *ledger.Tx) error {
		waiting, err1 := tx.Waiting(Account)
		decisions, err2 := tx.Decisions(Account)
		quiet = len(waiting)+len(decisions) == 0
		return errors.Join(err1, err2)
	})
	return err == nil && quiet
}

// job returns the conversation's job.
func (f *Floor) job(ctx context.Context) (j ledger.Job, err error) {
	err = f.View(ctx, func(tx *ledger.Tx) error {
		j, err = tx.Job(Account, 1)
		return err
	})
	return j, err
}

// draft returns the job's newest letter.
func (f *Floor) draft(ctx context.Context) (d ledger.Draft, err error) {
	err = f.View(ctx, func(tx *ledger.Tx) error {
		d, err = tx.LastDraft(Account, 1)
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
		d, err := tx.LastDraft(Account, 1)
		if err != nil {
			return err
		}
		return tx.SetDraft(Account, d.ID, d.State, d.SettledBy)
	})
}
