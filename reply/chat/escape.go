package chat

import (
	"regexp"
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Escape makes any text safe to stand in a post: it is shown as it is, it pings
// nobody, links nowhere and formats nothing. Characters that cannot be seen or
// that turn the direction of writing are taken out; line breaks stay.
//
// Slack asks for & < > as entities and for nothing else; the marks of its
// formatting have no escape, so a look-alike stands in for each.
// Source: docs.slack.dev, "Formatting message text".
func Escape(text string) string {
	text = clean(text)
	text = emojiCode.ReplaceAllString(text, "$1∶")
	text = italic.ReplaceAllString(text, "${1}ˍ$2")
	text = italicEnd.ReplaceAllString(text, "${1}ˍ$2")
	return entities.Replace(text)
}

// The table is read only; a Replacer is safe for several goroutines.
var entities = strings.NewReplacer(
	"&", "&amp;", "<", "&lt;", ">", "&gt;",
	"`", "ˋ", "*", "∗", "~", "∼",
)

var (
	// emojiCode is ":name:", which would become a picture; a time such as
	// 14:02:33 is none.
	emojiCode = regexp.MustCompile(`(:[a-zA-Z_+'-][a-zA-Z0-9_+'-]*):`)
	// An underscore formats only at the edge of a word; file names keep theirs.
	italic    = regexp.MustCompile(`(^|[^\pL\pN_])_([^\s])`)
	italicEnd = regexp.MustCompile(`([^\s])_([^\pL\pN_]|$)`)
)

// clean takes out what cannot be seen: control characters, marks that turn the
// direction of writing, zero-width characters except the two joiners that some
// scripts need, and broken UTF-8.
func clean(text string) string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\r', r == '\u2028', r == '\u2029', r == '\v', r == '\f', r == '\u0085':
			return '\n'
		case r == '\t':
			return ' '
		case r == '\u200c', r == '\u200d':
			return r
		case r == utf8.RuneError, unicode.Is(unicode.Cc, r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Co, r):
			return -1
		}
		return r
	}, text)
}

// oneLine folds all white space into single blanks.
func oneLine(text string) string { return strings.Join(strings.Fields(clean(text)), " ") }

// shorten cuts a text to at most limit characters, at a blank where there is
// one near, and shows that it was cut.
func shorten(text string, limit int) string {
	if utf8.RuneCountInString(text) <= limit {
		return text
	}
	runes := []rune(text)[:limit-1]
	cut := len(runes)
	for i := len(runes) - 1; i > len(runes)*3/4; i-- {
		if unicode.IsSpace(runes[i]) {
			cut = i
			break
		}
	}
	return strings.TrimRightFunc(string(runes[:cut]), unicode.IsSpace) + "…"
}

// shortenEscaped cuts an escaped text without leaving half an entity.
func shortenEscaped(text string, limit int) string {
	short := shorten(text, limit)
	if short == text {
		return text
	}
	if amp := strings.LastIndexByte(short, '&'); amp >= 0 && !strings.Contains(short[amp:], ";") {
		return strings.TrimRight(short[:amp], " ") + "…"
	}
	return short
}

// piece is a part of a text and what stood between it and the next.
type piece struct{ text, after string }

// split cuts a text into pieces of at most limit characters each: at a blank
// line where it can, else at a line's end, else at a blank, else anywhere.
// Joined with what stood between them the pieces are the text again. Size
// measures a piece as it will be sent.
func split(text string, limit int, size func(string) int) []piece {
	var pieces []piece
	for size(text) > limit {
		end := fitting(text, limit, size)
		cut, gap := end, ""
		for _, mark := range []string{"\n\n", "\n", " "} {
			if at := strings.LastIndex(text[:end], mark); at > end/2 {
				cut, gap = at, mark
				break
			}
		}
		pieces = append(pieces, piece{text[:cut], gap})
		text = text[cut+len(gap):]
	}
	return append(pieces, piece{text, ""})
}

// fitting returns the length in bytes of the longest beginning of a text whose
// size is within the limit; at least one character.
func fitting(text string, limit int, size func(string) int) int {
	runes := []rune(text)
	over := sort.Search(len(runes), func(n int) bool { return size(string(runes[:n+1])) > limit })
	return len(string(runes[:max(over, 1)]))
}
