// Package settings reads the settings file of a shop. Everything that a shop
// may change stands there; every key has the default that the shop most likely
// wants; and what is wrong is refused at the start, by key, value and likely
// fix, not found out in the middle of the night.
package settings

import (
	"time"

	"fairtape/parse"
)

// Settings is a settings file, checked, with defaults filled in and paths made
// absolute.
type Settings struct {
	Shop    Shop             `toml:"shop"`
	IMAP    IMAP             `toml:"imap"`
	SMTP    Connection       `toml:"smtp"`
	Slack   Slack            `toml:"slack"`
	Ledger  Ledger           `toml:"ledger"`
	Letters Letters          `toml:"letters"`
	Digest  Digest           `toml:"digest"`
	Judge   Judge            `toml:"judge"`
	Survey  Survey           `toml:"survey"`
	Keep    Keep             `toml:"keep"`
	Status  Status           `toml:"status"`
	Cloth   map[string]Cloth `toml:"cloth"`
}

// Shop says who writes.
type Shop struct {
	Name     string   `toml:"name"`
	From     string   `toml:"from"`     // address that letters come from
	Phone    string   `toml:"phone"`    // in the signature, "" leaves it out
	Post     string   `toml:"post"`     // where tracings are sent, one line, "" leaves it out
	Staff    []string `toml:"staff"`    // addresses whose forwarded surveys are the customer's
	Language string   `toml:"language"` // "en" or "fr", where the customer's own cannot be told
	Timezone Timezone `toml:"timezone"`
}

// TLS says how a connection is made safe.
type TLS string

// The ways. None is taken on loopback only.
const (
	Implicit TLS = "implicit"
	StartTLS TLS = "starttls"
	None     TLS = "none"
)

// Connection is a server and how to sign in there.
type Connection struct {
	Address      string  `toml:"address"` // host:port
	TLS          TLS     `toml:"tls"`
	CAFile       string  `toml:"ca_file"` // an extra root, for a server of one's own
	User         string  `toml:"user"`
	PasswordFile string  `toml:"password_file"`
	PasswordEnv  string  `toml:"password_env"`
	OAuth2       *OAuth2 `toml:"oauth2"` // nil: signs in with a password
}

// OAuth2 signs in with a bearer token instead of a password. With a token_url
// the token file is made by `fairtape signin` and kept fresh by the service;
// without one it holds a bare access token, which something else keeps fresh
// and which is read anew at every sign-in.
type OAuth2 struct {
	ClientID         string    `toml:"client_id"`
	ClientSecretFile string    `toml:"client_secret_file"` // "": the provider gave none
	TokenFile        string    `toml:"token_file"`
	TokenURL         string    `toml:"token_url"`
	DeviceURL        string    `toml:"device_url"` // where `fairtape signin` begins
	Scopes           []string  `toml:"scopes"`
	Mechanism        Mechanism `toml:"mechanism"` // "": XOAuth2
}

// Mechanism is how a bearer token is handed to a mail server.
type Mechanism string

// The mechanisms. Every large provider takes XOAuth2 (their help pages, from
// memory); not every one takes the standard, OAuthBearer (RFC 7628).
const (
	XOAuth2     Mechanism = "xoauth2"
	OAuthBearer Mechanism = "oauthbearer"
)

// IMAP is the shop's mailbox.
type IMAP struct {
	Connection
	Inbox      string   `toml:"inbox"`
	Drafts     string   `toml:"drafts"` // "": the mailbox marked \Drafts
	Sent       string   `toml:"sent"`   // "": the mailbox marked \Sent
	Poll       Duration `toml:"poll"`
	Since      Duration `toml:"since"`       // older mail is recorded as ignored at first start and rescans
	AuthServID string   `toml:"authserv_id"` // whose Authentication-Results are believed
}

// Slack is the shop's chat; without a channel posts go to the terminal.
type Slack struct {
	Channel      string   `toml:"channel"`
	BotTokenFile string   `toml:"bot_token_file"`
	BotTokenEnv  string   `toml:"bot_token_env"`
	AppTokenFile string   `toml:"app_token_file"`
	AppTokenEnv  string   `toml:"app_token_env"`
	Approvers    []string `toml:"approvers"` // user ids; empty: everyone in the channel
	APIURL       string   `toml:"api_url"`   // "": Slack's own
}

// Ledger says where the service keeps what it knows.
type Ledger struct {
	Path string `toml:"path"`
}

// Letters says what is particular to a shop's letters.
type Letters struct {
	Folder       string `toml:"folder"` // texts of one's own, "": the built-in ones
	AnswerDays   int    `toml:"answer_days"`
	ReminderDays int    `toml:"reminder_days"`
	Reminders    int    `toml:"reminders"`
}

// Digest is the daily summary in chat.
type Digest struct {
	At Clock `toml:"at"`
}

// Judge weighs a needless question against a missed slip.
type Judge struct {
	CostAsk  float64 `toml:"cost_ask"`
	CostMiss float64 `toml:"cost_miss"`
}

// Survey is what a blank form starts from.
type Survey struct {
	Unit    parse.Unit `toml:"unit"`
	Spacing Length     `toml:"spacing"`
}

// Keep says how long customers are remembered after their last mail.
type Keep struct {
	Customers Duration `toml:"customers"`
}

// Status is the address of the health page; "" turns it off.
type Status struct {
	Listen string `toml:"listen"`
}

// Cloth is a kind of cloth, and how covers are made of it. Reductions are
// fractions by which the finished cover is smaller than measured.
type Cloth struct {
	Construction    string  `toml:"construction"`
	RollWidth       Length  `toml:"roll_width"`
	UsableWidth     Length  `toml:"usable_width"`
	GirthReduction  float64 `toml:"girth_reduction"`
	LengthReduction float64 `toml:"length_reduction"`
	StretchAcross   float64 `toml:"stretch_across"`
	SeamAllowance   Length  `toml:"seam_allowance"`
	Hem             Length  `toml:"hem"`
	Slit            Length  `toml:"slit"`
}

// Default returns the settings before any file is read. A shop's name and
// address, and the mailbox, have no default.
func Default() Settings {
	return Settings{
		Shop: Shop{Language: "en", Timezone: Timezone{time.UTC}},
		IMAP: IMAP{
			Connection: Connection{TLS: Implicit},
			Inbox:      "INBOX",
			Poll:       Duration{time.Minute},
			Since:      Duration{3 * day},
		},
		SMTP:    Connection{TLS: StartTLS},
		Ledger:  Ledger{Path: "fairtape.db"},
		Letters: Letters{AnswerDays: 7, ReminderDays: 5, Reminders: 2},
		Digest:  Digest{At: Clock{8 * time.Hour}},
		Judge:   Judge{CostAsk: 1, CostMiss: 30},
		Survey:  Survey{Unit: parse.Inch, Spacing: Length{parse.Inches(12)}},
		Keep:    Keep{Customers: Duration{2 * year}},
		Cloth:   map[string]Cloth{defaultCloth: builtinCloth()},
	}
}

const defaultCloth = "default"

// builtinCloth is a woven cloth with some stretch. The values are from memory
// of sewing practice; a shop's own win.
func builtinCloth() Cloth {
	return Cloth{
		Construction:    "sides",
		RollWidth:       Length{parse.Inches(60)},
		UsableWidth:     Length{parse.Inches(59)},
		GirthReduction:  0.02,
		LengthReduction: 0.01,
		StretchAcross:   0.06,
		SeamAllowance:   Length{parse.Inches(0.5)},
		Hem:             Length{parse.Inches(1)},
		Slit:            Length{parse.Inches(9)},
	}
}
