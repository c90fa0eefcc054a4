package main

import (
	"crypto/x509"
	"fmt"
	"log/slog"
	"os"

	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/reply/chat"
	"fairtape/reply/smtp"
)

func mailboxConfig(c settings.IMAP, log *slog.Logger) (mailbox.Config, error) {
	roots, err := rootsOf(c.Connection)
	if err != nil {
		return mailbox.Config{}, err
	}
	if _, err := c.Password(); err != nil { // told at start, not at the first sign-in
		return mailbox.Config{}, &exit{statusUsage, fmt.Errorf("imap: %w", err), ""}
	}
	signIn := mailbox.SignIn{User: c.User, Password: c.Password}
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

func newPoster(c settings.Slack, others []string, log *slog.Logger) (*chat.Poster, error) {
	bot, err := c.BotToken()
	if err != nil {
		return nil, &exit{statusUsage, fmt.Errorf("slack: %w", err), ""}
	}
	app, err := c.AppToken()
	if err != nil {
		return nil, &exit{statusUsage, fmt.Errorf("slack: %w", err), ""}
	}
	return chat.New(chat.Config{Channel: c.Channel, Others: others, BotToken: bot, AppToken: app, APIURL: c.APIURL, Log: log}), nil
}
