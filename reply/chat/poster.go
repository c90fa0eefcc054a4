// Package chat posts jobs to the shop's Slack channel, one thread a job, and
// hands on what people press and write there. It decides nothing.
//
// Whatever comes from outside passes Escape on its way into a post. Posts keep
// their order, at most one a second; a post whose outcome is unknown is looked
// for before it is repeated, so that nothing is said twice.
package chat

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"time"

	"fairtape/reply"
)

// Errors that a caller can tell apart. Every error of a Poster wraps one.
var (
	// ErrTemporary: nothing was said; try again later.
	ErrTemporary = errors.New("the chat service is not to be reached just now")
	// ErrUnsure: it may have been said or not; try again later with unsure set.
	ErrUnsure = errors.New("not known whether the post arrived")
	// ErrShut: token revoked, channel archived, bot not in the channel: nothing
	// can be said until a person acts. Alarm by another way.
	ErrShut = errors.New("the chat is shut to us")
	// ErrRefused: this post was refused and would be again.
	ErrRefused = errors.New("the chat service refused the post")
)

// Config says where to post.
type Config struct {
	Channel  string // id, "C0123456"
	BotToken string
	AppToken string // for listening only
	APIURL   string // base address; "" for Slack's own
	Log      *slog.Logger
	Client   *http.Client // nil for one with a timeout
	Now      func() time.Time
	// Sleep waits, or returns early with the context's error.
	Sleep func(context.Context, time.Duration) error
}

// Poster posts to one channel. It is safe for several goroutines; posts go out
// in the order of the calls.
type Poster struct{ config Config }

// New returns a Poster. It does not connect.
func New(config Config) *Poster { return &Poster{config: config} }

// Check asks the service who we are and whether the channel is open to us.
func (p *Poster) Check(ctx context.Context) (Identity, error) { return Identity{}, nil }

// Identity is who we are at the service.
type Identity struct{ Team, TeamID, UserID, BotID string }

// Show brings a job's thread up to date: the first post with its buttons, and
// in the thread findings, picture and letter as far as they are not there yet.
// With a zero thread a new one is begun; when unsure, one that an earlier
// attempt may have begun is looked for first. The thread is returned as far as
// it got, also with an error.
func (p *Poster) Show(ctx context.Context, s reply.Summary, at Thread, unsure bool) (Thread, error) {
	return at, nil
}

// Refresh rewrites the first post only: its state and its buttons.
func (p *Poster) Refresh(ctx context.Context, s reply.Summary, at Thread) error { return nil }

// Say posts a plain text into a thread, or into the channel when at is zero.
// Key names the saying for good ("outbox-17"): when unsure, a post with this
// key is looked for first.
func (p *Poster) Say(ctx context.Context, at Thread, key, text string, unsure bool) (Thread, error) {
	return at, nil
}

// Whisper tells one person something in a thread that only they see.
func (p *Poster) Whisper(ctx context.Context, at Thread, user, text string) error { return nil }

// Member says whether a user is in the channel.
func (p *Poster) Member(ctx context.Context, user string) (bool, error) { return false, nil }

// Missed returns what was said in a thread after the given moment.
func (p *Poster) Missed(ctx context.Context, at Thread, after time.Time) ([]Event, error) {
	return nil, nil
}

// Download fetches a file that a person dropped; more than limit bytes are
// refused.
func (p *Poster) Download(ctx context.Context, file File, limit int) ([]byte, error) {
	return nil, nil
}

// OpenEdit shows the whole letter for editing. Edited comes when it is handed
// in.
func (p *Poster) OpenEdit(ctx context.Context, pressed Event, letter string) error { return nil }

// Doubt is a reading that a person is asked about.
type Doubt struct {
	Key   string // comes back in the Correction
	Label string // "7 ft, hull girth"
	Read  string // "47 1/2 or 41 1/2", "" for nothing read
}

// OpenCorrect asks for the readings in doubt, and any other.
func (p *Poster) OpenCorrect(ctx context.Context, pressed Event, doubts []Doubt) error { return nil }

// OpenHold asks until when, or why.
func (p *Poster) OpenHold(ctx context.Context, pressed Event) error { return nil }

// Listen connects and hands events to handle until the context ends, or with
// ErrShut when the token is no longer good. Buttons that open a modal are
// handled at once, everything else one after the other. Length says what is
// wrong with a typed length, "" when nothing; nil for no check.
func (p *Poster) Listen(ctx context.Context, handle func(context.Context, Event), length func(string) string) error {
	return nil
}
