package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// leaders are the dots and arrows that lead from a label to its number.
var leaders = regexp.MustCompile(`\s*\.{4,}\s*|\s\.{2,}\s|\s*[-=]+>\s*|\s*[→⇒➔]\s*`)

// wrapAt is the length from which a line of a mail was broken by the program
// and goes on below.
const wrapAt = 55

// entry is how a line of a list begins, which goes on with no line before it:
// "station 3 ft: ...", "bow height = ...".
var entry = regexp.MustCompile(`^\s*[^.,;?!:=]{1,40}[:=]\s`)

// opensEntry reports an entry of a list, whose label says what it gives. "point:
// 20 inches" is the end of one.
func opensEntry(text string) bool {
	label := entry.FindString(text)
	return label != "" && (labelOf(parse.Fold(label)).some() || stationWord.MatchString(parse.Fold(label)) || measuredNumbers(label))
}

var endsSentence = regexp.MustCompile(`[.!?:;]["')]*\s*$`)

// lines reads one line, or the lines of one paragraph that was broken, and
// returns how many they are.
func (r *reader) lines(lines []line) int {
	first := lines[0]
	if first.blank() {
		return 1
	}
	if n := r.labelAbove(lines); n > 0 {
		return n
	}
	text, n := first.text, 1
	if bothNamed(parse.Fold(text)) != nil && r.heading(unbullet(text), first.place()) {
		return 1
	}
	for n < len(lines) && goesOnBelow(lines[n-1], lines[n]) && !alike(first, lines[n]) {
		text += " " + strings.TrimSpace(lines[n].text)
		n++
	}
	if n == 1 && (r.plainRow(first) || r.dividedRow(first)) {
		return 1
	}
	text = unbullet(leaders.ReplaceAllString(text, ": "))
	if !measuredNumbers(text) && r.heading(text, first.place()) {
		return n
	}
	for _, s := range cut(text) {
		r.sentence(s, first.place())
	}
	return n
}

// goesOnBelow reports a line that was broken and goes on in the next.
func goesOnBelow(l, next line) bool {
	return len(l.text) >= wrapAt && !endsSentence.MatchString(l.text) && !next.blank() && split(next) == nil && !opensEntry(next.text) && !listed(l, next)
}

// listed reports two lines of a list, each behind the same sign, or one that is
// counted.
func listed(l, next line) bool {
	sign := bulletSign.FindString(next.text)
	return sign != "" && sign == bulletSign.FindString(l.text) || countedWords.MatchString(next.text)
}

var countedWords = regexp.MustCompile(`^\s*\(?\d{1,2}[.)]\s+\pL`)

var bulletSign = regexp.MustCompile(`^\s*(?:[-*•·–—]|o)\s`)

// lineStart is how the line of a list begins, up to its first number.
var lineStart = regexp.MustCompile(`^[^\pL\d]*(?:\pL+\.?\s*(?:(?i:no|nr|n°)\.?\s*)?)?\d+(?:\.\d+)*[.)]?\s?(?:ft|feet|foot|'|"|in\b|cm|mm|m\b|pi|pieds?)?`)

var digitsOf = regexp.MustCompile(`\d+`)

// alike reports lines that begin alike, as the entries of a list do: "Station
// No. 1", "Station No. 2".
func alike(a, b line) bool {
	x, y := lineStart.FindString(parse.Plain(a.text)), lineStart.FindString(parse.Plain(b.text))
	return strings.Trim(x, " 0123456789") != "" && digitsOf.ReplaceAllString(x, "#") == digitsOf.ReplaceAllString(y, "#")
}

// How many words the label of the number on the next line has at most, and a
// question that is answered there.
const (
	labelWords = 5
	askWords   = 14
)

// labelAbove reads a number that stands alone on a line under its label, and
// returns how many lines both take; 0 when there is none.
func (r *reader) labelAbove(lines []line) int {
	text := unbullet(lines[0].text)
	l := labelOf(parse.Fold(text))
	most := labelWords
	if strings.HasSuffix(strings.TrimSpace(text), "?") {
		most = askWords
	}
	if !l.some() || l.role == bothRoles || measuredNumbers(text) || len(strings.Fields(text)) > most {
		return 0
	}
	n := 1
	for n < len(lines) && lines[n].blank() {
		n++
	}
	if n == len(lines) {
		return 0
	}
	words, nums, _ := weave(scan(lines[n].text))
	if len(nums) != 1 || !betweenRow.MatchString(strings.Join(words, "")) {
		return 0
	}
	r.endBlock()
	r.sentence(strings.TrimRight(text, "? ")+" "+strings.TrimSpace(lines[n].text), lines[n].place())
	return n + 1
}

var bullet = regexp.MustCompile(`^\s*(?:[-*•·–—o]\s+|\(?\d{1,2}[.)]\s+(\pL|\d+(?:[.,]\d+)?\s?(?:ft|foot|feet|'|pi|pieds?|cm)\b.*\pL))`)

// outline is the number of an entry of a report: 1.2  Bow height.
var outline = regexp.MustCompile(`^\s*\d{1,2}(?:\.\d{1,2})+\.?\s+`)

// unbullet takes off the mark of a list, and the number of an entry that goes
// on with a word.
func unbullet(s string) string {
	if m := outline.FindString(s); m != "" {
		if l := labelOf(parse.Fold(s[len(m):])); l.measure != "" || l.place != noPlace {
			return s[len(m):]
		}
	}
	m := bullet.FindStringSubmatchIndex(s)
	if m == nil {
		return s
	}
	if m[2] >= 0 {
		return s[m[2]:]
	}
	return s[m[1]:]
}
