package ledger

import (
	"database/sql"
	"fmt"
	"time"

	"fairtape/reply"
)

// Act names something done outside.
type Act string

// The acts. Filing, dropping and showing can be looked up afterwards; sending
// cannot always.
const (
	FileDraft Act = "file-draft" // append the letter to Drafts
	DropDraft Act = "drop-draft" // take it out of Drafts
	Show      Act = "show"       // bring the job's thread in chat up to date
	Say       Act = "say"        // say Words in the job's thread, or in the channel for job 0
	Send      Act = "send"       // hand the letter to the mail server
	FileSent  Act = "file-sent"  // append a copy to Sent
	Reread    Act = "reread"     // read a mail again as part of the job; Words is the message's number
	HandSheet Act = "hand-sheet" // post the cut sheet of the number in Words in the job's thread
	HandBlank Act = "hand-blank" // post the sheet as cut beside blanks for the cover that came back
	FileNote  Act = "file-note"  // append a note of why the chat is shut to Drafts; Words is why
	DropNote  Act = "drop-note"  // take the note out of Drafts; Words is its Message-ID
	TakeFile  Act = "take-file"  // read a file from the chat as part of the job; Words is its JSON
)

// Intent is an act that is meant, under way, or settled.
type Intent struct {
	ID      int64
	Account string
	Draft   reply.DraftID // Version 0 for acts about the job, Job 0 for the channel
	Act     Act
	Words   string
	// Unsure says that the act may have happened: it was begun and its outcome
	// is not on the ledger.
	Unsure bool
	Tries  int
	Due    time.Time
	// Begins says that a Show begins the job's thread.
	Begins bool
}

// Plan records that an act is meant.
func (t *Tx) Plan(i Intent) error {
	return t.exec("intent", `INSERT INTO intents (account, job, version, kind, words, state, tries, due, outcome, made, settled)
		VALUES (?,?,?,?,?,'planned',0,?,'',?,0)`, i.Account, i.Draft.Job, i.Draft.Version, i.Act, i.Words, millis(i.Due), millis(t.now))
}

// Waiting returns the acts that are not settled, in the order they were meant.
func (t *Tx) Waiting(account string) ([]Intent, error) { return t.WaitingAfter(account, 0) }

// WaitingAfter returns those that were meant after an act.
func (t *Tx) WaitingAfter(account string, id int64) ([]Intent, error) {
	return collect(t, func(row *sql.Rows) (Intent, error) {
		i := Intent{Account: account}
		var state string
		var due int64
		err := row.Scan(&i.ID, &i.Draft.Job, &i.Draft.Version, &i.Act, &i.Words, &state, &i.Tries, &due, &i.Begins)
		i.Due = moment(due)
		i.Unsure = state != "planned"
		return i, err
	}, `SELECT id, job, version, kind, words, state, tries, due,
			kind = 'show' AND EXISTS (SELECT 1 FROM jobs WHERE account = intents.account AND id = intents.job AND thread = '') FROM intents
		WHERE account = ? AND id > ? AND state IN ('planned', 'trying', 'unsure') ORDER BY id`, account, id)
}

// Begin records that an act is being tried, before it is. It reports false when
// the act has been settled meanwhile.
func (t *Tx) Begin(id int64) (bool, error) {
	r, err := t.tx.ExecContext(t.ctx, `UPDATE intents SET state = 'trying', tries = tries + 1
		WHERE id = ? AND state IN ('planned', 'trying', 'unsure')`, id)
	if err != nil {
		return false, fmt.Errorf("record act: %w", err)
	}
	n, err := r.RowsAffected()
	return n > 0, err
}

// Done records that an act happened.
func (t *Tx) Done(id int64, outcome string) error { return t.settle(id, "done", outcome) }

// Fail records that an act did not happen and will not be tried again.
func (t *Tx) Fail(id int64, outcome string) error { return t.settle(id, "failed", outcome) }

// Drop records that an act is no longer wanted.
func (t *Tx) Drop(id int64, outcome string) error { return t.settle(id, "dropped", outcome) }

func (t *Tx) settle(id int64, state, outcome string) error {
	return t.exec("outcome", `UPDATE intents SET state = ?, outcome = ?, settled = ? WHERE id = ?`, state, outcome, millis(t.now), id)
}

// Again records that an act is to be tried again at a moment: surely not done,
// or, when unsure, perhaps.
func (t *Tx) Again(id int64, unsure bool, due time.Time, outcome string) error {
	state := "planned"
	if unsure {
		state = "unsure"
	}
	return t.exec("outcome", `UPDATE intents SET state = ?, due = ?, outcome = ? WHERE id = ?`, state, millis(due), outcome, id)
}

// DropPlanned drops the acts of one kind for a letter that have not been begun.
func (t *Tx) DropPlanned(account string, id reply.DraftID, act Act) error {
	return t.exec("intent", `UPDATE intents SET state = 'dropped', outcome = 'no longer wanted', settled = ?
		WHERE account = ? AND job = ? AND version = ? AND kind = ? AND state = 'planned'`, millis(t.now), account, id.Job, id.Version, act)
}

// Planned reports whether an act for a letter is waiting and not begun.
func (t *Tx) Planned(account string, id reply.DraftID, act Act) (bool, error) {
	return t.meant(account, id, act, `('planned')`)
}

// Waits reports whether an act for a letter is not settled.
func (t *Tx) Waits(account string, id reply.DraftID, act Act) (bool, error) {
	return t.meant(account, id, act, `('planned', 'trying', 'unsure')`)
}

func (t *Tx) meant(account string, id reply.DraftID, act Act, states string) (bool, error) {
	var n int
	err := t.tx.QueryRowContext(t.ctx, `SELECT COUNT(*) FROM intents
		WHERE account = ? AND job = ? AND version = ? AND kind = ? AND state IN `+states, account, id.Job, id.Version, act).Scan(&n)
	return n > 0, err
}
