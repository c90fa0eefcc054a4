package table

import (
	"fmt"
	"slices"
	"strings"

	"fairtape/parse"
)

// Words reads lines of text that are no table. Its places are "line 12".
type Words func(file, text string) parse.Document

// OrWords returns what was read of the grids together with what the lines of
// the same grids say as typed text: a list, a letter that was printed, sentences
// beside a table. Where both read the same numbers, that counts which gives more
// of them. The place of each line is what line says of its grid and row.
func OrWords(asTable parse.Document, grids []Grid, words Words, line func(g Grid, row int) string) parse.Document {
	if words == nil {
		return asTable
	}
	t := typed{lineOf: map[string]string{}}
	var text []string
	for _, g := range grids {
		for i, row := range g.Rows {
			var cells []string
			for _, c := range row {
				if c.Text == "" {
					continue
				}
				cells = append(cells, strings.ReplaceAll(c.Text, "\n", " "))
				t.lineOf[c.Place] = line(g, i)
			}
			typed := strings.Join(cells, "   ")
			if i < len(g.Typed) {
				typed = g.Typed[i]
			}
			text, t.places = append(text, typed), append(t.places, line(g, i))
		}
	}
	asText := words(asTable.File, strings.Join(text, "\n"))
	t.locate(asText)
	if certain(asText) > certain(asTable) && (certain(asTable) == 0 || strays(asTable)) {
		return t.keep(t.complete(asText, asTable), asTable.Problems)
	}
	return t.complete(asTable, asText)
}

// typed is the lines of grids as text.
type typed struct {
	places []string          // of the lines
	lineOf map[string]string // the place of the line on which a cell stands
}

// locate gives what was read of the lines their places in the file.
func (t typed) locate(doc parse.Document) {
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) { r.Source.Place = t.placeOf(r.Source.Place) })
	}
	for i := range doc.Problems {
		doc.Problems[i].Source.Place = t.placeOf(doc.Problems[i].Source.Place)
	}
}

// placeOf turns the place of a line of the text into its own.
func (t typed) placeOf(place string) string {
	var n int
	if _, err := fmt.Sscanf(place, "line %d", &n); err != nil || n < 1 || n > len(t.places) {
		return place
	}
	return t.places[n-1]
}

// line is the line of a place that is a cell's or a line's.
func (t typed) line(place string) string {
	if l, ok := t.lineOf[place]; ok {
		return l
	}
	return place
}

// complete adds to a document what another reading of the same lines found
// beyond it: measures of the whole boat, and the stations where it has none. A
// number that the document has as another measure is not added.
func (t typed) complete(doc, other parse.Document) parse.Document {
	if len(doc.Surveys) == 0 || len(other.Surveys) != 1 || len(doc.Surveys) != 1 || doc.Surveys[0].Unit != other.Surveys[0].Unit {
		return doc
	}
	to, from := &doc.Surveys[0], &other.Surveys[0]
	var added []parse.Reading
	for _, m := range parse.OnceMeasures() {
		was, now := to.Once(m), from.Once(m)
		if was.Certain() && now.Certain() && was.Value != now.Value && t.line(was.Source.Place) == t.line(now.Source.Place) {
			doc.Problems = append(doc.Problems, differently(was, *now))
			continue
		}
		if now.Certain() && (was.Absent() || t.within(*now, *was)) && !t.has(to, *now) {
			*was = *now
			added = append(added, *now)
		}
	}
	if len(to.Stations) == 0 {
		to.Stations = from.Stations
		for _, s := range from.Stations {
			added = append(added, s.HullGirth, s.FullGirth)
		}
	}
	doc.Problems = slices.DeleteFunc(doc.Problems, func(p parse.Problem) bool { return t.solved(p, added) })
	return doc
}

// keep adds the problems of another reading that stand on lines of which the
// document says nothing: their numbers would be lost.
func (t typed) keep(doc parse.Document, others []parse.Problem) parse.Document {
	said := map[string]bool{}
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			if !r.Absent() {
				said[t.line(r.Source.Place)] = true
			}
		})
	}
	for _, p := range doc.Problems {
		said[t.line(p.Source.Place)] = true
	}
	for _, p := range others {
		if firstDigit(parse.Plain(p.Source.Raw)) >= 0 && !said[t.line(p.Source.Place)] {
			doc.Problems = append(doc.Problems, p)
		}
	}
	return doc
}

// differently leaves a number open that the two readings of one line take for
// different ones.
func differently(was *parse.Reading, now parse.Reading) parse.Problem {
	p := parse.Problem{
		Code: parse.CodeSourcesDiffer, Source: now.Source,
		Message: fmt.Sprintf("The line can be read in two ways: %q, %q.", was.Source.Raw, now.Source.Raw),
	}
	*was = parse.Reading{Source: now.Source, Alternatives: []parse.Candidate{{Value: min(was.Value, now.Value), Probability: 0.5}, {Value: max(was.Value, now.Value), Probability: 0.5}}}
	return p
}

// within reports a number that another reading could not take out of its cell.
func (t typed) within(number, cell parse.Reading) bool {
	return !cell.Known && len(cell.Alternatives) == 0 && t.line(cell.Source.Place) == t.line(number.Source.Place) &&
		strings.Contains(parse.Plain(cell.Source.Raw), parse.Plain(number.Source.Raw))
}

// has reports that a survey has the number of a line already.
func (t typed) has(s *parse.Survey, number parse.Reading) bool {
	found := false
	s.Each(func(r *parse.Reading) {
		found = found || r.Known && r.Value == number.Value && t.line(r.Source.Place) == t.line(number.Source.Place)
	})
	return found
}

// solved reports a problem whose text holds no number but those that were added.
func (t typed) solved(p parse.Problem, added []parse.Reading) bool {
	rest := " " + parse.Plain(p.Source.Raw) + " "
	for _, r := range added {
		rest = strings.Replace(rest, parse.Plain(r.Source.Raw), " ", 1)
	}
	return len(added) > 0 && p.Source.Raw != "" && firstDigit(rest) < 0 && firstDigit(parse.Plain(p.Source.Raw)) >= 0
}

func certain(doc parse.Document) (n int) {
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			if r.Certain() {
				n++
			}
		})
	}
	return n
}

// strays reports numbers that found no place.
func strays(doc parse.Document) bool {
	return slices.ContainsFunc(doc.Problems, func(p parse.Problem) bool {
		return p.Code == parse.CodeUnplaced || p.Code == parse.CodeColumnsUnclear
	})
}
