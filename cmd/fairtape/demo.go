package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/cmd/fairtape/sample"
	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply"
	"fairtape/reply/smtp/smtptest"
)

const (
	demoLook = 20 * time.Millisecond // between two looks at what the service has done
	demoMost = 30 * time.Second      // that one mail may take before something must be wrong
)

// demoSettings are those of the invented shop; the servers are filled in.
const demoSettings = `
[shop]
name = "Pinfold Cover Loft"
from = "orders@pinfold.example"
phone = "555 0117"
post = "The Loft, 3 Tide Lane, Pinfold"
timezone = "America/Halifax"
[imap]
address = %q
tls = "none"
user = %q
password_file = "imap.password"
poll = "1s"
[smtp]
address = %q
tls = "none"
[ledger]
path = "fairtape.db"
`

type demoCommand struct {
	Out string `help:"Folder for letters, posts and pictures." default:"demo-out" placeholder:"DIR" type:"path"`
}

// demo is the whole loop on loopback: mail servers, the service, and the people
// of an invented shop.
type demo struct {
	*terminal
	out     string
	box     *mailboxtest.Server
	outward *smtptest.Server
	service *service
	chat    *demoChat
	account string
}

// Run plays the invented week.
func (c *demoCommand) Run(t *terminal) (err error) {
	start := time.Now()
	mails, err := sample.Mails()
	if err != nil {
		return err
	}
	home, err := os.MkdirTemp("", "fairtape-demo-")
	if err != nil {
		return fmt.Errorf("make a folder for the demo's ledger: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(home)) }()
	if err := os.MkdirAll(c.Out, 0o755); err != nil {
		return fmt.Errorf("make the folder for the demo's letters: %w", err)
	}
	d := &demo{terminal: t, out: c.Out}
	if err := d.open(home); err != nil {
		return errors.Join(err, d.close())
	}
	ctx, stop := context.WithCancel(t.ctx)
	ended := make(chan error, 1)
	go func() { ended <- d.service.run(ctx) }()
	err = d.play(ctx, mails)
	stop()
	err = errors.Join(err, <-ended)
	if err == nil {
		err = d.sum(len(mails), time.Since(start))
	}
	return errors.Join(err, d.close())
}

// open starts the servers and wires the service as "watch" does.
func (d *demo) open(home string) (err error) {
	if d.box, err = mailboxtest.Start(mailboxtest.Options{}); err != nil {
		return fmt.Errorf("start the demo's mailbox: %w", err)
	}
	if d.outward, err = smtptest.Start(smtptest.Options{}); err != nil {
		return fmt.Errorf("start the demo's mail server: %w", err)
	}
	if err := os.WriteFile(filepath.Join(home, "imap.password"), []byte(mailboxtest.Password), 0o600); err != nil {
		return err
	}
	text := fmt.Sprintf(demoSettings, d.box.Addr, mailboxtest.User, d.outward.Addr)
	conf, err := settings.Parse([]byte(text), filepath.Join(home, "fairtape.toml"))
	if err != nil {
		return err
	}
	d.account = conf.IMAP.Account()
	d.chat = &demoChat{terminalChat: terminalChat{out: d.terminal.out, files: d.out}, folder: d.out}
	log := slog.New(slog.NewTextHandler(d.err, &slog.HandlerOptions{Level: slog.LevelWarn}))
	d.service, err = newService(d.ctx, conf, d.chat, log, nil)
	return err
}

func (d *demo) close() error {
	var errs []error
	if d.service != nil {
		errs = append(errs, d.service.close())
	}
	if d.box != nil {
		errs = append(errs, d.box.Close())
	}
	if d.outward != nil {
		errs = append(errs, d.outward.Close())
	}
	return errors.Join(errs...)
}

// play puts one mail after another into the inbox and waits until the service
// is done with it; at last a person lets the first letter go.
func (d *demo) play(ctx context.Context, mails []sample.Mail) error {
	for i, m := range mails {
		if err := d.heading(fmt.Sprintf("mail %d of %d: %s", i+1, len(mails), m.Name)); err != nil {
			return err
		}
		uid, err := d.box.Append("INBOX", m.Raw, time.Now())
		if err != nil {
			return err
		}
		if err := d.await(ctx, func(tx *ledger.Tx) (bool, error) { return d.workedOff(tx, uid) }); err != nil {
			return fmt.Errorf("%s: %w", m.Name, err)
		}
		if err := d.tell(ctx, uid); err != nil {
			return err
		}
	}
	first := reply.DraftID{Job: 1, Version: 1}
	if err := d.heading("a person of the shop lets letter " + first.String() + " go"); err != nil {
		return err
	}
	err := d.service.ledger.Update(ctx, func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: d.account, Draft: first, Choice: ledger.ChooseSend, Person: "Robin of the loft"})
	})
	if err != nil {
		return err
	}
	err = d.await(ctx, func(tx *ledger.Tx) (bool, error) {
		draft, err := tx.Draft(d.account, first)
		if err != nil || draft.State != ledger.DraftSent {
			return false, err
		}
		return d.idle(tx)
	})
	if err != nil {
		return err
	}
	return d.cutCover(ctx, first.Job)
}

