package reply

import (
	"strings"
	"unicode/utf8"
)

// columns is how wide the text part is: what stays unbroken when quoted once
// or twice in mail (RFC 5322 section 2.1.1 has 78).
const columns = 72

// wrap breaks text into lines of at most columns characters. The first line
// begins with first, the others with rest. No-break spaces hold, and a word
// longer than a line is cut.
func wrap(first, rest, text string) string {
	var lines []string
	line, empty := first, true
	for _, word := range strings.Split(text, " ") {
		if word == "" {
			continue
		}
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > columns {
			lines = append(lines, line)
			line, empty = rest, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
		for utf8.RuneCountInString(line) > columns {
			runes := []rune(line)
			lines = append(lines, string(runes[:columns]))
			line = rest + string(runes[columns:])
		}
	}
	return strings.Join(append(lines, line), "\n")
}
