package desk

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/parse"
	"fairtape/reply/chat"
)

// mostDropped is how large a file may be that somebody drops into a thread, in
// bytes: as much as a mail brings.
const mostDropped = 25 << 20

// reread reads a mail again as part of the job that a person says it belongs
// to.
func (d *Desk) reread(ctx context.Context, i ledger.Intent) (outcome, error) {
	number, err := strconv.ParseInt(i.Words, 10, 64)
	if err != nil {
		return outcome{state: failed, words: "no such message"}, nil
	}
	var m ledger.Message
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		m, err = tx.Message(number)
		return err
	})
	if err != nil {
		return outcome{}, err
	}
	raw, err := d.Folders.Fetch(ctx, m.At)
	if errors.Is(err, mailbox.ErrGone) || errors.Is(err, mailbox.ErrRenumbered) {
		return d.cannot(i, "The mail \""+m.Subject+"\" is no longer in the mailbox, so it could not be read again."), nil
	}
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	a, err := d.open(ctx, mailbox.Delivery{Location: m.At, Received: m.Received, Raw: raw}, m)
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	return d.takeIn(ctx, i, a)
}

// cannot says in the job's thread why something could not be read.
func (d *Desk) cannot(i ledger.Intent, why string) outcome {
	return outcome{state: failed, words: why, also: func(tx *ledger.Tx) error { return d.planSay(tx, i.Draft.Job, why) }}
}

// takeIn makes what was read a part of a job.
func (d *Desk) takeIn(ctx context.Context, i ledger.Intent, a arrival) (outcome, error) {
	var r route
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		r, err = d.into(tx, i.Draft.Job, a)
		return err
	})
	if err != nil {
		return outcome{}, err
	}
	touched := r.open.Edited != ""
	if r.open.ID.Job != 0 && !touched {
		if touched, err = d.touched(ctx, r.open); err != nil {
			return outcome{state: later, words: err.Error()}, nil
		}
	}
	return outcome{also: func(tx *ledger.Tx) error {
		// What was true a moment ago may not be now.
		r, err := d.into(tx, i.Draft.Job, a)
		if err != nil {
			return err
		}
		if err := d.endIn(tx, a, r, touched); err != nil || a.cause == "" {
			return err
		}
		return d.tellRead(tx, i.Draft.Job, a.cause, r.base)
	}}, nil
}

// mostTold is how many changed numbers are told one by one.
const mostTold = 5

// tellRead says in a job's thread what came of a file that somebody gave: the
// person who dropped it hears that it was read, and which numbers it changed.
func (d *Desk) tellRead(tx *ledger.Tx, job int, cause string, before ledger.Version) error {
	now, err := tx.Survey(d.Account, job)
	if err != nil {
		return err
	}
	var changes []string
	for _, c := range Changes(before.Survey, now.Survey) {
		if !c.Is.Certain() {
			continue
		}
		words := fmt.Sprintf("%s is now %s", numberName(c.Cell, now.Survey.Unit), written(c.Is.Value, now.Survey.Unit))
		if c.Was.Certain() {
			words += ", not " + written(c.Was.Value, now.Survey.Unit)
		}
		changes = append(changes, words)
	}
	words := "no number changed"
	if more := len(changes) - mostTold; more > 0 {
		changes = append(changes[:mostTold], fmt.Sprintf("and %d more", more))
	}
	if len(changes) > 0 {
		words = strings.Join(changes, "; ")
	}
	return d.planSay(tx, job, fmt.Sprintf("%s: read as part of the job; %s.", upper(cause), words))
}

// into is the route of what a person says belongs to a job.
func (d *Desk) into(tx *ledger.Tx, number int, a arrival) (r route, err error) {
	if r.job, err = tx.Job(d.Account, number); err != nil {
		return r, err
	}
	r.survey, r.problems = parse.Merge(a.content.Documents()...)
	if r.hold, err = d.foreignUnit(tx, r.job, &r); err != nil {
		return r, err
	}
	if r.base, err = tx.Survey(d.Account, number); err != nil && !errors.Is(err, ledger.ErrNone) {
		return r, err
	}
	if r.open, err = tx.OpenDraft(d.Account, number); err != nil && !errors.Is(err, ledger.ErrNone) {
		return r, err
	}
	return r, nil
}

// dropped is a file that somebody dropped into a thread, as the ledger keeps
// it.
type dropped struct {
	chat.File
	By string
	At time.Time
}

// takeFile reads a file from the chat as part of a job.
func (d *Desk) takeFile(ctx context.Context, i ledger.Intent) (outcome, error) {
	var f dropped
	if err := json.Unmarshal([]byte(i.Words), &f); err != nil {
		return outcome{state: failed, words: err.Error()}, nil
	}
	data, err := d.Chat.Download(ctx, f.File, mostDropped)
	switch {
	case errors.Is(err, chat.ErrTooLarge):
		return d.cannot(i, fmt.Sprintf("%s is too large to be read here; the most is %d MB.", f.Name, mostDropped>>20)), nil
	case errors.Is(err, chat.ErrRefused):
		return d.cannot(i, fmt.Sprintf("%s could not be fetched: the chat service refused.", f.Name)), nil
	case err != nil:
		return outcome{state: later, words: err.Error()}, nil
	}
	var job ledger.Job
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		job, err = tx.Job(d.Account, i.Draft.Job)
		return err
	})
	if err != nil {
		return outcome{}, err
	}
	mail := lastMail(job).answers
	mail.From = ingest.Address{Name: job.CustomerName, Address: job.Customer}
	mail.Attachments = []ingest.Attachment{{Name: f.Name, MediaType: f.MediaType, Data: data}}
	a := arrival{mail: mail, cause: fmt.Sprintf("file %s, %s", f.Name, f.By)}
	a.message.From = mail.From
	if a.content, err = d.Reader.Read(ctx, mail, "chat"); err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	return d.takeIn(ctx, i, a)
}