// cutCover lets a person say what the first boat's cover is made of, and waits
// for the cut sheet.
func (d *demo) cutCover(ctx context.Context, job int) error {
	if err := d.heading(fmt.Sprintf("the survey of job %d is settled: a person of the shop chooses the cloth", job)); err != nil {
		return err
	}
	err := d.service.ledger.Update(ctx, func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: d.account, Draft: reply.DraftID{Job: job}, Choice: ledger.ChooseCloth,
			Person: "Robin of the loft", Words: "default sea green"})
	})
	if err != nil {
		return err
	}
	return d.await(ctx, func(tx *ledger.Tx) (bool, error) {
		sheets, err := tx.Sheets(d.account, job)
		if err != nil || len(sheets) == 0 {
			return false, err
		}
		return d.idle(tx)
	})
}

// await waits until something is so on the ledger.
func (d *demo) await(ctx context.Context, is func(*ledger.Tx) (bool, error)) error {
	ctx, stop := context.WithTimeout(ctx, demoMost)
	defer stop()
	look := time.NewTicker(demoLook)
	defer look.Stop()
	for {
		var so bool
		err := d.service.ledger.View(ctx, func(tx *ledger.Tx) (err error) {
			so, err = is(tx)
			return err
		})
		if err != nil || so {
			return err
		}
		select {
		case <-ctx.Done():
			return fmt.Errorf("the service did not get done: %w", ctx.Err())
		case <-look.C:
		}
	}
}

// workedOff reports that a mail has reached its end and nothing is left to do.
func (d *demo) workedOff(tx *ledger.Tx, uid uint32) (bool, error) {
	m, err := d.message(tx, uid)
	if errors.Is(err, ledger.ErrNone) {
		return false, nil
	}
	if err != nil || m.End == ledger.New {
		return false, err
	}
	return d.idle(tx)
}

func (d *demo) idle(tx *ledger.Tx) (bool, error) {
	waiting, err := tx.Waiting(d.account)
	return len(waiting) == 0, err
}

func (d *demo) message(tx *ledger.Tx, uid uint32) (ledger.Message, error) {
	cursor, err := tx.Cursor(d.account, "INBOX")
	if err != nil {
		return ledger.Message{}, err
	}
	return tx.MessageAt(ingest.Location{Account: d.account, Mailbox: "INBOX", UIDValidity: cursor.UIDValidity, UID: uid})
}

// tell says where a mail ended.
func (d *demo) tell(ctx context.Context, uid uint32) error {
	return d.service.ledger.View(ctx, func(tx *ledger.Tx) error {
		m, err := d.message(tx, uid)
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(d.terminal.out, "%s: %s\n\n", m.End, escape(m.Reason))
		return err
	})
}

func (d *demo) heading(text string) error {
	_, err := fmt.Fprintf(d.terminal.out, "%s\n\n", emphasis(d.terminal.out, "== "+text+" =="))
	return err
}

// sum writes the letters and ends with one line.
func (d *demo) sum(mails int, took time.Duration) error {
	drafts, err := d.box.Messages("Drafts")
	if err != nil {
		return err
	}
	unseen, err := d.box.Messages("INBOX")
	if err != nil {
		return err
	}
	seen := 0
	for _, m := range unseen {
		for _, f := range m.Flags {
			if f == imap.FlagSeen {
				seen++
			}
		}
	}
	letters := make([][]byte, 0, len(drafts))
	for _, m := range drafts {
		letters = append(letters, m.Raw)
	}
	sent := d.outward.Letters()
	for _, l := range sent {
		letters = append(letters, l.Raw)
	}
	for _, raw := range letters {
		if err := writeLetter(d.out, raw); err != nil {
			return err
		}
	}
	if err := d.chat.write(); err != nil {
		return err
	}
	_, err = fmt.Fprintf(d.terminal.out, "%s: %d mails, %d left unread; %s waiting in Drafts, %s sent after a person's yes, %s in chat; %s s; all of it lies in %s\n",
		emphasis(d.terminal.out, "demo done"), mails, mails-seen, counted(len(drafts), "letter", "letters"), counted(len(sent), "letter", "letters"),
		counted(d.chat.jobs(), "job", "jobs"), strconv.FormatFloat(took.Seconds(), 'f', 1, 64), d.out)
	return err
}
