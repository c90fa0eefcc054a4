package chat

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/slack-go/slack"
)

const (
	// eventType names our metadata.
	eventType = "fairtape_post"
	// lookBack is how far back in the channel a lost post is looked for: an
	// outbox may wait over a long weekend, and no longer without an alarm.
	lookBack = 7 * 24 * time.Hour
	// page is how many messages are asked for at once; the service gives no
	// more than 999, and advises at most 200.
	page = 200
)

func metadata(t tag) slack.SlackMetadata {
	return slack.SlackMetadata{EventType: eventType, EventPayload: map[string]any{"tag": t.String()}}
}

// find looks for a post of ours by its tag: in a thread, or in the channel when
// the thread is zero. It returns its timestamp, "" when it is not there.
func (p *Poster) find(ctx context.Context, at Thread, wanted tag) (ts string, err error) {
	err = p.each(ctx, at, p.config.Now().Add(-lookBack), func(message slack.Message) bool {
		for _, t := range tags(message) {
			if t == wanted.String() {
				ts = message.Timestamp
			}
		}
		return ts == ""
	})
	return ts, err
}

// said returns the tags of all we said in a thread.
func (p *Poster) said(ctx context.Context, at Thread) (map[string]bool, error) {
	found := make(map[string]bool)
	err := p.each(ctx, at, time.Time{}, func(message slack.Message) bool {
		for _, t := range tags(message) {
			found[t] = true
		}
		return true
	})
	return found, err
}

// tags returns the tags of a message: in its metadata, or in its files' names.
func tags(message slack.Message) []string {
	var found []string
	if message.Metadata.EventType == eventType {
		if t, ok := message.Metadata.EventPayload["tag"].(string); ok {
			found = append(found, t)
		}
	}
	for _, file := range message.Files {
		var job int
		var mark string
		name := strings.TrimSuffix(file.Name, ".png")
		if n, _ := fmt.Sscanf(name, "job-%d-%s", &job, &mark); n == 2 {
			found = append(found, tag{job, partPicture, mark}.String())
		}
		found = append(found, fileTag(file.Name).String())
	}
	return found
}

// each visits the messages that are ours, in a thread or in the channel, until
// visit says no.
func (p *Poster) each(ctx context.Context, at Thread, after time.Time, visit func(slack.Message) bool) error {
	self, err := p.identity(ctx)
	if err != nil {
		return err
	}
	return p.history(ctx, at, after, func(message slack.Message) bool {
		if message.User != self.UserID && (message.BotID == "" || message.BotID != self.BotID) {
			return true
		}
		return visit(message)
	})
}

// history visits the messages of a thread, or of the channel when the thread is
// zero, that are younger than the given moment, until visit says no.
func (p *Poster) history(ctx context.Context, at Thread, after time.Time, visit func(slack.Message) bool) error {
	oldest := ""
	if !after.IsZero() {
		oldest = timestamp(after)
	}
	for cursor := ""; ; {
		var messages []slack.Message
		err := p.read(ctx, "read what was said", func() (err error) {
			if at.TS != "" {
				messages, _, cursor, err = p.api.GetConversationRepliesContext(ctx, &slack.GetConversationRepliesParameters{
					ChannelID: at.Channel, Timestamp: at.TS, Oldest: oldest, Cursor: cursor, Limit: page, IncludeAllMetadata: true,
				})
				return err
			}
			answer, err := p.api.GetConversationHistoryContext(ctx, &slack.GetConversationHistoryParameters{
				ChannelID: p.config.Channel, Oldest: oldest, Cursor: cursor, Limit: page, IncludeAllMetadata: true,
			})
			if err == nil {
				messages, cursor = answer.Messages, answer.ResponseMetaData.NextCursor
			}
			return err
		})
		if err != nil {
			return err
		}
		for _, message := range messages {
			if !visit(message) {
				return nil
			}
		}
		if cursor == "" {
			return nil
		}
	}
}

// timestamp writes a moment as the service does.
func timestamp(t time.Time) string {
	return fmt.Sprintf("%d.%06d", t.Unix(), t.Nanosecond()/1000)
}

// moment reads a timestamp of the service; zero when it is none.
func moment(ts string) time.Time {
	var seconds, micros int64
	if n, _ := fmt.Sscanf(ts, "%d.%d", &seconds, &micros); n < 1 {
		return time.Time{}
	}
	return time.Unix(seconds, micros*1000).UTC()
}
