package main

import (
	"context"
	"crypto/x509"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"os"
	"sync/atomic"
	"time"

	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/status"
	"fairtape/ingest"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/origin"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/picture"
	"fairtape/reply/smtp"
)

// service is everything that "watch" runs, wired together.
type service struct {
	conf    settings.Settings
	ledger  *ledger.Ledger
	release func() error // of the claim on the ledger
	folders *mailbox.Folders
	desk    *desk.Desk
	watcher *mailbox.Watcher
	poster  *chat.Poster // nil without Slack
	log     *slog.Logger
	alarmed atomic.Bool // the shop has been told that the mailbox is lost
	board   *status.Board
	// beside is what runs beside the work, nil for nothing.
	beside []func(context.Context) error
}

// newService wires the service. Without Slack in the settings, posts go to
// terminal. crash is called at each point between two outside acts, nil for
// nothing.
func newService(ctx context.Context, conf settings.Settings, terminal desk.Chat, log *slog.Logger, crash func(string)) (_ *service, err error) {
	s := &service{conf: conf, log: log, board: status.NewBoard(time.Now)}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.close())
		}
	}()
	box, err := mailboxConfig(conf.IMAP, log)
	if err != nil {
		return nil, err
	}
	posts := terminal
	if conf.Slack.Channel != "" {
		if s.poster, err = newPoster(conf.Slack, log); err != nil {
			return nil, err
		}
		posts = s.poster
	}
	if s.release, err = ledger.Claim(conf.Ledger.Path); err != nil {
		return nil, err
	}
	if s.ledger, err = ledger.Open(ctx, conf.Ledger.Path, time.Now); err != nil {
		return nil, err
	}
	s.folders = mailbox.NewFolders(box)
	if s.desk, err = newDesk(s, posts, crash); err != nil {
		return nil, err
	}
	var start ingest.Cursor
	err = s.ledger.View(ctx, func(tx *ledger.Tx) error {
		start, err = tx.Cursor(box.Account, conf.IMAP.Inbox)
		return err
	})
	s.watcher = &mailbox.Watcher{
		Config:    box,
		Start:     start,
		Poll:      conf.IMAP.Poll.Duration,
		Since:     conf.IMAP.Since.Duration,
		Now:       time.Now,
		Deliver:   s.desk.Receive,
		Rescanned: s.desk.Rescanned,
		Looked:    s.board.Looked,
		Trouble:   s.trouble,
	}
	return s, err
}

func newDesk(s *service, posts desk.Chat, crash func(string)) (*desk.Desk, error) {
	conf := s.conf
	texts, err := reply.LoadTexts(ownTexts(conf))
	if err != nil {
		return nil, &exit{statusUsage, err, "the texts lie in the folder that letters.folder names"}
	}
	reader, err := opener.New("", cacheFolder(conf))
	if err != nil {
		return nil, err
	}
	sender, err := newSender(conf)
	if err != nil {
		return nil, err
	}
	return desk.New(desk.Config{
		Account:    conf.IMAP.Account(),
		Own:        []string{conf.Shop.From},
		Shop:       shop(conf),
		Language:   conf.Shop.Language,
		Timezone:   conf.Shop.Timezone.Location,
		AnswerDays: conf.Letters.AnswerDays,
		Schedule: desk.Schedule{ReminderDays: conf.Letters.ReminderDays, Reminders: conf.Letters.Reminders,
			DigestAt: conf.Digest.At.SinceMidnight},
		Staff:   conf.Shop.Staff,
		Costs:   costs(conf),
		Ledger:  s.ledger,
		Reader:  reader,
		Senders: origin.Authenticator{AuthservID: conf.IMAP.AuthServID, LookupTXT: net.DefaultResolver.LookupTXT},
		Texts:   texts,
		Draw:    desk.Drawings{ForShop: picture.ForShop, ForCustomer: picture.ForCustomer},
		Papers:  papers(conf),
		Folders: s.folders,
		Chat:    posts,
		Sender:  sender,
		Poll:    conf.IMAP.Poll.Duration,
		Now:     time.Now,
		NewID:   func() string { return desk.NewMailID(conf.Shop.From) },
		Log:     s.log,
		Crash:   crash,
	}), nil
}

