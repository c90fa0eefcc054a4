package parse

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var expressions = []string{
	`\b(?:stem|bow)\b`, `\bst\b`, `^ft`, `ft$`, `(?i)\bétrave`, `(?i)skiff`, `x*`, `a|`, `\B/`, `(?m)^> ?`, `[^\pL]at`,
	`\d{3}-\d{4}\b`, `(?i)(?:[$€£]|\b(?:CAD|USD)\s?)\s?\d`, `\bl\.?o\.?a\b`, `.{2}½`, `\S+@\S+`, `^$`, `\bé`, `_\b`, `k`,
}

// FuzzPattern holds a pattern against the expression that it is made of.
func FuzzPattern(f *testing.F) {
	texts := []string{"", "st", "the bow, 18 in", "ſkiff", "SKIFF", "\n> quoted", "5/8", "a@b.example", "$ 5", "l.o.a", "15½", "\xff\xfe", "K", "é", "l'étrave", "x_ ", "555-1234"}
	for i := range expressions {
		for _, text := range texts {
			f.Add(uint8(i), text)
		}
	}
	var patterns []*Pattern
	for _, e := range expressions {
		patterns = append(patterns, NewPattern(e))
	}
	f.Fuzz(func(t *testing.T, which uint8, text string) {
		p := patterns[int(which)%len(patterns)]
		if got, want := p.begin().in(text), p.Regexp.MatchString(text); want && !got {
			t.Errorf("%s begins nowhere in %q, and matches there", p, text)
		}
	})
}

// TestPatternPassesOver holds that a text without a beginning is not tried.
func TestPatternPassesOver(t *testing.T) {
	for expression, texts := range map[string][2]string{
		`\b(?:stem|bow)\b`: {"the Bow", "an elbow, a Bowline"},
		`\bst\b`:           {"1 st", "stem"},
		`^ft|(?i)\bétrave`: {"ft of it", "left, raft"},
		`\d{3}-\d{4}\b`:    {"555-1234", "no 12 or 13-14"},
		`\S+@\S+`:          {"any text", " "},
		`(?:x|yy)$`:        {"the yy", "x y xy"},
	} {
		b := beginningsOf(expression)
		if !b.in(texts[0]) {
			t.Errorf("%s may begin in %q", expression, texts[0])
		}
		if b.in(texts[1]) {
			t.Errorf("%s begins nowhere in %q", expression, texts[1])
		}
	}
}

// everyPattern is an expression in the source of the readers of texts.
var everyPattern = regexp.MustCompile("NewPattern\\(`([^`]*)`\\)")

// TestPatternsOfReaders holds the patterns that readers use against their
// expressions, on the words that they are made of.
func TestPatternsOfReaders(t *testing.T) {
	n := 0
	for _, room := range []string{".", "prose", "table"} {
		files, err := filepath.Glob(filepath.Join(room, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			lines := strings.Split(string(source), "\n")
			for _, m := range everyPattern.FindAllStringSubmatch(string(source), -1) {
				n++
				p := NewPattern(m[1])
				for _, l := range lines {
					if p.Regexp.MatchString(l) && !p.begin().in(l) {
						t.Errorf("%s: %s begins nowhere in %q, and matches there", file, p, l)
					}
				}
			}
		}
	}
	if n == 0 {
		t.Skip("no patterns")
	}
}

func BenchmarkPattern(b *testing.B) {
	expression := `\b(?:transom|trnsm|tableau|length (?:of )?(?:the |my )?(?:boat|canoe)|over ?all|bow to (?:stern|end))\b`
	line := strings.Repeat("the quick brown dog jumps across it 23 times ", 20)
	p := NewPattern(expression)
	p.tried.Store(patience)
	for name, do := range map[string]func(){
		"begin": func() { beginningsOf(expression) },
		"over":  func() { p.MatchString(line) },
		"tried": func() { p.Regexp.MatchString(line) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				do()
			}
		})
	}
}
