package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// What a person says of a cover in the terminal, as in chat: its cloth, that it
// is cut, that it came back. The sheet follows, and a number that changes after
// the cut raises the alarm.
func TestJobsCover(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	text, err := os.ReadFile(filepath.Join(f.dir, "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	withoutChat, _, _ := strings.Cut(string(text), "[slack]")
	f.write("fairtape.toml", withoutChat+"\n[cloth.default]\n")
	if _, err := f.box.Append("INBOX", mailOf(t, "01-clean-spreadsheet"), time.Now()); err != nil {
		t.Fatal(err)
	}
	cmd := f.watch("")
	f.await("the mail is worked off", f.settled(1))
	for _, wrong := range [][]string{
		{"cloth", "1"}, {"cloth", "1", "silk", "green"}, {"cloth", "7", "default", "green"},
		{"cut", "7"}, {"fit", "1", "for", "purpose"}, {"fit", "7", "good"},
	} {
		f.output(statusUsage, append([]string{"jobs"}, wrong...)...)
	}
	shows := func(words string) {
		t.Helper()
		if show := f.output(0, "jobs", "show", "1"); !strings.Contains(show, words) {
			t.Errorf("jobs show has no %q:\n%s", words, show)
		}
	}
	f.output(0, "jobs", "cloth", "1", "default", "sea", "green")
	f.await("the sheet is made", f.settled(1))
	shows("1, holds, not cut yet")
	for _, name := range []string{"cut-sheet.pdf", "cut-sheet.xlsx", "panels.svg", "panels.dxf"} {
		found, err := filepath.Glob(filepath.Join(f.dir, handedFolder, "*"+name))
		if err != nil || len(found) != 1 {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
	f.output(0, "jobs", "cloth", "1", "default", "grey")
	f.await("a new sheet is made", f.settled(1))
	shows("1, void, destroy it: the cloth or its settings have changed")
	f.output(0, "jobs", "cut", "1")
	f.await("the cut is recorded", f.settled(1))
	shows("2, cut")
	f.output(0, "jobs", "correct", "1", "6 ft", "full_girth", "60")
	f.await("the number is taken", f.settled(1))
	shows("2, ALARM: it was cut, and is void since: 6 ft full girth is 60 in, not 71 in")
	f.output(0, "jobs", "fit", "1", "tight", "7", "ft")
	f.output(0, "jobs", "fit", "1", "returned")
	f.await("the fit is recorded", f.settled(1))
	shows("Sheet 2 as it was cut follows, with blanks for the cover laid flat.")
	if found, err := filepath.Glob(filepath.Join(f.dir, handedFolder, "*returned.pdf")); err != nil || len(found) != 1 {
		t.Errorf("the page for the returned cover: %v, %v", found, err)
	}
	f.end(cmd)
}
