package ledger

import (
	"database/sql"
	"errors"
	"time"

	"fairtape/reply"
)

// DraftState says what became of a letter.
type DraftState string

// The states of a draft. Open and sending letters are never more than one a
// job; the schema holds that.
const (
	DraftOpen     DraftState = "open"     // waits for a person
	DraftSending  DraftState = "sending"  // a person said yes
	DraftSent     DraftState = "sent"     // the server took it over
	DraftUnsure   DraftState = "unsure"   // not known whether it left: a person has to look
	DraftHeld     DraftState = "held"     // a person said no
	DraftReplaced DraftState = "replaced" // a newer letter stands in its place
	DraftSettled  DraftState = "settled"  // a person answered by hand
)

// Draft is a letter on the ledger.
type Draft struct {
	Account   string
	ID        reply.DraftID
	MailID    string // its Message-ID
	Recipient string
	Answers   string // Message-ID of the customer's message
	State     DraftState
	Asks      int    // places asked for; 0 for a letter that only thanks
	Question  string // that has to be answered before it may go
	Reminder  int    // 1 for the first reminder, 0 for a letter that is none
	Edited    string // who gave it other words, "" for nobody
	Letter    string
	MIME      []byte // as it was filed
	// OutgoingID and Outgoing are Message-ID and message as they went out, or
	// were about to; "" and empty before that.
	OutgoingID string
	Outgoing   []byte
	Created    time.Time
	Settled    time.Time
	SettledBy  string
}

const draftColumns = `account, job, version, message_id, recipient, answers, state, asks, question, letter, mime, outgoing_id, outgoing, created, settled, settled_by, reminder, edited`

func scanDraft(row interface{ Scan(...any) error }) (Draft, error) {
	var d Draft
	var created, settled int64
	err := row.Scan(&d.Account, &d.ID.Job, &d.ID.Version, &d.MailID, &d.Recipient, &d.Answers, &d.State, &d.Asks, &d.Question,
		&d.Letter, &d.MIME, &d.OutgoingID, &d.Outgoing, &created, &settled, &d.SettledBy, &d.Reminder, &d.Edited)
	d.Created, d.Settled = moment(created), moment(settled)
	return d, none(err)
}

// NextDraft returns the id of a job's next letter. A letter that never came to
// be leaves no gap.
func (t *Tx) NextDraft(account string, job int) (reply.DraftID, error) {
	id := reply.DraftID{Job: job}
	firstJob, err1 := t.number(firstJobMark)
	first, err2 := t.number(firstVersionMark)
	if job >= firstJob {
		first = 1 // no letter of a job that is newer than the backup is known outside
	}
	err3 := t.tx.QueryRowContext(t.ctx, `SELECT MAX(COALESCE(MAX(version), 0) + 1, ?) FROM drafts WHERE account = ? AND job = ?`,
		first, account, job).Scan(&id.Version)
	return id, errors.Join(err1, err2, err3)
}

// AddDraft records a letter as open. An open letter of the job must have been
// replaced before.
func (t *Tx) AddDraft(d Draft) error {
	return t.exec("draft", `INSERT INTO drafts (`+draftColumns+`) VALUES (?,?,?,?,?,?,?,?,?,?,?,'',x'',?,0,'',?,?)`,
		d.Account, d.ID.Job, d.ID.Version, d.MailID, d.Recipient, d.Answers, DraftOpen, d.Asks, d.Question, d.Letter, d.MIME, millis(t.now), d.Reminder, d.Edited)
}

// Draft returns one letter, or ErrNone.
func (t *Tx) Draft(account string, id reply.DraftID) (Draft, error) {
	return scanDraft(t.tx.QueryRowContext(t.ctx, `SELECT `+draftColumns+` FROM drafts WHERE account = ? AND job = ? AND version = ?`,
		account, id.Job, id.Version))
}

// OpenDraft returns the letter of a job that waits or is under way, or ErrNone.
func (t *Tx) OpenDraft(account string, job int) (Draft, error) {
	return scanDraft(t.tx.QueryRowContext(t.ctx, `SELECT `+draftColumns+` FROM drafts
		WHERE account = ? AND job = ? AND state IN ('open', 'sending')`, account, job))
}

// LastDraft returns the newest letter of a job whatever became of it, or
// ErrNone.
func (t *Tx) LastDraft(account string, job int) (Draft, error) {
	return scanDraft(t.tx.QueryRowContext(t.ctx, `SELECT `+draftColumns+` FROM drafts
		WHERE account = ? AND job = ? ORDER BY version DESC LIMIT 1`, account, job))
}

// Drafts returns every letter of a job, oldest first.
func (t *Tx) Drafts(account string, job int) ([]Draft, error) {
	return collect(t, func(row *sql.Rows) (Draft, error) { return scanDraft(row) },
		`SELECT `+draftColumns+` FROM drafts WHERE account = ? AND job = ? ORDER BY version`, account, job)
}

// OpenDrafts returns every letter of the account that waits, and those of which
// it is not known whether they left, oldest first.
func (t *Tx) OpenDrafts(account string) ([]Draft, error) {
	return collect(t, func(row *sql.Rows) (Draft, error) { return scanDraft(row) },
		`SELECT `+draftColumns+` FROM drafts WHERE account = ? AND state IN ('open', 'unsure') ORDER BY created, job`, account)
}

// SetDraft records what became of a letter, and who made it so.
func (t *Tx) SetDraft(account string, id reply.DraftID, state DraftState, by string) error {
	return t.exec("draft", `UPDATE drafts SET state = ?, settled = ?, settled_by = ? WHERE account = ? AND job = ? AND version = ?`,
		state, millis(t.now), by, account, id.Job, id.Version)
}

// AnswerQuestion records that a person has answered the question that stood in
// the way of a letter.
func (t *Tx) AnswerQuestion(account string, id reply.DraftID) error {
	return t.exec("answer", `UPDATE drafts SET question = '' WHERE account = ? AND job = ? AND version = ?`, account, id.Job, id.Version)
}

// SetOutgoing records a letter as it is about to go out.
func (t *Tx) SetOutgoing(account string, id reply.DraftID, mailID string, mime []byte) error {
	return t.exec("letter", `UPDATE drafts SET outgoing_id = ?, outgoing = ? WHERE account = ? AND job = ? AND version = ?`,
		mailID, mime, account, id.Job, id.Version)
}
