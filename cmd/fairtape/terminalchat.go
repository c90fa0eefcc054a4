package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"sync"

	"fairtape/reply"
	"fairtape/reply/chat"
)

// terminalChat shows posts in the terminal, for a shop without Slack. It has
// no threads.
type terminalChat struct {
	mu  sync.Mutex
	out io.Writer
}

// Show prints a job.
func (c *terminalChat) Show(_ context.Context, s reply.Summary, at chat.Thread, _ bool) (chat.Thread, error) {
	return at, c.print(chat.Plain(s))
}

// Say prints words.
func (c *terminalChat) Say(_ context.Context, at chat.Thread, _, text string, _ bool) (chat.Thread, error) {
	return at, c.print(escapeText(text))
}

// Download fetches nothing: nobody drops a file into a terminal.
func (c *terminalChat) Download(context.Context, chat.File, int) ([]byte, error) {
	return nil, chat.ErrRefused
}

func (c *terminalChat) print(text string) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	_, err := fmt.Fprintf(c.out, "%s\n\n", strings.TrimRight(text, "\n"))
	return err
}
