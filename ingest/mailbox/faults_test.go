package mailbox

import (
	"errors"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/emersion/go-imap/v2"

	"fairtape/ingest"
	"fairtape/ingest/mailbox/mailboxtest"
)

// A password that was changed after the server refused the old one is taken
// without a new start, long before the pause is over.
func TestChangedPassword(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	put(t, s, "INBOX", 1, time.Now())
	var secret atomic.Value
	secret.Store("wrong")
	cfg := config(s.Addr)
	cfg.SignIn.Password = func() (string, error) { return secret.Load().(string), nil }
	f := NewFolders(cfg)
	t.Cleanup(func() { f.Close() })
	l := newLedger()
	watching(t, l, cfg, ingest.Cursor{})
	l.until(t, "the refusal", func() bool { return len(l.troubles) > 0 })
	if _, err := f.Drafts(t.Context()); !errors.Is(err, ErrSignIn) {
		t.Errorf("error %v, want ErrSignIn", err)
	}
	secret.Store(mailboxtest.Password)
	l.until(t, "the mail", func() bool { return len(l.deliveries) == 1 })
	if _, err := f.Drafts(t.Context()); err != nil {
		t.Errorf("after the change: %v", err)
	}
	if n := s.Logins(); n != 4 {
		t.Errorf("%d sign-ins, want 4: each of the two refused once and let in once", n)
	}
}

// A password that cannot be read is no refusal: the server was not asked.
func TestUnreadablePassword(t *testing.T) {
	s := memory(t, mailboxtest.Options{})
	cfg := config(s.Addr)
	cfg.SignIn.Password = func() (string, error) { return "", errors.New("no such file") }
	if _, err := NewFolders(cfg).Drafts(t.Context()); err == nil || errors.Is(err, ErrSignIn) || s.Logins() != 0 {
		t.Errorf("error %v after %d sign-ins, want another one than ErrSignIn after none", err, s.Logins())
	}
}

// A server that is unwell at the sign-in has not refused it.
func TestSignInIsPutOff(t *testing.T) {
	for _, code := range []string{"UNAVAILABLE", "INUSE", "LIMIT", "SERVERBUG"} {
		t.Run(code, func(t *testing.T) {
			t.Parallel()
			s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, n int) {
				faults := map[string]func(string, string) bool{}
				if n == 1 {
					faults["LOGIN"] = func(tag, _ string) bool { c.Send(tag + " NO [" + code + "] later"); return true }
				}
				c.Serve(mailboxtest.ScriptBox{Count: 1, UIDValidity: 7}, faults)
			})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			l := newLedger()
			watching(t, l, config(s.Addr), ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: 7})
			l.until(t, "the message", func() bool { return len(l.deliveries) == 1 })
			if errors.Is(l.troubles[0], ErrSignIn) {
				t.Errorf("trouble %v: nobody refused the sign-in", l.troubles[0])
			}
		})
	}
}

// A server that cannot be found, or does not answer, is tried again.
func TestWatchOutOfReach(t *testing.T) {
	for _, address := range []string{"mail.pinfold.invalid:993", "127.0.0.1:1"} { // RFC 6761 section 6.4: never resolves
		cfg := config(address)
		cfg.Security = Implicit
		l := newLedger()
		stop := watching(t, l, cfg, ingest.Cursor{})
		l.until(t, "three tries", func() bool { return len(l.troubles) >= 3 })
		stop()
		for _, err := range l.troubles {
			if err == nil || errors.Is(err, ErrSignIn) || errors.Is(err, ErrCertificate) {
				t.Errorf("%s: trouble %v, want that of the connection", address, err)
			}
		}
	}
}

// What other programs mark as seen, and gaps in the numbers, change nothing.
func TestSeenAndGaps(t *testing.T) {
	servers(t, func(t *testing.T, s server, cfg Config) {
		for n := 1; n <= 4; n++ {
			if _, err := s.Append("INBOX", surveyMail(n), time.Now(), imap.FlagSeen); err != nil {
				t.Fatal(err)
			}
		}
		c, err := dial(t.Context(), cfg)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := c.selectMailbox(t.Context(), "INBOX", false); err != nil {
			t.Fatal(err)
		}
		for _, uid := range []imap.UID{1, 3} {
			if err := c.remove(t.Context(), uid); err != nil {
				t.Fatal(err)
			}
		}
		c.close()
		l := newLedger()
		watching(t, l, cfg, ingest.Cursor{})
		l.until(t, "what is left", func() bool { return len(l.deliveries) == 2 })
		if got := l.uids(); !slices.Equal(got, []uint32{2, 4}) {
			t.Errorf("delivered %v, want 2 and 4", got)
		}
	})
}

