package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/ingest/mailbox/mailboxtest"
)

// A backup is taken while the service runs. After a loss of the ledger it is
// restored, and the service goes on: what was answered is not answered again,
// nothing is sent, and ledger and mailbox agree.
func TestBackup(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	put := func(name string) {
		if _, err := f.box.Append("INBOX", mailOf(t, name), time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	put("02-a-ten-dropped")
	cmd := f.watch("")
	f.await("the mail is worked off", f.settled(1))
	backup := filepath.Join(f.dir, "backup.db")
	f.output(0, "jobs", "backup", backup)
	f.output(statusFailure, "jobs", "backup", backup)
	put("03-swapped-pair")
	f.await("the mail is worked off", f.settled(2))
	f.output(statusUsage, "jobs", "restore", backup) // the service runs
	f.end(cmd)

	path := filepath.Join(f.dir, "fairtape.db")
	if err := os.WriteFile(path, []byte(strings.Repeat("damaged", 1000)), 0o600); err != nil {
		t.Fatal(err)
	}
	broken := f.watch("")
	if err := broken.Wait(); err == nil {
		t.Error("a damaged ledger is served")
	}
	if log := f.log.String(); !strings.Contains(log, "the ledger is damaged") || !strings.Contains(log, "fairtape jobs restore FILE") {
		t.Errorf("of a damaged ledger is said: %s", log)
	}
	f.output(statusUsage, "jobs", "restore", filepath.Join(f.dir, "fairtape.toml"))
	f.output(0, "jobs", "restore", backup)
	cmd = f.watch("")
	f.await("the mail that came since is worked off again", f.settled(2))
	list := f.output(0, "jobs", "list", "--json")
	if !strings.Contains(list, `{"job":1,"state":"waiting-us"`) || !strings.Contains(list, `{"job":1001,`) || strings.Contains(list, `"job":2,`) {
		t.Errorf("the jobs are %s", list)
	}
	told := 0
	for _, m := range f.chat.Messages() {
		if strings.Contains(m.Text, "I work with a backup") {
			told++
		}
	}
	if told != 1 || len(f.server.Letters()) != 0 {
		t.Errorf("said %d times that it is a backup; %d letters went out", told, len(f.server.Letters()))
	}
	if got := drafts(t, f, "1-1"); got != 1 {
		t.Errorf("letter 1-1 lies in Drafts %d times", got)
	}
	f.end(cmd)
}

func drafts(t *testing.T, f *shopFloor, id string) (n int) {
	t.Helper()
	for _, m := range f.in("Drafts") {
		if hasLine(m, "X-Fairtape-Draft: "+id) {
			n++
		}
	}
	return n
}

func hasLine(m mailboxtest.Message, line string) bool {
	return strings.Contains(string(m.Raw), line+"\r\n")
}
