package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"strings"
	"time"

	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/signin"
)

type signinCommand struct {
	RefreshToken bool `help:"Read a refresh token from standard input, got in another way."`
}

// Run signs in at the provider of each connection that uses tokens.
func (c *signinCommand) Run(t *terminal) error {
	conf, err := t.allSettings()
	if err != nil {
		return err
	}
	done := map[string]bool{}
	var connections []settings.Connection
	for _, one := range conf.Each() {
		connections = append(connections, one.IMAP.Connection, one.SMTP)
	}
	for _, conn := range connections {
		if conn.OAuth2 == nil || conn.OAuth2.TokenURL == "" || done[conn.OAuth2.TokenFile] {
			continue
		}
		done[conn.OAuth2.TokenFile] = true
		source, err := signin.New(*conn.OAuth2, time.Now, nil)
		if err != nil {
			return &exit{statusUsage, err, ""}
		}
		if err := c.signIn(t, source, conn); err != nil {
			return err
		}
		sayNotice(t.err, "signed in as %s; the token is in %s", conn.User, conn.OAuth2.TokenFile)
	}
	if len(done) == 0 {
		return usage("a password needs no signing in: fairtape doctor", "the settings have no [imap.oauth2] with a token_url")
	}
	return nil
}

func (c *signinCommand) signIn(t *terminal, source *signin.Source, conn settings.Connection) error {
	var err error
	if c.RefreshToken {
		var line string
		line, err = bufio.NewReader(t.in).ReadString('\n')
		if line = strings.TrimSpace(line); line == "" {
			return usage("", "standard input holds no token: %v", err)
		}
		err = source.ByRefreshToken(t.ctx, line)
	} else {
		err = source.ByDevice(t.ctx, func(address, code string) { sayDevice(t.out, conn.User, address, code) })
	}
	switch {
	case errors.Is(err, signin.ErrNoDevice):
		return usage("name it in device_url; where a provider has none, get a refresh token in another way and give it to: fairtape signin --refresh-token", "%v", err)
	case errors.Is(err, signin.ErrDenied):
		return &exit{statusOpen, err, "try again: " + t.again("signin")}
	case errors.Is(err, signin.ErrRevoked):
		return &exit{statusOpen, err, "see that client_id and scopes are those with which the token was made"}
	}
	return err
}

// sayDevice tells what to do on another device.
func sayDevice(w io.Writer, user, address, code string) {
	fmt.Fprintf(w, "On any device, open %s\nand enter the code %s\nto let fairtape into the mailbox of %s. Waiting...\n", //nolint:errcheck // there is nobody left to tell
		escape(address), emphasis(w, escape(code)), escape(user))
}

// bearer makes a client for each sign-in with a token, refused being the error
// of a sign-in that only a person can mend.
func bearer(c settings.Connection, log *slog.Logger, refused error) (func() (sasl.Client, error), error) {
	if c.OAuth2.TokenURL == "" {
		return func() (sasl.Client, error) {
			token, err := c.OAuth2.AccessToken()
			return signin.Client(c.OAuth2.Mechanism, c.User, token), err
		}, nil
	}
	source, err := signin.New(*c.OAuth2, time.Now, log)
	if err != nil {
		return nil, &exit{statusUsage, err, ""}
	}
	return func() (sasl.Client, error) {
		ctx, cancel := context.WithTimeout(context.Background(), signInTime)
		defer cancel()
		token, err := source.Token(ctx)
		if errors.Is(err, signin.ErrNone) || errors.Is(err, signin.ErrRevoked) {
			return nil, fmt.Errorf("%w: %w; sign in with: fairtape signin", refused, err)
		}
		return signin.Client(c.OAuth2.Mechanism, c.User, token), err
	}, nil
}

// signInTime bounds getting a fresh token.
const signInTime = 45 * time.Second
