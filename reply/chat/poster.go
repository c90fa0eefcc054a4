// Package chat posts jobs to the shop's Slack channel, one thread a job, and
// hands on what people press and write there. It decides nothing.
//
// Whatever comes from outside passes Escape on its way into a post. Posts keep
// their order, at most one a second; a post whose outcome is unknown is looked
// for before it is repeated, so that nothing is said twice.
package chat

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/slack-go/slack"

	"fairtape/reply"
)

// Config says where to post.
type Config struct {
	Channel string // id, "C0123456"
	// Others are further channels that Listen hears, each with a Poster of its
	// own: the service hands an event to one of an app's connections, so one
	// connection has to hear them all.
	Others   []string
	BotToken string
	AppToken string           // for listening only
	APIURL   string           // base address; "" for Slack's own
	Log      *slog.Logger     // nil for none
	Client   *http.Client     // nil for one with a timeout
	Now      func() time.Time // nil for time.Now
	// Sleep waits, or returns early with the context's error; nil for a real
	// wait.
	Sleep func(context.Context, time.Duration) error
}

// requestTimeout bounds one request, so that a service that does not answer
// never holds the queue for good.
const requestTimeout = 30 * time.Second

// Poster posts to one channel. It is safe for several goroutines; posts go out
// in the order of the calls.
type Poster struct {
	config Config
	api    *slack.Client

	posting  sync.Mutex // held from the first to the last post of one call: keeps the order
	earliest time.Time  // when the next post may go; under posting

	knowing sync.Mutex
	self    Identity          // under knowing
	names   map[string]string // user id to name; under knowing
}

// New returns a Poster. It does not connect.
func New(config Config) *Poster {
	if config.Log == nil {
		config.Log = slog.New(slog.DiscardHandler)
	}
	if config.Client == nil {
		config.Client = &http.Client{Timeout: requestTimeout}
	}
	if config.Now == nil {
		config.Now = time.Now
	}
	if config.Sleep == nil {
		config.Sleep = sleep
	}
	options := []slack.Option{
		slack.OptionHTTPClient(config.Client),
		slack.OptionAppLevelToken(config.AppToken),
	}
	if config.APIURL != "" {
		options = append(options, slack.OptionAPIURL(strings.TrimRight(config.APIURL, "/")+"/"))
	}
	return &Poster{
		config: config,
		api:    slack.New(config.BotToken, options...),
		names:  make(map[string]string),
	}
}

func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Identity is who we are at the service.
type Identity struct{ Team, TeamID, UserID, BotID string }

// Check asks the service who we are and whether the channel is open to us.
func (p *Poster) Check(ctx context.Context) (Identity, error) {
	self, err := p.identity(ctx)
	if err != nil {
		return Identity{}, err
	}
	err = p.read(ctx, "look into the channel", func() error {
		_, err := p.api.GetConversationHistoryContext(ctx, &slack.GetConversationHistoryParameters{
			ChannelID: p.config.Channel, Limit: 1,
		})
		return err
	})
	return self, err
}

// identity asks once who we are.
func (p *Poster) identity(ctx context.Context) (Identity, error) {
	p.knowing.Lock()
	defer p.knowing.Unlock()
	if p.self.UserID != "" {
		return p.self, nil
	}
	err := p.read(ctx, "sign in", func() error {
		answer, err := p.api.AuthTestContext(ctx)
		if err == nil {
			p.self = Identity{answer.Team, answer.TeamID, answer.UserID, answer.BotID}
		}
		return err
	})
	return p.self, err
}

// Show brings a job's thread up to date: the first post with its buttons, and
// in the thread findings, picture and letter as far as they are not there yet.
// With a zero thread a new one is begun; when unsure, one that an earlier
// attempt may have begun is looked for first. A first post that somebody
// deleted is posted anew. The thread is returned as far as it got, also with an
// error: keep it.
func (p *Poster) Show(ctx context.Context, s reply.Summary, at Thread, unsure bool) (Thread, error) {
	p.posting.Lock()
	defer p.posting.Unlock()

	messages := Messages(s)
	at, fresh, err := p.showGlance(ctx, messages[0], at, unsure)
	if err != nil {
		return at, fmt.Errorf("job %d, first post: %w", s.Job, err)
	}
	said := make(map[string]bool)
	if !fresh && len(messages) > 1 {
		if said, err = p.said(ctx, at); err != nil {
			return at, fmt.Errorf("job %d: %w", s.Job, err)
		}
	}
	for _, message := range messages[1:] {
		if said[message.tag.String()] {
			continue
		}
		if _, err := p.post(ctx, at, message); err != nil {
			return at, fmt.Errorf("job %d, %s: %w", s.Job, message.tag.part, err)
		}
	}
	return at, nil
}

