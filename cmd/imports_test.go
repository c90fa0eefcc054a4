// Package cmd_test holds the table of who may import whom.
package cmd_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// allowed says which of our packages each package may import. Packages at depth
// 1 hold nouns and rules, packages at depth 2 one dependency, protocol or method
// each, and only cmd knows all. A package's own sub-packages for tests may
// import it.
var allowed = map[string]string{
	"ingest":                "",
	"ingest/eml":            "ingest",
	"ingest/origin":         "ingest",
	"ingest/mailbox":        "ingest",
	"parse":                 "",
	"parse/table":           "parse",
	"parse/sheet":           "parse parse/table",
	"parse/pdf":             "parse parse/table parse/digits",
	"parse/prose":           "parse parse/table",
	"parse/digits":          "",
	"parse/photo":           "parse parse/form parse/digits parse/table",
	"parse/form":            "parse",
	"parse/tracing":         "parse parse/form",
	"validate":              "parse validate/fair validate/slip",
	"validate/fair":         "",
	"validate/history":      "parse",
	"validate/slip":         "parse validate/fair",
	"validate/known":        "parse",
	"reply":                 "ingest parse validate validate/history validate/slip templates templates/plural",
	"reply/eml":             "reply ingest",
	"reply/smtp":            "reply",
	"reply/chat":            "reply",
	"reply/form":            "parse parse/form",
	"reply/picture":         "reply parse validate validate/fair validate/slip",
	"reply/cover":           "reply/cover/nest parse validate validate/fair",
	"reply/cover/nest":      "",
	"reply/cover/sheet":     "reply/cover reply/cover/nest parse",
	"templates":             "",
	"templates/plural":      "",
	"cmd/internal/settings": "parse",
	"cmd/internal/ledger":   "ingest parse validate reply",
	"cmd/internal/opener":   "ingest parse parse/table parse/sheet parse/pdf parse/prose parse/photo parse/tracing ingest/eml",
}

func TestImports(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, "fairtape/")
		may, listed := allowed[name]
		switch {
		case (name == "cmd" || strings.HasPrefix(name, "cmd/")) && !listed:
			continue
		case isTestHelper(name):
			parent := name[:strings.LastIndex(name, "/")]
			may, listed = allowed[parent]+" "+parent, true
		}
		if !listed {
			t.Errorf("%s is in no row of the import table", name)
			continue
		}
		seen[name] = true
		for _, imported := range p.Imports {
			ours, isOurs := strings.CutPrefix(imported, "fairtape/")
			if isOurs && !slices.Contains(strings.Fields(may), ours) {
				t.Errorf("%s imports %s, which its row does not allow", name, ours)
			}
			if !isOurs && !strings.Contains(name, "/") && strings.Contains(strings.Split(imported, "/")[0], ".") {
				t.Errorf("%s holds nouns and rules, but imports %s", name, imported)
			}
		}
	}
	for name := range allowed {
		if !seen[name] {
			t.Errorf("the import table has a row for %s, which is not there", name)
		}
	}
}

// isTestHelper reports a package that stands beside another for its tests, as
// ingest/mailbox/mailboxtest does.
func isTestHelper(name string) bool {
	parts := strings.Split(name, "/")
	n := len(parts)
	return n >= 2 && parts[n-1] == parts[n-2]+"test"
}

type goPackage struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) []goPackage {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "fairtape/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var list []goPackage
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p goPackage
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}
