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
// absolute. The help of each key stands in its tag, so that the reference that
// people read is made from it.
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
	Inboxes []Inbox          `toml:"inbox"`
}

// Inbox is a further mailbox that the same service watches, with its own shop,
// chat channel and cloths. What it leaves out is as in the tables of the same
// name above it, but for the account and the channel, which are its own.
type Inbox struct {
	Name    string           `toml:"name" help:"what it is called at the terminal: fairtape jobs list --inbox NAME"`
	Shop    Shop             `toml:"shop"`
	IMAP    IMAP             `toml:"imap"`
	SMTP    Connection       `toml:"smtp"`
	Slack   Slack            `toml:"slack"`
	Letters Letters          `toml:"letters"`
	Cloth   map[string]Cloth `toml:"cloth"`
}

// Shop says who writes.
type Shop struct {
	Name     string   `toml:"name" help:"letters are signed with it"`
	From     string   `toml:"from" help:"address that letters come from"`
	Phone    string   `toml:"phone" help:"in the signature; empty leaves it out"`
	Post     string   `toml:"post" help:"where tracings are sent, one line; empty leaves it out"`
	Staff    []string `toml:"staff" help:"addresses whose forwarded surveys are the customer's"`
	Language string   `toml:"language" help:"of letters, en or fr, where the customer's own cannot be told"`
	Timezone Timezone `toml:"timezone" help:"a place of the time zone database"`
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
	Address      string  `toml:"address" help:"host and port"`
	TLS          TLS     `toml:"tls" help:"implicit, starttls or, on this machine only, none"`
	CAFile       string  `toml:"ca_file" help:"a further root certificate, for a server of one's own"`
	User         string  `toml:"user" help:"name to sign in with"`
	PasswordFile string  `toml:"password_file" help:"file that holds the password and nothing else"`
	PasswordEnv  string  `toml:"password_env" help:"variable that holds the password; services show their environment, so a file is better"`
	OAuth2       *OAuth2 `toml:"oauth2"` // nil: signs in with a password
}

// OAuth2 signs in with a bearer token instead of a password. With a token_url
// the token file is made by `fairtape signin` and kept fresh by the service;
// without one it holds a bare access token, which something else keeps fresh
// and which is read anew at every sign-in.
type OAuth2 struct {
	ClientID         string    `toml:"client_id" help:"from the provider, where the program is registered"`
	ClientSecretFile string    `toml:"client_secret_file" help:"empty where the provider gave none"`
	TokenFile        string    `toml:"token_file" help:"kept by fairtape signin; without token_url it holds a bare access token"`
	TokenURL         string    `toml:"token_url" help:"where tokens are refreshed"`
	DeviceURL        string    `toml:"device_url" help:"where fairtape signin begins"`
	Scopes           []string  `toml:"scopes" help:"what the token may do, in the provider's words"`
	Mechanism        Mechanism `toml:"mechanism" help:"xoauth2 (also when empty) or oauthbearer"`
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
	Inbox      string   `toml:"inbox" help:"mailbox that surveys arrive in"`
	Drafts     string   `toml:"drafts" help:"empty: the mailbox marked as Drafts"`
	Sent       string   `toml:"sent" help:"empty: the mailbox marked as Sent"`
	Poll       Duration `toml:"poll" help:"how often to look, beside being told at once"`
	Since      Duration `toml:"since" help:"older mail is recorded as ignored at the first start and at rescans"`
	AuthServID string   `toml:"authserv_id" help:"server whose Authentication-Results are believed"`
}

// Slack is the shop's chat; without a channel posts go to the terminal.
type Slack struct {
	Channel      string   `toml:"channel" help:"id of the channel; empty: posts go to the terminal"`
	BotTokenFile string   `toml:"bot_token_file" help:"file with the token that posts"`
	BotTokenEnv  string   `toml:"bot_token_env" help:"variable instead of bot_token_file"`
	AppTokenFile string   `toml:"app_token_file" help:"file with the token that listens; without it there are no buttons"`
	AppTokenEnv  string   `toml:"app_token_env" help:"variable instead of app_token_file"`
	Approvers    []string `toml:"approvers" help:"ids of members who may decide; empty: everyone in the channel"`
	APIURL       string   `toml:"api_url" help:"another base address, for tests"`
}

// Ledger says where the service keeps what it knows.
type Ledger struct {
	Path string `toml:"path" help:"file of the ledger"`
}

// Letters says what is particular to a shop's letters.
type Letters struct {
	Folder       string `toml:"folder" help:"texts of one's own; empty: the built-in ones"`
	AnswerDays   int    `toml:"answer_days" help:"days that a letter gives for the answer"`
	ReminderDays int    `toml:"reminder_days" help:"days without an answer until a reminder is drafted"`
	Reminders    int    `toml:"reminders" help:"how many reminders at most, up to 2"`
}

// Digest is the daily summary in chat.
type Digest struct {
	At Clock `toml:"at" help:"hour of the daily summary in chat"`
}

// Judge weighs a needless question against a missed slip.
type Judge struct {
	CostAsk  float64 `toml:"cost_ask" help:"cost of a needless question"`
	CostMiss float64 `toml:"cost_miss" help:"cost of a missed slip, in the same measure"`
}

// Survey is what a blank form starts from.
type Survey struct {
	Unit    parse.Unit `toml:"unit" help:"of blank forms, in or cm"`
	Spacing Length     `toml:"spacing" help:"between stations on blank forms"`
}

// Keep says how long customers are remembered after their last mail.
type Keep struct {
	Customers Duration `toml:"customers" help:"how long a customer is remembered after the last mail"`
}

// Status is the address of the health page; "" turns it off.
type Status struct {
	Listen string `toml:"listen" help:"loopback address of /healthz and /metrics; empty: none"`
}

// Cloth is a kind of cloth, and how covers are made of it. Reductions are
// fractions by which the finished cover is smaller than measured.
type Cloth struct {
	Construction    string  `toml:"construction" help:"sides, hull-and-top or top-and-skirt"`
	RollWidth       Length  `toml:"roll_width" help:"of the roll"`
	UsableWidth     Length  `toml:"usable_width" help:"of the roll without its edges"`
	GirthReduction  float64 `toml:"girth_reduction" help:"fraction by which the finished girth is smaller than measured; negative: larger"`
	LengthReduction float64 `toml:"length_reduction" help:"the same along the boat"`
	StretchAcross   float64 `toml:"stretch_across" help:"of the cloth, as a fraction; a reduction over half of it is refused"`
	SeamAllowance   Length  `toml:"seam_allowance" help:"beside each seam"`
	Hem             Length  `toml:"hem" help:"at the open edge"`
	Slit            Length  `toml:"slit" help:"at the ends, to put the cover on"`
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
