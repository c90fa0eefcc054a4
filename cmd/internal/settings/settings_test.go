package settings

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/parse"
)

// least is the shortest file that a shop can start with.
const least = `
[shop]
name = "Pinfold Cover Loft"
from = "orders@pinfold.example"
[imap]
address = "127.0.0.1:993"
user = "orders"
password_file = "imap.password"
`

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, add string
		want      []string // all of these stand in the message
	}{
		{"unknown key", "pol = \"60s\"", []string{"line 9", "imap.pol", "did you mean imap.poll?"}},
		{"unknown table", "[slak]\nchannel = \"C1\"", []string{"slak", "did you mean slack?"}},
		{"unknown cloth key", "[cloth.canvas]\nhemm = \"1 in\"", []string{"cloth.canvas.hemm", "hem?"}},
		{"time without unit", "poll = \"60\"", []string{"line 9", `poll = "60"`, `as in "60s"`}},
		{"time as number", "poll = 60", []string{"line 9", "poll = 60", `as in "60s"`}},
		{"text as list", "inbox = []", []string{"line 9", "inbox = []", "wrong kind"}},
		{"length as number", "[survey]\nspacing = 12", []string{"spacing = 12", `as in "1/2 in"`}},
		{"years without unit", "[keep]\ncustomers = \"2\"", []string{`"2"`}},
		{"too often", `poll = "0.1s"`, []string{"imap.poll", "between"}},
		{"hour", "[digest]\nat = \"25:00\"", []string{"25:00", "24-hour clock"}},
		{"answer days", "[status]\n[digest]\n[letters]\nanswer_days = 0", []string{"letters.answer_days = 0"}},
		{"three reminders", "[letters]\nreminders = 3", []string{"letters.reminders = 3", "telephone"}},
		{"length without unit", "[survey]\nspacing = \"12\"", []string{`"12"`, `"1 ft"`}},
		{"unit", "[survey]\nunit = \"mm\"", []string{`survey.unit = "mm"`, `"in" or "cm"`}},
		{"plain text off this machine", "[smtp]\naddress = \"mail.pinfold.example:25\"\ntls = \"none\"", []string{`smtp.tls = "none"`, "in the clear"}},
		{"two secrets", "password_env = \"X\"", []string{"imap.password_file and imap.password_env are both set"}},
		{"chat without token", "[slack]\nchannel = \"C1\"", []string{"slack.bot_token_file is missing"}},
		{"token without channel", "[slack]\nbot_token_file = \"x\"", []string{"slack.channel is missing"}},
		{"channel by name", "[slack]\nchannel = \"#surveys\"\nbot_token_file = \"x\"", []string{"channel's id"}},
		{"over half of the stretch", "[cloth.default]\ngirth_reduction = 0.04", []string{"cloth.default.girth_reduction", "would not go on"}},
		{"status for all", "[status]\nlisten = \":8025\"", []string{"status.listen"}},
		{"two ways to sign in", "[imap.oauth2]\ntoken_file = \"t\"", []string{"both a password and [imap.oauth2]"}},
		{"sign-in without token file", "[smtp]\naddress = \"127.0.0.1:25\"\n[smtp.oauth2]\nclient_id = \"x\"", []string{"smtp.oauth2.token_file is missing"}},
		{"token in the clear", "[smtp]\naddress = \"127.0.0.1:25\"\n[smtp.oauth2]\ntoken_file = \"t\"\nclient_id = \"x\"\ntoken_url = \"http://login.provider.example/token\"", []string{"smtp.oauth2.token_url", "https"}},
		{"refresh without client", "[smtp]\naddress = \"127.0.0.1:25\"\n[smtp.oauth2]\ntoken_file = \"t\"\ntoken_url = \"https://login.provider.example/token\"", []string{"smtp.oauth2.client_id is missing"}},
		{"device without token address", "[smtp]\naddress = \"127.0.0.1:25\"\n[smtp.oauth2]\ntoken_file = \"t\"\ndevice_url = \"https://login.provider.example/device\"", []string{"smtp.oauth2.token_url is missing"}},
		{"mechanism", "[smtp]\naddress = \"127.0.0.1:25\"\n[smtp.oauth2]\ntoken_file = \"t\"\nmechanism = \"plain\"", []string{"smtp.oauth2.mechanism", "oauthbearer"}},
		{"chat in the clear", "[slack]\nchannel = \"C1\"\nbot_token_file = \"x\"\napi_url = \"http://localhost.evil.example/\"", []string{"slack.api_url", "https"}},
		{"no toml", "poll = ", []string{"line 9"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Parse([]byte(least+tt.add+"\n"), "fairtape.toml")
			if err == nil {
				t.Fatal("taken without a word")
			}
			for _, want := range tt.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("message %q does not say %q", err, want)
				}
			}
		})
	}
}

