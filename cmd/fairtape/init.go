package main

import (
	"errors"
	"net"
	"net/mail"
	"os"
	"path/filepath"
	"strings"

	"fairtape/cmd/fairtape/deploy"
	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/setup"
)

type initCommand struct {
	Shop      string   `help:"The shop's name, as letters are signed." placeholder:"NAME"`
	Address   string   `help:"The address that surveys are sent to, and letters come from." placeholder:"ADDRESS"`
	Language  string   `help:"Letters: en or fr." enum:",en,fr" default:"" placeholder:"WORD"`
	Timezone  string   `help:"Time zone, as in America/Halifax." placeholder:"ZONE"`
	IMAP      string   `name:"imap" help:"Server and port of the mailbox." placeholder:"HOST:PORT"`
	IMAPTLS   string   `name:"imap-tls" help:"implicit, starttls, or none on this machine; else by the port." placeholder:"HOW"`
	SMTP      string   `name:"smtp" help:"Server and port for sending." placeholder:"HOST:PORT"`
	SMTPTLS   string   `name:"smtp-tls" help:"Like --imap-tls." placeholder:"HOW"`
	NoSMTP    bool     `name:"no-smtp" help:"Letters are sent from the mail program."`
	User      string   `help:"Name to sign in with; else the address." placeholder:"NAME"`
	ClientID  string   `name:"client-id" help:"Sign in by token, with the id under which this program is registered with the provider." placeholder:"ID"`
	TokenURL  string   `name:"token-url" help:"The provider's address for tokens; known for some." placeholder:"URL"`
	DeviceURL string   `name:"device-url" help:"The provider's address for signing in on another device; known for some." placeholder:"URL"`
	Scopes    []string `name:"scope" help:"Permission to ask for; known for some providers." placeholder:"SCOPE"`
	Channel   string   `help:"Id of the chat channel." placeholder:"ID"`
	NoChat    bool     `name:"no-chat" help:"Without chat."`
	State     string   `help:"Folder for what the service writes; else beside the settings." placeholder:"DIR"`

	Manifest  bool `help:"Only print the manifest of the chat app." xor:"print"`
	Unit      bool `help:"Only print a systemd unit." xor:"print"`
	Container bool `help:"Only print a container file." xor:"print"`
}

// Run asks what is not given by flag, writes the settings file and says what
// comes next.
func (c *initCommand) Run(t *terminal) error {
	if printed, err := c.print(t); printed || err != nil {
		return err
	}
	file, err := t.settingsFile()
	if err != nil {
		return err
	}
	if _, err := os.Lstat(file); err == nil {
		return usage("change it by hand, or name another file with --config", "there is a settings file at %s already, and it is left as it is", file)
	}
	asks := newAsker(t)
	answers, err := c.answers(t, asks)
	if err != nil {
		return err
	}
	text, err := setup.Text(answers, file)
	var wrong *settings.Error
	if errors.As(err, &wrong) {
		return usage("see: fairtape init --help", "the answers do not make settings:\n  %s", strings.Join(wrong.Wrong, "\n  "))
	}
	if err != nil {
		return err
	}
	if err := setup.Write(file, text); err != nil {
		return err
	}
	missing, err := askSecrets(asks, filepath.Dir(file), answers)
	if err != nil {
		return err
	}
	return sayNextSteps(t, file, answers, missing)
}

// print prints what a flag asks for, and reports that it did.
func (c *initCommand) print(t *terminal) (bool, error) {
	var text []byte
	var err error
	switch {
	case c.Manifest:
		text, err = setup.Manifest()
	case c.Unit:
		text = deploy.Unit()
	case c.Container:
		text = deploy.Containerfile()
	default:
		return false, nil
	}
	if err == nil {
		_, err = t.out.Write(text)
	}
	return true, err
}

