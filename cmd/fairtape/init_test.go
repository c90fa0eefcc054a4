package main

import (
	"bufio"
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/cmd/internal/settings"
	"fairtape/cmd/internal/setup"
)

// A person answers the questions, is told at once of an answer that cannot be,
// and asked again; secrets are typed unseen and end in files of their own.
func TestInitAsks(t *testing.T) {
	dir := t.TempDir()
	var out bytes.Buffer
	asks := &asker{
		lines: bufio.NewReader(strings.NewReader("Pinfold Cover Loft\npinfold\norders@pinfold.example\nFrench\nfr\nLocal\nAmerica/Halifax\n" +
			"\n#surveys\nC0123456\n")),
		out:    &out,
		hidden: func() (string, error) { return "typed unseen", nil },
	}
	c := &initCommand{IMAP: "mail.pinfold.example:143", SMTP: "mail.pinfold.example:465"}
	a, err := c.answers(&terminal{ctx: t.Context(), err: &out}, asks)
	if err != nil {
		t.Fatal(err)
	}
	want := setup.Answers{
		Shop: "Pinfold Cover Loft", Address: "orders@pinfold.example", Language: "fr", Timezone: "America/Halifax",
		IMAP: setup.Server{Address: "mail.pinfold.example:143", TLS: settings.StartTLS},
		SMTP: setup.Server{Address: "mail.pinfold.example:465", TLS: settings.Implicit},
		User: "orders@pinfold.example", Channel: "C0123456",
	}
	if a != want {
		t.Errorf("answers %+v", a)
	}
	for _, told := range []string{"no mail address", "en (English) or fr", "no time zone", "channel's id"} {
		if strings.Count(out.String(), told) != 1 {
			t.Errorf("%q is not told once:\n%s", told, &out)
		}
	}
	missing, err := askSecrets(asks, dir, a)
	if err != nil || len(missing) > 0 {
		t.Errorf("missing %v, %v", missing, err)
	}
	for _, name := range []string{setup.PasswordFile, setup.BotTokenFile, setup.AppTokenFile} {
		if data, err := os.ReadFile(filepath.Join(dir, name)); string(data) != "typed unseen\n" {
			t.Errorf("%s holds %q, %v", name, data, err)
		}
	}
	if strings.Contains(out.String(), "typed unseen") {
		t.Error("a secret is shown")
	}
}

func TestServerThatIsAskedFor(t *testing.T) {
	for _, c := range []struct {
		answer    string
		server    bool
		forSender bool
	}{
		{"mail.pinfold.example", false, false},
		{"mail.pinfold.example:", false, false},
		{"none", false, true},
		{"mail.pinfold.example:465", true, true},
		{"[::1]:993", true, true},
	} {
		if got := serverAndPort(c.answer) == nil; got != c.server {
			t.Errorf("%q as the mailbox's server: %v", c.answer, got)
		}
		if got := serverOrNone(c.answer) == nil; got != c.forSender {
			t.Errorf("%q as the server for sending: %v", c.answer, got)
		}
	}
}
