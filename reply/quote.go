package reply

import (
	"regexp"
	"strings"
)

const (
	mostQuoted     = 12  // lines of the customer's mail repeated below the letter: enough to know it by
	mostQuotedLine = 300 // characters of one such line
)

// introduces matches the line that mail programs put before an older mail:
// "On Tuesday Ann wrote:", "Le 3 mai, Ann a écrit :".
var introduces = regexp.MustCompile(`(?i)(wrote|a écrit)\s*:$|^-{2,}\s*(original|forwarded|message)`)

// quoted takes the top of a mail for repeating: up to its signature, without
// what it repeats of older mails.
func quoted(body string) []item {
	var lines []item
	for line := range strings.SplitSeq(Text(body), "\n") {
		if line == "-- " || len(lines) == mostQuoted || introduces.MatchString(strings.TrimSpace(line)) {
			break
		}
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, ">") || line == "" && (len(lines) == 0 || lines[len(lines)-1].Text == "") {
			continue
		}
		lines = append(lines, item{Text: cut(line, mostQuotedLine)})
	}
	for len(lines) > 0 && lines[len(lines)-1].Text == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}
