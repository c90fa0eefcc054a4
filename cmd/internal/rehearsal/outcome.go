package rehearsal

import (
	"context"
	"fmt"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
)

// Outcome is how a conversation ended. Two plays of one conversation end alike,
// however often the service was killed in one of them.
type Outcome struct {
	State        ledger.State
	Rounds       int
	Tracings     ledger.Tracings
	Numbers      map[string]float64 // inches by measure, of the survey as it is at the end
	Letters      string             // all that went out; "" when one had to be written anew
	Sent, Drafts int                // how many letters lie in the two mailboxes
	Went         int                // how many letters went out
}

// Outcome looks how the conversation ended.
func (f *Floor) Outcome(ctx context.Context) (o Outcome, err error) {
	err = f.View(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(Account, 1)
		if err != nil {
			return err
		}
		v, err := tx.Survey(Account, 1)
		if err != nil {
			return err
		}
		o.State, o.Rounds, o.Tracings, o.Numbers = job.State, job.Rounds, job.Tracings, map[string]float64{}
		for _, c := range desk.Cells(v.Survey) {
			if r := desk.ReadingAt(v.Survey, c); r.Certain() {
				o.Numbers[fmt.Sprintf("%s at %g", c.Measure, c.At.In(v.Survey.Unit))] = r.Value.In(v.Survey.Unit)
			}
		}
		return nil
	})
	if err != nil {
		return o, err
	}
	sent, err := f.Box.Messages("Sent")
	if err != nil {
		return o, err
	}
	if o.Drafts, err = f.inDrafts(ctx); err != nil {
		return o, err
	}
	o.Sent = len(sent)
	o.Went = len(f.Server.Letters())
	if f.Asked() == 0 {
		o.Letters, err = f.Letters()
	}
	return o, err
}

// tidied is how long a letter may lie in Drafts that was filed by a mail server
// after the service had been killed: some looks of the service at Drafts.
const tidied = 10 * time.Second

// inDrafts counts the letters in Drafts, after the service had time to take out
// what should not be there.
func (f *Floor) inDrafts(ctx context.Context) (int, error) {
	for end := time.Now().Add(tidied); ; {
		list, err := f.Box.Messages("Drafts")
		if err != nil || len(list) == 0 || time.Now().After(end) {
			return len(list), err
		}
		select {
		case <-ctx.Done():
			return 0, ctx.Err()
		case <-time.After(glance):
		}
	}
}
