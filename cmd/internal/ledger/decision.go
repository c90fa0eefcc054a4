package ledger

import (
	"database/sql"
	"fmt"
	"time"

	"fairtape/reply"
)

// Choice names what a person decided.
type Choice string

// The choices.
const (
	ChooseSend  Choice = "send"
	ChooseHold  Choice = "hold"
	ChooseEdit  Choice = "edit"  // Words is the whole letter
	ChooseClose Choice = "close" // the job is done with
	ChooseNote  Choice = "note"
	// ChooseAnswered says that the question in the way of a letter is answered.
	ChooseAnswered Choice = "answered"
)

// Decision is what a person decided. The running service acts on it.
type Decision struct {
	ID      int64
	Account string
	Draft   reply.DraftID // Version 0 for decisions about the job
	Choice  Choice
	Person  string
	Words   string
	Made    time.Time
	Done    time.Time // zero until the service has acted on it
	Outcome string
}

// Decide records a decision.
func (t *Tx) Decide(d Decision) error {
	return t.exec("decision", `INSERT INTO decisions (account, job, version, kind, person, words, made, done, outcome)
		VALUES (?,?,?,?,?,?,?,0,'')`, d.Account, d.Draft.Job, d.Draft.Version, d.Choice, d.Person, d.Words, millis(t.now))
}

// Decisions returns the decisions that wait to be acted on, oldest first.
func (t *Tx) Decisions(account string) ([]Decision, error) {
	return t.decisions(`account = ? AND done = 0`, account)
}

// DecisionsOf returns everything that was decided in a job, oldest first.
func (t *Tx) DecisionsOf(account string, job int) ([]Decision, error) {
	return t.decisions(`account = ? AND job = ?`, account, job)
}

func (t *Tx) decisions(where string, args ...any) ([]Decision, error) {
	return collect(t, func(row *sql.Rows) (Decision, error) {
		var d Decision
		var made, done int64
		err := row.Scan(&d.ID, &d.Account, &d.Draft.Job, &d.Draft.Version, &d.Choice, &d.Person, &d.Words, &made, &done, &d.Outcome)
		d.Made, d.Done = moment(made), moment(done)
		return d, err
	}, `SELECT id, account, job, version, kind, person, words, made, done, outcome FROM decisions WHERE `+where+` ORDER BY id`, args...)
}

// SettleDecision records what came of a decision.
func (t *Tx) SettleDecision(id int64, outcome string) error {
	return t.exec("outcome", `UPDATE decisions SET done = ?, outcome = ? WHERE id = ?`, millis(t.now), outcome, id)
}

// Accounts returns the accounts that the ledger knows, in order.
func (t *Tx) Accounts() ([]string, error) {
	all, err := collect(t, func(row *sql.Rows) (string, error) {
		var a string
		return a, row.Scan(&a)
	}, `SELECT account FROM cursors UNION SELECT account FROM jobs ORDER BY 1`)
	if err != nil {
		return nil, fmt.Errorf("list accounts: %w", err)
	}
	return all, nil
}
