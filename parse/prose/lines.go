package prose

import (
	"fmt"
	"regexp"
	"strings"

	"fairtape/parse"
)

// line is one line of a body as a mail program shows it.
type line struct {
	number int // from 1
	text   string
	cells  []string // of the row of a table, when it is one
	quote  bool     // belongs to an earlier mail
	depth  int      // how deep it is quoted in HTML
	lost   bool     // numbers stood behind the end that was read
}

func (l line) place() string { return fmt.Sprintf("line %d", l.number) }

func (l line) blank() bool { return strings.TrimSpace(l.text) == "" }

// No person types more than these. Of a text with more lines nothing is read,
// and the rest of a longer line is not looked at.
const (
	linesMost = 3000
	lineUsual = 80 // bytes of a line that a program broke
	lineBytes = 4000
)

// numberAlone is a number that stands as one does in writing, not inside an
// address or what a program wrote for itself.
var numberAlone = regexp.MustCompile(`\s\d[\d.,/]*(?:\s|$)`)

// boxes draws the lines of a table in the signs that everybody has.
func boxes(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '│', r == '┃', r == '║', r == '╎', r == '┆', r == '┊':
			return '|'
		case r >= '\u2500' && r <= '\u257f':
			return '-'
		}
		return r
	}, text)
}

// snake is an underscore in place of a blank, as programs write names.
var snake = regexp.MustCompile(`(\pL)_(\pL)`)

func textLines(text string) []line {
	text = snake.ReplaceAllString(boxes(text), "$1 $2")
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\f", "\n").Replace(text)
	var lines []line
	for i, t := range strings.Split(text, "\n") {
		if i > linesMost {
			break
		}
		l := line{number: i + 1, text: t}
		if len(t) > lineBytes {
			l.text, l.lost = strings.ToValidUTF8(t[:lineBytes], ""), numberAlone.MatchString(t[lineBytes:])
		}
		lines = append(lines, l)
	}
	return lines
}

// Where an earlier mail begins, as mail programs mark it: common practice, no
// source. Text is folded.
var (
	wroteLine    = regexp.MustCompile(`^(?:on|le|am|el) .{4,200}(?:wrote|a ecrit|schrieb|escribio) ?: ?$|^.{1,80}<[^>]+@[^>]+>\s*(?:wrote|a ecrit) ?: ?$`)
	wroteOpens   = regexp.MustCompile(`^(?:on|le) (?:mon|tue|wed|thu|fri|sat|sun|lun|mar|mer|jeu|ven|sam|dim|\d{1,4}[ ./-]|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)`)
	originalLine = regexp.MustCompile(`^[-_ ]{2,}\s*(?:original message|message d'origine|message original|reply above|ursprungliche)`)
	forwardLine  = regexp.MustCompile(`^(?:[-_ ]{2,}\s*(?:forwarded (?:message|by)|message transfere)|begin forwarded message|debut du message (?:transfere|reexpedie))`)
	ruleLine     = regexp.MustCompile(`^_{10,}$`)
	headerLine   = regexp.MustCompile(`^\*?(?:from|sent|to|cc|subject|date|de|envoye|a|objet|reply-to)\s?:\*? `)
	fromLine     = regexp.MustCompile(`^\*?(?:from|de)\s?:`)
	sentLine     = regexp.MustCompile(`^\*?(?:sent|date|envoye|to|a|subject|objet)\s?:`)
	signature    = regexp.MustCompile(`^-- ?$|^—$`)
	sentFrom     = regexp.MustCompile(`^(?:sent from (?:my|yahoo|outlook|mail|proton)|envoye (?:de|depuis) mon|get outlook for|obtenez outlook|telecharger outlook)`)
	closing      = regexp.MustCompile(`^(?:(?:(?:kind|best|warm|many|with)?\s?(?:best |kind |warm )?(?:regards|wishes)|cheers|sincerely|yours(?: (?:truly|sincerely|faithfully))?|thanks(?: (?:again|so much|very much|a lot))?|thank you(?: (?:again|so much|very much))?|many thanks|cordialement|bien cordialement|salutations|merci(?: (?:beaucoup|bien|d'avance))?|bonne journee|a bientot|sinceres salutations|amities|best|take care|all the best))[,.! ]*$`)
)

