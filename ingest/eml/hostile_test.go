package eml

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"fairtape/reply/replytest"
)

// No name that a sender gives a file is a path, or hides what it is.
func TestFileNameHostileTexts(t *testing.T) {
	for _, h := range replytest.Hostile() {
		got := fileName(h)
		if strings.ContainsAny(got, "/\\\r\n\x00") || strings.Trim(got, ". ") == "" && got != "" || utf8.RuneCountInString(got) > maxNameRunes {
			t.Errorf("fileName(%.60q) = %.60q", h, got)
		}
		if i := strings.IndexFunc(got, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }); i >= 0 {
			t.Errorf("fileName(%.60q) = %.60q: a character that cannot be seen", h, got)
		}
	}
}