func (c *initCommand) answers(t *terminal, asks *asker) (setup.Answers, error) {
	a := setup.Answers{Shop: c.Shop, Address: c.Address, Language: c.Language, Timezone: c.Timezone, User: c.User, State: c.State}
	if err := asks.need(&a.Shop, "--shop", "Name of the shop", "", anything); err != nil {
		return a, err
	}
	if err := asks.need(&a.Address, "--address", "Address that surveys are sent to", "", mailAddress); err != nil {
		return a, err
	}
	parsed, err := mail.ParseAddress(a.Address)
	if err != nil {
		return a, usage("as in orders@shop.example", "%q is no mail address", a.Address)
	}
	a.Address = parsed.Address
	asks.offer(&a.Language, "Language of letters, en or fr", "en", letterLanguage)
	asks.offer(&a.Timezone, "Time zone", localZone(), timeZone)
	if err := c.servers(t, asks, &a); err != nil {
		return a, err
	}
	asks.offer(&a.User, "Name to sign in with", a.Address, anything)
	a.Channel = c.Channel
	if !c.NoChat {
		asks.offer(&a.Channel, "Id of the chat channel, as in C0123456; empty for no chat", "", chatChannel)
	}
	return a, nil
}

// servers fills in the servers: as given, else as guessed from the address and
// confirmed.
func (c *initCommand) servers(t *terminal, asks *asker, a *setup.Answers) error {
	a.IMAP.Address, a.SMTP.Address = c.IMAP, c.SMTP
	var guess setup.Guess
	if a.IMAP.Address == "" || a.SMTP.Address == "" && !c.NoSMTP {
		var err error
		if guess, err = setup.Find(t.ctx, net.DefaultResolver, a.Address); err != nil {
			return err
		}
		sayGuess(t.err, guess)
	}
	asks.offer(&a.IMAP.Address, "Server and port of the mailbox", guess.IMAP.Address, serverAndPort)
	if !c.NoSMTP {
		asks.offer(&a.SMTP.Address, "Server and port for sending; none to send from the mail program", guess.SMTP.Address, serverOrNone)
	}
	if a.SMTP.Address == noServer {
		a.SMTP.Address = ""
	}
	a.IMAP.TLS = howSecured(c.IMAPTLS, a.IMAP.Address, guess.IMAP)
	a.SMTP.TLS = howSecured(c.SMTPTLS, a.SMTP.Address, guess.SMTP)
	return c.signIn(asks, a, guess)
}

// signIn settles whether a password or a token is used.
func (c *initCommand) signIn(asks *asker, a *setup.Answers, guess setup.Guess) error {
	byToken := c.ClientID != "" || guess.OAuth2 != nil && a.IMAP == guess.IMAP
	if !byToken {
		return nil
	}
	token := settings.OAuth2{ClientID: c.ClientID, TokenURL: c.TokenURL, DeviceURL: c.DeviceURL, Scopes: c.Scopes}
	if known := guess.OAuth2; known != nil {
		if token.TokenURL == "" {
			token.TokenURL, token.DeviceURL = known.TokenURL, known.DeviceURL
		}
		if len(token.Scopes) == 0 {
			token.Scopes = known.Scopes
		}
	}
	if err := asks.need(&token.ClientID, "--client-id", "Id under which this program is registered with the provider", "", anything); err != nil {
		return err
	}
	if err := asks.need(&token.TokenURL, "--token-url", "The provider's address for tokens", "", anything); err != nil {
		return err
	}
	a.OAuth2 = &token
	return nil
}

// howSecured returns how a connection is made safe: as said, as guessed for
// this very server, else by the port.
func howSecured(said, address string, guess setup.Server) settings.TLS {
	switch _, port, _ := net.SplitHostPort(address); {
	case said != "":
		return settings.TLS(said)
	case address == guess.Address:
		return guess.TLS
	case port == "993" || port == "465":
		return settings.Implicit
	}
	return settings.StartTLS
}

// localZone is this machine's time zone by its name, "UTC" when it has none.
func localZone() string {
	if zone := os.Getenv("TZ"); zone != "" && !strings.HasPrefix(zone, ":") {
		return zone
	}
	target, err := os.Readlink("/etc/localtime")
	if err != nil {
		return "UTC"
	}
	if _, zone, ok := strings.Cut(target, "zoneinfo/"); ok {
		return zone
	}
	return "UTC"
}
