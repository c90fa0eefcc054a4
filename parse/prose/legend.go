package prose

import (
	"cmp"
	"regexp"
	"strings"

	"fairtape/parse"
)

// Letters that a survey gives a girth: "H = hull girth", "FG: full girth",
// "hull girth (H)".
var (
	letterFirst = regexp.MustCompile(`\b([B-HJ-Zb-hj-z]|[A-Z]{2,3})\s?(?:=|:|-|–|\bis\b|\bare\b|\bfor\b|\bmeans\b|\bstands for\b|\best\b)\s?(?:the\s|le\s)?((?i:hull|full|tour de coque|tour complet))\b`)
	letterLast  = regexp.MustCompile(`\b((?i:hull girths?|full girths?|tours? de coque|tours? complets?))\s?(?:\(|=\s?)([B-HJ-Z]|[A-Z]{2,3})\b`)
)

// spellOut writes the names of the girths in place of the letters that the text
// itself gives them, also where the number of the station is part of them: "H3
// = 41".
func spellOut(lines []line) []line {
	lines = undotted(lines)
	letters := map[string]string{}
	for _, l := range lines {
		for _, m := range letterFirst.FindAllStringSubmatch(l.text, -1) {
			letters[girthNamed(m[2])] = m[1]
		}
		for _, m := range letterLast.FindAllStringSubmatch(l.text, -1) {
			letters[girthNamed(m[1])] = m[2]
		}
	}
	h, f := letters["hull girth"], letters["full girth"]
	if h == "" && f == "" && firstLetters(lines) {
		h, f = "h", "f"
	}
	if h == "" || f == "" || h == f {
		return lines
	}
	coded := regexp.MustCompile(`\b(` + h + `|` + f + `)(\d{1,2})(\s*[:=]|\s+-)`)
	either := regexp.MustCompile(`\b(` + h + `|` + f + `)(\s*(?:\.{2,}|[:=.-])?\s*)(\d)`)
	heads := regexp.MustCompile(`\b` + h + `\b.*\b` + f + `\b|\b` + f + `\b.*\b` + h + `\b`)
	word := regexp.MustCompile(`\b(?:` + h + `|` + f + `)\b`)
	name := map[string]string{h: "hull girth", f: "full girth"}
	out := make([]line, len(lines))
	for i, l := range lines {
		switch {
		case l.cells != nil || letterFirst.MatchString(l.text) || letterLast.MatchString(l.text):
		case !strings.ContainsAny(l.text, "0123456789") && heads.MatchString(l.text) && len(strings.Fields(l.text)) <= sectionMost:
			l.text = word.ReplaceAllStringFunc(l.text, func(s string) string { return name[s] })
		default:
			l.text = coded.ReplaceAllStringFunc(l.text, func(s string) string {
				m := coded.FindStringSubmatch(s)
				return "station " + m[2] + " " + name[m[1]] + m[3]
			})
			l.text = either.ReplaceAllStringFunc(l.text, func(s string) string {
				m := either.FindStringSubmatch(s)
				return name[m[1]] + cmp.Or(m[2], " ") + m[3]
			})
		}
		out[i] = l
	}
	return out
}

// firstLetter is a line that gives the girths of a place by their first letters:
// "7': h 51 1/2 f 85".
var firstLetter = regexp.MustCompile(`^[^\pL]*(?:\b(?:ft|feet|foot|in|cm)\b[^\pL]*)?\bh\b[^\pL]*(?:\b(?:in|cm)\b[^\pL]*)?\bf\b[^\pL]*(?:\b(?:in|cm)\b[^\pL]*)?$`)

// firstLetters reports lines enough of that kind, where the girths are named in
// words too.
func firstLetters(lines []line) bool {
	short, hull, full := 0, false, false
	for _, l := range lines {
		s := parse.Fold(l.text)
		if firstLetter.MatchString(l.text) {
			short++
		}
		hull = hull || strings.Contains(s, "hull girth")
		full = full || strings.Contains(s, "full girth")
	}
	return short >= rowsLeast && hull && full
}

// initials are letters with a point after each: "H.G.", "L.O.A.".
var initials = regexp.MustCompile(`\b(?:[A-Z]\.){2,3}`)

// undotted takes the points out of initials.
func undotted(lines []line) []line {
	out := make([]line, len(lines))
	for i, l := range lines {
		if l.cells == nil {
			l.text = initials.ReplaceAllStringFunc(l.text, func(s string) string { return strings.ReplaceAll(s, ".", "") })
		}
		out[i] = l
	}
	return out
}

func girthNamed(s string) string {
	if s = strings.ToLower(s); strings.Contains(s, "full") || strings.Contains(s, "complet") {
		return "full girth"
	}
	return "hull girth"
}
