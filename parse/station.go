package parse

import "regexp"

// Name is what is written beside a row of girths to say where it was taken.
type Name struct {
	Amount  Amount
	Ordinal bool // "#4", "St. 3": counted, not measured
	Special Special
}

// Special is a place that has a name in place of a distance.
type Special string

// The named places.
const (
	NamedTransom  Special = "transom"
	NamedGreatest Special = "greatest"
)

var (
	ordinalName  = regexp.MustCompile(`^(?:#|no\.?|n°|nº|station|stn\.?|sta\.?|st\.?|section|sect\.?|s|row|ligne|poste|position|pos\.?)\s*#?\s*(\d+)$`)
	stationWords = regexp.MustCompile(`^(?:at|a|@|station|stn\.?|sta\.?|st\.?|section|sect\.?|frame|mark|position|pos\.?)\s*:?\s*`)
	stationTail  = regexp.MustCompile(`\s*(?:mark|from (?:the )?bow|from (?:the )?stem|aft|station|de l'etrave|depuis l'etrave|:)$`)
	transomName  = regexp.MustCompile(`^(?:at )?(?:the )?(?:transom|tableau(?: arriere)?|square stern)\b`)
	nameRemark   = regexp.MustCompile(`\s*\([^)0-9]*\)$`) // "4 ft (middle)"
	greatestName = regexp.MustCompile(`^(?:at )?(?:the )?(?:greatest|maximum|max|widest|largest|biggest|plus grand|maximal|la plus grande|plus grande)\b`)
)

// ParseStation reads the name of a station: "1 ft", "30 cm", "St. 3", "#4",
// "7", "transom", "greatest". A bare number is read as such; Stations says
// what a column of them is counted in.
func ParseStation(text string) (Name, Fault) {
	s := Fold(text)
	if transomName.MatchString(s) {
		return Name{Special: NamedTransom}, Fault{}
	}
	if greatestName.MatchString(s) {
		return Name{Special: NamedGreatest}, Fault{}
	}
	if m := ordinalName.FindStringSubmatch(s); m != nil {
		a, f := ParseLength(m[1])
		return Name{Amount: a, Ordinal: true}, f
	}
	s = stationTail.ReplaceAllString(stationWords.ReplaceAllString(s, ""), "")
	a, f := ParseLength(nameRemark.ReplaceAllString(s, ""))
	return Name{Amount: a}, f
}
