package desk

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fairtape/cmd/internal/ledger"
)

// TakeUp makes a ledger ready to be served that was restored from a backup, and
// has that said in chat. With any other ledger it does nothing. It is called
// once, before the ledger is served.
func TakeUp(ctx context.Context, l *ledger.Ledger, zone *time.Location) error {
	return l.Update(ctx, func(tx *ledger.Tx) error {
		of, err := tx.TakeUp()
		if err != nil || of.IsZero() {
			return err
		}
		accounts, err := tx.Accounts()
		words := fmt.Sprintf("I work with a backup of %s now and know nothing of what happened since. "+
			"No letter goes out that was decided before; mail of the last days is read again, and new jobs have new numbers. "+
			"Please look at the letters in Drafts before you send any, and at what \"fairtape jobs verify\" says.",
			of.In(zone).Format("Monday 2 January 2006, 15:04"))
		for _, account := range accounts {
			err = errors.Join(err, tx.Plan(ledger.Intent{Account: account, Act: ledger.Say, Words: words}))
		}
		return err
	})
}
