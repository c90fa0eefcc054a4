package prose

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// spelledPlace is a place of a boat in words, as people write it in a sentence:
// "at nine feet". With it comes what may still belong to the number.
var spelledPlace = regexp.MustCompile(`(?i)\b(at\s+)(\pL+)(\s+(?:foot|feet|ft)\b)((?:\s+(?:and\s+)?[\pL\d½]+)?)`)

// spelledFirst is a place in words that opens a line: "Nine feet: hull 42".
var spelledFirst = regexp.MustCompile(`(?i)^\s*(\pL+)\s+(?:foot|feet|ft)\b(?:\s+(?:from|aft|back)\s[^:,\d]*)?\s*[:,=–—-]`)

var spelledNumbers = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty")

// gluedComma is a comma between a label and its number, as in a sheet that was
// pasted into a mail: it makes no decimal of the number.
var gluedComma = regexp.MustCompile(`(\pL),(\d)`)

// figures writes places in words as figures. One that goes on, "at seven feet
// four", is left as it is, and so is a length in words: half of a number is none.
func figures(text string) string {
	if m := spelledFirst.FindStringSubmatchIndex(text); m != nil {
		if n := slices.Index(spelledNumbers, strings.ToLower(text[m[2]:m[3]])); n > 0 {
			text = strconv.Itoa(n) + text[m[3]:]
		}
	}
	return spelledPlace.ReplaceAllStringFunc(text, func(s string) string {
		m := spelledPlace.FindStringSubmatch(s)
		n := slices.Index(spelledNumbers, strings.ToLower(m[2]))
		if n < 1 || numberGoesOn(m[4]) {
			return s
		}
		return m[1] + strconv.Itoa(n) + m[3] + m[4]
	})
}

// numberGoesOn reports words behind a number that belong to it.
func numberGoesOn(after string) bool {
	fields := strings.Fields(strings.ToLower(after))
	if len(fields) == 0 {
		return false
	}
	last := fields[len(fields)-1]
	return fields[0] == "and" || strings.ContainsAny(last, "0123456789½") || last == "a" || last == "half" || slices.Contains(spelledNumbers, last)
}
