package chat

import (
	"strings"
	"testing"
	"unicode"

	"fairtape/reply/replytest"
)

// No text from outside pings, links, formats or hides.
func TestEscapeHostileTexts(t *testing.T) {
	entities := strings.NewReplacer("&amp;", "", "&lt;", "", "&gt;", "")
	for _, h := range replytest.Hostile() {
		got := Escape(h)
		if strings.ContainsAny(entities.Replace(got), "<>&`*~") {
			t.Errorf("Escape(%.60q) = %.60q", h, got)
		}
		if i := strings.IndexFunc(got, func(r rune) bool { return r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }); i >= 0 {
			t.Errorf("Escape(%.60q) = %.60q: a character that cannot be seen", h, got)
		}
		if strings.Contains(oneLine(h), "\n") {
			t.Errorf("oneLine(%.60q) has several lines", h)
		}
	}
}
