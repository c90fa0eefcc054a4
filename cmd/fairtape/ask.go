package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net/mail"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/term"

	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/setup"
)

// asker asks the person at the terminal. Without one it takes what is offered.
type asker struct {
	lines *bufio.Reader // nil without a person
	out   io.Writer
	// hidden reads a line that is not shown; nil where that cannot be had.
	hidden func() (string, error)
}

func newAsker(t *terminal) *asker {
	f, ok := t.in.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) || !isTerminal(t.err) {
		return &asker{out: t.err}
	}
	return &asker{lines: bufio.NewReader(f), out: t.err, hidden: func() (string, error) {
		secret, err := term.ReadPassword(int(f.Fd()))
		return string(secret), err
	}}
}

// fits says what is wrong with an answer, nil for nothing.
type fits func(answer string) error

// offer asks for a value that is not given yet, and takes the offered one when
// nothing is typed. An answer that does not fit is asked for again.
func (a *asker) offer(value *string, question, offered string, fit fits) {
	if *value != "" {
		return
	}
	*value = offered
	for a.lines != nil {
		sayQuestion(a.out, question, offered)
		line, err := a.lines.ReadString('\n')
		if line = strings.TrimSpace(line); err != nil || line == "" {
			return
		}
		if err := fit(line); err != nil {
			sayNotice(a.out, "%v", err)
			continue
		}
		*value = line
		return
	}
}

// need is offer for a value that there must be. The error names the flag.
func (a *asker) need(value *string, flag, question, offered string, fit fits) error {
	a.offer(value, question, offered, fit)
	if *value == "" {
		return usage("see: fairtape init --help", "%s is missing", flag)
	}
	return nil
}

func anything(string) error { return nil }

func mailAddress(answer string) error {
	if _, err := mail.ParseAddress(answer); err != nil {
		return fmt.Errorf("%q is no mail address, as in orders@shop.example", answer)
	}
	return nil
}

func letterLanguage(answer string) error {
	if answer != "en" && answer != "fr" {
		return errors.New("letters are written in en (English) or fr (French)")
	}
	return nil
}

func timeZone(answer string) error {
	var zone settings.Timezone
	if zone.UnmarshalText([]byte(answer)) != nil {
		return fmt.Errorf("%q is no time zone, as in America/Halifax or Europe/Paris", answer)
	}
	return nil
}

func serverAndPort(answer string) error {
	if !settings.HostAndPort(answer) {
		return fmt.Errorf("%q: host and port, as in mail.shop.example:993", answer)
	}
	return nil
}

// noServer is the answer of a shop that sends letters from its mail program.
const noServer = "none"

func serverOrNone(answer string) error {
	if answer == noServer {
		return nil
	}
	return serverAndPort(answer)
}

func chatChannel(answer string) error {
	if strings.Trim(answer, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") != "" {
		return fmt.Errorf("%q: the channel's id, as in C0123456, not its name", answer)
	}
	return nil
}

// askSecrets takes passwords and tokens from the keyboard and writes each into
// a file of its own. It returns the files that are still to be written.
func askSecrets(asks *asker, dir string, a setup.Answers) (missing []string, err error) {
	type secret struct{ file, question string }
	var secrets []secret
	if a.OAuth2 == nil {
		secrets = append(secrets, secret{setup.PasswordFile, "Password of " + a.User})
	}
	if a.Channel != "" {
		secrets = append(secrets,
			secret{setup.BotTokenFile, "Bot token of the chat app, xoxb-..."},
			secret{setup.AppTokenFile, "App token of the chat app, xapp-..."})
	}
	for _, s := range secrets {
		path := filepath.Join(dir, s.file)
		if _, err := os.Lstat(path); err == nil {
			continue
		}
		text := ""
		if asks.hidden != nil {
			sayQuestion(asks.out, s.question+" (not shown; empty: later)", "")
			if text, err = asks.hidden(); err != nil {
				return nil, fmt.Errorf("read a secret: %w", err)
			}
			fmt.Fprintln(asks.out) //nolint:errcheck // there is nobody left to tell
		}
		if text = strings.TrimSpace(text); text == "" {
			missing = append(missing, path)
			continue
		}
		if err := setup.Write(path, []byte(text+"\n")); err != nil {
			return nil, err
		}
	}
	return missing, nil
}

func sayQuestion(w io.Writer, question, offered string) {
	if offered != "" {
		question += " [" + escape(offered) + "]"
	}
	fmt.Fprintf(w, "%s: ", question) //nolint:errcheck // there is nobody left to tell
}

// sayGuess tells where the offered servers are from.
func sayGuess(w io.Writer, g setup.Guess) {
	if g.Sure {
		sayNotice(w, "servers as published: %s", g.Why)
	} else {
		sayNotice(w, "nobody publishes servers for this address; what is offered is only customary")
	}
	if g.Secret != "" {
		sayNotice(w, "to sign in there takes %s", g.Secret)
	}
}

// sayNextSteps tells what was written and what is still to be done.
func sayNextSteps(t *terminal, file string, a setup.Answers, missing []string) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Written: %s\n\nNext:\n", escape(file))
	for _, path := range missing {
		fmt.Fprintf(&b, "  (umask 077; cat > %s)   # type the secret, Enter, Ctrl-D\n", shellWord(path))
	}
	if a.OAuth2 != nil {
		fmt.Fprintf(&b, "  %s\n", t.again("signin"))
	}
	if a.Channel != "" {
		fmt.Fprint(&b, "  fairtape init --manifest    # paste it where a new chat app is made \"from a manifest\"\n")
	}
	fmt.Fprintf(&b, "  %s\n  %s\n", t.again("doctor"), t.again("watch"))
	_, err := io.WriteString(t.out, b.String())
	return err
}

// shellWord makes a text one word of a shell.
func shellWord(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }
