package reply

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fairtape/parse"
	"fairtape/templates/plural"
)

// Languages of the letters.
const (
	English = "en"
	French  = "fr"
)

// language is how numbers, dates and lists are written in one language.
type language struct {
	code         string
	decimal      string
	foot, inch   string
	days, months []string
	and          string
	first        string // the first day of a month
}

var languages = map[string]language{
	English: {
		code: English, decimal: ".", foot: "ft", inch: "in", and: " and ", first: "1",
		days:   []string{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"},
		months: []string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
	},
	French: {
		code: French, decimal: ",", foot: "pi", inch: "po", and: " et ", first: "1er",
		days:   []string{"dimanche", "lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi"},
		months: []string{"janvier", "février", "mars", "avril", "mai", "juin", "juillet", "août", "septembre", "octobre", "novembre", "décembre"},
	},
}

// languageOf returns the language of a tag such as "fr-CA"; English for any
// that is not known.
func languageOf(tag string) language {
	primary, _, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(tag, "_", "-")), "-")
	if l, ok := languages[primary]; ok {
		return l
	}
	return languages[English]
}

// plural chooses between the words for one and for several.
func (l language) plural(n int, one, other string) string {
	if plural.One(l.code, n) {
		return one
	}
	return other
}

// list joins items as a sentence does: "a, b and c".
func (l language) list(items []string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return strings.Join(items[:last], ", ") + l.and + items[last]
}

// day writes a date with its weekday: "Wednesday 2 December".
func (l language) day(t time.Time) string {
	return l.days[t.Weekday()] + " " + l.date(t)
}

// date writes a day and month: "2 December", "1er décembre".
func (l language) date(t time.Time) string {
	day := strconv.Itoa(t.Day())
	if t.Day() == 1 {
		day = l.first
	}
	return day + nbsp + l.months[t.Month()-1]
}

// nbsp holds a number and its unit together where lines are broken.
const nbsp = "\u00a0"

// frenchSpaces are the spaces that French puts before high signs and inside
// its quotation marks; no line breaks there (Imprimerie nationale, Lexique des
// règles typographiques; named from memory).
var frenchSpaces = strings.NewReplacer(" :", nbsp+":", " ;", nbsp+";", " ?", nbsp+"?", " !", nbsp+"!", "« ", "«"+nbsp, " »", nbsp+"»")

// elision is an apostrophe between letters; feet and inches keep theirs.
var elision = regexp.MustCompile(`(\pL)'(\pL)`)

// typeset puts the spaces of a sentence right, and French apostrophes. A blank
// to type into stays with the word before it.
func (l language) typeset(s string) string {
	s = strings.ReplaceAll(s, " "+blank, nbsp+blank)
	if l.code == French {
		return elision.ReplaceAllString(frenchSpaces.Replace(s), "$1’$2")
	}
	return s
}

// length writes a girth or a height in the customer's unit: "35 1/2 in",
// "80,5 cm".
func (l language) length(x parse.Length, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return l.number(x.In(parse.Centimetre)) + nbsp + "cm"
	}
	return l.fraction(x.In(parse.Inch)) + nbsp + l.inch
}

// place writes a distance from the bow as stations are named: "7 ft",
// "7 ft 6 in", "210 cm".
func (l language) place(x parse.Length, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return l.length(x, unit)
	}
	inches := x.In(parse.Inch)
	feet := math.Floor(inches/12 + 1e-9)
	rest := math.Max(0, inches-12*feet)
	switch {
	case feet == 0:
		return l.fraction(rest) + nbsp + l.inch
	case rest < 1e-6:
		return l.number(feet) + nbsp + l.foot
	}
	return l.number(feet) + nbsp + l.foot + nbsp + l.fraction(rest) + nbsp + l.inch
}

// fraction writes inches with halves, quarters or eighths where the number has
// them, else with decimals.
func (l language) fraction(x float64) string {
	eighths := math.Round(x * 8)
	if math.Abs(x*8-eighths) > 1e-4 || x < 0 {
		return l.number(x)
	}
	whole, part := math.Floor(eighths/8), int(math.Mod(eighths, 8))
	if part == 0 {
		return l.number(whole)
	}
	below := 8
	for part%2 == 0 {
		part, below = part/2, below/2
	}
	text := strconv.Itoa(part) + "/" + strconv.Itoa(below)
	if whole == 0 {
		return text
	}
	return l.number(whole) + nbsp + text
}

// number writes a plain number, to hundredths.
func (l language) number(x float64) string {
	s := strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
	return strings.Replace(s, ".", l.decimal, 1)
}