// A message that comes between the search and the wait, of which the server
// tells nobody, is found at the next look.
func TestMailBetweenSearchAndIdle(t *testing.T) {
	var count atomic.Int32
	count.Store(1)
	s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
		for {
			box := mailboxtest.ScriptBox{Count: int(count.Load()), UIDValidity: 7}
			again := false
			c.Serve(box, map[string]func(string, string) bool{"IDLE": func(tag, _ string) bool {
				count.Store(2)
				c.Send("+ idling")
				_, _, err := c.Next()
				c.Send(tag + " OK done")
				again = err == nil
				return false
			}})
			if !again {
				return
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	l := newLedger()
	w := &Watcher{Config: config(s.Addr), Start: ingest.Cursor{Account: "shop", Mailbox: "INBOX", UIDValidity: 7},
		Poll: time.Second, Now: time.Now, Deliver: l.deliver}
	go w.run(t.Context(), quick)
	l.until(t, "both messages", func() bool { return len(l.deliveries) == 2 })
}

// Whatever breaks while a letter is filed or removed is an error, and the next
// try ends with one letter in Drafts.
func TestFilingIsCutOff(t *testing.T) {
	for _, command := range []string{"LIST", "EXAMINE", "UID SEARCH", "APPEND", "SELECT", "UID STORE", "UID EXPUNGE"} {
		t.Run(command, func(t *testing.T) {
			t.Parallel()
			filed := false
			s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, n int) {
				c.Serve(mailboxtest.ScriptBox{UIDValidity: 7}, folderFaults(c, n, command, &filed))
			})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			f := NewFolders(config(s.Addr))
			t.Cleanup(func() { f.Close() })
			raw := letter("1-1", "a@pinfold.example")
			file := func() error { _, err := f.FileDraft(t.Context(), raw, "a@pinfold.example"); return err }
			drop := func() error {
				return f.DeleteDraft(t.Context(), ingest.Location{Account: "shop", Mailbox: "Drafts", UIDValidity: 7, UID: 1})
			}
			whole := func() error { return errors.Join(file(), drop()) }
			if err := whole(); err == nil {
				t.Fatalf("cut off at %s, filing and removing went well", command)
			}
			if err := whole(); err != nil {
				t.Errorf("the second try: %v", err)
			}
			if filed {
				t.Error("the letter still lies in Drafts")
			}
		})
	}
}

// folderFaults is a server with one mailbox, Drafts, that holds one letter or
// none, and loses the first connection at a command. UID SEARCH and APPEND are
// lost after they took effect.
func folderFaults(c *mailboxtest.ScriptConn, n int, cut string, filed *bool) map[string]func(string, string) bool {
	faults := map[string]func(string, string) bool{
		"LIST": func(tag, _ string) bool {
			c.Send(`* LIST (\Drafts) "/" Drafts`, tag+" OK done")
			return true
		},
		"UID SEARCH": func(tag, _ string) bool {
			found := "* SEARCH"
			if *filed {
				found += " 1"
			}
			c.Send(found, tag+" OK done")
			return true
		},
		"APPEND": func(tag, command string) bool {
			c.Send("+ go on")
			for line := ""; line != "Please measure again."; {
				first, rest, err := c.Next()
				if err != nil {
					return false
				}
				line = strings.TrimSpace(first + " " + rest)
			}
			c.Next() //nolint:errcheck // the end of the command's own line
			*filed = true
			if n == 1 && cut == "APPEND" {
				return false
			}
			c.Send(tag + " OK [APPENDUID 7 1] done")
			return true
		},
		"UID EXPUNGE": func(tag, _ string) bool {
			*filed = false
			c.Send(tag + " OK done")
			return true
		},
	}
	if n == 1 && cut != "APPEND" {
		faults[cut] = func(string, string) bool { return false }
	}
	return faults
}

// A mailbox without room refuses the letter, which is filed once there is room.
func TestNoRoomForALetter(t *testing.T) {
	full, filed := true, false
	s, err := mailboxtest.StartScript(func(c *mailboxtest.ScriptConn, _ int) {
		faults := folderFaults(c, 2, "", &filed)
		works := faults["APPEND"]
		faults["APPEND"] = func(tag, command string) bool {
			if full {
				c.Send(tag + " NO [OVERQUOTA] no room")
				return true
			}
			return works(tag, command)
		}
		c.Serve(mailboxtest.ScriptBox{UIDValidity: 7}, faults)
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	f := NewFolders(config(s.Addr))
	t.Cleanup(func() { f.Close() })
	raw := letter("1-1", "a@pinfold.example")
	if _, err := f.FileDraft(t.Context(), raw, "a@pinfold.example"); err == nil || !strings.Contains(err.Error(), "no room") || errors.Is(err, ErrSignIn) {
		t.Errorf("error %v, want the server's refusal", err)
	}
	full = false
	_, err = f.FileDraft(t.Context(), raw, "a@pinfold.example")
	if err != nil || !filed {
		t.Errorf("with room again: %v", err)
	}
}
