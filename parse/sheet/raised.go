package sheet

import (
	"regexp"
	"strings"
)

// Raised text points to a note, "57" and a small 1, closes an ordinal, "1st", or
// is the upper figure of a fraction. A pointer is set in brackets, so that it is
// no figure of the number before it.

var (
	raisedMark     = regexp.MustCompile(`^\s*(\w{1,2})\s*$`)
	raisedOrdinal  = regexp.MustCompile(`^\s*(?i:st|nd|rd|th|er|re|eme|ème)\s*$`)
	raisedFraction = regexp.MustCompile(` \[(\d{1,2})\] ?([/⁄])`)
)

// raised returns the text of a raised run.
func raised(text string) string {
	m := raisedMark.FindStringSubmatch(text)
	if m == nil || raisedOrdinal.MatchString(text) {
		return text
	}
	return " [" + m[1] + "] "
}

// lowered undoes it where the raised figure turns out to open a fraction.
func lowered(text string) string { return raisedFraction.ReplaceAllString(text, " $1$2") }

// symbol is the tick or the box of the usual symbol fonts.
func symbol(char string) string {
	switch strings.ToUpper(char) {
	case "F0FE", "F0FD", "F052", "F053", "F0FC", "F050", "2612", "2611":
		return "☒"
	case "F0A8", "F06F", "F0A3", "2610":
		return "☐"
	}
	return ""
}
