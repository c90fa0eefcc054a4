package desk

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/chat"
)

// People are those who read the chat.
type People interface {
	Whisper(ctx context.Context, at chat.Thread, user, text string) error
	OpenHold(ctx context.Context, pressed chat.Event) error
	OpenEdit(ctx context.Context, pressed chat.Event, letter string) error
	OpenCorrect(ctx context.Context, pressed chat.Event, doubts []chat.Doubt) error
	Member(ctx context.Context, user string) (bool, error)
	Missed(ctx context.Context, at chat.Thread, after time.Time) ([]chat.Event, error)
}

// Hear takes what a person did in chat. Decisions are recorded as those of the
// command line are, and acted on by the same worker.
func (d *Desk) Hear(ctx context.Context, people People, approvers []string, e chat.Event) {
	err := d.hear(ctx, people, approvers, e)
	if err == nil || ctx.Err() != nil {
		return
	}
	d.Log.Error("something done in chat could not be taken", "kind", e.Kind, "error", err)
	if e.User.ID == "" {
		return
	}
	if err := people.Whisper(ctx, e.Thread, e.User.ID, "That could not be recorded just now; nothing was done. Please try again."); err != nil {
		d.Log.Error("tell a person in chat", "error", err)
	}
}

func (d *Desk) hear(ctx context.Context, people People, approvers []string, e chat.Event) error {
	switch e.Kind {
	case chat.Connected:
		return d.catchUp(ctx, people, approvers, e.At)
	case chat.Said:
		return d.hearWords(ctx, people, approvers, e)
	}
	if ok, err := d.mayDecide(ctx, people, approvers, e); err != nil || !ok {
		return err
	}
	switch e.Kind {
	case chat.PressHold:
		return people.OpenHold(ctx, e)
	case chat.PressEdit:
		return d.openLetter(ctx, people, e)
	case chat.PressCorrect:
		return d.openCorrect(ctx, people, e)
	case chat.Edited:
		return d.press(ctx, people, e, ledger.ChooseEdit, e.Text)
	case chat.PressSend:
		return d.press(ctx, people, e, ledger.ChooseSend, "")
	case chat.Corrected:
		return d.corrected(ctx, people, e)
	case chat.Held:
		words := e.Reason
		if e.Until != "" {
			words = Until(e.Until, e.Reason)
		}
		return d.press(ctx, people, e, ledger.ChooseHold, words)
	}
	return nil
}

// heardOverlap is how far back before the last thing heard the chat is asked
// for what was missed: clocks of two machines differ. What was heard before is
// known by its id.
const heardOverlap = time.Minute

// catchUp asks for what was said while the chat was out of reach.
func (d *Desk) catchUp(ctx context.Context, people People, approvers []string, now time.Time) error {
	var last time.Time
	threads := []chat.Thread{{}} // the channel itself
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		value, err := tx.Mark(d.Account, ledger.HeardMark)
		if err != nil || value == "" {
			return err
		}
		if last, err = time.Parse(time.RFC3339, value); err != nil {
			return err
		}
		jobs, err := tx.Jobs(d.Account)
		for _, j := range jobs {
			if j.Thread != "" && j.State != ledger.Closed {
				threads = append(threads, chat.Thread{Channel: j.Channel, TS: j.Thread})
			}
		}
		return err
	})
	if err != nil {
		return err
	}
	if !last.IsZero() {
		for _, at := range threads {
			missed, err := people.Missed(ctx, at, last.Add(-heardOverlap))
			if err != nil {
				return fmt.Errorf("ask for what was said meanwhile: %w", err)
			}
			for _, e := range missed {
				d.Hear(ctx, people, approvers, e)
			}
		}
	}
	return d.heard(ctx, now)
}

