package rehearsal

import (
	"context"
	"fmt"

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
	for name, count := range map[string]*int{"Sent": &o.Sent, "Drafts": &o.Drafts} {
		list, err := f.Box.Messages(name)
		if err != nil {
			return o, err
		}
		*count = len(list)
	}
	o.Went = len(f.Server.Letters())
	if f.Asked() == 0 {
		o.Letters, err = f.Letters()
	}
	return o, err
}
