package main

import (
	"errors"

	"fairtape/cmd/internal/ledger"
)

type jobsForget struct {
	Customer string `arg:"" help:"The customer's address."`
}

// Run erases what is known of a customer. Mail stays in the mailbox and posts
// stay in chat: those are the shop's to delete.
func (c *jobsForget) Run(t *terminal) error {
	return withBook(t, func(b book) error {
		var jobs int
		err := b.Update(t.ctx, func(tx *ledger.Tx) (err error) {
			jobs, err = tx.Forget(b.account, c.Customer)
			return err
		})
		if err == nil {
			err = b.Settle(t.ctx)
		}
		switch {
		case errors.Is(err, ledger.ErrNone):
			return usage("see: fairtape jobs list", "no job is of %q", c.Customer)
		case errors.Is(err, ledger.ErrBusy):
			return usage("hold or send it first", "%v", err)
		case err != nil:
			return err
		}
		sayNotice(t.err, "forgotten: %s of %s; mail in the mailbox and posts in chat are yours to delete", counted(jobs, "job", "jobs"), c.Customer)
		return nil
	})
}