// heard records up to when the chat was heard. An older moment than the one
// recorded changes nothing.
func (d *Desk) heard(ctx context.Context, at time.Time) error {
	if at.IsZero() {
		return nil
	}
	value := at.UTC().Format(time.RFC3339)
	return d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		last, err := tx.Mark(d.Account, ledger.HeardMark)
		if err != nil || last >= value {
			return err
		}
		return tx.SetMark(d.Account, ledger.HeardMark, value)
	})
}

// mayDecide reports that a person may decide: a member of the channel, and one
// of the approvers where there are any.
func (d *Desk) mayDecide(ctx context.Context, people People, approvers []string, e chat.Event) (bool, error) {
	member, err := people.Member(ctx, e.User.ID)
	switch {
	case err != nil:
		return false, err
	case !member:
		return false, people.Whisper(ctx, e.Thread, e.User.ID, "Only people in this channel decide about letters.")
	case len(approvers) > 0 && !slices.Contains(approvers, e.User.ID):
		return false, people.Whisper(ctx, e.Thread, e.User.ID, "Only the people named as approvers in the settings decide about letters.")
	}
	return true, nil
}

// openLetter shows a person the letter for changes.
func (d *Desk) openLetter(ctx context.Context, people People, e chat.Event) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	draft, late, err := d.stillOpen(ctx, id)
	switch {
	case err != nil:
		return err
	case late != "":
		return people.Whisper(ctx, e.Thread, e.User.ID, late)
	}
	return people.OpenEdit(ctx, e, draft.Letter)
}

// stillOpen returns a letter that can be decided about, or says why it cannot.
func (d *Desk) stillOpen(ctx context.Context, id reply.DraftID) (draft ledger.Draft, late string, err error) {
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		draft, late, err = d.isOpen(tx, id)
		return err
	})
	return draft, late, err
}

// isOpen is stillOpen within a transaction. A decision that is recorded but not
// acted on yet counts.
func (d *Desk) isOpen(tx *ledger.Tx, id reply.DraftID) (ledger.Draft, string, error) {
	draft, err := tx.Draft(d.Account, id)
	switch {
	case errors.Is(err, ledger.ErrNone):
		return draft, fmt.Sprintf("There is no letter %s.", id), nil
	case err != nil:
		return draft, "", err
	case draft.State != ledger.DraftOpen:
		late := fmt.Sprintf("Letter %s %s already", id, became(draft.State))
		if draft.SettledBy != "" {
			late += " (" + draft.SettledBy + ")"
		}
		return draft, late + ", so nothing was done.", nil
	}
	waiting, err := tx.Decisions(d.Account)
	for _, w := range waiting {
		if w.Draft == id && slices.Contains([]ledger.Choice{ledger.ChooseSend, ledger.ChooseHold, ledger.ChooseEdit}, w.Choice) {
			return draft, fmt.Sprintf("%s was faster: %s for letter %s is recorded, so nothing was done.", cmp.Or(w.Person, "Somebody"), w.Choice, id), nil
		}
	}
	return draft, "", err
}

// press records a decision about a letter, unless somebody was faster.
func (d *Desk) press(ctx context.Context, people People, e chat.Event, choice ledger.Choice, words string) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	var late string
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		var draft ledger.Draft
		if draft, late, err = d.isOpen(tx, id); err != nil || late != "" {
			return err
		}
		if choice == ledger.ChooseSend && draft.Question != "" {
			// The button asked whether the question is answered.
			err = tx.Decide(ledger.Decision{Account: d.Account, Draft: id, Choice: ledger.ChooseAnswered, Person: e.User.Name, Event: e.ID + "/answered"})
		}
		return errors.Join(err, tx.Decide(ledger.Decision{Account: d.Account, Draft: id, Choice: choice, Person: e.User.Name, Words: words, Event: e.ID}))
	})
	if err != nil {
		return err
	}
	d.nudge()
	if late != "" {
		return people.Whisper(ctx, e.Thread, e.User.ID, late)
	}
	return d.heard(ctx, e.At)
}
