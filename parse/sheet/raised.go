package sheet

import "regexp"

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
