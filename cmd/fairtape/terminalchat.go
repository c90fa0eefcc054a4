package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"fairtape/reply"
	"fairtape/reply/chat"
)

// terminalChat shows posts in the terminal, for a shop without Slack. It has
// no threads; files go into a folder.
type terminalChat struct {
	mu    sync.Mutex
	out   io.Writer
	files string // folder for what is handed over
}

// Show prints a job.
func (c *terminalChat) Show(_ context.Context, s reply.Summary, at chat.Thread, _ bool) (chat.Thread, error) {
	return at, c.print(chat.Plain(s))
}

// Say prints words.
func (c *terminalChat) Say(_ context.Context, at chat.Thread, _, text string, _ bool) (chat.Thread, error) {
	return at, c.print(escapeText(text))
}

// Hand puts a file into the folder.
func (c *terminalChat) Hand(_ context.Context, _ chat.Thread, file reply.File, _ bool) error {
	if err := os.MkdirAll(c.files, 0o755); err != nil {
		return fmt.Errorf("make the folder for files: %w", err)
	}
	name := filepath.Join(c.files, filepath.Base(file.Name))
	if err := os.WriteFile(name, file.Data, 0o644); err != nil {
		return fmt.Errorf("write a file of a job: %w", err)
	}
	return c.print("file " + escapeText(name))
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
