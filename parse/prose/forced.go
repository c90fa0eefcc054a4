package prose

import (
	"fmt"
	"math"
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

// numeral is one number of a body with the words before it.
type numeral struct {
	item
	line  int    // index
	part  int    // index of the item in its line
	words string // letters only, without those that join numbers
	first bool   // of its line
}

// forcedRow is a station by the numbers alone. Name is what it is called where
// no number says so.
type forcedRow struct {
	name       string
	at         *numeral
	hull, full numeral
}

// forced reads a body again with the numbers placed that leave no choice. It is
// kept only where it takes nothing away from what the words say.
func (r *reader) forced(lines []line, was parse.Document) (*reader, parse.Document) {
	if r.answering || !leavesGirths(was) || otherGirths.MatchString(foldLines(lines)) {
		return r, was
	}
	items, all := numerals(lines)
	rows := forcedRows(all)
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

func (n numeral) cell() table.Cell {
	return table.Cell{Text: strings.TrimSpace(n.text), Place: n.where}
}

// counts reports a place that the word before it counts: "St. 3", "S3".
func (n numeral) counts() bool {
	return n.amount.Scale == parse.Bare && countsWord.MatchString(n.words)
}

var countsWord = regexp.MustCompile(`(?:^|\s)(?:station|stn|sta|st|s|no|nr|section|frame|row|line|ligne|repere|poste|position|mark)$`)

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
	s := &doc.Surveys[0]
	said := map[parse.Cell]parse.Length{}
	add := func(c parse.Cell, r parse.Reading) {
		if r.Certain() {
			said[c] = r.Value
		}
	}
	for _, m := range parse.OnceMeasures() {
		add(parse.Cell{Measure: m}, *s.Once(m))
	}
	for _, st := range s.Stations {
		add(parse.Cell{At: st.At, Measure: parse.HullGirth}, st.HullGirth)
		add(parse.Cell{At: st.At, Measure: parse.FullGirth}, st.FullGirth)
	}
	return said
}

// stationsOf names the stations of the boat, at every foot or every 30 cm up to
// the stern, where its length is sure; none where the text speaks of another
// spacing.
func stationsOf(doc parse.Document, lines []line) []string {
	if len(doc.Surveys) != 1 || !doc.Surveys[0].LengthOverall.Certain() {
		return nil
	}
	step, unit := 12*25.4, "in"
	if doc.Surveys[0].Unit == parse.Centimetre {
		step, unit = 300, "cm"
	}
	for _, m := range spacingWords.FindAllStringSubmatch(foldLines(lines), -1) {
		if a, fault := parse.ParseLength(m[1]); fault.Some() {
			return nil
		} else if l, ok := a.Length(parse.Bare); !ok || math.Abs(float64(l)-step) > 1 {
			return nil
		}
	}
	var names []string
	for at := step; at < float64(doc.Surveys[0].LengthOverall.Value)-1e-6; at += step {
		names = append(names, fmt.Sprintf("%g %s", parse.Length(at).In(parse.Unit(unit)), unit))
	}
	return names
}

// spacingWords say how far apart the stations lie.
var spacingWords = regexp.MustCompile(`\b(?:every|tous les|spaced|intervals? of|spacing(?: of|:)?|chaque)\s+(?:the\s+)?(\d[^\s,;]*\s*[a-z]+|\w+\s+(?:inch|in|cm|feet|foot|ft)\w*|half foot|other foot)`)

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
		if p.Source.Raw != "" && firstFigure.MatchString(p.Source.Raw) {
			n++
		}
	}
	return n >= bareLeast
}

var firstFigure = regexp.MustCompile(`\d`)

// numerals lists the numbers of a body, and the items of each line.
func numerals(lines []line) (items [][]item, all []numeral) {
	words := ""
	for i, l := range lines {
		if rule.MatchString(strings.TrimSpace(l.text)) {
			items = append(items, []item{{text: l.text}})
			continue
		}
		items = append(items, scan(l.text))
		first := true
		for k, it := range items[i] {
			if !it.number {
				words += " " + it.text
				continue
			}
			it.where = l.place()
			all = append(all, numeral{item: it, line: i, part: k, words: joinless(words), first: first})
			words, first = "", false
		}
	}
	return items, all
}

var (
	notWord  = regexp.MustCompile(`[^\pL]+`)
	joinWord = regexp.MustCompile(`\b(?:and|then|et|puis|at|a|the|is|was)\b`)
)

// joinless keeps of words what can tell one number from another.
func joinless(words string) string {
	s := joinWord.ReplaceAllString(parse.Fold(graveA.Replace(words)), " ")
	return strings.Join(strings.Fields(notWord.ReplaceAllString(s, " ")), " ")
}

