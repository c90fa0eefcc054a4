package main

import (
	"context"
	"errors"
	"log/slog"
	"os"
	"path/filepath"

	"fairtape/cmd/internal/supervisor"
)

// handedFolder is where files of jobs go, beside the ledger, in a shop without a
// chat.
const handedFolder = "sheets"

type watchCommand struct {
	JSON bool `name:"json" help:"Log in JSON."`
}

// Run runs the service until it is told to end.
func (c *watchCommand) Run(t *terminal) error {
	conf, err := t.allSettings()
	if err != nil {
		return err
	}
	var handler slog.Handler = slog.NewTextHandler(t.err, nil)
	if c.JSON {
		handler = slog.NewJSONHandler(t.err, nil)
	}
	s, err := newService(t.ctx, conf, &terminalChat{out: t.out, files: filepath.Join(filepath.Dir(conf.Ledger.Path), handedFolder)}, slog.New(handler), t.crash)
	if t.ctx.Err() != nil && errors.Is(err, context.Canceled) {
		return nil // told to end before it had begun
	}
	if err != nil {
		return err
	}
	file, err := t.settingsFile()
	if err != nil {
		return errors.Join(err, s.close())
	}
	s.beside = s.upkeep(file, supervisor.New(os.Getenv, os.Getpid()))
	err = s.run(t.ctx)
	if closeErr := s.close(); err == nil {
		err = closeErr
	}
	return err
}
