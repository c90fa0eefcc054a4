package ledger

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
)

// ErrBusy: a letter of the customer waits or is under way.
var ErrBusy = errors.New("a letter of this customer waits or is under way")

// Forget erases what is known of a customer: names, addresses, surveys, letters,
// what was said. What keeps a mail from being answered twice stays: where it
// lies, its Message-ID and its hash. It returns how many jobs were erased. The
// error is ErrNone when no job is the customer's, ErrBusy when a letter waits.
func (t *Tx) Forget(account, address string) (int, error) {
	jobs, err := t.JobsOf(account, address)
	if err != nil {
		return 0, err
	}
	if len(jobs) == 0 {
		return 0, ErrNone
	}
	for _, j := range jobs {
		if _, err := t.OpenDraft(account, j.ID); !errors.Is(err, ErrNone) {
			if err == nil {
				err = fmt.Errorf("%w: job %d", ErrBusy, j.ID)
			}
			return 0, err
		}
		if err := t.forgetJob(account, j); err != nil {
			return 0, err
		}
	}
	return len(jobs), t.exec("forgetting", `UPDATE messages SET sender = '', sender_name = '', subject = '', reason = 'forgotten', failure = ''
		WHERE account = ? AND sender = ?`, account, strings.ToLower(address))
}

// Silent returns the customers of whom nothing came, and for whom nothing was
// done, since a moment.
func (t *Tx) Silent(account string, since time.Time) ([]string, error) {
	return collect(t, func(row *sql.Rows) (address string, err error) { return address, row.Scan(&address) },
		`SELECT customer FROM jobs WHERE account = ?1 AND customer <> '' GROUP BY customer HAVING MAX(updated) < ?2
			AND NOT EXISTS (SELECT 1 FROM messages m WHERE m.account = ?1 AND m.sender = customer AND m.seen >= ?2) ORDER BY 1`,
		account, millis(since))
}

// Settle brings every change into the ledger's own file, so that nothing of what
// was deleted stays in the log beside it.
func (l *Ledger) Settle(ctx context.Context) error {
	if _, err := l.write.ExecContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
		return fmt.Errorf("settle the ledger: %w", err)
	}
	return nil
}

func (t *Tx) forgetJob(account string, j Job) error {
	var errs []error
	for _, q := range []string{
		`DELETE FROM surveys WHERE account = ? AND job = ?`,
		`DELETE FROM covers WHERE account = ? AND job = ?`,
		`DELETE FROM sheets WHERE account = ? AND job = ?`,
		`UPDATE drafts SET recipient = '', question = '', letter = '', mime = x'', outgoing = x'' WHERE account = ? AND job = ?`,
		`UPDATE decisions SET words = '' WHERE account = ? AND job = ?`,
		`UPDATE intents SET words = '', state = CASE WHEN state IN ('planned', 'trying', 'unsure') THEN 'dropped' ELSE state END
			WHERE account = ? AND job = ? AND kind <> 'drop-draft'`,
		`UPDATE messages SET sender = '', sender_name = '', subject = '', reason = 'forgotten', failure = '' WHERE account = ? AND job = ?`,
	} {
		errs = append(errs, t.exec("forgetting", q, account, j.ID))
	}
	gone := Job{Account: j.Account, ID: j.ID, State: Closed, Reason: "forgotten", Created: j.Created, Joined: j.Joined,
		Channel: j.Channel, Thread: j.Thread, MailID: j.MailID}
	gone.Summary.Job, gone.Summary.State = j.ID, "forgotten"
	gone.Summary.Headline = fmt.Sprintf("Job %d: forgotten", j.ID)
	return errors.Join(append(errs, t.SaveJob(gone))...)
}
