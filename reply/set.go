package reply

import (
	"slices"
	"strconv"
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

// heading underlines a text, so that it stands out without a fount.
func heading(s string) string {
	lines := wrap("", "", s)
	width := 0
	for line := range strings.Lines(lines) {
		width = max(width, utf8.RuneCountInString(strings.TrimSpace(line)))
	}
	return lines + "\n" + strings.Repeat("-", width)
}

func step(i int, s string) string {
	number := strconv.Itoa(i+1) + ". "
	return wrap(number, strings.Repeat(" ", len(number)), s)
}

// fields sets the parts of a line to be filled in two spaces apart; what does
// not fit goes to a line of its own, never broken within a part.
func fields(l line) string {
	var lines []string
	line := ""
	for _, part := range slices.Concat(l.Names, l.Blanks) {
		switch {
		case line == "":
			line = part
		case utf8.RuneCountInString(line)+2+utf8.RuneCountInString(part) > columns:
			lines = append(lines, line)
			line = "    " + part
		default:
			line += "  " + part
		}
	}
	return strings.Join(append(lines, line), "\n")
}

// signature is set off as mail programs know it (RFC 3676 section 4.3), which
// is why the space stays.
func signature(items []item) string {
	lines := []string{"-- "}
	for _, it := range items {
		lines = append(lines, wrap("", "", it.Text))
	}
	return strings.Join(lines, "\n")
}

func quote(items []item) string {
	var lines []string
	for _, it := range items {
		lines = append(lines, strings.TrimRight(wrap("> ", "> ", it.Text), " "))
	}
	return strings.Join(lines, "\n")
}
