package parse

import "strings"

// Plain returns text with the many characters that mean the same written one
// way: spaces of every kind become one space, full-width forms their ASCII,
// curly quotes and primes ' and ", fraction signs "1/2". Case and accents stay.
func Plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		b.WriteString(plainRune(r))
	}
	s := strings.ReplaceAll(b.String(), "''", `"`)
	return strings.Join(strings.Fields(s), " ")
}

// Fold returns Plain text in lower case without accents, for comparing words.
func Fold(text string) string {
	return accents.Replace(strings.ToLower(Plain(text)))
}

var accents = strings.NewReplacer(
	"à", "a", "â", "a", "ä", "a", "á", "a", "å", "a", "ç", "c",
	"é", "e", "è", "e", "ê", "e", "ë", "e", "î", "i", "ï", "i", "í", "i",
	"ô", "o", "ö", "o", "ó", "o", "ù", "u", "û", "u", "ü", "u", "ú", "u", "ñ", "n", "œ", "oe", "æ", "ae",
	// The same letters as base and combining mark.
	"\u0300", "", "\u0301", "", "\u0302", "", "\u0308", "", "\u0327", "", "\u0303", "",
)

func plainRune(r rune) string {
	switch {
	case r >= '！' && r <= '～': // full-width ASCII
		return plainRune(r - '！' + '!')
	case r >= '\u2000' && r <= '\u200a', r == '\u00a0', r == '\u202f', r == '\u205f', r == '\u3000', r == '\t', r == '\n', r == '\r':
		return " "
	case r >= '\u200b' && r <= '\u200f', r == '\ufeff', r == '\u2060', r == '\u00ad':
		return ""
	}
	switch r {
	case '‘', '’', '‛', '′', 'ʹ', 'ʼ', '´', '`', '‵':
		return "'"
	case '“', '”', '‟', '″', '〃', 'ʺ', '˝', '‶':
		return `"`
	case '‐', '‑', '‒', '–', '—', '−':
		return "-"
	case '⁄', '∕':
		return "/"
	case '½':
		return " 1/2"
	case '¼':
		return " 1/4"
	case '¾':
		return " 3/4"
	case '⅛':
		return " 1/8"
	case '⅜':
		return " 3/8"
	case '⅝':
		return " 5/8"
	case '⅞':
		return " 7/8"
	case '⅓':
		return " 1/3"
	case '⅔':
		return " 2/3"
	}
	return string(r)
}
