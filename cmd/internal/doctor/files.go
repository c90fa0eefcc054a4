package doctor

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"fairtape/cmd/internal/settings"
	"fairtape/reply/chat"
)

const chatScope = chat.AppScope

// secret is where a password or token stands.
type secret struct {
	key       string // of the settings, "imap.password"
	file, env string
	token     bool // made by signing in at the provider
}

// secrets looks at the files that hold passwords and tokens, each once.
func (x *examination) secrets() {
	s := x.Settings
	seen := map[string]bool{}
	for _, one := range []secret{
		of("imap", s.IMAP.Connection), of("smtp", s.SMTP),
		{key: "slack.bot_token", file: s.Slack.BotTokenFile, env: s.Slack.BotTokenEnv},
		{key: "slack.app_token", file: s.Slack.AppTokenFile, env: s.Slack.AppTokenEnv},
	} {
		place := one.place()
		if seen[place] || one.file == "" && one.env == "" {
			continue
		}
		seen[place] = true
		if one.env != "" {
			x.lost[place] = !x.fromEnvironment(one)
			continue
		}
		x.lost[place] = !x.fromFile(one)
	}
	for name, c := range map[string]settings.Connection{"imap": s.IMAP.Connection, "smtp": s.SMTP} {
		if c.CAFile == "" {
			continue
		}
		if _, err := os.ReadFile(c.CAFile); err != nil {
			x.fault("files", "no-ca-file", fmt.Sprintf("%s.ca_file cannot be read: %s.", name, reason(err)),
				"Copy the certificate of your server's root there, in PEM.", x.Again)
		}
	}
}

func (s secret) place() string { return s.file + "\n" + s.env }

func of(name string, c settings.Connection) secret {
	if c.OAuth2 != nil {
		return secret{key: name + ".oauth2.token", file: c.OAuth2.TokenFile, token: c.OAuth2.TokenURL != ""}
	}
	return secret{key: name + ".password", file: c.PasswordFile, env: c.PasswordEnv}
}

func (x *examination) fromEnvironment(s secret) (usable bool) {
	if x.Getenv(s.env) == "" {
		x.fault("files", "secret-missing", fmt.Sprintf("%s_env names %s, which the environment does not hold.", s.key, s.env),
			"Better than the environment is a file: set "+s.key+"_file.", write(s.key))
		return false
	}
	x.warn("files", "secret-in-environment", fmt.Sprintf("%s comes from the environment, which services show to whoever asks.", s.key),
		"Put it into a file that only the service can read, and set "+s.key+"_file in place of "+s.key+"_env.", write(s.key))
	return true
}

func (x *examination) fromFile(s secret) (usable bool) {
	missing, next := "secret-missing", write(s.file)
	if s.token {
		missing, next = "not-signed-in", x.SignIn
	}
	info, err := os.Stat(s.file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		x.fault("files", missing, fmt.Sprintf("%s_file is not there: %s.", s.key, s.file), "Make the file; it holds the secret and nothing else.", next)
		return false
	case err == nil && !info.Mode().IsRegular():
		x.fault("files", "secret-no-file", fmt.Sprintf("%s is not a file.", s.file), "Name a file that holds the secret and nothing else.", x.Again)
		return false
	}
	data, readErr := os.ReadFile(s.file)
	if err != nil || readErr != nil {
		x.fault("files", "secret-unreadable", fmt.Sprintf("%s_file cannot be read: %s.", s.key, reason(errors.Join(err, readErr))),
			"Give the file to the user that runs the service.", "chown \"$(id -un)\" "+quote(s.file))
		return false
	}
	text := strings.TrimRight(string(data), "\r\n")
	switch {
	case strings.TrimSpace(text) == "":
		x.fault("files", "secret-empty", fmt.Sprintf("%s_file is empty: %s.", s.key, s.file), "Write the secret into it.", next)
		return false
	case runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0:
		x.warn("files", "secret-exposed", fmt.Sprintf("%s can be read by other users of this machine (mode %04o).", s.file, info.Mode().Perm()),
			"Take the rights of others away.", "chmod 600 "+quote(s.file))
	case !s.token && (text != strings.TrimSpace(text) || strings.ContainsAny(text, "\r\n")):
		x.warn("files", "secret-odd", fmt.Sprintf("%s has blanks at its ends or more than one line; they count as part of the secret.", s.file),
			"Write the secret alone on one line.", write(s.file))
	default:
		x.ok("files", "%s_file is there and for its owner alone.", s.key)
	}
	return true
}

// write is a command that takes a secret from the keyboard, so that it never
// stands in the shell's history.
func write(file string) string {
	return "(umask 077; cat > " + quote(filepath.Clean(file)) + ")"
}

// quote makes a path one word of a shell.
func quote(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

// reason is an error of the file system without the name of the call.
func reason(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return fmt.Sprintf("%s: %v", path.Path, path.Err)
	}
	return err.Error()
}
