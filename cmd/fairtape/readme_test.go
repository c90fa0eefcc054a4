package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"fairtape/cmd/internal/settings"
)

// The README's list of settings is made from the code.
func TestReadmeListsTheSettings(t *testing.T) {
	const file, from, to = "../../README.md", "<!-- settings, made by go test ./cmd/fairtape -update -->\n", "<!-- end of settings -->\n"
	readme, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, found := strings.Cut(string(readme), from)
	list, after, closed := strings.Cut(rest, to)
	if !found || !closed {
		t.Fatal("the README has no room for the settings")
	}
	if want := settingsTable(); list != want {
		if !*update {
			t.Fatal("the README's settings are not those of the code: go test ./cmd/fairtape -update")
		}
		if err := os.WriteFile(file, []byte(before+from+want+to+after), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func settingsTable() string {
	var b strings.Builder
	b.WriteString("\n| key | default | what it is |\n| --- | --- | --- |\n")
	for _, k := range settings.Reference() {
		value := k.Default
		if value != "" {
			value = "`" + value + "`"
		}
		fmt.Fprintf(&b, "| `%s.%s` | %s | %s |\n", k.Table, k.Name, value, k.Help)
	}
	b.WriteString("\n")
	return b.String()
}