func TestParseNamesEverythingAtOnce(t *testing.T) {
	_, err := Parse([]byte("[shop]\nlanguage = \"de\"\n"), "fairtape.toml")
	for _, want := range []string{"shop.name", "shop.from", "shop.language", "imap.address", "imap.user", "imap.password_file"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("message %v does not name %s", err, want)
		}
	}
}

func TestParseFillsIn(t *testing.T) {
	s, err := Parse([]byte(least+`
since = "2w"
[smtp]
address = "127.0.0.1:587"
[cloth.default]
hem = "30 mm"
[cloth.canvas]
girth_reduction = -0.01
`), "conf/fairtape.toml")
	if err != nil {
		t.Fatal(err)
	}
	dir, err := filepath.Abs("conf")
	if err != nil {
		t.Fatal(err)
	}
	if want := filepath.Join(dir, "imap.password"); s.IMAP.PasswordFile != want || s.SMTP.PasswordFile != want {
		t.Errorf("password files %q and %q, want %q for both", s.IMAP.PasswordFile, s.SMTP.PasswordFile, want)
	}
	if got := s.IMAP.Since.Duration; got != 14*24*time.Hour {
		t.Errorf("since = %v", got)
	}
	if got := s.IMAP.Account(); got != "orders@127.0.0.1" {
		t.Errorf("account = %q", got)
	}
	canvas := s.Cloth["canvas"]
	if canvas.Hem != (Length{parse.Measured(3, parse.Centimetre)}) || canvas.GirthReduction != -0.01 || canvas.Construction != "sides" {
		t.Errorf("a named cloth does not start from the default one: %+v", canvas)
	}
}

// further is a second inbox that a file may have.
const further = `
[slack]
channel = "C1"
bot_token_file = "bot.token"
[smtp]
address = "127.0.0.1:587"
[cloth.canvas]
hem = "3 in"
[[inbox]]
name = "sails"
[inbox.shop]
name = "Pinfold Sails"
[inbox.imap]
user = "sails"
password_file = "sails.password"
[inbox.slack]
channel = "C2"
[inbox.cloth.default]
hem = "2 in"
[inbox.cloth.dacron]
slit = "5 in"
`

