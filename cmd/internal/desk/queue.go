package desk

import (
	"context"
	"fmt"
	"time"

	"fairtape/cmd/internal/ledger"
)

// queue is the acts of one round of work. Each is read and looked at once, so
// that a round over many costs no more for each of them.
type queue struct {
	read int64 // the last act that was read
	// What is to be done in the mailbox goes before what is to be said: a chat
	// takes one post a second, and a letter that a person lets go should not
	// wait behind hundreds.
	mail, chat []ledger.Intent
	stuck      map[string]bool // lanes in which an earlier act has to be done first
	threads    []int           // jobs whose threads have to wait
}

func newQueue() *queue { return &queue{stuck: map[string]bool{}} }

// take reads what has been planned since the last look.
func (q *queue) take(ctx context.Context, d *Desk) error {
	var fresh []ledger.Intent
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		fresh, err = tx.WaitingAfter(d.Account, q.read)
		return err
	})
	for _, i := range fresh {
		q.read = i.ID
		if inChat(i.Act) {
			q.chat = append(q.chat, i)
		} else {
			q.mail = append(q.mail, i)
		}
	}
	return err
}

// next returns the first act that may be done now. Acts of one job keep their
// order, in chat and in mail apart; one that has to wait holds up the ones
// behind it until the next round. No act waits for longer than mostPause: one
// that seems to was put off by a clock that has been set back since. Whether a
// thread may be begun, c says.
func (q *queue) next(now time.Time, c *crowd) (ledger.Intent, bool) {
	for _, line := range []*[]ledger.Intent{&q.mail, &q.chat} {
		for len(*line) > 0 {
			i := (*line)[0]
			*line = (*line)[1:]
			switch {
			case q.stuck[lane(i)]:
			case i.Due.After(now) && i.Due.Sub(now) <= mostPause:
				q.hold(i)
			case i.Begins && !i.Unsure && !c.admits(i.Draft.Job, now):
				q.threads = append(q.threads, i.Draft.Job)
				q.hold(i)
			default:
				return i, true
			}
		}
	}
	return ledger.Intent{}, false
}

// hold lets the acts behind one wait for the next round.
func (q *queue) hold(i ledger.Intent) { q.stuck[lane(i)] = true }

func lane(i ledger.Intent) string {
	if inChat(i.Act) {
		return fmt.Sprintf("chat %d", i.Draft.Job)
	}
	return fmt.Sprintf("mail %d", i.Draft.Job)
}

// inChat reports that an act is done in chat.
func inChat(act ledger.Act) bool {
	switch act {
	case ledger.Show, ledger.Say, ledger.HandSheet, ledger.HandBlank:
		return true
	}
	return false
}
