package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/reply/chat/chattest"
)

// Killed between two outside acts and started again, the service leaves one
// letter, one thread, and the mail unseen.
func TestWatchIsKilled(t *testing.T) {
	raw := mailOf(t, "02-a-ten-dropped")
	// The desk's own tests kill it at every point; here it is the real thing at
	// the two points where the outside knows more than the ledger.
	for _, on := range []struct {
		name  string
		floor func(*testing.T) *shopFloor
	}{{"in memory", inMemory}, {"dovecot", dovecot}} {
		for _, act := range []ledger.Act{ledger.FileDraft, ledger.Show} {
			point := desk.CrashActed + string(act)
			t.Run(on.name+"/"+point, func(t *testing.T) {
				t.Parallel()
				f := on.floor(t)
				if _, err := f.box.Append("INBOX", raw, time.Now()); err != nil {
					t.Fatal(err)
				}
				dead := f.watch(point)
				var e *exec.ExitError
				if err := dead.Wait(); !errors.As(err, &e) || e.ExitCode() != -1 {
					t.Fatalf("it was not killed at %q: %v\n%s", point, err, f.log.String())
				}
				cmd := f.watch("")
				f.await("the mail is worked off", f.settled(1))
				f.one()
				f.end(cmd)
			})
		}
	}
}

// A person presses Send twice; one letter goes out, from Drafts to Sent.
func TestWatchSends(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	if _, err := f.box.Append("INBOX", mailOf(t, "02-a-ten-dropped"), time.Now()); err != nil {
		t.Fatal(err)
	}
	cmd := f.watch("")
	f.await("the mail is worked off", f.settled(1))
	if !f.chat.WaitConnected(patience) {
		t.Fatal("the service does not listen to the chat")
	}
	var first string
	for _, m := range f.chat.Messages() {
		if len(m.Buttons()) > 0 {
			first = m.TS
		}
	}
	if _, err := f.chat.Press(chattest.Ann, first, "send"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.chat.Press(chattest.Ben, first, "send"); err != nil {
		t.Log(err) // the button may be gone by now
	}
	f.await("the letter is sent", func() bool { return len(f.server.Letters()) > 0 })
	f.await("all is worked off", f.settled(1))
	if sent, drafts := len(f.in("Sent")), len(f.in("Drafts")); sent != 1 || drafts != 0 {
		t.Errorf("%d in Sent and %d in Drafts, want 1 and 0", sent, drafts)
	}
	letters := f.server.Letters()
	if len(letters) != 1 || !slices.Equal(letters[0].To, []string{"bo@larch.example"}) {
		t.Errorf("%d letters went out, want 1 to bo@larch.example", len(letters))
	}
	f.end(cmd)
}

// A shop without chat decides in the terminal.
func TestJobs(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	text, err := os.ReadFile(filepath.Join(f.dir, "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	withoutChat, _, _ := strings.Cut(string(text), "[slack]")
	f.write("fairtape.toml", withoutChat)
	for _, name := range []string{"02-a-ten-dropped", "11-a-question"} {
		if _, err := f.box.Append("INBOX", mailOf(t, name), time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	cmd := f.watch("")
	f.await("the mails are worked off", f.settled(2))

	list := f.output(0, "jobs", "list", "--json")
	for _, want := range []string{
		`{"job":1,"state":"waiting-us","draft":"1-1","customer":"bo@larch.example",`,
		`{"job":2,"state":"waiting-us","draft":null,"customer":"june@fenn.example",`,
	} {
		if !strings.Contains(list, want) {
			t.Errorf("jobs list says %s\nwant %s", list, want)
		}
	}
	if show := f.output(0, "jobs", "show", "1"); !strings.Contains(show, "Letter 1-1 (open)") || !strings.Contains(show, "likely a ten dropped") {
		t.Errorf("jobs show says %s", show)
	}
	f.output(statusUsage, "jobs", "show", "9")
	f.output(statusUsage, "jobs", "send", "1")
	f.output(statusUsage, "jobs", "send", "1-7")
	f.write("letter.txt", "Dear Bo,\n\nplease measure at 7 ft again.\n")
	f.output(0, "jobs", "edit", "1-1", "--file", filepath.Join(f.dir, "letter.txt"))
	f.await("the edited letter lies in Drafts", f.settled(2))
	f.output(0, "jobs", "send", "1-2")
	f.await("the letter is sent", func() bool { return len(f.server.Letters()) > 0 })
	f.await("all is worked off", f.settled(2))
	f.output(statusUsage, "jobs", "hold", "1-2")
	if show := f.output(0, "jobs", "show", "1", "--json"); !strings.Contains(show, `"state":"waiting-customer","draft":null`) {
		t.Errorf("after sending, jobs show says %s", show)
	}
	if letters := f.server.Letters(); len(letters) != 1 || !strings.Contains(string(letters[0].Raw), "please measure at 7 ft again.") {
		t.Errorf("%d letters went out, or not in the person's words", len(letters))
	}
	f.end(cmd)
}

// A second copy on one ledger ends with a reason, and the first goes on.
func TestTwoCopies(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	if _, err := f.box.Append("INBOX", mailOf(t, "11-a-question"), time.Now()); err != nil {
		t.Fatal(err)
	}
	cmd := f.watch("")
	f.await("the first copy serves", f.settled(1))
	ctx, stop := context.WithTimeout(t.Context(), patience)
	defer stop()
	second := exec.CommandContext(ctx, "fairtape", "watch", "--config", filepath.Join(f.dir, "fairtape.toml"))
	out, err := second.CombinedOutput()
	var e *exec.ExitError
	if !errors.As(err, &e) || e.ExitCode() != statusFailure || !strings.Contains(string(out), "another copy") {
		t.Errorf("the second copy ended with %v and said: %s", err, out)
	}
	f.end(cmd)
}
