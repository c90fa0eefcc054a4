package desk

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/ingest/eml"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/origin"
)

// maxTries is how often a mail is tried before it is set aside: once more than
// a stumble, and soon enough that the mail behind it does not wait.
const maxTries = 3

// The points at which a test may end the program while a mail is worked off.
const (
	CrashArrived = "message recorded"
	CrashRead    = "message read"
	CrashSettled = "message settled"
)

// errOutside is a failure that is no fault of the mail: it is tried again and
// not counted.
var errOutside = errors.New("the mail server is out of reach")

// arrival is a mail on its way through the desk.
type arrival struct {
	message ledger.Message
	mail    ingest.Message
	origin  origin.Origin
	doubt   string // why the sender may be another than it says; "" for none
	content opener.Mail
	cause   string // of the survey that it makes; "" for the message itself
}

// Receive works off one delivery of the mailbox. When it returns nil the mail
// has reached its end on the ledger, and so has the mailbox's cursor.
func (d *Desk) Receive(ctx context.Context, delivery mailbox.Delivery) error {
	m, err := d.book(ctx, delivery)
	if err != nil {
		return err
	}
	if m.End != ledger.New {
		return d.Ledger.Update(ctx, func(tx *ledger.Tx) error { return tx.SetCursor(delivery.Cursor) })
	}
	d.Crash(CrashArrived)
	if delivery.Err != nil {
		return d.setAside(ctx, delivery, m, delivery.Err.Error())
	}
	if m.Tries > maxTries {
		return d.setAside(ctx, delivery, m, "it failed three times: "+cmp.Or(m.Failure, "the program ended while reading it"))
	}
	a, err := d.open(ctx, delivery, m)
	if err == nil {
		d.Crash(CrashRead)
		err = d.settle(ctx, delivery, a)
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if errors.Is(err, errOutside) || errors.Is(err, opener.ErrNotStarted) {
		return errors.Join(err, d.Ledger.Update(ctx, func(tx *ledger.Tx) error { return tx.UntryMessage(m.ID) }))
	}
	if err != nil {
		d.Log.Error("a mail could not be worked off", "message", m.ID, "try", m.Tries, "error", err)
		if m.Tries >= maxTries {
			return d.setAside(ctx, delivery, m, "it failed three times: "+err.Error())
		}
		return errors.Join(err, d.Ledger.Update(ctx, func(tx *ledger.Tx) error { return tx.FailMessage(m.ID, err.Error()) }))
	}
	d.Crash(CrashSettled)
	d.nudge()
	return nil
}

// book records that a message arrived and counts the try, before it is made:
// a mail that ends the program is counted too.
func (d *Desk) book(ctx context.Context, delivery mailbox.Delivery) (m ledger.Message, err error) {
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		m, err = tx.MessageAt(delivery.Location)
		if errors.Is(err, ledger.ErrNone) {
			m = ledger.Message{At: delivery.Location, Received: delivery.Received, Size: delivery.Size, End: ledger.New}
			m.ID, err = tx.AddMessage(m)
		}
		if err != nil || m.End != ledger.New {
			return err
		}
		m.Tries++
		return tx.TryMessage(m.ID)
	})
	return m, err
}

// open takes the mail apart and reads it. A panic of a reader is one more kind
// of failure: the next mail must not suffer from it.
func (d *Desk) open(ctx context.Context, delivery mailbox.Delivery, m ledger.Message) (a arrival, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("reading the mail panicked: %v\n%s", p, debug.Stack())
		}
	}()
	mail, err := eml.Parse(delivery.Raw)
	if err != nil {
		return a, fmt.Errorf("take the mail apart: %w", err)
	}
	mail.Received = delivery.Received
	m.MailID, m.Hash, m.From, m.Subject = mail.ID, fingerprint(mail), mail.From, mail.Subject
	m.From.Address = strings.ToLower(m.From.Address)
	a = arrival{message: m, mail: mail, origin: origin.Of(mail, d.Own)}
	if a.origin.Kind != origin.Person {
		return a, nil
	}
	if trust, why := d.Senders.Check(ctx, mail, delivery.Raw); trust == origin.Fail {
		a.doubt = strings.TrimSuffix(why, ".")
	}
	if d.byStaff(m.From.Address) {
		a.takePassedOn()
	}
	if a.mail, err = d.markPasted(ctx, a.mail, a.message.From.Address); err != nil {
		return a, err
	}
	a.content, err = d.Reader.Read(ctx, a.mail, mailName)
	return a, err
}