// showGlance posts or changes the first post. Fresh says that the thread has
// only just been begun.
func (p *Poster) showGlance(ctx context.Context, first Message, at Thread, unsure bool) (_ Thread, fresh bool, err error) {
	if at.TS == "" && unsure {
		ts, err := p.find(ctx, Thread{Channel: p.config.Channel}, first.tag)
		if err != nil {
			return at, false, err
		}
		if ts != "" {
			at = Thread{p.config.Channel, ts}
		}
	}
	if at.TS != "" {
		err := p.update(ctx, at, first)
		if !isCode(err, "message_not_found") {
			return at, false, err
		}
	}
	ts, err := p.post(ctx, Thread{Channel: p.config.Channel}, first)
	if err != nil {
		return Thread{}, false, err
	}
	return Thread{p.config.Channel, ts}, true, nil
}

// Refresh rewrites the first post only: its state and its buttons.
func (p *Poster) Refresh(ctx context.Context, s reply.Summary, at Thread) error {
	p.posting.Lock()
	defer p.posting.Unlock()
	if err := p.update(ctx, at, glance(s)); err != nil {
		return fmt.Errorf("job %d, first post: %w", s.Job, err)
	}
	return nil
}

// Say posts a plain text into a thread, or into the channel when at is zero,
// and returns the thread it stands in or begins. Key names the saying for good
// ("outbox-17"): when unsure, a post with this key is looked for first. A text
// beyond 3,900 characters is cut.
func (p *Poster) Say(ctx context.Context, at Thread, key, text string, unsure bool) (Thread, error) {
	p.posting.Lock()
	defer p.posting.Unlock()
	if at.TS == "" {
		at.Channel = p.config.Channel
	}
	message := Message{
		Text: shortenEscaped(Escape(strings.TrimSpace(text)), maxText),
		tag:  tag{part: partSaying, mark: key},
	}
	ts, err := "", error(nil)
	if unsure {
		ts, err = p.find(ctx, at, message.tag)
	}
	if ts == "" && err == nil {
		ts, err = p.post(ctx, at, message)
	}
	if err != nil {
		return at, fmt.Errorf("saying %s: %w", key, err)
	}
	if at.TS == "" {
		at.TS = ts
	}
	return at, nil
}

// Whisper tells one person something in a thread that only they see. It is lost
// when they are not looking, so nothing may depend on it.
func (p *Poster) Whisper(ctx context.Context, at Thread, user, text string) error {
	return p.read(ctx, "tell one person", func() error {
		_, err := p.api.PostEphemeralContext(ctx, p.config.Channel, user,
			slack.MsgOptionText(shortenEscaped(Escape(text), maxText), false),
			slack.MsgOptionParse(false),
			slack.MsgOptionTS(at.TS))
		return err
	})
}

// Member says whether a user is in the channel.
func (p *Poster) Member(ctx context.Context, user string) (bool, error) {
	ask := slack.GetUsersInConversationParameters{ChannelID: p.config.Channel, Limit: 200}
	for {
		var users []string
		err := p.read(ctx, "ask who is in the channel", func() (err error) {
			users, ask.Cursor, err = p.api.GetUsersInConversationContext(ctx, &ask)
			return err
		})
		if err != nil {
			return false, err
		}
		for _, u := range users {
			if u == user {
				return true, nil
			}
		}
		if ask.Cursor == "" {
			return false, nil
		}
	}
}

// name is what the service calls a user; the id when it cannot be asked.
func (p *Poster) name(ctx context.Context, user string) string {
	p.knowing.Lock()
	name, known := p.names[user]
	p.knowing.Unlock()
	if known {
		return name
	}
	found, err := p.api.GetUserInfoContext(ctx, user)
	if err != nil {
		p.config.Log.Warn("name of a chat user", "user", user, "err", err)
		return user
	}
	for _, name = range []string{found.Profile.DisplayName, found.RealName, found.Name, user} {
		if name != "" {
			break
		}
	}
	p.knowing.Lock()
	p.names[user] = name
	p.knowing.Unlock()
	return name
}
