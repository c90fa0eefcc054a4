package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// A log has the time before each line, and what was copied from a chat the one
// who wrote it too. Neither says anything of the numbers.

var (
	// stamp is a time, with its date or without, before the words of a line.
	stamp = regexp.MustCompile(`^\s*[\[(]?(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}(?:,\s*|\s+|T))?(\d{1,2})\s?[:h]\s?\d\d(?::\d\d)?(?:\s?(?i:[ap]\.?m\b\.?))?[\])]?\s*(?:[-–—:|]\s+|\s)`)
	// writer is who wrote a line of a chat.
	writer = regexp.MustCompile(`^\s*(?:<(\pL[\pL .'-]{0,30})>|(\pL[\pL .'-]{0,30}):)\s`)
)

// stampsLeast is how many lines of a log begin with a time at least.
const stampsLeast = 4

// withoutStamps takes the times, and the names behind them, off lines of which
// most that have numbers begin with one.
func withoutStamps(lines []line) []line {
	numbered, stamped := 0, 0
	hours := map[string]bool{}
	for _, l := range lines {
		if l.cells != nil || !strings.ContainsAny(l.text, "0123456789") {
			continue
		}
		numbered++
		if stampEnd(l.text) > 0 {
			stamped++
		}
		if m := stamp.FindStringSubmatch(l.text); m != nil {
			hours[m[1]] = true
		}
	}
	// "1:43" may be the girth at 1 ft, where no two lines begin with one number.
	if stamped < stampsLeast || 2*stamped < numbered || 2*len(hours) > stamped {
		return lines
	}
	out := make([]line, len(lines))
	for i, l := range lines {
		if l.cells == nil {
			l.text = l.text[stampEnd(l.text):]
		}
		out[i] = l
	}
	return out
}

// stampEnd is how long the time and the name are with which a line begins, or a
// name in angle brackets alone; 0 where there is neither.
func stampEnd(text string) int {
	n := len(stamp.FindString(text))
	m := writer.FindStringSubmatch(text[n:])
	if m == nil || n == 0 && m[1] == "" || labelOf(parse.Fold(m[1]+m[2])).some() || stationWord.MatchString(parse.Fold(m[2])) {
		return n
	}
	return n + len(m[0])
}

// withoutInitials takes the name off lines of which most that have numbers begin
// with the same, as people mark their answers in an earlier mail: "BQ: 23 inches". The lines of
// that mail stay.
func withoutInitials(lines []line) []line {
	numbered, named := 0, map[string]int{}
	for _, l := range lines {
		if l.cells == nil && !marked(l) && strings.ContainsAny(l.text, "0123456789") {
			numbered++
			named[writerOf(l.text)]++
		}
	}
	out := append([]line(nil), lines...)
	for i, l := range out {
		if name := writerOf(l.text); l.cells == nil && !marked(l) && name != "" && named[name] >= stampsLeast && 2*named[name] >= numbered {
			out[i].text = l.text[len(name):]
		}
	}
	return out
}

// marksWriter is a short name, a colon behind it or brackets around it.
var marksWriter = regexp.MustCompile(`^\s*(?:[\[(](\pL{1,12})[\])]\s*:?|(\pL{1,12})\s?:|(\pL{1,12})>+)\s+`)

// writerOf is the name with which a line begins, "" where the words say something
// of the number behind them.
func writerOf(text string) string {
	m := marksWriter.FindStringSubmatch(text)
	if m == nil || headerLine.MatchString(parse.Fold(text)+" ") {
		return ""
	}
	if s := parse.Fold(m[1] + m[2] + m[3]); labelOf(s).some() || stationWord.MatchString(s) || stationHead.MatchString(s) || !aWord.MatchString(s) {
		return ""
	}
	return m[0]
}

// aWord is any word that is no letter by which a girth is named.
var aWord = regexp.MustCompile(`^\pL{2,}$`)
