package rehearsal

import (
	"context"
	"fmt"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	ingesteml "fairtape/ingest/eml"
)

// Outcome is how a conversation ended. Two plays of one conversation end alike,
// however often the service was killed in one of them.
type Outcome struct {
	State      ledger.State
	Rounds     int
	Tracings   ledger.Tracings
	Numbers    map[string]float64 // inches by measure, of the survey as it is at the end
	Letters    string             // all that went out; "" when one had to be written anew
	Went, Sent int                // how many letters went out, and lie in Sent
	Drafts     []string           // what lies in Drafts
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

// inDrafts names the letters in Drafts, after the service had time to take out
// what a mail server filed late.
func (f *Floor) inDrafts(ctx context.Context) (names []string, err error) {
	for end := time.Now().Add(patience); ; {
		list, err := f.Box.Messages("Drafts")
		if err != nil || len(list) == 0 {
			return nil, err
		}
		if time.Now().After(end) {
			for _, l := range list {
				m, err := ingesteml.Parse(l.Raw)
				names = append(names, fmt.Sprintf("letter %v, %q, %d bytes, flags %v, %v", m.Header["X-Fairtape-Draft"], m.Subject, len(l.Raw), l.Flags, err))
			}
			return names, nil
		}
		select {
		case <-ctx.Done():
			return nil, ctx.Err()
		case <-time.After(glance):
		}
	}
}
