package prose

import (
	"regexp"
	"strings"
	"unicode"

	"fairtape/parse"
)

// fieldOf reads a line with blanks. Filled lines without tries ("stern height
// 17") look like any other, and are a letter's only where one is answered.
func fieldOf(text string, answering bool) (field, bool) {
	if marks := tryMark.FindAllStringSubmatchIndex(text, -1); marks != nil {
		name := nameOf(text[:marks[0][2]])
		if name.measure == "" {
			return field{}, false
		}
		f := field{name: name, blanks: map[parse.Measure][]blank{}, order: []parse.Measure{name.measure}}
		for i, m := range marks {
			end := len(text)
			if i+1 < len(marks) {
				end = marks[i+1][2]
			}
			start := m[1]
			if start > m[3] && text[start-1] == '_' {
				start--
			}
			f.blanks[name.measure] = append(f.blanks[name.measure], typed(text[start:end]))
		}
		return f, true
	}
	return oneBlank(text, answering)
}

// oneBlank reads "stern height 17", "7 ft, hull girth and full girth 52 and
// 83", and "1 ft  hull girth 35  full girth 42".
func oneBlank(text string, answering bool) (field, bool) {
	head, rest := splitName(text)
	name := nameOf(head)
	if name.measure == "" || strings.HasPrefix(rest, ":") || strings.Contains(rest, "?") {
		return field{}, false
	}
	f := field{name: name, blanks: map[parse.Measure][]blank{}}
	add := func(m parse.Measure, text string) {
		f.order = append(f.order, m)
		f.blanks[m] = append(f.blanks[m], typed(text))
	}
	switch {
	case name.measure == parse.HullGirth && name.at != nil:
		if at := fullName.FindStringIndex(rest); at != nil {
			add(parse.HullGirth, rest[:at[0]])
			add(parse.FullGirth, rest[at[1]:])
			return f, f.plain() && (answering || blankMarks.MatchString(text))
		}
		add(name.measure, rest)
	case name.measure == parse.MeasurePair, name.measure == parse.GreatestPair, name.measure == parse.TransomPair:
		two := andWords.Split(rest, -1)
		if len(two) != 2 {
			return field{}, false
		}
		hull, full := pairOf(name.measure)
		add(hull, two[0])
		add(full, two[1])
	default:
		add(name.measure, rest)
	}
	return f, f.plain() && (answering || blankMarks.MatchString(text))
}

var fullName = regexp.MustCompile(`(?i)\s(?:full girth|tour complet)(?:\s*[:=])?`)

// plain reports blanks that hold nothing but a number each: a sentence of the
// letter that begins with the name of a measure has other words.
func (f field) plain() bool {
	for _, list := range f.blanks {
		for _, b := range list {
			words, nums, _ := weave(scan(b.text))
			if len(nums) > 1 || !b.empty() && (len(nums) == 0 || !betweenRow.MatchString(strings.Join(words, ""))) {
				return false
			}
		}
	}
	return true
}

// splitName parts a line after the name of a measure.
func splitName(text string) (head, rest string) {
	folded := foldSame(text)
	for _, n := range letterNames {
		if i := strings.Index(folded, n.name); i >= 0 && i <= nameStart {
			end := i + len(n.name)
			return text[:runesToBytes(text, folded, end)], strings.TrimSpace(text[runesToBytes(text, folded, end):])
		}
	}
	return "", text
}

// nameStart is how far into a line the name of its measure begins at most: a
// place stands before it.
const nameStart = 24

// foldSame folds a text rune for rune, so that places in it are kept.
func foldSame(text string) string {
	return strings.Map(func(r rune) rune {
		if f := []rune(parse.Fold(string(r))); len(f) == 1 {
			return f[0]
		}
		if r == ' ' {
			return r
		}
		return unicode.ToLower(r)
	}, text)
}

func runesToBytes(text, folded string, end int) int {
	n := len([]rune(folded[:end]))
	for i := range text {
		if n == 0 {
			return i
		}
		n--
	}
	return len(text)
}

// nameOf reads "7 ft  hull girth", "stern height": a place or none, and a
// measure and nothing more.
func nameOf(text string) placeName {
	s := strings.Trim(parse.Fold(text), " :=,.-_(")
	for _, n := range letterNames {
		place, ok := strings.CutSuffix(s, n.name)
		if !ok {
			continue
		}
		place = strings.Trim(place, " :=,.-")
		station := n.measure == parse.HullGirth || n.measure == parse.FullGirth || n.measure == parse.MeasurePair
		if place == "" && !station {
			return placeName{measure: n.measure}
		}
		at, fault := stationNamed(place)
		if !station || fault {
			return placeName{}
		}
		return placeName{at, n.measure}
	}
	return placeName{}
}

// stationNamed reads the name of a station with its unit.
func stationNamed(text string) (*item, bool) {
	name, f := parse.ParseStation(text)
	if f.Some() || name.Special != "" || name.Ordinal || name.Amount.Scale == parse.Bare {
		return nil, true
	}
	return &item{number: true, text: text, amount: name.Amount}, false
}

// typed is what stands in a blank.
func typed(text string) blank {
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, "_", " ")), " ")
	text = strings.TrimRight(strings.TrimLeft(text, ":= "), ",;| ")
	if strings.Trim(text, "-–—.… ") == "" {
		return blank{}
	}
	b := blank{text: text}
	for _, it := range scan(text) {
		if it.number {
			b.nums = append(b.nums, it)
		}
	}
	return b
}
