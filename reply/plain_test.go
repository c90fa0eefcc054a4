package reply

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestLine(t *testing.T) {
	for _, test := range []struct{ name, in, want string }{
		{"a second header", "Boat\r\nBcc: all@shop.example", "Boat Bcc: all@shop.example"},
		{"terminal commands", "Heron\x1b[2J\x07 15", "Heron[2J 15"},
		{"C1 controls", "a\u009b31mb", "a31mb"},
		{"direction overrides", "form\u202egpj.exe", "formgpj.exe"},
		{"direction isolates", "\u2066a\u2069b\u200e\u200fc\u061c", "abc"},
		{"hidden characters", "a\u200b\u2060\ufeff\u00adb", "ab"},
		{"tag characters", "a\U000E0041b", "ab"},
		{"private use", "a\uE000b", "ab"},
		{"line and paragraph separators", "a\u2028b\u2029c\u0085d", "a b c d"},
		{"broken UTF-8", "a\xffb", "a\uFFFDb"},
		{"NUL", "a\x00b", "ab"},
		{"only junk", "\r\n\t \u202e", ""},
		{"runs of spaces", "  a \t\v b\u3000c ", "a b c"},
		{"no-break spaces stay", "7\u00a0ft", "7\u00a0ft"},
		{"accents and emoji stay", "Élodie 👩‍🔧", "Élodie 👩‍🔧"},
	} {
		if got := Line(test.in); got != test.want {
			t.Errorf("%s: Line(%q) = %q, want %q", test.name, test.in, got, test.want)
		}
	}
}

func TestText(t *testing.T) {
	for _, test := range []struct{ name, in, want string }{
		{"line ends of every kind", "a\r\nb\rc\u2028d\u0085e", "a\nb\nc\nd\ne"},
		{"columns of figures stay", "7 ft   41", "7 ft   41"},
		{"controls go", "a\x1b[1mb\x00", "a[1mb"},
		{"overrides go on every line", "\u202ea\n\u202eb", "a\nb"},
	} {
		if got := Text(test.in); got != test.want {
			t.Errorf("%s: Text(%q) = %q, want %q", test.name, test.in, got, test.want)
		}
	}
}

func FuzzLine(f *testing.F) {
	for _, seed := range []string{"", "Boat\r\nBcc: x", "\u202e\u2066", "a\xff\x00", "7\u00a0ft 👩‍🔧"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, s string) {
		line, text := Line(s), Text(s)
		for _, r := range line {
			if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' {
				t.Fatalf("Line(%q) kept %U", s, r)
			}
		}
		for _, r := range text {
			if r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
				t.Fatalf("Text(%q) kept %U", s, r)
			}
		}
		if !utf8.ValidString(line) || !utf8.ValidString(text) {
			t.Fatalf("not UTF-8: %q", s)
		}
		if Line(line) != line || Text(text) != text {
			t.Fatalf("cleaning twice is not cleaning once: %q", s)
		}
	})
}

func TestWrapKeepsWithinColumns(t *testing.T) {
	for _, test := range []struct{ name, in, want string }{
		{"empty", "", "- "},
		{"a word longer than a line", strings.Repeat("x", 100), "- " + strings.Repeat("x", 70) + "\n  " + strings.Repeat("x", 30)},
		{"no-break space holds", strings.Repeat("y", 66) + " 7\u00a0ft", "- " + strings.Repeat("y", 66) + "\n  7\u00a0ft"},
		{"one too many", strings.Repeat("z", 66) + " 7 ft", "- " + strings.Repeat("z", 66) + " 7\n  ft"},
		{"exactly a line", strings.Repeat("z", 65) + " 7 ft", "- " + strings.Repeat("z", 65) + " 7 ft"},
		{"letters count, not bytes", strings.Repeat("é", 68) + " a", "- " + strings.Repeat("é", 68) + " a"},
	} {
		if got := wrap("- ", "  ", test.in); got != test.want {
			t.Errorf("%s: wrap = %q, want %q", test.name, got, test.want)
		}
	}
}
