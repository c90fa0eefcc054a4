package main

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"
)

type healthCommand struct{}

// healthTime bounds the question: a container's engine waits.
const healthTime = 8 * time.Second

// Run asks the running service how it is. The status is 0 when it is well, 1
// when it is not, or does not answer.
func (*healthCommand) Run(t *terminal) error {
	conf, err := t.allSettings()
	if err != nil {
		return err
	}
	if conf.Status.Listen == "" {
		return usage(`add [status] listen = "127.0.0.1:8025"`, "the service does not tell its health: status.listen is empty")
	}
	ctx, cancel := context.WithTimeout(t.ctx, healthTime)
	defer cancel()
	ask, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+conf.Status.Listen+"/healthz", nil)
	if err != nil {
		return err
	}
	answer, err := http.DefaultClient.Do(ask)
	if err != nil {
		return &exit{statusOpen, fmt.Errorf("the service does not answer: %w", err), "is it running? fairtape watch"}
	}
	defer answer.Body.Close() //nolint:errcheck // read to its end below
	const most = 64 << 10
	body, err := io.ReadAll(io.LimitReader(answer.Body, most))
	if err != nil {
		return &exit{statusOpen, fmt.Errorf("the service does not answer: %w", err), ""}
	}
	if _, err := fmt.Fprintln(t.out, strings.TrimSpace(escapeText(string(body)))); err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK {
		return settle(statusOpen)
	}
	return nil
}
