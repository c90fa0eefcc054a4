package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"syscall"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/status"
	"fairtape/cmd/internal/supervisor"
	"fairtape/reply"
)

// upkeep is what "watch" does beside its work: it takes changed letters, tells
// its supervisor that it lives, and answers how it is.
func (s *service) upkeep(file string, super *supervisor.Supervisor) []func(context.Context) error {
	parts := []func(context.Context) error{
		func(ctx context.Context) error { return s.heedReload(ctx, file) },
		func(ctx context.Context) error { return s.live(ctx, super) },
	}
	if listen := s.conf.Status.Listen; listen != "" {
		handler := s.board.Handler(s.count, patienceOf(s.conf))
		parts = append(parts, func(ctx context.Context) error { return status.Serve(ctx, listen, handler) })
	}
	return parts
}

// patienceOf is how long the inbox may go without a look before the service
// counts as unwell: a few polls, and time to fetch a large mail.
func patienceOf(conf settings.Settings) time.Duration {
	const fetching = 5 * time.Minute
	var slowest time.Duration
	for _, one := range conf.Each() {
		slowest = max(slowest, one.IMAP.Poll.Duration)
	}
	return 3*slowest + fetching
}

func (s *service) count(ctx context.Context) (counts ledger.Counts, err error) {
	err = s.ledger.View(ctx, func(tx *ledger.Tx) error {
		counts, err = tx.Counts()
		return err
	})
	return counts, err
}

// live tells the supervisor that the service has started, lives and ends. A
// mail server that is down is no reason to start anew; a ledger that does not
// answer is.
func (s *service) live(ctx context.Context, super *supervisor.Supervisor) error {
	failed := func(err error) { s.log.Error("no sign of life is given", "error", err) }
	if err := super.Ready(); err != nil {
		failed(err)
	}
	go func() {
		<-ctx.Done()
		if err := super.Stopping(); err != nil {
			failed(err)
		}
	}()
	super.Live(ctx, func(ctx context.Context) error {
		_, err := s.count(ctx)
		return err
	}, failed)
	<-ctx.Done()
	return nil
}

// heedReload reads the settings anew whenever the process is told to (SIGHUP).
func (s *service) heedReload(ctx context.Context, file string) error {
	told := make(chan os.Signal, 1)
	signal.Notify(told, syscall.SIGHUP)
	defer signal.Stop(told)
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-told:
			if err := s.reload(file); err != nil {
				s.log.Error("the settings were not taken; the old ones stay", "error", err)
				s.tell("The changed settings cannot be used, so the old ones stay: " + err.Error())
				continue
			}
			s.log.Info("letters and the judge's costs were read anew; all else is taken at the next start")
		}
	}
}

// reload takes letters and the judge's costs from the settings file, both or
// neither.
func (s *service) reload(file string) error {
	conf, err := settings.Load(file)
	if err != nil {
		return err
	}
	texts := map[string]*reply.Texts{}
	for _, one := range conf.Each() {
		if texts[one.IMAP.Account()], err = reply.LoadTexts(ownTexts(one)); err != nil {
			return fmt.Errorf("letters: %w", err)
		}
	}
	for _, b := range s.branches {
		if own, ok := texts[b.conf.IMAP.Account()]; ok { // a new inbox waits for the next start
			b.desk.Reload(own, costs(conf))
		}
	}
	return nil
}
