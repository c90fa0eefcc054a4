package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/mailbox/mailboxtest"
)

var update = flag.Bool("update", false, "write the golden files of the conversation anew")

const conversation = "../../testdata/conversation"

// Twelve steps from the first survey to a boat that is ready to cut, played on
// the program itself: every letter and every post as expected, but for dates
// and ids.
func TestConversation(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes half a minute")
	}
	for name, start := range map[string]func(*testing.T) (rehearsal.Box, string){
		"in memory": func(t *testing.T) (rehearsal.Box, string) {
			box, err := mailboxtest.Start(mailboxtest.Options{})
			if err != nil {
				t.Fatal(err)
			}
			return box, box.Addr
		},
		"dovecot": func(t *testing.T) (rehearsal.Box, string) {
			box, err := mailboxtest.StartDovecot(mailboxtest.DovecotOptions{})
			if err != nil {
				t.Skip(err)
			}
			return box, box.Addr
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			box, address := start(t)
			converse(t, box, address)
		})
	}
}

func converse(t *testing.T, box rehearsal.Box, address string) {
	survey, err := rehearsal.Survey(conversation)
	if err != nil {
		t.Fatal(err)
	}
	f, err := rehearsal.New(t.TempDir(), "fairtape", box, address)
	if err != nil {
		t.Fatal(err)
	}
	var log strings.Builder
	f.Log = &log
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := f.Start(); err != nil {
		t.Fatal(err)
	}
	if err := f.Play(t.Context(), f.Conversation(survey), nil); err != nil {
		t.Fatalf("%v\n%s\n%s", err, f.Posts(), log.String())
	}
	verify := f.Command("jobs", "verify")
	var differ strings.Builder
	verify.Stdout, verify.Stderr = &differ, &differ
	if err := verify.Run(); err != nil {
		t.Errorf("ledger and mailbox differ: %v\n%s", err, &differ)
	}
	letters, err := f.Letters()
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "letters.txt", letters)
	golden(t, "posts.txt", f.Posts())
}

// golden compares with a file, or writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(conversation, name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is not as expected; run with -update and look at the difference:\n%s", name, difference(string(want), got))
	}
}

// difference shows the first lines that differ.
func difference(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range a {
		if i >= len(b) || a[i] != b[i] {
			last := func(s []string) string { return strings.Join(s[min(i, len(s)):min(i+4, len(s))], "\n") }
			return "want:\n" + last(a) + "\ngot:\n" + last(b)
		}
	}
	return "got more:\n" + strings.Join(b[len(a):], "\n")
}
