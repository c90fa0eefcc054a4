package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A customer who measured half of the boat sends the other half in a second mail,
// with the first quoted below it. The two are one survey.

// otherHalf are the words by which people say so.
var otherHalf = regexp.MustCompile(`\b(?:(?:other|second|back|rear|aft|stern|remaining|last) (?:half|part|end|stations|ones)|the (?:rest|remaining|others)|remainder|continu(?:ed|ing|ation)|la suite|le reste|(?:autre|deuxieme|seconde|derniere) (?:moitie|partie)|moitie (?:arriere|avant))\b`)

// wroteThis is how an earlier mail is introduced, with the name of who wrote it.
var wroteThis = regexp.MustCompile(`(?i)^(?:on|le) .*?(?:,|\d) *(\pL[\pL .'-]+?)(?: *<[^>]*>)? (?:wrote|a écrit) ?: *$`)

// continued puts before a customer's words those of their own earlier mail, where
// they say that this is the other half.
func continued(lines, own []line) []line {
	if !otherHalf.MatchString(foldLines(own)) || numbersIn(own) == 0 {
		return own
	}
	first := ownEarlier(lines)
	if numbersIn(first) == 0 {
		return own
	}
	return append(append(first, line{}), own...)
}

// ownEarlier is the earlier mail of the one who signs.
func ownEarlier(lines []line) []line {
	for i := range lines {
		for n := range introMost {
			if i+n >= len(lines) {
				break
			}
			m := wroteThis.FindStringSubmatch(strings.TrimSpace(unquotedText(lines[i : i+n+1])))
			if m == nil || !signedBy(lines, m[1]) {
				continue
			}
			return quotedBelow(lines[i+n+1:])
		}
	}
	return nil
}

// unquotedText joins lines without their marks of quoting.
func unquotedText(lines []line) string {
	var parts []string
	for _, l := range lines {
		parts = append(parts, strings.TrimSpace(l.text[len(quoteMarks.FindString(l.text)):]))
	}
	return strings.Join(parts, " ")
}

// signedBy reports a line of a mail's own that is the name, or the first part of it.
func signedBy(lines []line, name string) bool {
	return slices.ContainsFunc(lines, func(l line) bool {
		s := strings.Trim(parse.Fold(l.text), " ,.-")
		return !marked(l) && s != "" && strings.HasPrefix(parse.Fold(name)+" ", s+" ")
	})
}

// quotedBelow is the mail that is quoted from here on, as deep as its first line.
func quotedBelow(lines []line) (out []line) {
	deep := 0
	for _, l := range lines {
		mark := quoteMarks.FindString(l.text)
		depth := max(l.depth, strings.Count(mark, ">"))
		switch {
		case l.blank():
			continue
		case deep == 0:
			deep = depth
		}
		if depth != deep || deep == 0 {
			break
		}
		l.text, l.quote, l.depth = l.text[len(mark):], false, 0
		out = append(out, l)
	}
	return out
}
