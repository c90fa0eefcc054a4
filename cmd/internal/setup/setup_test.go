package setup

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/settings"
	"fairtape/reply/chat"
)

var update = flag.Bool("update", false, "write the golden files anew")

// names is a resolver that knows what a test tells it.
type names struct {
	srv map[string][]*net.SRV // by "_imaps._tcp.domain"
	mx  map[string][]*net.MX
}

func (n names) LookupSRV(_ context.Context, service, proto, name string) (string, []*net.SRV, error) {
	records, ok := n.srv["_"+service+"._"+proto+"."+name]
	if !ok {
		return "", nil, &net.DNSError{Err: "no such host", Name: name, IsNotFound: true}
	}
	return "", records, nil
}

func (n names) LookupMX(_ context.Context, name string) ([]*net.MX, error) {
	records, ok := n.mx[name]
	if !ok {
		return nil, &net.DNSError{Err: "no such host", Name: name, IsNotFound: true}
	}
	return records, nil
}

func TestFind(t *testing.T) {
	lookup := names{
		srv: map[string][]*net.SRV{
			// The example of RFC 6186, section 3.4.
			"_imap._tcp.tarn.example":       {{Target: "imap.tarn.example.", Port: 143}},
			"_submission._tcp.tarn.example": {{Target: "mail.tarn.example.", Port: 587}},
			"_imap._tcp.pinfold.example":    {{Target: ".", Port: 0}},
			"_imaps._tcp.pinfold.example":   {{Target: "mail.pinfold.example.", Port: 9993}},
			"_submissions._tcp.pinfold.example": {{Target: "mail.pinfold.example.", Port: 465},
				{Target: "second.pinfold.example.", Port: 465}},
			"_imap._tcp.none.example":  {{Target: ".", Port: 0}},
			"_imaps._tcp.none.example": {{Target: ".", Port: 0}},
		},
		mx: map[string][]*net.MX{
			"loft.example":  {{Host: "loft-example.mail.protection.outlook.com."}},
			"cedar.example": {{Host: "aspmx.l.google.com."}},
			"trap.example":  {{Host: "mx.notgoogle.com."}},
		},
	}
	tests := []struct {
		address, imap, smtp string
		imapTLS, smtpTLS    settings.TLS
		why                 string
		sure                bool
	}{
		{"a@none.example", "imap.none.example:993", "smtp.none.example:587", settings.Implicit, settings.StartTLS, "custom", false},
		{"a@trap.example", "imap.trap.example:993", "smtp.trap.example:587", settings.Implicit, settings.StartTLS, "custom", false},
		{"a@tarn.example", "imap.tarn.example:143", "mail.tarn.example:587", settings.StartTLS, settings.StartTLS, "records", true},
		{"a@pinfold.example", "mail.pinfold.example:9993", "mail.pinfold.example:465", settings.Implicit, settings.Implicit, "records", true},
		{"a@loft.example", "outlook.office365.com:993", "smtp.office365.com:587", settings.Implicit, settings.StartTLS, "Microsoft", true},
		{"a@cedar.example", "imap.gmail.com:993", "smtp.gmail.com:587", settings.Implicit, settings.StartTLS, "Google", true},
		{"A@Gmail.Com", "imap.gmail.com:993", "smtp.gmail.com:587", settings.Implicit, settings.StartTLS, "Google", true},
	}
	for _, tt := range tests {
		g, err := Find(t.Context(), lookup, tt.address)
		if err != nil {
			t.Fatal(err)
		}
		if g.IMAP != (Server{tt.imap, tt.imapTLS}) || g.SMTP != (Server{tt.smtp, tt.smtpTLS}) || !strings.Contains(g.Why, tt.why) || g.Sure != tt.sure {
			t.Errorf("%s: %+v", tt.address, g)
		}
	}
}

// Every entry of the table makes a settings file that loads, and says where it
// is from.
func TestProviders(t *testing.T) {
	list, err := loadProviders()
	if err != nil || len(list) < 8 {
		t.Fatalf("%d providers, %v", len(list), err)
	}
	for _, p := range list {
		if p.Source != "guides" && p.Source != "memory" || p.Secret == "" {
			t.Errorf("%s: source %q, secret %q", p.Name, p.Source, p.Secret)
		}
		a := sample()
		a.IMAP, a.SMTP, a.OAuth2 = p.IMAP, p.SMTP, p.OAuth2
		if a.OAuth2 != nil {
			a.OAuth2.ClientID = "00000000-0000-0000-0000-000000000000"
		}
		if _, err := Text(a, "fairtape.toml"); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
	}
}

