package reply

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Line makes outside text safe to stand in one line of plain text, in a header
// field or beside other text: no control characters, so no second header and
// no terminal command; no format characters, so nothing that turns the
// direction of what follows or hides in it; spaces of every kind but the
// no-break ones are one space. Broken UTF-8 becomes U+FFFD.
func Line(s string) string {
	return strings.Join(strings.FieldsFunc(clean(s, false), func(r rune) bool { return r == ' ' }), " ")
}

// Text makes outside text safe to stand in plain text of several lines: as
// Line, but line ends stay, each as "\n", and so do runs of spaces.
func Text(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\u0085", "\n").Replace(s)
	return clean(s, true)
}

// joiners are format characters that spell words in some scripts and change no
// direction (Unicode Standard chapter 23.2).
const joiners = "\u200c\u200d"

func clean(s string, lines bool) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == utf8.RuneError:
			b.WriteRune('\uFFFD')
		case r == '\n' && lines:
			b.WriteRune(r)
		case r == '\u00a0', r == '\u202f':
			b.WriteRune(r)
		case unicode.IsSpace(r):
			b.WriteRune(' ')
		case unicode.Is(unicode.Cc, r), unicode.Is(unicode.Cf, r) && !strings.ContainsRune(joiners, r), unicode.Is(unicode.Co, r), !unicode.IsGraphic(r) && !strings.ContainsRune(joiners, r):
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// cut shortens text to at most n characters, with an ellipsis in place of the
// rest.
func cut(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	return strings.TrimSpace(string(runes[:n-1])) + "…"
}
