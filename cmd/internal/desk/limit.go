package desk

import (
	"fmt"
	"time"

	"fairtape/cmd/internal/ledger"
)

// How much of one sender, and of one job, is worked off in a day before it is
// taken for a program that answers itself. Customers who send every page in a
// mail of its own stay below (common practice, no source).
const (
	mostOfSender = 12
	mostOfJob    = 12
	inDay        = 24 * time.Hour
)

// overLimit returns why a mail is not worked off: too many came. First says
// that it is the first such mail, so that the shop is told once.
func (d *Desk) overLimit(tx *ledger.Tx, from string, job int) (why string, first bool, err error) {
	ofSender, ofJob, err := tx.CountMessages(d.Account, from, job, d.Now().Add(-inDay))
	if err != nil {
		return "", false, err
	}
	switch {
	case ofSender >= mostOfSender:
		return fmt.Sprintf("%d mails came from %s within a day; it may be a program", ofSender, from), ofSender == mostOfSender, nil
	case ofJob >= mostOfJob:
		return fmt.Sprintf("%d mails came for job %d within a day; two programs may be answering each other", ofJob, job), ofJob == mostOfJob, nil
	}
	return "", false, nil
}
