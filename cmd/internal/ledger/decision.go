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
	// ChooseCorrect gives one number: "7 ft; hull_girth; 47 1/2".
	ChooseCorrect Choice = "correct"
	// ChooseOwn accepts an odd number as the boat's own: "7 ft; hull_girth".
	ChooseOwn Choice = "own"
	// ChooseTape says what lay under the tape, in Words.
	ChooseTape Choice = "tape"
	// ChooseReceived says what came by post: "bow", "stern refused TOO SHORT".
	ChooseReceived Choice = "received"
	ChooseJoin     Choice = "join"   // Words is the number of the other job
	ChooseSplit    Choice = "split"  // the last mail becomes a job of its own
	ChooseNo       Choice = "no"     // it does not belong to the job it seemed to
	ChooseReopen   Choice = "reopen" // the job is not done with
	ChooseFile     Choice = "file"   // a file was dropped into the thread; Words is its JSON
	// ChooseAnswered says that the question in the way of a letter is answered;
	// Words, if any, is the answer for the letter to give.
	ChooseAnswered Choice = "answered"
	// ChooseCloth says what the cover is made of: "default green".
	ChooseCloth Choice = "cloth"
	ChooseCut   Choice = "cut" // the newest sheet has been cut
	ChooseFit   Choice = "fit" // how the cover fitted: "good", "tight 7 ft", "returned"
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
	// Event is the chat's id of what the person did, "" for none. A second
	// decision of one event is not recorded.
	Event string
}

// Decide records a decision.
func (t *Tx) Decide(d Decision) error {
	return t.exec("decision", `INSERT INTO decisions (account, job, version, kind, person, words, made, done, outcome, event)
		VALUES (?,?,?,?,?,?,?,0,'',?) ON CONFLICT DO NOTHING`, d.Account, d.Draft.Job, d.Draft.Version, d.Choice, d.Person, d.Words, millis(t.now), d.Event)
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
		err := row.Scan(&d.ID, &d.Account, &d.Draft.Job, &d.Draft.Version, &d.Choice, &d.Person, &d.Words, &made, &done, &d.Outcome, &d.Event)
		d.Made, d.Done = moment(made), moment(done)
		return d, err
	}, `SELECT id, account, job, version, kind, person, words, made, done, outcome, event FROM decisions WHERE `+where+` ORDER BY id`, args...)
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
