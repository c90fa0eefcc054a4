package signin

import (
	"encoding/base64"
	"errors"
	"strings"
	"testing"

	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/mailbox/mailboxtest"
)

// The example of Google's "IMAP, POP, and SMTP OAuth 2.0 mechanism" (from
// memory) and that of RFC 7628 section 4.1, without its host and port.
func TestFirstMessage(t *testing.T) {
	tests := []struct {
		how         settings.Mechanism
		user, token string
		name, want  string
	}{
		{settings.XOAuth2, "someuser@example.com", "ya29.vF9dft4qmTc2Nvb3RlckBhdHRhdmlzdGEuY29tCg", "XOAUTH2",
			"dXNlcj1zb21ldXNlckBleGFtcGxlLmNvbQFhdXRoPUJlYXJlciB5YTI5LnZGOWRmdDRxbVRjMk52YjNSbGNrQmhkSFJoZG1semRHRXVZMjl0Q2cBAQ=="},
		{settings.OAuthBearer, "user@example.com", "vF9dft4qmTc2Nvb3RlckBhbHRhdmlzdGEuY29tCg==", "OAUTHBEARER",
			"bixhPXVzZXJAZXhhbXBsZS5jb20sAWF1dGg9QmVhcmVyIHZGOWRmdDRxbVRjMk52YjNSbGNrQmhiSFJoZG1semRHRXVZMjl0Q2c9PQEB"},
	}
	for _, tt := range tests {
		name, first, err := Client(tt.how, tt.user, tt.token).Start()
		if got := base64.StdEncoding.EncodeToString(first); name != tt.name || got != tt.want || err != nil {
			t.Errorf("%s: %s %s, %v", tt.how, name, got, err)
		}
	}
}

// A refusal takes one more turn of the conversation and ends as a refused
// sign-in, so that nobody hammers the server.
func TestAgainstServer(t *testing.T) {
	for _, how := range []settings.Mechanism{settings.XOAuth2, settings.OAuthBearer} {
		for token, want := range map[string]error{"good": nil, "spent": mailbox.ErrSignIn} {
			server, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
				c.Serve(mailboxtest.ScriptBox{UIDValidity: 1}, map[string]func(tag, command string) bool{
					"LIST": func(tag, _ string) bool { c.Send(`* LIST () "/" INBOX`, tag+" OK done"); return true },
					"AUTHENTICATE": func(tag, command string) bool {
						c.Send("+ ")
						line, _, err := c.Next()
						said, decodeErr := base64.StdEncoding.DecodeString(line)
						if err != nil || decodeErr != nil || !strings.Contains(string(said), "auth=Bearer good\x01\x01") {
							c.Send("+ " + base64.StdEncoding.EncodeToString([]byte(`{"status":"400"}`)))
							if last, _, err := c.Next(); err != nil || last != "AQ==" {
								t.Errorf("%s: the refusal was answered with %q", command, last)
							}
							c.Send(tag + " NO [AUTHENTICATIONFAILED] refused")
							return true
						}
						c.Send(tag + " OK done")
						return true
					},
				})
			})
			if err != nil {
				t.Fatal(err)
			}
			f := mailbox.NewFolders(mailbox.Config{
				Address: server.Addr, Security: mailbox.None,
				SignIn: mailbox.SignIn{SASL: func() (sasl.Client, error) { return Client(how, "orders", token), nil }},
			})
			if _, err := f.Probe(t.Context()); !errors.Is(err, want) || want == nil && err != nil {
				t.Errorf("%s, %s token: %v, want %v", how, token, err, want)
			}
			f.Close()
			server.Close()
		}
	}
}
