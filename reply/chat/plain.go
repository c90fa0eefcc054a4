package chat

import (
	"strings"

	"fairtape/reply"
)

// Plain returns a summary as plain text, all of it with the letter, for a
// terminal: no colour, no control character but the line break.
func Plain(s reply.Summary) string {
	text := strings.TrimRight(outline(s), "\n") + "\n"
	if letter := strings.TrimSpace(clean(s.Letter)); letter != "" {
		text += "\nLetter " + oneLine(s.Draft) + ":\n"
		for line := range strings.Lines(letter + "\n") {
			text += strings.TrimRight("  "+line, " \n") + "\n"
		}
	}
	return text
}