// run runs the service until the context ends. A failure of one part ends all.
func (s *service) run(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	parts := append([]func(context.Context) error{s.watcher.Run, s.desk.Run}, s.beside...)
	if s.poster != nil && s.listens() {
		parts = append(parts, s.listen)
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

// listens reports that there is a token for hearing what people press.
func (s *service) listens() bool {
	return s.conf.Slack.AppTokenFile != "" || s.conf.Slack.AppTokenEnv != ""
}

// listen hears what people do in chat. A chat that is shut to us does not end
// the service: mail goes on, and letters wait in Drafts.
func (s *service) listen(ctx context.Context) error {
	err := s.poster.Listen(ctx, func(ctx context.Context, e chat.Event) {
		s.desk.Hear(ctx, s.poster, s.conf.Slack.Approvers, e)
	}, desk.LengthFault)
	if err != nil && ctx.Err() == nil {
		s.board.Deaf()
		s.log.Error("the chat is not heard any more; letters wait in Drafts", "error", err)
		<-ctx.Done()
	}
	return nil
}

// trouble says that the mailbox is lost, and that it is back. What only a
// person can mend is said in chat too, once.
func (s *service) trouble(err error) {
	if err != nil {
		s.board.Trouble(err)
	}
	switch {
	case err == nil:
		s.log.Info("the mailbox is watched")
		if s.alarmed.CompareAndSwap(true, false) {
			s.tell("The mailbox is watched again.")
		}
	case errors.Is(err, mailbox.ErrSignIn), errors.Is(err, mailbox.ErrCertificate), errors.Is(err, mailbox.ErrPlainText):
		s.log.Error("the mailbox cannot be watched until the settings are changed", "error", err)
		if s.alarmed.CompareAndSwap(false, true) {
			s.tell("The mailbox cannot be watched, so no mail is worked off: " + err.Error())
		}
	default:
		s.log.Warn("the mailbox is out of reach; trying again", "error", err)
	}
}

// tell says something in chat that belongs to no job.
func (s *service) tell(words string) {
	if err := s.desk.Tell(context.Background(), words); err != nil {
		s.log.Error("record what is to be said in chat", "error", err)
	}
}

func (s *service) close() error {
	var errs []error
	if s.folders != nil {
		errs = append(errs, s.folders.Close())
	}
	if s.ledger != nil {
		errs = append(errs, s.ledger.Close())
	}
	if s.release != nil {
		errs = append(errs, s.release())
	}
	return errors.Join(errs...)
}

func mailboxConfig(c settings.IMAP, log *slog.Logger) (mailbox.Config, error) {
	roots, err := rootsOf(c.Connection)
	if err != nil {
		return mailbox.Config{}, err
	}
	secret, err := c.Password()
	if err != nil {
		return mailbox.Config{}, &exit{statusUsage, fmt.Errorf("imap: %w", err), ""}
	}
	signIn := mailbox.SignIn{User: c.User, Password: secret}
	if c.OAuth2 != nil {
		if signIn.SASL, err = bearer(c.Connection, log, mailbox.ErrSignIn); err != nil {
			return mailbox.Config{}, err
		}
	}
	return mailbox.Config{
		Account: c.Account(), Address: c.Address, Security: mailbox.Security(c.TLS), Roots: roots, SignIn: signIn,
		Inbox: c.Inbox, Drafts: c.Drafts, Sent: c.Sent, Log: log,
	}, nil
}

// newSender returns nil where no server for sending is set up.
func newSender(conf settings.Settings) (desk.Sender, error) {
	if conf.SMTP.Address == "" {
		return nil, nil
	}
	return smtpSender(conf.SMTP)
}

func smtpSender(c settings.Connection) (smtp.Sender, error) {
	roots, err := rootsOf(c)
	if err != nil {
		return smtp.Sender{}, err
	}
	s := smtp.Sender{Address: c.Address, Security: smtp.Security(c.TLS), Roots: roots}
	switch {
	case c.OAuth2 != nil:
		if s.SASL, err = bearer(c, nil, smtp.ErrSignIn); err != nil {
			return smtp.Sender{}, err
		}
	case c.User != "":
		s.SASL = func() (sasl.Client, error) {
			password, err := c.Password()
			return sasl.NewPlainClient("", c.User, password), err
		}
	}
	return s, nil
}

// rootsOf returns the system's roots and the extra one, nil for the system's
// alone.
func rootsOf(c settings.Connection) (*x509.CertPool, error) {
	if c.CAFile == "" {
		return nil, nil
	}
	pem, err := os.ReadFile(c.CAFile)
	if err != nil {
		return nil, &exit{statusUsage, fmt.Errorf("ca_file: %w", err), ""}
	}
	pool, err := x509.SystemCertPool()
	if err != nil {
		pool = x509.NewCertPool()
	}
	if !pool.AppendCertsFromPEM(pem) {
		return nil, usage("it has to hold the root's certificate in PEM", "ca_file %s holds no certificate", c.CAFile)
	}
	return pool, nil
}

func newPoster(c settings.Slack, log *slog.Logger) (*chat.Poster, error) {
	bot, err := c.BotToken()
	if err != nil {
		return nil, &exit{statusUsage, fmt.Errorf("slack: %w", err), ""}
	}
	app, err := c.AppToken()
	if err != nil {
		return nil, &exit{statusUsage, fmt.Errorf("slack: %w", err), ""}
	}
	return chat.New(chat.Config{Channel: c.Channel, BotToken: bot, AppToken: app, APIURL: c.APIURL, Log: log}), nil
}
