package settings

import (
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
)

// maxSecret bounds a secret's file: a longer one is some other file.
const maxSecret = 64 << 10

// Password returns the password of the connection, "" when it signs in with
// none. It reads the file or the environment each time, so that a changed
// password is taken without a restart.
func (c Connection) Password() (string, error) {
	if c.OAuth2 != nil {
		return "", nil
	}
	return secret(c.PasswordFile, c.PasswordEnv)
}

// ClientSecret returns what the provider gave along with the client id, "" when
// it gave nothing.
func (o OAuth2) ClientSecret() (string, error) { return secret(o.ClientSecretFile, "") }

// AccessToken returns the bare access token of a token file that something else
// keeps fresh.
func (o OAuth2) AccessToken() (string, error) { return secret(o.TokenFile, "") }

// Account names the mailbox on the ledger: the same whatever port or TLS leads
// to it.
func (c IMAP) Account() string {
	host, _, err := net.SplitHostPort(c.Address)
	if err != nil {
		host = c.Address
	}
	return c.User + "@" + host
}

// BotToken returns the token that posts.
func (s Slack) BotToken() (string, error) { return secret(s.BotTokenFile, s.BotTokenEnv) }

// AppToken returns the token that listens, "" when none is set: then there
// are posts, but no buttons.
func (s Slack) AppToken() (string, error) { return secret(s.AppTokenFile, s.AppTokenEnv) }

func secret(file, env string) (string, error) {
	switch {
	case file != "":
		info, err := os.Stat(file)
		if err != nil {
			return "", fmt.Errorf("read secret: %w", err)
		}
		if info.Size() > maxSecret {
			return "", fmt.Errorf("%s is too long to be a password or token", file)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			return "", fmt.Errorf("read secret: %w", err)
		}
		return strings.TrimRight(string(data), "\r\n"), nil
	case env != "":
		value, ok := os.LookupEnv(env)
		if !ok {
			return "", fmt.Errorf("the environment has no %s", env)
		}
		return value, nil
	default:
		return "", nil
	}
}

// credentials is the folder in which systemd hands secrets to a service
// (systemd.exec(5), LoadCredential=).
const credentials = "CREDENTIALS_DIRECTORY"

// Credential returns where systemd handed over a file of that name, "" when it
// did not.
func Credential(file string) string {
	folder := os.Getenv(credentials)
	if file == "" || folder == "" {
		return ""
	}
	handed := filepath.Join(folder, filepath.Base(file))
	if _, err := os.Stat(handed); err != nil {
		return ""
	}
	return handed
}

// inCredentials returns where a secret's file lies that is named without a
// folder: with systemd when it is there, else as named.
func inCredentials(file string) string {
	if handed := Credential(file); handed != "" && filepath.Base(file) == file {
		return handed
	}
	return file
}
