package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat/chattest"
)

// One service watches two inboxes. Each answers in its own shop's name and
// tells its own channel, and a press in one lets go the letter of that one.
func TestWatchTwoInboxes(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	second, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { second.Close() }) //nolint:errcheck // the test is over
	chat := chattest.New()
	chat.Channel = "C0SAILS"
	t.Cleanup(chat.Close)
	more := fmt.Sprintf(`
[[inbox]]
name = "sails"
[inbox.shop]
name = "Pinfold Sails"
from = "sails@pinfold.example"
[inbox.imap]
address = %q
user = %q
password_file = "imap.password"
[inbox.slack]
channel = %q
api_url = %q
`, strings.Replace(second.Addr, "127.0.0.1", "localhost", 1), mailboxtest.User, chat.Channel, chat.URL())
	file := filepath.Join(f.dir, "fairtape.toml")
	first, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	f.write("fairtape.toml", string(first)+more)
	raw := mailOf(t, "02-a-ten-dropped")
	for _, box := range []inbox{f.box, second} {
		if _, err := box.Append("INBOX", raw, time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	cmd := f.watch("")
	f.await("both mails are worked off", func() bool {
		drafts, err := second.Messages("Drafts")
		return err == nil && len(drafts) == 1 && f.settled(1)()
	})
	for _, shop := range []struct {
		name   string
		box    inbox
		chat   *chattest.Server
		own    []string // arguments that name the inbox
		letter string
	}{
		{"the one of [imap]", f.box, f.chat, nil, "From: \"Pinfold Cover Loft\" <orders@pinfold.example>"},
		{"sails", second, chat, []string{"--inbox", "sails"}, "From: \"Pinfold Sails\" <sails@pinfold.example>"},
	} {
		drafts, err := shop.box.Messages("Drafts")
		if err != nil {
			t.Fatal(err)
		}
		if len(drafts) != 1 || !strings.Contains(string(drafts[0].Raw), shop.letter) {
			t.Errorf("%s: %d letters, want one with %s", shop.name, len(drafts), shop.letter)
		}
		sent := len(f.server.Letters())
		list := f.command(append([]string{"jobs", "show", "1", "--json"}, shop.own...)...)
		if err := list.Run(); err != nil {
			t.Errorf("%s: jobs show: %v\n%s", shop.name, err, f.log.String())
		}
		if !shop.chat.WaitConnected(patience) {
			t.Fatalf("%s: the chat is not listened to", shop.name)
		}
		if _, err := shop.chat.Press(chattest.Ann, withButtons(t, shop.chat), "send"); err != nil {
			t.Fatal(err)
		}
		f.await(shop.name+": the letter is sent", func() bool { return len(f.server.Letters()) == sent+1 })
		if got := f.server.Letters()[sent]; !strings.Contains(string(got.Raw), shop.letter) {
			t.Errorf("%s: sent in the name of another:\n%.300s", shop.name, got.Raw)
		}
	}
	if err := f.command("jobs", "list", "--inbox", "oars").Run(); err == nil {
		t.Error("an inbox that there is not was taken")
	}
	f.end(cmd)
}

// withButtons is the one post of a channel that can be decided on.
func withButtons(t *testing.T, chat *chattest.Server) string {
	t.Helper()
	var posts []string
	for _, m := range chat.Messages() {
		if len(m.Buttons()) > 0 {
			posts = append(posts, m.TS)
		}
	}
	if len(posts) != 1 {
		t.Fatalf("%d posts with buttons, want 1", len(posts))
	}
	return posts[0]
}
