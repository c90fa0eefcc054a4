package main

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/status"
	"fairtape/reply/chat"
)

// service is everything that "watch" runs, wired together.
type service struct {
	conf     settings.Settings
	ledger   *ledger.Ledger
	release  func() error // of the claim on the ledger
	branches []*branch
	log      *slog.Logger
	board    *status.Board
	// beside is what runs beside the work, nil for nothing.
	beside []func(context.Context) error
}

// newService wires the service. Without Slack in the settings, posts go to
// terminal. crash is called at each point between two outside acts, nil for
// nothing.
func newService(ctx context.Context, conf settings.Settings, terminal desk.Chat, log *slog.Logger, crash func(string)) (_ *service, err error) {
	s := &service{conf: conf, log: log}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.close())
		}
	}()
	var accounts, own []string
	for _, one := range conf.Each() {
		accounts, own = append(accounts, one.IMAP.Account()), append(own, one.Shop.From)
	}
	s.board = status.NewBoard(time.Now, accounts...)
	for _, one := range conf.Each() {
		b := &branch{conf: one, own: own, log: log, board: s.board}
		if err := b.prepare(othersOf(conf, one)); err != nil {
			return nil, err
		}
		s.branches = append(s.branches, b)
	}
	reader, err := opener.New("", cacheFolder(conf))
	if err != nil {
		return nil, err
	}
	if s.release, err = ledger.Claim(conf.Ledger.Path); err != nil {
		return nil, err
	}
	if s.ledger, err = ledger.Open(ctx, conf.Ledger.Path, time.Now); err != nil {
		return nil, err
	}
	if err := s.ledger.Whole(ctx); err != nil {
		return nil, err
	}
	if err := desk.TakeUp(ctx, s.ledger, conf.Shop.Timezone.Location); err != nil {
		return nil, err
	}
	for _, b := range s.branches {
		if err := b.open(ctx, s.ledger, reader, terminal, crash); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// othersOf names the channels of the other inboxes of the same chat app.
func othersOf(conf, one settings.Settings) []string {
	var others []string
	for _, other := range conf.Each() {
		if sameApp(one.Slack, other.Slack) && other.Slack.Channel != one.Slack.Channel {
			others = append(others, other.Slack.Channel)
		}
	}
	return others
}

func sameApp(a, b settings.Slack) bool {
	return a.AppTokenFile == b.AppTokenFile && a.AppTokenEnv == b.AppTokenEnv && a.APIURL == b.APIURL
}

// run runs the service until the context ends. A failure of one part ends all.
func (s *service) run(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	parts := slices.Concat(s.beside, s.ears())
	for _, b := range s.branches {
		parts = append(parts, b.watcher.Run, b.desk.Run)
	}
	ended := make(chan error, len(parts))
	for _, part := range parts {
		go func() {
			err := part(ctx)
			stop()
			ended <- err
		}()
	}
	var errs []error
	for range parts {
		if err := <-ended; err != nil && !errors.Is(err, context.Canceled) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// ears listens once to every chat app, whose channels may belong to several
// inboxes.
func (s *service) ears() []func(context.Context) error {
	var parts []func(context.Context) error
	for i, b := range s.branches {
		known := slices.ContainsFunc(s.branches[:i], func(other *branch) bool { return sameApp(b.conf.Slack, other.conf.Slack) })
		if b.poster != nil && b.listens() && !known {
			parts = append(parts, func(ctx context.Context) error { return s.listen(ctx, b.poster) })
		}
	}
	return parts
}

// listen hears what people do in chat. A chat that is shut to us does not end
// the service: mail goes on, and letters wait in Drafts.
func (s *service) listen(ctx context.Context, poster *chat.Poster) error {
	err := poster.Listen(ctx, s.hear, desk.LengthFault)
	if err != nil && ctx.Err() == nil {
		s.board.Deaf()
		s.log.Error("the chat is not heard any more; letters wait in Drafts", "error", err)
		<-ctx.Done()
	}
	return nil
}

// hear hands what happened in chat to the desk whose channel it is; what
// belongs to no channel, such as a connection made, to all.
func (s *service) hear(ctx context.Context, e chat.Event) {
	for _, b := range s.branches {
		if b.poster != nil && (e.Thread.Channel == "" || e.Thread.Channel == b.conf.Slack.Channel) {
			b.desk.Hear(ctx, b.poster, b.conf.Slack.Approvers, e)
		}
	}
}

// tell says something in chat that belongs to no job, to the shop of every
// inbox.
func (s *service) tell(words string) {
	for _, b := range s.branches {
		b.tell(words)
	}
}

func (s *service) close() error {
	var errs []error
	for _, b := range s.branches {
		if b.folders != nil {
			errs = append(errs, b.folders.Close())
		}
	}
	if s.ledger != nil {
		errs = append(errs, s.ledger.Close())
	}
	if s.release != nil {
		errs = append(errs, s.release())
	}
	return errors.Join(errs...)
}
