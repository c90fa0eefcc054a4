package setup

import (
	"bytes"
	_ "embed" // for settings.tmpl
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"text/template"

	"fairtape/cmd/internal/settings"
)

// Answers is what a shop says about itself.
type Answers struct {
	Shop, Address      string
	Language, Timezone string // "en" or "fr"; "America/Halifax"
	IMAP, SMTP         Server // SMTP without address: letters are sent from the mail program
	User               string
	OAuth2             *settings.OAuth2 // nil: a password
	Channel            string           // of the chat, "" for none
	State              string           // folder for what the service writes, "" for that of the settings
}

// InState is where a file lies that the service writes.
func (a Answers) InState(name string) string { return filepath.ToSlash(filepath.Join(a.State, name)) }

// Names of the files for secrets, beside the settings file.
const (
	PasswordFile = "imap.password"
	BotTokenFile = "slack-bot.token"
	AppTokenFile = "slack-app.token"
)

//go:embed settings.tmpl
var settingsTemplate string

// Text writes the settings file and makes sure that it can be loaded.
func Text(a Answers, file string) ([]byte, error) {
	t, err := template.New("settings").Funcs(template.FuncMap{"quote": quote, "quotes": quotes}).Parse(settingsTemplate)
	if err != nil {
		return nil, fmt.Errorf("read the template of settings: %w", err)
	}
	var b bytes.Buffer
	if err := t.Execute(&b, a); err != nil {
		return nil, fmt.Errorf("write the settings: %w", err)
	}
	if _, err := settings.Parse(b.Bytes(), file); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// quote writes a text as TOML does.
func quote(text any) string {
	// Go's escapes are TOML's, but for those of bytes, which are no text.
	return strconv.Quote(strings.ToValidUTF8(strings.Map(printable, fmt.Sprint(text)), ""))
}

func printable(r rune) rune {
	if r < ' ' || r == 0x7f {
		return ' '
	}
	return r
}

func quotes(texts []string) string {
	quoted := make([]string, len(texts))
	for i, t := range texts {
		quoted[i] = quote(t)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// ErrThere: the file is there already, and nothing is ever overwritten.
var ErrThere = errors.New("there is such a file already")

// Write makes a file that only its owner can read, with the folders that lead
// to it. The error is ErrThere when there is one.
func Write(file string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return fmt.Errorf("make the folder: %w", err)
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return fmt.Errorf("%w: %s", ErrThere, file)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
