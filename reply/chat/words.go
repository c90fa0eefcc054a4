package chat

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/slack-go/slack"
)

// saidEvent makes an event of a message; false when it is our own, an app's, a
// change of an older one, or neither in a thread nor to the bot.
func saidEvent(said slack.Msg, self Identity) (Event, bool) {
	switch said.SubType {
	case "", "file_share", "thread_broadcast":
	default:
		return Event{}, false
	}
	if said.BotID != "" || said.User == "" || said.User == self.UserID {
		return Event{}, false
	}
	inThread := said.ThreadTimestamp != "" && said.ThreadTimestamp != said.Timestamp
	text, mention := words(said.Text, self.UserID)
	if !inThread && !mention {
		return Event{}, false
	}
	thread := said.Timestamp
	if inThread {
		thread = said.ThreadTimestamp
	}
	event := Event{
		ID:       "message/" + said.Channel + "/" + said.Timestamp,
		Kind:     Said,
		At:       moment(said.Timestamp),
		User:     Person{ID: said.User},
		Thread:   Thread{said.Channel, thread},
		InThread: inThread,
		Text:     text,
		Mention:  mention,
	}
	for _, file := range said.Files {
		url := file.URLPrivateDownload
		if url == "" {
			url = file.URLPrivate
		}
		event.Files = append(event.Files, File{file.ID, file.Name, file.Mimetype, file.Size, url})
	}
	return event, true
}

// marked is a thing in angle brackets: <@U1>, <#C1|name>, <!here>,
// <https://a.example|label>. Source: docs.slack.dev, "Formatting message text".
var marked = regexp.MustCompile(`<([@#!]?)([^<>|]*)(?:\|([^<>]*))?>`)

// words returns a message as the person typed it, without the mention of the
// bot, and whether there was one.
func words(text, bot string) (plain string, mention bool) {
	plain = marked.ReplaceAllStringFunc(text, func(s string) string {
		parts := marked.FindStringSubmatch(s)
		sign, id, label := parts[1], parts[2], parts[3]
		switch {
		case sign == "@" && id == bot:
			mention = true
			return ""
		case sign == "!":
			return "@" + strings.TrimPrefix(id, "subteam^")
		case label != "":
			return strings.Trim(sign, "!") + label
		}
		return sign + id
	})
	plain = unescape(plain)
	return strings.TrimSpace(clean(plain)), mention
}

// Missed returns what people said in a thread after the given moment, or to the
// bot in the channel when the thread is zero. After a broken connection it
// brings what the service no longer sends; the events have the IDs they would
// have had.
func (p *Poster) Missed(ctx context.Context, at Thread, after time.Time) ([]Event, error) {
	self, err := p.identity(ctx)
	if err != nil {
		return nil, err
	}
	var events []Event
	err = p.history(ctx, at, after, func(message slack.Message) bool {
		message.Channel = p.config.Channel
		if event, ok := saidEvent(message.Msg, self); ok && event.At.After(after) {
			event.User.Name = p.name(ctx, event.User.ID)
			events = append(events, event)
		}
		return true
	})
	if err != nil {
		return nil, fmt.Errorf("what was said meanwhile: %w", err)
	}
	if at.TS == "" { // the channel's history comes youngest first
		slices.Reverse(events)
	}
	return events, nil
}

// ErrTooLarge: a file beyond the limit given to Download.
var ErrTooLarge = errors.New("the file is too large")

// Download fetches a file that a person dropped. More than limit bytes are
// ErrTooLarge. The token goes only to the service's own hosts.
func (p *Poster) Download(ctx context.Context, file File, limit int) ([]byte, error) {
	if file.Size > limit {
		return nil, fmt.Errorf("file %s: %w", file.ID, ErrTooLarge)
	}
	var data []byte
	err := p.read(ctx, "file "+file.ID, func() error {
		into := &capped{limit: limit}
		err := p.api.GetFileContext(ctx, file.URL, into)
		data = into.data
		return err
	})
	return data, err
}

// capped takes so much and no more.
type capped struct {
	data  []byte
	limit int
}

func (c *capped) Write(data []byte) (int, error) {
	if len(c.data)+len(data) > c.limit {
		return 0, ErrTooLarge
	}
	c.data = append(c.data, data...)
	return len(data), nil
}
