package templates_test

import (
	"context"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// The letters hold against axe-core (npm), which tries the success criteria of
// WCAG 2.2 at levels A and AA that a program can try, in a real browser.
// FAIRTAPE_AXE names the folder with axe-core's node_modules.
func TestLettersAreAccessible(t *testing.T) {
	folder := os.Getenv("FAIRTAPE_AXE")
	if folder == "" {
		t.Skip("FAIRTAPE_AXE names no folder with node_modules/axe-core")
	}
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal(err)
	}
	axe, err := os.ReadFile(filepath.Join(folder, "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	letters, err := filepath.Glob("../testdata/letter/*.html")
	if err != nil || len(letters) == 0 {
		t.Fatalf("no letters: %v", err)
	}
	t.Run("a poor letter is found out", func(t *testing.T) {
		poor := `<html><head></head><body><img src="x.png"><p style="color:#ccc;background:#fff">pale</p></body></html>`
		got := strings.Join(violations(t, browser, axe, poor), " ")
		for _, want := range []string{"image-alt", "html-has-lang", "document-title", "color-contrast"} {
			if !strings.Contains(got, want) {
				t.Errorf("%s was not found in %q", want, got)
			}
		}
	})
	for _, name := range letters {
		t.Run(filepath.Base(name), func(t *testing.T) {
			page, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range violations(t, browser, axe, string(page)) {
				t.Error(v)
			}
		})
	}
}

// run is what the page does once axe-core is loaded: it leaves the result as
// text at its own foot, where the browser's dump shows it.
const run = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(result => {
  const pre = document.createElement("pre");
  pre.id = "axe-result";
  pre.textContent = JSON.stringify(result.violations.map(v => ({id: v.id, help: v.help, where: v.nodes.map(n => n.html).join(" | ")})));
  document.body.append(pre);
});`

var resultElement = regexp.MustCompile(`(?s)<pre id="axe-result">(.*?)</pre>`)

// violations opens a page in the browser and returns what axe-core has against
// it, a line each.
func violations(t *testing.T, browser string, axe []byte, page string) []string {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "letter.html")
	script := "<script>" + string(axe) + "\n" + run + "</script></body>"
	i := strings.LastIndex(page, "</body>")
	if i < 0 {
		t.Fatal("the letter has no body")
	}
	page = page[:i] + script + page[i+len("</body>"):]
	if err := os.WriteFile(file, []byte(page), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu",
		"--user-data-dir="+dir, "--virtual-time-budget=20000", "--dump-dom", "file://"+file).Output()
	if err != nil {
		t.Fatalf("the browser: %v", err)
	}
	found := resultElement.FindSubmatch(out)
	if found == nil {
		t.Fatal("axe-core left no result")
	}
	var list []struct{ ID, Help, Where string }
	if err := json.Unmarshal([]byte(html.UnescapeString(string(found[1]))), &list); err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, v := range list {
		lines = append(lines, fmt.Sprintf("%s: %s: %s", v.ID, v.Help, v.Where))
	}
	return lines
}
