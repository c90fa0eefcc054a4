package main

import (
	"errors"
	"time"

	"fairtape/cmd/internal/ledger"
)

type jobsBackup struct {
	File string `arg:"" help:"The file to write; an existing one is left alone." type:"path"`
}

// Run writes a backup while the service runs.
func (c *jobsBackup) Run(t *terminal) error {
	return withBook(t, func(b book) error {
		if err := b.Backup(t.ctx, c.File); err != nil {
			return err
		}
		sayNotice(t.err, "the ledger is backed up to %s; it holds customers' data, so keep it as the ledger itself", c.File)
		return nil
	})
}

type jobsRestore struct {
	File string `arg:"" help:"A file that jobs backup wrote." type:"existingfile"`
}

// Run puts a backup in the ledger's place. The service must not run.
func (c *jobsRestore) Run(t *terminal) (err error) {
	conf, err := t.settings()
	if err != nil {
		return err
	}
	release, err := ledger.Claim(conf.Ledger.Path)
	if errors.Is(err, ledger.ErrInUse) {
		return usage("end it first: systemctl stop fairtape", "the service runs on this ledger")
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, release()) }()
	kept, err := ledger.Restore(t.ctx, c.File, conf.Ledger.Path, time.Now())
	if errors.Is(err, ledger.ErrNoBackup) {
		return usage("it has to be a file that jobs backup wrote", "%s: %v", c.File, err)
	}
	if err != nil {
		return err
	}
	if kept != "" {
		sayNotice(t.err, "the ledger that was there is kept as %s", kept)
	}
	sayNotice(t.err, "the ledger is restored; at its next start the service sends nothing that was decided before, and says so in chat")
	return nil
}
