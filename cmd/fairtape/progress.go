package main

import (
	"time"

	"github.com/schollz/progressbar/v3"
)

// progressAfter is how long work has to take before a bar is shown.
const progressAfter = 2 * time.Second

// progress is a bar on standard error, for a person who waits.
type progress struct {
	terminal *terminal
	start    time.Time
	steps    int
	of       int
	bar      *progressbar.ProgressBar // nil as long as nothing is shown
}

func newProgress(t *terminal, of int) *progress {
	return &progress{terminal: t, start: time.Now(), of: of}
}

func (p *progress) step() {
	p.steps++
	if !isTerminal(p.terminal.err) || p.of < 2 || time.Since(p.start) < progressAfter {
		return
	}
	if p.bar == nil {
		p.bar = progressbar.NewOptions(p.of, progressbar.OptionSetWriter(p.terminal.err),
			progressbar.OptionSetDescription("surveys"), progressbar.OptionShowCount(), progressbar.OptionClearOnFinish())
	}
	p.bar.Set(p.steps) //nolint:errcheck // a bar that cannot be drawn is no loss
}

func (p *progress) done() {
	if p.bar != nil {
		p.bar.Finish() //nolint:errcheck // a bar that cannot be drawn is no loss
	}
}
