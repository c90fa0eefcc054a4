package chat

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/slack-go/slack"
)

// Scope is a permission that the app needs, and what for.
type Scope struct {
	Name string // for a public channel, "channels:read"
	// Private is the name for a private channel, "" where it is the same.
	Private string
	For     string
}

// Scopes are the permissions of the bot's token, every one in use here. Source:
// docs.slack.dev, "Required scopes" of each method and event.
func Scopes() []Scope {
	return []Scope{
		{"app_mentions:read", "", "hear its name"},
		{"channels:history", "groups:history", "find its own posts, hear answers in a job's thread"},
		{"channels:read", "groups:read", "know who is in the channel"},
		{"chat:write", "", "post"},
		{"files:read", "", "read files that are dropped into a job's thread"},
		{"files:write", "", "post pictures"},
		{"users:read", "", "know people by their names"},
	}
}

// Events are what the app has to be told of, by the service's names.
func Events() []string { return []string{"app_mention", "message.channels", "message.groups"} }

// AppScope is the permission of the app's token, which listens.
const AppScope = "connections:write"

// Health is what a live test of the chat found.
type Health struct {
	Identity
	Lacks            []Scope   // permissions that the bot's token does not have
	Channel          string    // its name
	Member, Archived bool      // the bot is in the channel; the channel is archived
	Server           time.Time // the service's clock; zero when it does not tell
}

// Probe signs in with the bot's token and looks at the channel, for a live test
// of the settings. It says nothing in the channel. What was found until an error
// is returned with it; Code tells errors apart.
func (p *Poster) Probe(ctx context.Context) (h Health, err error) {
	var granted []string
	err = p.read(ctx, "sign in", func() error {
		answer, err := p.api.AuthTestContext(ctx)
		if err == nil {
			h.Identity = Identity{answer.Team, answer.TeamID, answer.UserID, answer.BotID}
			granted = list(answer.Header.Get("X-OAuth-Scopes"))
			h.Server, _ = http.ParseTime(answer.Header.Get("Date")) // zero: not told
		}
		return err
	})
	if err != nil {
		return h, err
	}
	var channel *slack.Channel
	err = p.read(ctx, "look at the channel", func() (err error) {
		channel, err = p.api.GetConversationInfoContext(ctx, &slack.GetConversationInfoInput{ChannelID: p.config.Channel})
		return err
	})
	h.Lacks = lacking(granted, channel)
	if err != nil {
		return h, err
	}
	h.Channel, h.Member, h.Archived = channel.Name, channel.IsMember, channel.IsArchived
	return h, p.read(ctx, "look into the channel", func() error {
		_, err := p.api.GetConversationHistoryContext(ctx, &slack.GetConversationHistoryParameters{ChannelID: p.config.Channel, Limit: 1})
		return err
	})
}

// ProbeListening asks with the app's token for a place to listen, and does not
// go there.
func (p *Poster) ProbeListening(ctx context.Context) error {
	return p.read(ctx, "ask for a connection", func() error {
		_, _, err := p.api.StartSocketModeContext(ctx)
		return err
	})
}

// lacking returns the permissions that are not granted; none when the service
// does not tell what is. With a channel that is not known, the names for a
// private one do as well.
func lacking(granted []string, channel *slack.Channel) []Scope {
	if len(granted) == 0 {
		return nil
	}
	return slices.DeleteFunc(Scopes(), func(s Scope) bool {
		public := slices.Contains(granted, s.Name)
		private := slices.Contains(granted, s.Private)
		switch {
		case s.Private == "":
			return public
		case channel == nil:
			return public || private
		case channel.IsPrivate:
			return private
		}
		return public
	})
}

// Code is the code of the service's refusal, "invalid_auth"; "" when the error
// is of another kind.
func Code(err error) string {
	var answer slack.SlackErrorResponse
	if errors.As(err, &answer) {
		return answer.Err
	}
	return ""
}

func list(header string) []string {
	var names []string
	for name := range strings.SplitSeq(header, ",") {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	return names
}