func TestFurtherInboxes(t *testing.T) {
	s, err := Parse([]byte(least+further), "/conf/fairtape.toml")
	if err != nil {
		t.Fatal(err)
	}
	if first, _ := s.Named(""); first.IMAP.User != "orders" || first.Cloth["default"].Hem != (Length{parse.Inches(1)}) {
		t.Errorf("the first inbox is changed: %+v", first)
	}
	sails, ok := s.Named("sails")
	if !ok || len(s.Each()) != 2 {
		t.Fatal("there is no inbox of that name")
	}
	inches := func(name string, of func(Cloth) Length, want float64) {
		if got := of(sails.Cloth[name]); got != (Length{parse.Inches(want)}) {
			t.Errorf("cloth %s: %v, want %v in", name, got, want)
		}
	}
	hem, slit := func(c Cloth) Length { return c.Hem }, func(c Cloth) Length { return c.Slit }
	inches("default", hem, 2)
	inches("canvas", hem, 3)
	inches("dacron", hem, 2)
	inches("dacron", slit, 5)
	for _, check := range []struct{ key, got, want string }{
		{"shop.name", sails.Shop.Name, "Pinfold Sails"},
		{"shop.from, as above", sails.Shop.From, "orders@pinfold.example"},
		{"imap.address, as above", sails.IMAP.Address, "127.0.0.1:993"},
		{"imap.password_file", sails.IMAP.PasswordFile, "/conf/sails.password"},
		{"smtp.password_file, as [inbox.imap]", sails.SMTP.PasswordFile, "/conf/sails.password"},
		{"slack.bot_token_file, as above", sails.Slack.BotTokenFile, "/conf/bot.token"},
	} {
		if check.got != check.want {
			t.Errorf("%s = %q, want %q", check.key, check.got, check.want)
		}
	}
}

func TestFurtherInboxesAreRefused(t *testing.T) {
	for _, tt := range []struct{ name, old, new, want string }{
		{"no name", `name = "sails"`, "", "inbox 1: name is missing"},
		{"no user", `user = "sails"`, "", `inbox "sails": imap.user is missing`},
		{"no password", `password_file = "sails.password"`, "", `inbox "sails": imap.password_file is missing`},
		{"the account of another", `user = "sails"`, `user = "orders"`, "is watched already"},
		{"no channel", `channel = "C2"`, "", "slack.channel is missing"},
		{"the channel of another", `channel = "C2"`, `channel = "C1"`, "another inbox's"},
		{"unknown key", `user = "sails"`, `usr = "sails"`, "did you mean inbox.imap.user?"},
		{"a value that cannot be", `hem = "2 in"`, `hem = "2"`, `"2" cannot be meant`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Parse([]byte(least+strings.Replace(further, tt.old, tt.new, 1)), "fairtape.toml")
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v, want one that says %q", err, tt.want)
			}
		})
	}
}

func TestPassword(t *testing.T) {
	file := filepath.Join(t.TempDir(), "password")
	if _, err := (Connection{PasswordFile: file}).Password(); err == nil {
		t.Error("a missing file gives no error")
	}
	if _, err := (Connection{PasswordEnv: "FAIRTAPE_TEST_UNSET"}).Password(); err == nil {
		t.Error("a missing variable gives no error")
	}
	if err := os.WriteFile(file, []byte("a b \n"), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := Connection{PasswordFile: file}.Password()
	if err != nil || got != "a b " {
		t.Errorf("got %q, %v; only the line's end is cut off", got, err)
	}
	t.Setenv("FAIRTAPE_TEST", "secret")
	if got, err := (Connection{PasswordEnv: "FAIRTAPE_TEST"}).Password(); err != nil || got != "secret" {
		t.Errorf("got %q, %v", got, err)
	}
}

// Every default is one that the checks would let a shop write.
func TestDefaultsAreTaken(t *testing.T) {
	if _, err := Parse([]byte(least), "fairtape.toml"); err != nil {
		t.Fatal(err)
	}
}

// A secret that systemd hands over wins over the file beside the settings.
func TestCredentials(t *testing.T) {
	handed := t.TempDir()
	t.Setenv(credentials, handed)
	if err := os.WriteFile(filepath.Join(handed, "imap.password"), []byte("from systemd\n"), 0o400); err != nil {
		t.Fatal(err)
	}
	s, err := Parse([]byte(least+"[slack]\nchannel = \"C1\"\nbot_token_file = \"bot.token\"\n"), filepath.Join(t.TempDir(), "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := s.IMAP.Password(); got != "from systemd" || err != nil {
		t.Errorf("password %q, %v", got, err)
	}
	if filepath.Dir(s.Slack.BotTokenFile) == handed {
		t.Error("a secret that was not handed over is looked for there")
	}
}
