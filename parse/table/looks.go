package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A line may say what the colour or the letters of some numbers mean: "The ones
// in yellow are guesses".

type lookWords struct {
	says *regexp.Regexp
	look string
}

var lookSaid = []lookWords{
	{regexp.MustCompile(`\b(?:highlight\w*|shaded|colou?red|in colou?r|surlign\w+|colore\w*|en couleur|fluo\w*)\b`), "filled"},
	{regexp.MustCompile(`\b(?:red|rouges?)\b`), "red"},
	{regexp.MustCompile(`\borange\b`), "orange"},
	{regexp.MustCompile(`\b(?:yellow|jaunes?)\b`), "yellow"},
	{regexp.MustCompile(`\b(?:green|verte?s?)\b`), "green"},
	{regexp.MustCompile(`\b(?:blue|bleue?s?)\b`), "blue"},
	{regexp.MustCompile(`\b(?:purple|violet\w*|mauves?)\b`), "purple"},
	{regexp.MustCompile(`\b(?:pink|roses?)\b`), "pink"},
	{regexp.MustCompile(`\b(?:gr[ae]y(?:ed)?|grise?s?|grisee?s?)\b`), "grey"},
	{regexp.MustCompile(`\b(?:bold|gras)\b`), "bold"},
	{regexp.MustCompile(`\b(?:italics?|italiques?)\b`), "italic"},
	{regexp.MustCompile(`\b(?:underlined|souligne\w*)\b`), "underlined"},
}

// tellsLook reports words that doubt what looks in a way in which numbers of the
// sheet do.
func (s *sheet) tellsLook(it *item) bool {
	if !it.word() || !parse.Doubts(it.folded) {
		return false
	}
	for _, l := range lookSaid {
		if !l.means(it) {
			continue
		}
		for _, row := range s.items {
			if slices.ContainsFunc(row, func(o *item) bool { return o != it && o.value() && o.looks(l.look) }) {
				return true
			}
		}
	}
	return false
}

// hearLooks doubts the numbers that look as a line says that those do which are
// not sure, or that stand beside a name which does.
func (s *sheet) hearLooks(line *item, doubt parse.Fault) {
	for _, l := range lookSaid {
		if !l.means(line) {
			continue
		}
		for _, e := range s.all() {
			if e.looks(l.look) || e.name != nil && e.name.looks(l.look) {
				e.entry.doubt = doubt
			}
		}
	}
}

// means reports a line that speaks of a look, or has the colour of which it speaks
// behind it.
func (l lookWords) means(line *item) bool {
	return l.says.MatchString(line.folded) || l.look != "filled" && line.looks("filled") && line.looks(l.look)
}

func (it *item) looks(look string) bool {
	return slices.Contains(strings.Fields(it.Look), look)
}

// named is a number that was found, with the name of its station, or with its
// measure.
type named struct {
	*entry
	name    *item // nil for none
	hull    bool  // a hull girth of a station
	measure parse.Measure
}

// all returns every number of a sheet.
func (s *sheet) all() (out []named) {
	add := func(n named, list []entry) {
		for i := range list {
			n.entry = &list[i]
			out = append(out, n)
		}
	}
	row := func(r row) {
		add(named{name: r.label, hull: true}, r.hull)
		add(named{name: r.label}, r.full)
		add(named{name: r.label}, r.opening)
	}
	for _, b := range s.found.blocks {
		for _, r := range b.rows {
			row(r)
		}
	}
	for _, r := range s.found.singles {
		row(r)
	}
	for m, list := range s.found.whole {
		add(named{measure: m}, list)
	}
	return out
}
