package signin

import (
	"github.com/emersion/go-sasl"

	"fairtape/cmd/internal/settings"
)

// Client hands a token to a mail server in the given way.
func Client(m settings.Mechanism, user, token string) sasl.Client {
	if m == settings.OAuthBearer {
		return oauthBearer{sasl.NewOAuthBearerClient(&sasl.OAuthBearerOptions{Username: user, Token: token})}
	}
	return xoauth2{user, token}
}

// xoauth2 is the mechanism that providers had before RFC 7628, and that most
// still want (Google, "IMAP, POP, and SMTP OAuth 2.0 mechanism").
type xoauth2 struct{ user, token string }

// Start implements sasl.Client.
func (x xoauth2) Start() (mechanism string, first []byte, err error) {
	return "XOAUTH2", []byte("user=" + x.user + "\x01auth=Bearer " + x.token + "\x01\x01"), nil
}

// Next implements sasl.Client. The server asks only when it refuses, with an
// explanation; an answer, whatever it holds, lets it say so in its own protocol.
// It should be empty, which the library for IMAP has no way to send.
func (xoauth2) Next([]byte) ([]byte, error) { return []byte{1}, nil }

// oauthBearer is the library's, but for a refusal: the library ends there,
// which leaves the connection without the server's own word.
type oauthBearer struct{ sasl.Client }

// Next implements sasl.Client (RFC 7628 section 3.2.3).
func (oauthBearer) Next([]byte) ([]byte, error) { return []byte{1}, nil }
