package table

import (
	"math"
	"regexp"

	"fairtape/parse"
)

// Words that people put beside the number of a measure and that only say again
// what its label says: "22 1/2 from the bow", "373 cm hors tout", "18 high".
// Any others may change what the number means: "18 to the keel".
var (
	lengthBeside = regexp.MustCompile(`^(?:overall|total|hors tout)\s+|,?\s*\(?(?:over ?all|o/a|oa|loa|long|in length|in all|total|in total|tip to tip|end to end|stem to stern|bow to stern|hors tout|lht|de long|de longueur|au total|en tout|de bout en bout)\)?$`)

	heightBeside = regexp.MustCompile(`,?\s*\(?(?:high|tall|in height|up|(?:above|off|from) the (?:ground|floor)|de haut|de hauteur|du sol)\)?$`)
)

// atPlace opens a distance: "at 28 in", "bow + 28 in".
var atPlace = regexp.MustCompile(`(?i)^(?:(?:at|[aà]|@)\s+|(?:bow|stem|nose|proue|[eé]trave)\s*\+\s*)`)

var besideMeasure = map[parse.Measure]*regexp.Regexp{
	parse.CarryPoint:    fromBow,
	parse.GreatestAt:    fromBow,
	parse.LengthOverall: lengthBeside,
	parse.BowHeight:     heightBeside,
	parse.SternHeight:   heightBeside,
}

// plain takes such words away, where only they keep the number from being read.
func (e entry) plain(m parse.Measure) entry {
	if first, second, ok := splitPair(e.Text); ok && e.fault.Some() && e.Code == "" && sameLength(first, second) {
		used := e.used
		e = e.saying(first) // "9 ft 3 in (111 in)"
		e.used = used
		return e
	}
	words, ok := besideMeasure[m]
	if !ok || e.fault.Code != parse.CodeNotALength || e.Code != "" {
		return e
	}
	text := atPlace.ReplaceAllString(words.ReplaceAllString(e.folded, "$1"), "")
	if _, f := parse.ParseLength(text); f.Some() {
		return e
	}
	e = e.saying(text)
	e.used = true
	return e
}

// sameLength reports two ways of writing one length, each with its unit.
func sameLength(first, second string) bool {
	a, f := parse.ParseLength(first)
	b, g := parse.ParseLength(second)
	if f.Some() || g.Some() || a.Scale == parse.Bare || a.Scale.Unit() != b.Scale.Unit() {
		return false
	}
	x, _ := a.Length(a.Scale)
	y, _ := b.Length(b.Scale)
	return math.Abs(float64(x-y)) <= sameWithinFile
}