func sample() Answers {
	return Answers{
		Shop: "Pinfold Cover Loft", Address: "orders@pinfold.example", Language: "en", Timezone: "America/Halifax",
		IMAP: Server{"mail.pinfold.example:993", settings.Implicit}, SMTP: Server{"mail.pinfold.example:587", settings.StartTLS},
		User: "orders@pinfold.example", Channel: "C0123456",
	}
}

func TestText(t *testing.T) {
	for _, bad := range []func(*Answers){
		func(a *Answers) { a.Address = "nobody" },
		func(a *Answers) { a.Timezone = "Nowhere" },
		func(a *Answers) { a.Channel = "#surveys" },
		func(a *Answers) { a.IMAP.Address = "mail.pinfold.example" },
	} {
		a := sample()
		bad(&a)
		var wrong *settings.Error
		if _, err := Text(a, "fairtape.toml"); !errors.As(err, &wrong) {
			t.Errorf("%+v: error %v, want one about the settings", a, err)
		}
	}
	elsewhere := sample()
	elsewhere.State = "/var/lib/fairtape"
	elsewhere.OAuth2 = &settings.OAuth2{ClientID: "x", TokenURL: "https://login.provider.example/token", Scopes: []string{"mail", "offline"}}
	text, err := Text(elsewhere, "fairtape.toml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := settings.Parse(text, "fairtape.toml")
	if err != nil || s.Ledger.Path != "/var/lib/fairtape/fairtape.db" || s.IMAP.OAuth2.TokenFile != "/var/lib/fairtape/mail.token" ||
		s.SMTP.OAuth2 != s.IMAP.OAuth2 || len(s.IMAP.OAuth2.Scopes) != 2 {
		t.Errorf("%+v, %+v, %v", s.Ledger, s.IMAP, err)
	}
	odd := sample()
	odd.Shop, odd.Channel, odd.SMTP = "Anne's \"Loft\" \\ co\n[imap]", "", Server{}
	text, err = Text(odd, filepath.Join(t.TempDir(), "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	s, err = settings.Parse(text, "fairtape.toml")
	if err != nil || s.Shop.Name != "Anne's \"Loft\" \\ co [imap]" || s.SMTP.Address != "" || s.Slack.Channel != "" {
		t.Errorf("%+v, %v", s.Shop, err)
	}
}

func TestTextGolden(t *testing.T) {
	text, err := Text(sample(), "fairtape.toml")
	if err != nil {
		t.Fatal(err)
	}
	golden := filepath.Join("testdata", "fairtape.toml")
	if *update {
		if err := os.WriteFile(golden, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil || string(want) != string(text) {
		t.Errorf("the settings file differs from %s (%v):\n%s", golden, err, text)
	}
}

func TestWrite(t *testing.T) {
	file := filepath.Join(t.TempDir(), "new", "fairtape.toml")
	if err := Write(file, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := Write(file, []byte("two")); !errors.Is(err, ErrThere) {
		t.Errorf("error %v, want ErrThere", err)
	}
	if data, err := os.ReadFile(file); string(data) != "one" {
		t.Errorf("the file holds %q, %v", data, err)
	}
	if info, err := os.Stat(file); runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

// The manifest names every permission that the program looks for, in the
// service's own schema.
func TestManifest(t *testing.T) {
	data, err := Manifest()
	if err != nil {
		t.Fatal(err)
	}
	var m struct {
		Settings struct {
			Socket bool `json:"socket_mode_enabled"`
			Events struct {
				Bot []string `json:"bot_events"`
			} `json:"event_subscriptions"`
			Press struct {
				On bool `json:"is_enabled"`
			} `json:"interactivity"`
		} `json:"settings"`
		OAuth struct {
			Scopes struct {
				Bot []string `json:"bot"`
			} `json:"scopes"`
		} `json:"oauth_config"`
	}
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	if !m.Settings.Socket || !m.Settings.Press.On || !slices.Equal(m.Settings.Events.Bot, chat.Events()) {
		t.Errorf("settings: %+v", m.Settings)
	}
	for _, s := range chat.Scopes() {
		if !slices.Contains(m.OAuth.Scopes.Bot, s.Name) || s.Private != "" && !slices.Contains(m.OAuth.Scopes.Bot, s.Private) {
			t.Errorf("%s is missing", s.Name)
		}
	}
}
