package ledger

import (
	"errors"
)

// Mark names a small fact that outlives the program.
type Mark string

// The marks.
const (
	DigestMark Mark = "digest" // the shop's day of the last digest, 2006-01-02
	NoteMark   Mark = "note"   // Message-ID of the note that says that the chat is shut
	HeardMark  Mark = "heard"  // the moment up to which the chat was heard, RFC 3339
	CrowdMark  Mark = "crowd"  // the last job that was named among those whose threads wait
	// Of the whole ledger, account "": see Backup and TakeUp.
	backupMark       Mark = "backup"        // this is a copy, of that moment, RFC 3339
	firstJobMark     Mark = "first job"     // no new job has a lower number
	firstVersionMark Mark = "first version" // no new letter of a job below that has a lower one
)

// Mark returns what a mark says, "" when it was never set.
func (t *Tx) Mark(account string, name Mark) (value string, err error) {
	err = t.tx.QueryRowContext(t.ctx, `SELECT value FROM marks WHERE account = ? AND name = ?`, account, name).Scan(&value)
	if errors.Is(none(err), ErrNone) {
		return "", nil
	}
	return value, err
}

// SetMark records a mark.
func (t *Tx) SetMark(account string, name Mark, value string) error {
	return t.exec("mark", `INSERT INTO marks (account, name, value) VALUES (?,?,?)
		ON CONFLICT DO UPDATE SET value = excluded.value`, account, name, value)
}