// ownWords takes off what is not this mail's own: earlier mails, and what
// stands below a signature mark. What was only forwarded is the mail's own.
func ownWords(lines []line) (own, quoted []line) {
	lines = withoutInitials(lines)
	for i := 0; i < len(lines); i++ {
		l := lines[i]
		s := parse.Fold(l.text)
		switch {
		case marked(l):
			quoted = append(quoted, l)
			continue
		case forwardLine.MatchString(s):
			unmark(lines[i+1:])
			for i+1 < len(lines) && (lines[i+1].blank() || headerLine.MatchString(parse.Fold(lines[i+1].text)+" ")) {
				i++
			}
			continue
		case opensMarked(lines, i, s):
			// What follows is marked line by line; answers may stand in between.
			for !marked(lines[i+1]) {
				i++
			}
			continue
		case (originalLine.MatchString(s) || fromLine.MatchString(s) && opensQuote(lines, i, s)) && passedOn(own, lines[i+1:]):
			for i+1 < len(lines) && (lines[i+1].blank() || headerLine.MatchString(parse.Fold(lines[i+1].text)+" ")) {
				i++
			}
			continue
		case originalLine.MatchString(s), opensQuote(lines, i, s):
			if answeredInside(own, lines[i:]) {
				return trim(dropSignature(withoutHeader(lines[i:]))), quoted
			}
			return continued(lines, trim(own)), append(quoted, lines[i:]...)
		case signature.MatchString(strings.TrimLeft(l.text, " ")) && l.text != "" && strings.TrimSpace(l.text) != "":
			// What stands below is a signature, up to an earlier mail.
			for i+1 < len(lines) && !opensQuote(lines, i+1, parse.Fold(lines[i+1].text)) {
				i++
			}
			continue
		case sentFrom.MatchString(s):
			continue
		}
		own = append(own, l)
	}
	own = trim(dropSignature(own))
	if answeredInside(own, quoted) {
		return trim(dropSignature(unquoted(quoted))), nil
	}
	return continued(lines, underQuestions(lines, own, quoted)), quoted
}

var mark = regexp.MustCompile(`^\s*> ?`)

// unmark takes the marks off a mail that was passed on: it is the mail's own.
// What is marked twice was quoted in it.
func unmark(lines []line) {
	depth := 0
	for i := range lines {
		l := &lines[i]
		switch {
		case !marked(*l) && !l.blank():
			return
		case l.quote && depth == 0:
			depth = l.depth
		}
		l.quote = l.quote && l.depth > depth
		l.text = mark.ReplaceAllString(l.text, "")
	}
}

// marked reports a line that its mail program marked as another mail's.
func marked(l line) bool {
	return l.quote || strings.HasPrefix(strings.TrimSpace(l.text), ">")
}

// introMost is how many lines stand between the first of an introduction ("On
// Monday ... wrote:") and the first marked line.
const introMost = 4

// opensMarked reports a line that introduces an earlier mail whose lines are
// marked one by one.
func opensMarked(lines []line, i int, s string) bool {
	if !opensQuote(lines, i, s) || fromLine.MatchString(s) || ruleLine.MatchString(s) {
		return false
	}
	for j := i + 1; j < len(lines) && j <= i+introMost; j++ {
		if marked(lines[j]) {
			return true
		}
	}
	return false
}

// opensQuote reports that line i introduces an earlier mail which follows to
// the end, or is marked by > anyway.
func opensQuote(lines []line, i int, s string) bool {
	switch {
	case originalLine.MatchString(s), wroteLine.MatchString(s):
		return true
	case wroteOpens.MatchString(s): // broken over two or three lines
		joined := s
		for j := i + 1; j < len(lines) && j <= i+2; j++ {
			joined += " " + parse.Fold(lines[j].text)
			if wroteLine.MatchString(strings.TrimSpace(joined)) {
				return true
			}
		}
	case ruleLine.MatchString(s) && i+1 < len(lines):
		return fromLine.MatchString(parse.Fold(lines[i+1].text))
	case fromLine.MatchString(s):
		n := 0
		for j := i + 1; j < len(lines) && j <= i+5; j++ {
			if sentLine.MatchString(parse.Fold(lines[j].text)) {
				n++
			}
		}
		return n >= 2
	}
	return false
}

// signatureMost is how many lines an unmarked signature has at most.
const signatureMost = 7

// dropSignature takes off what follows a closing formula when it is short and
// holds no measure.
func dropSignature(lines []line) []line {
	for i := len(lines) - 1; i >= 0 && i >= len(lines)-signatureMost-3; i-- {
		if !closing.MatchString(strings.TrimSpace(parse.Fold(lines[i].text))) {
			continue
		}
		rest, filled := lines[i+1:], 0
		for _, l := range rest {
			if !l.blank() {
				filled++
			}
			if l.cells != nil || measured(l.text) {
				return lines
			}
		}
		if filled <= signatureMost {
			return lines[:i+1]
		}
	}
	return lines
}

// measured reports a line that speaks of the boat's measures.
func measured(text string) bool {
	if !strings.ContainsAny(parse.Plain(text), "0123456789") {
		return false
	}
	if labelOf(parse.Fold(text)).some() {
		return true
	}
	return stationWord.MatchString(parse.Fold(text))
}

func trim(lines []line) []line {
	for len(lines) > 0 && lines[0].blank() {
		lines = lines[1:]
	}
	for len(lines) > 0 && lines[len(lines)-1].blank() {
		lines = lines[:len(lines)-1]
	}
	return lines
}
