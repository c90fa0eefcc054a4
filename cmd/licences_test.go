package cmd_test

import (
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
)

// major is the ending of a module's path that tells its major version.
var major = regexp.MustCompile(`/v\d+$`)

// The README names the licence of every module that is built into the program,
// its tests or its tools, and of no other.
func TestLicencesAreListed(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, ok := strings.Cut(string(text), "## Licences of what it stands on")
	if !ok {
		t.Fatal("the README has no section on licences")
	}
	listed := map[string]bool{}
	for line := range strings.Lines(section) {
		cells := strings.Split(line, "|")
		if len(cells) != 4 || strings.HasPrefix(cells[1], " ---") || strings.TrimSpace(cells[2]) == "modules" {
			continue
		}
		for name := range strings.SplitSeq(cells[2], ",") {
			name, _, _ = strings.Cut(strings.TrimSpace(name), " ")
			listed[name] = true
		}
	}
	used := map[string]bool{}
	for _, args := range [][]string{{"-test", "fairtape/..."}, {"tool"}} {
		out, err := exec.Command("go", append([]string{"list", "-deps", "-tags", "nodynamic", "-f", "{{with .Module}}{{.Path}}{{end}}"}, args...)...).Output()
		if err != nil {
			t.Fatalf("go list: %v", err)
		}
		for _, path := range strings.Fields(string(out)) {
			if path != "fairtape" {
				used[major.ReplaceAllString(path, "")] = true
			}
		}
	}
	for path := range used {
		if !listed[path] {
			t.Errorf("the README does not say under which licence %s is", path)
		}
	}
	for path := range listed {
		if !used[path] {
			t.Errorf("the README lists %s, which is not built in", path)
		}
	}
}
