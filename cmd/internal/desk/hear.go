package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/chat"
)

// People are those who read the chat.
type People interface {
	Whisper(ctx context.Context, at chat.Thread, user, text string) error
	OpenHold(ctx context.Context, pressed chat.Event) error
	OpenEdit(ctx context.Context, pressed chat.Event, letter string) error
	Member(ctx context.Context, user string) (bool, error)
}

// Hear takes what a person did in chat. Decisions are recorded as those of the
// command line are, and acted on by the same worker.
func (d *Desk) Hear(ctx context.Context, people People, approvers []string, e chat.Event) {
	if err := d.hear(ctx, people, approvers, e); err != nil && ctx.Err() == nil {
		d.Log.Error("something done in chat could not be taken", "kind", e.Kind, "error", err)
		if err := people.Whisper(ctx, e.Thread, e.User.ID, "That could not be recorded just now; nothing was done. Please try again."); err != nil {
			d.Log.Error("tell a person in chat", "error", err)
		}
	}
}

func (d *Desk) hear(ctx context.Context, people People, approvers []string, e chat.Event) error {
	switch e.Kind {
	case chat.Connected:
		return nil
	case chat.Said:
		if !e.Mention {
			return nil
		}
	}
	if ok, err := d.mayDecide(ctx, people, approvers, e); err != nil || !ok {
		return err
	}
	switch e.Kind {
	case chat.PressHold:
		return people.OpenHold(ctx, e)
	case chat.PressEdit:
		return d.openLetter(ctx, people, e)
	case chat.Edited:
		return d.press(ctx, people, e, ledger.ChooseEdit, e.Text)
	case chat.PressSend:
		return d.press(ctx, people, e, ledger.ChooseSend, "")
	case chat.Held:
		words := e.Reason
		if e.Until != "" {
			words = strings.TrimSpace("until " + e.Until + " " + words)
		}
		return d.press(ctx, people, e, ledger.ChooseHold, words)
	case chat.Said:
		return d.obey(ctx, people, e)
	}
	return people.Whisper(ctx, e.Thread, e.User.ID, "That is done in the mail program or with the command fairtape jobs.")
}

// openLetter shows a person the letter for changes.
func (d *Desk) openLetter(ctx context.Context, people People, e chat.Event) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	var letter string
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		draft, err := tx.Draft(d.Account, id)
		if draft.State == ledger.DraftOpen {
			letter = draft.Letter
		}
		return err
	})
	switch {
	case err != nil && !errors.Is(err, ledger.ErrNone):
		return err
	case letter == "":
		return people.Whisper(ctx, e.Thread, e.User.ID, fmt.Sprintf("Letter %s cannot be changed any more.", id))
	}
	return people.OpenEdit(ctx, e, letter)
}

// mayDecide reports that a person may decide: a member of the channel, and one
// of the approvers where there are any.
func (d *Desk) mayDecide(ctx context.Context, people People, approvers []string, e chat.Event) (bool, error) {
	member, err := people.Member(ctx, e.User.ID)
	if err != nil || member && (len(approvers) == 0 || slices.Contains(approvers, e.User.ID)) {
		return err == nil, err
	}
	return false, people.Whisper(ctx, e.Thread, e.User.ID, "Only the people named as approvers in the settings decide about letters.")
}

// press records a decision about a letter, unless somebody was faster.
func (d *Desk) press(ctx context.Context, people People, e chat.Event, choice ledger.Choice, words string) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	var late string
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		draft, err := tx.Draft(d.Account, id)
		switch {
		case errors.Is(err, ledger.ErrNone):
			late = fmt.Sprintf("There is no letter %s.", id)
			return nil
		case err != nil:
			return err
		case draft.State != ledger.DraftOpen:
			late = fmt.Sprintf("Letter %s is %s already.", id, draft.State)
			if draft.SettledBy != "" {
				late = fmt.Sprintf("Letter %s is %s already (%s).", id, draft.State, draft.SettledBy)
			}
			return nil
		}
		if choice == ledger.ChooseSend && draft.Question != "" {
			// The button asked whether the question is answered.
			if err := tx.Decide(ledger.Decision{Account: d.Account, Draft: id, Choice: ledger.ChooseAnswered, Person: e.User.Name}); err != nil {
				return err
			}
		}
		return tx.Decide(ledger.Decision{Account: d.Account, Draft: id, Choice: choice, Person: e.User.Name, Words: words})
	})
	if err != nil {
		return err
	}
	d.nudge()
	if late != "" {
		return people.Whisper(ctx, e.Thread, e.User.ID, late)
	}
	return nil
}

// obey takes words said to the bot: "14 close", "14 note ...", "14 answered".
func (d *Desk) obey(ctx context.Context, people People, e chat.Event) error {
	var job int
	var verb, words string
	fields := strings.Fields(e.Text)
	if len(fields) >= 2 {
		if _, err := fmt.Sscanf(fields[0], "%d", &job); err == nil {
			verb, words = strings.ToLower(fields[1]), strings.Join(fields[2:], " ")
		}
	}
	var choice ledger.Choice
	switch verb {
	case "close":
		choice = ledger.ChooseClose
	case "note":
		choice = ledger.ChooseNote
	case "answered":
		choice = ledger.ChooseAnswered
	default:
		return people.Whisper(ctx, e.Thread, e.User.ID, "Say the number of a job and what to do: 14 close, 14 note ..., 14 answered.")
	}
	err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		if _, err := tx.Job(d.Account, job); err != nil {
			return err
		}
		decision := ledger.Decision{Account: d.Account, Draft: reply.DraftID{Job: job}, Choice: choice, Person: e.User.Name, Words: words}
		if choice == ledger.ChooseAnswered {
			draft, err := tx.OpenDraft(d.Account, job)
			if err != nil {
				return err
			}
			decision.Draft = draft.ID
		}
		return errors.Join(tx.Decide(decision), d.planSay(tx, job, fmt.Sprintf("%s: %s. Recorded.", e.User.Name, choice)))
	})
	d.nudge()
	if errors.Is(err, ledger.ErrNone) {
		return people.Whisper(ctx, e.Thread, e.User.ID, fmt.Sprintf("There is no job %d, or nothing in it to decide.", job))
	}
	return err
}