// forcedRows finds places that rise by one step with two girths after each, the
// words about them the same in every row.
func forcedRows(all []numeral) []forcedRow {
	const size = 3
	for start := 0; start+size*bareLeast <= len(all); start++ {
		end := start + size
		for end+size <= len(all) && sameRow(all[end-size:end], all[end:end+size], end-size == start) && all[end].risesFrom(all[end-size], all[start]) {
			end += size
		}
		if (end-start)/size < bareLeast || end < len(all) && all[end].words == "" && !all[end].first {
			continue
		}
		var rows []forcedRow
		for i := start; i < end; i += size {
			rows = append(rows, forcedRow{at: &all[i], hull: all[i+1], full: all[i+2]})
		}
		if rows = ordered(rows, all[start+1].words, all[start+2].words); rows != nil {
			return rows
		}
	}
	return nil
}

// sameRow reports rows with the same words about their numbers. Before the
// first row, and at the beginning of a line, anything may stand.
func sameRow(a, b []numeral, first bool) bool {
	for i := 1; i < len(a); i++ {
		if a[i].words != b[i].words {
			return false
		}
	}
	return first || a[0].words == b[0].words || a[0].first && b[0].first
}

// risesFrom reports a place one step farther aft than the one before. The step
// is the distance of the first place from the bow.
func (n numeral) risesFrom(before, first numeral) bool {
	if n.fault.Some() || before.fault.Some() || first.fault.Some() || before.amount.Scale != n.amount.Scale {
		return false
	}
	step := n.amount.Number - before.amount.Number
	return step > 0 && step == first.amount.Number
}

// ordered tells the two girths of rows apart, and returns nil where the numbers
// or the words about them leave a choice.
func ordered(rows []forcedRow, first, second string) []forcedRow {
	a, b := labelOf(first), labelOf(second)
	if a.measure != "" || b.measure != "" || a.place != noPlace || b.place != noPlace || a.role == opening || b.role == opening {
		return nil
	}
	swapped := a.role == full && b.role != full || b.role == hull && a.role != hull
	named := a.role != noRole && b.role != noRole && a.role != b.role
	if !named && (a.role == b.role && a.role != noRole) {
		return nil
	}
	out := slices.Clone(rows)
	for i := range out {
		if swapped {
			out[i].hull, out[i].full = out[i].full, out[i].hull
		}
	}
	fit, clear := 0, 0
	for _, row := range out {
		if row.hull.fault.Some() || row.full.fault.Some() {
			continue // a problem of its own
		}
		clear++
		if row.fits() {
			fit++
		}
	}
	switch {
	case clear < bareLeast, clear < swappedOneIn*(len(out)-clear), !alikeGirths(out):
		return nil
	case fit < clear && (!named || fit < swappedOneIn*(clear-fit)):
		return nil
	}
	return out
}

// fits reports girths of one place: the full girth is at least an inch over the
// hull girth, and at most twice as much.
func (row forcedRow) fits() bool {
	h, okH := row.hull.amount.Length(parse.ScaleInch)
	f, okF := row.full.amount.Length(parse.ScaleInch)
	return okH && okF && f > h && f <= 2*h
}

func alikeGirths(rows []forcedRow) bool {
	u := run{size: 2}
	for _, row := range rows {
		u.nums = append(u.nums, row.full.item, row.hull.item)
	}
	return u.alike(len(rows))
}

// forcedLists finds hull girths and full girths in two lists one after the
// other, or a pair for each station with no place named, where there are exactly
// as many as the boat has stations.
func forcedLists(all []numeral, stations []string) []forcedRow {
	if len(stations) < bareLeast {
		return nil
	}
	n := len(stations)
	name := func(rows []forcedRow) []forcedRow {
		for i := range rows {
			rows[i].name = stations[i]
		}
		return rows
	}
	for start := 0; start+2*n <= len(all); start++ {
		part := all[start : start+2*n]
		closed := start+2*n == len(all) || all[start+2*n].words != "" || all[start+2*n].first
		if !closed || start > 0 && part[0].words == "" && !part[0].first {
			continue
		}
		var rows []forcedRow
		if listOf(part[:n]) && listOf(part[n:]) && (part[n].words != "" || part[n].first) {
			for i := range n {
				rows = append(rows, forcedRow{hull: part[i], full: part[n+i]})
			}
			if rows = ordered(rows, part[0].words, part[n].words); rows != nil {
				return name(rows)
			}
		}
		if rows = pairsOf(part); rows != nil {
			if rows = ordered(rows, part[2].words, part[1].words); rows != nil {
				return name(rows)
			}
		}
	}
	return nil
}

// listOf reports numbers with nothing but signs between them.
func listOf(part []numeral) bool {
	for _, n := range part[1:] {
		if n.words != "" {
			return false
		}
	}
	return true
}

// pairsOf makes rows of numbers two and two, each pair on a line of its own.
func pairsOf(part []numeral) []forcedRow {
	var rows []forcedRow
	for i := 0; i < len(part); i += 2 {
		if !part[i].first || part[i+1].first || i > 2 && (part[i].words != part[2].words || part[i+1].words != part[1].words) {
			return nil
		}
		rows = append(rows, forcedRow{hull: part[i], full: part[i+1]})
	}
	return rows
}
