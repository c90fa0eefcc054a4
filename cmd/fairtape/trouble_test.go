package main

import (
	"crypto/tls"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/ingest/mailbox/mailboxtest"
)

// A refused password is told in chat once and not tried over and over; the
// right one is taken without a new start, and that is told too.
func TestWatchWrongPassword(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	f.write("imap.password", "wrong")
	cmd := f.watch("")
	f.await("the chat is told", func() bool { return f.told("cannot be watched") > 0 })
	if _, err := f.box.Append("INBOX", mailOf(t, "11-a-question"), time.Now()); err != nil {
		t.Fatal(err)
	}
	f.write("imap.password", mailboxtest.Password)
	f.await("the mail is worked off", f.settled(1))
	f.await("the chat is told again", func() bool { return f.told("watched again") > 0 })
	if n := f.told("cannot be watched"); n != 1 {
		t.Errorf("the refusal is told %d times", n)
	}
	f.end(cmd)
}

// told counts the posts that say something.
func (f *shopFloor) told(words string) (n int) {
	for _, m := range f.chat.Messages() {
		if strings.Contains(m.Text, words) {
			n++
		}
	}
	return n
}

// A mail server whose certificate is not to be trusted gets no password, and the
// shop is told.
func TestWatchUntrusted(t *testing.T) {
	t.Parallel()
	certificate, _, err := mailboxtest.Certificate(time.Now().AddDate(0, 0, 1)) // signed by nobody whom we know
	if err != nil {
		t.Fatal(err)
	}
	box, err := mailboxtest.Start(mailboxtest.Options{TLS: &tls.Config{Certificates: []tls.Certificate{certificate}}, Implicit: true})
	if err != nil {
		t.Fatal(err)
	}
	f := newShopFloor(t, box, box.Addr)
	text, err := os.ReadFile(filepath.Join(f.dir, "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	f.write("fairtape.toml", strings.Replace(string(text), `tls = "none"`, `tls = "implicit"`, 1))
	cmd := f.watch("")
	f.await("the chat is told", func() bool { return f.told("certificate is not trusted") > 0 })
	f.end(cmd)
	if n := f.told("certificate is not trusted"); n != 1 || box.Logins() != 0 {
		t.Errorf("told %d times, %d sign-ins; want once, and none", n, box.Logins())
	}
}

// Told to end while it works, the service ends with status 0 and soon, and goes
// on where it was at its next start.
func TestWatchEndsInWork(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	names := []string{"02-a-ten-dropped", "03-swapped-pair", "04-skipped-station"}
	for _, name := range names {
		if _, err := f.box.Append("INBOX", mailOf(t, name), time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	for _, after := range []time.Duration{200 * time.Millisecond, 600 * time.Millisecond, 1200 * time.Millisecond} {
		begun := func() int { return strings.Count(f.log.String(), "the mailbox is watched") }
		before := begun()
		cmd := f.watch("")
		f.await("it has begun", func() bool { return begun() > before })
		time.Sleep(after)
		told := time.Now()
		f.end(cmd)
		if took := time.Since(told); took > 20*time.Second {
			t.Errorf("told to end after %v it took %v", after, took)
		}
	}
	cmd := f.watch("")
	f.await("the mails are worked off", f.settled(len(names)))
	if n := len(f.in("Drafts")); n != len(names) {
		t.Errorf("%d letters lie in Drafts, want %d", n, len(names))
	}
	f.end(cmd)
}
