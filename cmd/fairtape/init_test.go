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

// A person answers the questions; secrets are typed unseen and end in files of
// their own.
func TestInitAsks(t *testing.T) {
	dir := t.TempDir()
	var out bytes.Buffer
	asks := &asker{
		lines:  bufio.NewReader(strings.NewReader("Pinfold Cover Loft\norders@pinfold.example\nfr\nAmerica/Halifax\n\nC0123456\n")),
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
