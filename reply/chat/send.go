package chat

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"github.com/slack-go/slack"
)

const (
	// gap is the least time between two posts to one channel; short bursts are
	// tolerated, but not promised. Source: docs.slack.dev, "Rate limits".
	gap = time.Second
	// maxTries bounds how often one post is tried within one call; the caller
	// keeps what is to be said and calls again.
	maxTries = 4
	// lookDelay is the wait before a post whose outcome is unknown is looked
	// for: a message shows at once, a file only after some seconds.
	lookDelay = 3 * time.Second
	// retryAfterLost is the wait where the service asks for one without saying
	// how long.
	retryAfterLost = 30 * time.Second
)

// post says a message once. It waits where it is told to wait, looks for the
// message when it cannot know whether it arrived, and returns its timestamp (""
// for a picture, which the service shares on its own time). The caller holds
// posting.
func (p *Poster) post(ctx context.Context, at Thread, message Message) (ts string, err error) {
	for range maxTries {
		if err := p.pace(ctx); err != nil {
			return "", err
		}
		ts, err = p.postOnce(ctx, at, message)
		if err == nil {
			return ts, nil
		}
		failure := judge(err)
		p.config.Log.Warn("chat post", "part", message.tag.part, "job", message.tag.job, "err", err)
		switch failure.kind {
		case waitFirst:
			err = fmt.Errorf("%w: %w", ErrTemporary, err)
			p.earliest = p.config.Now().Add(failure.after)
		case unknown:
			err = fmt.Errorf("%w: %w", ErrUnsure, err)
			if p.config.Sleep(ctx, lookDelay) != nil {
				return "", err
			}
			found, lookErr := p.find(ctx, at, message.tag)
			if lookErr != nil {
				return "", fmt.Errorf("%w; looking for it: %w", err, lookErr)
			}
			if found != "" {
				return found, nil
			}
		default:
			return "", failure.wrap(err)
		}
	}
	return "", err
}

func (p *Poster) postOnce(ctx context.Context, at Thread, message Message) (string, error) {
	if upload := upload(message); upload != nil {
		upload.Channel, upload.ThreadTimestamp = at.Channel, at.TS
		_, err := p.api.UploadFileContext(ctx, *upload)
		return "", err
	}
	options := append(options(message), slack.MsgOptionDisableLinkUnfurl(), slack.MsgOptionDisableMediaUnfurl())
	if at.TS != "" {
		options = append(options, slack.MsgOptionTS(at.TS))
	}
	_, ts, err := p.api.PostMessageContext(ctx, at.Channel, options...)
	if err == nil && ts == "" {
		err = errNoTimestamp
	}
	return ts, err
}

// upload is the file of a message, nil for one of words.
func upload(message Message) *slack.UploadFileParameters {
	u := slack.UploadFileParameters{Filename: message.File, Title: message.File, AltTxt: message.Alt}
	data := []byte(nil)
	switch {
	case message.Picture != nil:
		data, u.Title = message.Picture.PNG, message.Title
	case message.Attached != nil:
		data = message.Attached.Data
	default:
		return nil
	}
	u.Reader, u.FileSize = bytes.NewReader(data), len(data)
	return &u
}

// update rewrites a post. Doing it twice does no harm, so it is simply tried
// again. The caller holds posting.
func (p *Poster) update(ctx context.Context, at Thread, message Message) error {
	if err := p.pace(ctx); err != nil {
		return err
	}
	return p.read(ctx, "change a post", func() error {
		_, _, _, err := p.api.UpdateMessageContext(ctx, at.Channel, at.TS, options(message)...)
		return err
	})
}

func options(message Message) []slack.MsgOption {
	return []slack.MsgOption{
		slack.MsgOptionText(message.Text, false),
		slack.MsgOptionBlocks(message.Blocks...),
		slack.MsgOptionMetadata(metadata(message.tag)),
		slack.MsgOptionParse(false), // no address in the text becomes a link
	}
}

// read does what may be done again without harm.
func (p *Poster) read(ctx context.Context, what string, do func() error) error {
	var err error
	for range maxTries {
		if err = do(); err == nil {
			return nil
		}
		failure := judge(err)
		wait := failure.after
		switch failure.kind {
		case waitFirst:
		case unknown:
			wait = lookDelay
		default:
			return fmt.Errorf("%s: %w", what, failure.wrap(err))
		}
		if p.config.Sleep(ctx, wait) != nil {
			break
		}
	}
	return fmt.Errorf("%s: %w: %w", what, ErrTemporary, err)
}

// pace waits until the next post may go. The caller holds posting.
func (p *Poster) pace(ctx context.Context) error {
	if wait := p.earliest.Sub(p.config.Now()); wait > 0 {
		if err := p.config.Sleep(ctx, wait); err != nil {
			return fmt.Errorf("%w: %w", ErrTemporary, err)
		}
	}
	p.earliest = p.config.Now().Add(gap)
	return nil
}