// takePassedOn makes a mail that a person of the shop has passed on the
// customer's.
func (a *arrival) takePassedOn() {
	inner, ok := passedOn(a.mail)
	if !ok {
		return
	}
	a.mail, a.message.From = inner, inner.From
	a.message.From.Address = strings.ToLower(inner.From.Address)
}

// fingerprint is a hash of what the sender wrote. Header lines that servers
// add on the way do not count: a mail delivered over two ways is one mail.
func fingerprint(m ingest.Message) string {
	h := sha256.New()
	part := func(s string) { fmt.Fprintf(h, "%d:%s\n", len(s), s) }
	part(m.From.Address)
	part(m.Date.UTC().Format(time.RFC3339))
	part(m.Subject)
	part(m.Text)
	part(m.HTML)
	for _, a := range m.Attachments {
		part(a.Name)
		fmt.Fprintf(h, "%d:", len(a.Data))
		h.Write(a.Data) //nolint:errcheck // a hash takes everything
	}
	return hex.EncodeToString(h.Sum(nil))
}

// settle brings a mail that has been read to its end, in one change of the
// ledger. Whether a person has changed the open letter is asked before: the
// ledger is not kept waiting for the mail server.
func (d *Desk) settle(ctx context.Context, delivery mailbox.Delivery, a arrival) error {
	var r route
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		r, err = d.route(tx, a)
		return err
	})
	if err != nil {
		return err
	}
	var touched bool
	if r.open.Edited != "" {
		touched = true
	} else if r.open.ID.Job != 0 && r.end == "" {
		if touched, err = d.touched(ctx, r.open); err != nil {
			return fmt.Errorf("%w: look for letter %s in Drafts: %w", errOutside, r.open.ID, err)
		}
	}
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		if err := tx.DescribeMessage(a.message); err != nil {
			return err
		}
		if err := d.end(tx, a, r, touched); err != nil {
			return err
		}
		return tx.SetCursor(delivery.Cursor)
	})
}

// setAside ends a mail that could not be worked off: as a job that a person
// finds, with a word in chat.
func (d *Desk) setAside(ctx context.Context, delivery mailbox.Delivery, m ledger.Message, why string) error {
	// Who wrote is said if it can be had: the header is small and safe to read.
	if mail, err := eml.Read(io.LimitReader(strings.NewReader(string(delivery.Raw)), 64<<10)); err == nil {
		m.MailID, m.From, m.Subject = mail.ID, mail.From, mail.Subject
	}
	reason := firstLine(why)
	err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		job, err := tx.AddJob(ledger.Job{Account: d.Account, Customer: m.From.Address, CustomerName: m.From.Name,
			Language: d.Language, State: ledger.SetAside, Reason: reason, Subject: m.Subject, MailID: m.MailID})
		if err != nil {
			return err
		}
		job.Summary = plain(job, "a mail was set aside")
		job.Summary.Problems = []string{"It could not be worked off: " + reason + ". It lies in the mailbox; please read it there."}
		return errors.Join(
			tx.SaveJob(job),
			tx.DescribeMessage(m),
			tx.EndMessage(m.ID, ledger.Held, "set aside: "+reason, job.ID),
			tx.SetCursor(delivery.Cursor),
			d.planShow(tx, job.ID),
		)
	})
	d.nudge()
	return err
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

// Rescanned records that the mailbox has been read anew.
func (d *Desk) Rescanned(ctx context.Context, r mailbox.Rescanned) error {
	d.Log.Info("mailbox read anew", "reason", r.Reason, "older mail left alone", r.Older)
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error { return tx.SetCursor(r.Cursor) })
}

// twins returns what to do with a mail that was seen before under another
// number: nothing, most of all. Two different mails under one Message-ID are
// for a person.
func (d *Desk) twins(tx *ledger.Tx, m ledger.Message) (end ledger.End, reason string, err error) {
	twins, err := tx.Twins(m)
	if err != nil {
		return "", "", err
	}
	twins = slices.DeleteFunc(twins, func(t ledger.Message) bool { return t.End == ledger.New })
	for _, t := range twins {
		if t.Hash == m.Hash {
			return ledger.Ignored, fmt.Sprintf("the same mail came before (message %d)", t.ID), nil
		}
	}
	if len(twins) > 0 {
		return ledger.Held, fmt.Sprintf("another mail with the same Message-ID came before (message %d)", twins[0].ID), nil
	}
	return "", "", nil
}
