package desk

import (
	"context"
	"errors"
	"fmt"

	"fairtape/cmd/internal/ledger"
)

// forgetSilent erases what is known of customers who have been silent for as
// long as customers are remembered. One with a letter that waits is kept: a
// person has not decided yet.
func (d *Desk) forgetSilent(ctx context.Context) error {
	if d.Keep <= 0 {
		return nil
	}
	var silent []string
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		silent, err = tx.Silent(d.Account, d.Now().Add(-d.Keep))
		return err
	})
	if err != nil || len(silent) == 0 {
		return err
	}
	jobs := 0
	for _, address := range silent {
		err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
			n, err := tx.Forget(d.Account, address)
			jobs += n
			return err
		})
		if err != nil && !errors.Is(err, ledger.ErrBusy) {
			return fmt.Errorf("forget a customer: %w", err)
		}
	}
	if jobs == 0 {
		return nil
	}
	d.Log.Info("customers who were silent for long are forgotten", "jobs", jobs)
	return d.Ledger.Settle(ctx)
}
