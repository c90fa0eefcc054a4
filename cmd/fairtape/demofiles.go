package main

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fairtape/ingest/eml"
	"fairtape/reply"
	"fairtape/reply/chat"
	letters "fairtape/reply/eml"
	"fairtape/reply/picture"
)

// demoChat is the terminal, and keeps every job as it was shown last.
type demoChat struct {
	terminalChat
	folder string
	shown  map[int]reply.Summary
}

// Show prints a job and keeps it.
func (c *demoChat) Show(ctx context.Context, s reply.Summary, at chat.Thread, unsure bool) (chat.Thread, error) {
	c.mu.Lock()
	if c.shown == nil {
		c.shown = map[int]reply.Summary{}
	}
	c.shown[s.Job] = s
	c.mu.Unlock()
	return c.terminalChat.Show(ctx, s, at, unsure)
}

func (c *demoChat) jobs() int { return len(c.shown) }

// write puts every job's post into files: as the chat service gets it, as
// people see it, and the curve by itself.
func (c *demoChat) write() error {
	for _, job := range slices.Sorted(maps.Keys(c.shown)) {
		s := c.shown[job]
		data, err := json.MarshalIndent(chat.Messages(s), "", "  ")
		if err != nil {
			return fmt.Errorf("post of job %d: %w", job, err)
		}
		seen, err := picture.OfPost(drawnPost(s))
		if err != nil {
			return fmt.Errorf("draw the post of job %d: %w", job, err)
		}
		files := map[string][]byte{
			fmt.Sprintf("post-%d.json", job): append(data, '\n'),
			fmt.Sprintf("post-%d.png", job):  seen.PNG,
		}
		if s.Picture != nil {
			files[fmt.Sprintf("curve-%d.png", job)] = s.Picture.PNG
		}
		for name, data := range files {
			if err := writeFile(c.folder, name, data); err != nil {
				return err
			}
		}
	}
	return nil
}

// drawnPost is a job's thread as people see it.
func drawnPost(s reply.Summary) picture.Post {
	post := picture.Post{Title: s.Headline, Note: s.State}
	if second := chat.SecondLine(s); second != "" {
		post.Lines = []string{second}
	}
	if s.Draft != "" {
		post.Buttons = []picture.Button{{Label: "Send", Primary: true}, {Label: "Edit"}, {Label: "Correct"}, {Label: "Hold"}}
	}
	findings := picture.Post{}
	for _, list := range chat.ThreadLists(s) {
		findings.Lines = append(findings.Lines, list.Title+":\n- "+strings.Join(list.Lines, "\n- "))
	}
	if s.Picture != nil {
		findings.PNG = s.Picture.PNG
	}
	if len(findings.Lines) > 0 || findings.PNG != nil {
		post.Replies = append(post.Replies, findings)
	}
	if s.Letter != "" {
		post.Replies = append(post.Replies, picture.Post{Title: "The letter", Lines: []string{s.Letter}})
	}
	return post
}

// writeLetter writes a letter and the picture in it.
func writeLetter(folder string, raw []byte) error {
	m, err := eml.Parse(raw)
	if err != nil {
		return fmt.Errorf("read a letter back: %w", err)
	}
	letter := letters.Read(m)
	name := "letter-" + letter.ID.String()
	if err := writeFile(folder, name+".eml", raw); err != nil {
		return err
	}
	for _, p := range letter.Pictures {
		if err := writeFile(folder, name+".png", p.PNG); err != nil {
			return err
		}
	}
	return nil
}

func writeFile(folder, name string, data []byte) error {
	if err := os.WriteFile(filepath.Join(folder, name), data, 0o644); err != nil {
		return fmt.Errorf("write the demo's files: %w", err)
	}
	return nil
}
