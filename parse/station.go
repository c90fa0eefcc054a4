package parse

import (
	"regexp"
	"slices"
	"strconv"
)

// Name is what is written beside a row of girths to say where it was taken.
type Name struct {
	Amount  Amount
	Ordinal bool // "#4", "St. 3", "3rd": counted, not measured
	Special Special
}

// Special is a place that has a name in place of a distance.
type Special string

// The named places.
const (
	NamedTransom  Special = "transom"
	NamedGreatest Special = "greatest"
)

// countWords stand before the number of a counted station, unitWords beside
// that of a measured one.
const (
	countWords = `(?:#|no\.?|n°|nº|nr\.?|station|stn\.?|sta\.?|st\.?|section|sect\.?|frame|row|line|ligne|mark|repere|poste|position|pos\.?|point|pt\.?|[spmr])`
	unitWords  = `(?:ft|foot|feet|pi|pieds?|in|inch|inches|po|pouces?|cm|mm|m)`
)

var (
	ordinalName  = regexp.MustCompile(`^` + countWords + `\s*[#:.]?\s*(\d+)$`)
	orderedName  = regexp.MustCompile(`^(\d+)(?:st|nd|rd|th|er|ere|re|e|eme|ieme)(?: (?:station|section|frame|row|line|ligne|mark|repere|poste|position|point))?$`)
	orderedFoot  = regexp.MustCompile(`^(\d+)(?:st|nd|rd|th|er|e|eme|ieme) (?:ft|foot|pied|pi)\b\.?$`)
	unitFirst    = regexp.MustCompile(`^(` + unitWords + `)\.?\s*(\d+(?:[.,]\d+)?)$`)
	unitHyphened = regexp.MustCompile(`^(\d+)-(` + unitWords + `)\b`)
	listMark     = regexp.MustCompile(`^[\[(]?(\d+)[\])]$`)
	countedPlace = regexp.MustCompile(`^(?:` + countWords + `\s*#?\s*|#?)(\d+)\s*(-|[(:=,@]|at|a)\s*(\d.*?)\)?$`)
	stationWords = regexp.MustCompile(`^(?:(?:bow|stem|nose|proue|etrave)\s*\+|at|a|@|\+|station|stn\.?|sta\.?|st\.?|section|sect\.?|frame|mark|position|pos\.?)\s*:?\s*(?:(?:at|a)\s+)?`)
	stationTail  = regexp.MustCompile(`\s*(?:mark|line|(?:(?:back|aft)\s+)?(?:from|of) (?:the )?(?:bow|stem|front|nose)(?: end)?|aft|back|station|(?:de|depuis) (?:l'|la |le )?(?:etrave|proue|avant|nez)|:)$`)
	transomName  = regexp.MustCompile(`^(?:at )?(?:the )?(?:transom|trnsm|trans\.|tableau(?: arriere)?|square stern)\b`)
	nameRemark   = regexp.MustCompile(`\s*\([^)0-9]*\)$`) // "4 ft (middle)"
	greatestName = regexp.MustCompile(`^(?:at )?(?:the )?(?:greatest|maximum|max|widest|largest|biggest|plus grand|maximal|la plus grande|plus grande)\b`)
)

// ParseStation reads the name of a station: "1 ft", "30 cm", "St. 3", "#4",
// "7", "3rd foot", "Station 2 (24 in)", "transom", "greatest". A bare number is
// read as such; Stations says what a column of them is counted in.
func ParseStation(text string) (Name, Fault) {
	s := Fold(text)
	if bareNumber(s) {
		a, f := ParseLength(s)
		return Name{Amount: a}, f
	}
	switch {
	case transomName.MatchString(s):
		return Name{Special: NamedTransom}, Fault{}
	case greatestName.MatchString(s):
		return Name{Special: NamedGreatest}, Fault{}
	}
	for _, counted := range []*regexp.Regexp{ordinalName, orderedName} {
		if m := counted.FindStringSubmatch(s); m != nil {
			a, f := ParseLength(m[1])
			return Name{Amount: a, Ordinal: true}, f
		}
	}
	s = nameRemark.ReplaceAllString(s, "")
	s = stationTail.ReplaceAllString(stationWords.ReplaceAllString(s, ""), "")
	s = inWords(s)
	s = orderedFoot.ReplaceAllString(s, "$1 ft")
	s = unitFirst.ReplaceAllString(s, "$2 $1")
	s = unitHyphened.ReplaceAllString(s, "$1 $2")
	s = listMark.ReplaceAllString(s, "$1")
	a, f := ParseLength(s)
	if f.Some() {
		if at, ok := countedAt(Fold(text)); ok {
			return Name{Amount: at}, Fault{}
		}
	}
	return Name{Amount: a}, f
}

// footInWords is a number of feet in words: "three feet".
var footInWords = regexp.MustCompile(`^([\pL-]+) (?:foot|feet|ft|pieds?|pi)$`)

// numberWords are the numbers of the stations of a small boat.
var numberWords = [][]string{
	{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"},
	{"un", "deux", "trois", "quatre", "cinq", "six", "sept", "huit", "neuf", "dix", "onze", "douze", "treize", "quatorze", "quinze", "seize", "dix-sept", "dix-huit"},
}

func inWords(s string) string {
	m := footInWords.FindStringSubmatch(s)
	if m == nil {
		return s
	}
	for _, words := range numberWords {
		if i := slices.Index(words, m[1]); i >= 0 {
			return strconv.Itoa(i+1) + " ft"
		}
	}
	return s
}

// countedAt reads a station that is counted and measured: "Station 1 (1 ft)",
// "2: 24 in". The distance counts. "2 - 3 ft" may be a stretch between two
// stations, and says its place only where both numbers are one.
func countedAt(s string) (Amount, bool) {
	m := countedPlace.FindStringSubmatch(s)
	if m == nil {
		return Amount{}, false
	}
	at, f := ParseLength(stationTail.ReplaceAllString(m[3], ""))
	count, _ := ParseLength(m[1])
	return at, !f.Some() && at.Scale != Bare && (m[2] != "-" || at.Number == count.Number)
}
