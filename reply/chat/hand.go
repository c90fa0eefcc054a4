package chat

import (
	"context"
	"fmt"

	"fairtape/reply"
)

// Hand puts a file into a thread. The file's name names the handing for good:
// when unsure, a file of this name is looked for in the thread first.
func (p *Poster) Hand(ctx context.Context, at Thread, file reply.File, unsure bool) error {
	p.posting.Lock()
	defer p.posting.Unlock()
	message := Message{Attached: &file, File: file.Name, tag: fileTag(file.Name)}
	if unsure {
		ts, err := p.find(ctx, at, message.tag)
		if err != nil || ts != "" {
			return err
		}
	}
	if _, err := p.post(ctx, at, message); err != nil {
		return fmt.Errorf("hand over %s: %w", file.Name, err)
	}
	return nil
}

func fileTag(name string) tag { return tag{part: partFile, mark: name} }
