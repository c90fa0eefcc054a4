package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Numbers whose words nobody knows may still leave no choice: "1 ft: wrap 30,
// loop 40; 2 ft: wrap 36, loop 52" rises by a foot and has two girths a place,
// of which the second can be the full girth to the first. What is forced in this
// way goes into a table; all else stays as it was.

// forcedRow is a station by the numbers alone. Name is what it is called where
// no number says so.
type forcedRow struct {
	name       string
	at         *numeral
	hull, full numeral
	more       []numeral // that say nothing new: the place again, its number, the opening
}

// forced reads a body again with the numbers placed that leave no choice. It is
// kept only where it takes nothing away from what the words say.
func (r *reader) forced(lines []line, was parse.Document) (*reader, parse.Document) {
	if r.answering || !leavesGirths(was) || otherGirths.MatchString(foldLines(lines)) {
		return r, was
	}
	lines = besideToBelow(spellOut(lines))
	items, all := numerals(lines)
	rows := forcedRows(all)
	if rows == nil {
		rows = forcedRows(bandsBelow(all))
	}
	if rows == nil {
		rows = forcedLists(all, stationsOf(was, lines))
	}
	if rows == nil {
		return r, was
	}
	again := &reader{file: r.file, scale: r.scale}
	again.read(without(lines, items, rows))
	again.grids = append(again.grids, gridOf(rows))
	if doc := again.document(); keeps(doc, was) {
		return again, doc
	}
	return r, was
}

// without takes the numbers of rows out of the lines.
func without(lines []line, items [][]item, rows []forcedRow) []line {
	taken := make([]map[int]bool, len(lines))
	take := func(n numeral) {
		if taken[n.line] == nil {
			taken[n.line] = map[int]bool{}
		}
		taken[n.line][n.part] = true
	}
	for _, row := range rows {
		take(row.hull)
		take(row.full)
		for _, n := range row.more {
			take(n)
		}
		if row.at != nil {
			take(*row.at)
		}
	}
	rest := slices.Clone(lines)
	for i, parts := range taken {
		if parts == nil {
			continue
		}
		var text strings.Builder
		for k, it := range items[i] {
			if !parts[k] {
				text.WriteString(it.text)
			} else {
				text.WriteString(" " + string(masked) + " ")
			}
		}
		rest[i].text, rest[i].cells = text.String(), nil
	}
	return rest
}

func gridOf(rows []forcedRow) table.Grid {
	g := table.Grid{Rows: [][]table.Cell{{{Text: "station"}, {Text: "hull girth"}, {Text: "full girth"}}}}
	for _, row := range rows {
		name := table.Cell{Text: row.name, Place: row.hull.where}
		if row.at != nil {
			name = row.at.cell()
			if row.at.counts() {
				name.Text = "Station " + name.Text
			}
		}
		g.Rows = append(g.Rows, []table.Cell{name, row.hull.cell(), row.full.cell()})
	}
	return g
}

// keeps reports that a document says more than another, and of what that one
// says for sure nothing else.
func keeps(doc, was parse.Document) bool {
	if len(doc.Surveys) != 1 || len(was.Surveys) > 1 {
		return false
	}
	said, had := surely(doc), map[parse.Cell]parse.Length{}
	if len(was.Surveys) == 1 {
		had = surely(was)
	}
	for cell, value := range had {
		if v, ok := said[cell]; !ok || v != value {
			return false
		}
	}
	return len(said) > len(had)
}

// surely is every number that a document of one survey gives for sure.
func surely(doc parse.Document) map[parse.Cell]parse.Length {
	said := map[parse.Cell]parse.Length{}
	for _, n := range written(&doc.Surveys[0]) {
		if n.Certain() {
			said[n.cell] = n.Value
		}
	}
	return said
}

// otherGirths are words of a body in which two numbers of a place may be other
// things than hull and full girth, or the places run from the stern.
var otherGirths = regexp.MustCompile(`\b(?:beam|width|wide|breadth|across|half girths?|half the girth|one side|each side|keel|depth|from (?:the )?stern|stern (?:to|end to|first)|starting (?:at|from) the stern|aft to fore|largeur|profondeur|moitie|quille|depuis (?:la poupe|l'arriere)|de (?:la poupe|l'arriere) (?:a|vers))\b`)

func foldLines(lines []line) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString(parse.Fold(l.text) + "\n")
	}
	return b.String()
}

// leavesGirths reports numbers without a place that can be a table's.
func leavesGirths(doc parse.Document) bool {
	n := 0
	for _, p := range doc.Problems {
		n += len(digitsOf.FindAllString(p.Source.Raw, bareLeast))
	}
	return n >= bareLeast
}
