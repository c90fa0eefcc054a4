package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// reader turns the lines of a body into grids of what they say, which are then
// recognised like those of any other file. What the words do not settle is a
// problem, and reaches no grid.
type reader struct {
	file        string
	grids       []table.Grid
	keyed       [][]table.Cell // a label and a number
	pairs       [][]table.Cell // station, hull girth, full girth
	block       [][]table.Cell // rows of numbers that follow each other
	header      []table.Cell   // of the rows that follow
	section     role           // the girth that a heading says the lines below give
	row         *spot          // the place that the numbers of these lines belong to
	problems    []parse.Problem
	chat        []parse.Problem // of numbers that are a survey's only where there is one
	corrections []Correction

	// Of a letter that is answered.
	answering     bool        // there is one
	scale         parse.Scale // what it is in, Bare when it does not say
	confirmations []Confirmation
	tape          []string // what was said to be under the tape
}

func (r *reader) read(own []line) {
	for i := 0; i < len(own); {
		if n := r.cells(own[i:]); n > 0 {
			i += n
			continue
		}
		i += r.lines(own[i:])
	}
	r.endRow()
	r.endBlock()
}

// cellMost is how long a cell of a typed table is at most, in bytes; what is
// longer is a sentence with two blanks after its point.
const cellMost = 40

var columnGap = regexp.MustCompile(`\s*(?:\t+|\s\|\s?|\|| {2,})\s*`)

var placeColon = regexp.MustCompile(`^((?i:station |st\.? ?|at )?\d+(?:[.,]5)?\s?(?i:ft|feet|foot|'|in|"|cm|pi|pieds?)?)\s?[:=]\s*(\d\S*(?:\s\d/\d+)?\S*)$`)

// split cuts a line into the cells of a typed table; nil when it is none.
func split(l line) []string {
	if l.cells != nil {
		return l.cells
	}
	text := strings.Trim(strings.ReplaceAll(l.text, "\u00a0", " "), " ")
	text = strings.Trim(text, "|\t")
	cells := columnGap.Split(strings.TrimSpace(text), -1)
	if len(cells) < 2 {
		return nil
	}
	if m := placeColon.FindStringSubmatch(cells[0]); m != nil { // "1 ft: 35  42"
		cells = slices.Insert(cells[1:], 0, m[1], m[2])
	}
	for _, c := range cells {
		if measuredNumbers(c) && labelOf(parse.Fold(c)).some() {
			return nil // a label and its number, not a cell of a table
		}
		if len(c) > cellMost || len(strings.Fields(c)) > 6 || strings.HasSuffix(c, ". ") {
			return nil
		}
	}
	if strings.HasSuffix(cells[0], ".") && len(cells) == 2 && len(strings.Fields(cells[0])) > 3 {
		return nil
	}
	return cells
}

// rowsLeast is how many lines of typed columns make a table.
const rowsLeast = 2

// cells reads a table of typed columns from the lines on, and returns how many
// lines it has; 0 when there is none.
func (r *reader) cells(lines []line) int {
	var rows [][]table.Cell
	numbered, used := 0, 0
	for i, l := range lines {
		if l.blank() {
			continue
		}
		cut := split(l)
		if cut == nil && !(len(rows) > 0 && tableEntry(l)) {
			break
		}
		if cut == nil {
			cut = []string{strings.TrimSpace(l.text)}
		}
		row := make([]table.Cell, len(cut))
		for j, c := range cut {
			row[j] = table.Cell{Text: strings.TrimSpace(c), Place: l.place()}
			if rule.MatchString(row[j].Text) {
				row[j].Text = ""
			}
		}
		if measuredNumbers(l.text) {
			numbered++
		}
		rows = append(rows, row)
		used = i + 1
	}
	if numbered < rowsLeast {
		return 0
	}
	r.endRow()
	r.endBlock()
	if head := r.header; head != nil && len(rows[0]) == len(head) && measuredNumbers(rows[0][1].Text) {
		rows = slices.Insert(rows, 0, head)
		r.header = nil
	}
	r.grids = append(r.grids, table.Grid{Rows: r.headed(rows)})
	return used
}

// headed puts headings over a run of rows that has none, where the numbers
// settle them.
func (r *reader) headed(rows [][]table.Cell) [][]table.Cell {
	for i, row := range rows {
		if len(row) == 3 && saysPlace(row[0].Text) {
			end := i
			for end < len(rows) && len(rows[end]) == 3 && saysPlace(rows[end][0].Text) {
				end++
			}
			if head := r.orderOf(rows[i:end]); head != nil {
				return slices.Insert(slices.Clone(rows), i, head)
			}
			return rows
		}
		for _, c := range row {
			if l := labelOf(parse.Fold(c.Text)); l.role != noRole {
				return rows
			}
		}
	}
	return rows
}

var rule = regexp.MustCompile(`^[-=+_|: ]+$`)

// tableEntry is a line of a typed table that fills only one of its columns: a
// station that was left empty, or the rule under the headings.
func tableEntry(l line) bool {
	return rule.MatchString(strings.TrimSpace(l.text))
}

func measuredNumbers(text string) bool {
	for _, it := range scan(text) {
		if it.number {
			return true
		}
	}
	return false
}

// leaders are the dots and arrows that lead from a label to its number.
var leaders = regexp.MustCompile(`\s*\.{4,}\s*|\s\.{2,}\s|\s*[-=]+>\s*|\s*[→⇒➔]\s*`)

// wrapAt is the length from which a line of a mail was broken by the program
// and goes on below.
const wrapAt = 55

// entry is how a line of a list begins, which goes on with no line before it:
// "station 3 ft: ...", "bow height = ...".
var entry = regexp.MustCompile(`^\s*[^.,;?!:=]{1,40}[:=]\s`)

var endsSentence = regexp.MustCompile(`[.!?:;]["')]*\s*$`)

// lines reads one line, or the lines of one paragraph that was broken, and
// returns how many they are.
func (r *reader) lines(lines []line) int {
	first := lines[0]
	if first.blank() {
		return 1
	}
	if n := r.labelAbove(lines); n > 0 {
		return n
	}
	text, n := first.text, 1
	for n < len(lines) && len(lines[n-1].text) >= wrapAt && !endsSentence.MatchString(lines[n-1].text) && !lines[n].blank() && split(lines[n]) == nil && !entry.MatchString(lines[n].text) {
		text += " " + strings.TrimSpace(lines[n].text)
		n++
	}
	if n == 1 && (r.plainRow(first) || r.dividedRow(first)) {
		return 1
	}
	for _, s := range cut(unbullet(leaders.ReplaceAllString(text, ": "))) {
		r.sentence(s, first.place())
	}
	return n
}

// labelAbove reads a number that stands alone on a line under its label, and
// returns how many lines both take; 0 when there is none.
func (r *reader) labelAbove(lines []line) int {
	l := labelOf(parse.Fold(lines[0].text))
	if !l.some() || l.role == bothRoles || measuredNumbers(lines[0].text) || len(strings.Fields(lines[0].text)) > 5 {
		return 0
	}
	n := 1
	for n < len(lines) && lines[n].blank() {
		n++
	}
	if n == len(lines) {
		return 0
	}
	words, nums, _ := weave(scan(lines[n].text))
	if len(nums) != 1 || !betweenRow.MatchString(strings.Join(words, "")) {
		return 0
	}
	r.endBlock()
	r.sentence(lines[0].text+" "+strings.TrimSpace(lines[n].text), lines[n].place())
	return n + 1
}

var bullet = regexp.MustCompile(`^\s*(?:[-*•·–—o]\s+|\(?\d{1,2}[.)]\s+(\pL|\d+(?:[.,]\d+)?\s?(?:ft|foot|feet|'|pi|pieds?|cm)\b.*\pL))`)

// unbullet takes off the mark of a list, and the number of an entry that goes
// on with a word.
func unbullet(s string) string {
	m := bullet.FindStringSubmatchIndex(s)
	if m == nil {
		return s
	}
	if m[2] >= 0 {
		return s[m[2]:]
	}
	return s[m[1]:]
}

// betweenRow is what may stand between the numbers of a row: signs, and the
// word that says a place.
var (
	betweenRow = regexp.MustCompile(`^[\s,;:/|=\-()>.]*$`)
	beforeRow  = regexp.MustCompile(`^[\s\-*•·(#]*(?:(?:at|station|stations|stn|sta|st|s|mark|a|poste|section|repere|row|@|no)\.?\s*#?:?\s*)?$`)
	afterPlace = regexp.MustCompile(`^\s*(?:mark|from (?:the )?(?:bow|stem)|aft|de l'etrave|depuis l'etrave)?[\s,;:/|=\-()>.]*$`)
)

// plainRow reads a line of nothing but numbers as a row of a table: 1 ft: 35
// 1/2 / 42. A line with words is none.
func (r *reader) plainRow(l line) bool {
	before, nums, ok := weave(scan(strings.TrimLeft(l.text, " \t")))
	if !ok {
		return r.heading(l)
	}
	for i, p := range before {
		s := parse.Fold(p)
		switch {
		case i == 0 && !beforeRow.MatchString(s), i == 1 && !afterPlace.MatchString(s), i > 1 && !betweenRow.MatchString(s):
			return false
		}
	}
	if len(nums) < 3 && !(len(nums) == 2 && r.row == nil && r.header != nil) {
		return false
	}
	r.endRow()
	row := make([]table.Cell, len(nums))
	for i, n := range nums {
		row[i] = table.Cell{Text: strings.TrimSpace(n.text), Place: l.place()}
	}
	if word := strings.TrimSpace(parse.Fold(before[0])); strings.HasPrefix(word, "st") || strings.HasPrefix(word, "#") {
		row[0].Text = "Station " + row[0].Text
	}
	r.block = append(r.block, row)
	return true
}

// weave parts items into numbers and what stands before each and after the
// last; ok is false when there is no number.
func weave(items []item) (words []string, nums []item, ok bool) {
	words = []string{""}
	for _, it := range items {
		if it.number {
			nums = append(nums, it)
			words = append(words, "")
			continue
		}
		words[len(words)-1] += it.text
	}
	return words, nums, len(nums) > 0
}

// headingMost is how many words a heading has at most.
const headingMost = 14

// sectionMost is how many words a heading over a list of one girth has.
const sectionMost = 4

// heading reads a line without numbers that names both girths: it heads the
// rows that follow, in its order.
func (r *reader) heading(l line) bool {
	s := parse.Fold(l.text)
	if l := labelOf(s); (l.role == hull || l.role == full) && l.place == noPlace && len(strings.Fields(s)) <= sectionMost {
		r.endRow()
		r.endBlock()
		r.section = l.role
		return true
	}
	h, f := hullWords.FindStringIndex(s), fullWords.FindStringIndex(s)
	if h == nil || f == nil || len(strings.Fields(s)) > headingMost || strings.Contains(s, string(masked)) {
		return false
	}
	r.endRow()
	r.endBlock()
	cell := func(text string) table.Cell { return table.Cell{Text: text, Place: l.place()} }
	r.section = noRole
	r.header = []table.Cell{cell("station"), cell("hull girth"), cell("full girth")}
	if f[0] < h[0] {
		r.header[1], r.header[2] = r.header[2], r.header[1]
	}
	if o := openingWords.FindStringIndex(hullWords.ReplaceAllString(s, "")); o != nil && o[0] > max(h[0], f[0]) {
		r.header = append(r.header, cell("opening"))
	}
	if unit := unitNamed(s); unit != "" {
		r.unit(unit, l.place())
	}
	return true
}

// endBlock hands over the rows of numbers gathered so far.
func (r *reader) endBlock() {
	if len(r.block) > 0 {
		rows := r.block
		if r.header == nil {
			r.header = r.orderOf(rows)
		}
		if r.header != nil {
			rows = append([][]table.Cell{r.header}, rows...)
		}
		r.grids = append(r.grids, table.Grid{Rows: rows})
		r.header = nil
	}
	r.block = nil
}

// orderOf heads rows of a place and two numbers, where the numbers settle which
// is which: the full girth is the larger, in all rows or in all but a few that
// were swapped. Else it is nil.
func (r *reader) orderOf(rows [][]table.Cell) []table.Cell {
	up, down := 0, 0
	for _, row := range rows {
		if len(row) != 3 || !saysPlace(row[0].Text) {
			return nil
		}
		a, faultA := parse.ParseLength(row[1].Text)
		b, faultB := parse.ParseLength(row[2].Text)
		switch {
		case faultA.Some() || faultB.Some() || a.Scale != b.Scale && a.Scale != parse.Bare && b.Scale != parse.Bare:
		case b.Number > a.Number:
			up++
		case b.Number < a.Number:
			down++
		}
	}
	names := []string{"station", "hull girth", "full girth"}
	switch {
	case up > 0 && up >= swappedOneIn*down:
	case down > 0 && down >= swappedOneIn*up:
		names[1], names[2] = names[2], names[1]
	default:
		return nil
	}
	head := make([]table.Cell, len(names))
	for i, n := range names {
		head[i] = table.Cell{Text: n, Place: rows[0][0].Place}
	}
	return head
}

// swappedOneIn is how many rows in order there must be for each that is not: a
// person who swaps a pair now and then keeps to an order otherwise.
const swappedOneIn = 3

// saysPlace reports a name that can be nothing but a place: with a unit, or
// with the word station.
func saysPlace(text string) bool {
	name, fault := parse.ParseStation(text)
	return !fault.Some() && (name.Ordinal || name.Special != "" || name.Amount.Scale != parse.Bare)
}

func (r *reader) unit(unit, place string) {
	r.keyed = append(r.keyed, []table.Cell{{Text: "units", Place: place}, {Text: unit, Place: place}})
}

var (
	inchesNamed = regexp.MustCompile(`\b(?:in|en|are|all) (?:inches|pouces)\b|\((?:in|inches|pouces|po)\)|\binches\b`)
	cmNamed     = regexp.MustCompile(`\b(?:in|en|are|all) (?:cm|centimet(?:re|er)s?)\b|\(cm\)|\bcentimet(?:re|er)s\b`)
)

// unitNamed is the unit that a sentence without numbers says of all of them.
func unitNamed(s string) string {
	inch, cm := inchesNamed.MatchString(s), cmNamed.MatchString(s)
	switch {
	case inch && !cm:
		return "in"
	case cm && !inch:
		return "cm"
	}
	return ""
}

// document has the grids recognised.
func (r *reader) document() parse.Document {
	grids := r.grids
	if len(r.pairs) > 0 {
		head := []table.Cell{{Text: "station"}, {Text: "hull girth"}, {Text: "full girth"}}
		grids = append(grids, table.Grid{Rows: append([][]table.Cell{head}, r.pairs...)})
	}
	if len(r.keyed) > 0 {
		grids = append(grids, table.Grid{Rows: r.keyed})
	}
	if unit, place := r.unitOfNumbers(); unit != "" && len(r.grids)+len(r.pairs) == 0 {
		grids = append(grids, table.Grid{Rows: [][]table.Cell{{{Text: "units", Place: place}, {Text: string(unit), Place: place}}}})
	}
	doc := parse.Document{File: r.file}
	if len(grids) > 0 {
		doc = table.Read(r.file, join(grids))
	}
	doc.Problems = append(doc.Problems, r.problems...)
	if len(doc.Problems)+len(doc.Surveys) > 0 {
		doc.Problems = append(doc.Problems, r.chat...)
	}
	return doc
}

// unitOfNumbers is the unit that all numbers with one have, for those without
// beside them: where the length is 15 ft 9 in, a bow of 18 is in inches. It is
// not asked where there are girths, whose size tells.
func (r *reader) unitOfNumbers() (unit parse.Unit, place string) {
	for _, row := range r.keyed {
		if row[0].Text == "units" {
			return "", ""
		}
		a, fault := parse.ParseLength(row[1].Text)
		switch of := a.Scale.Unit(); {
		case fault.Some(), of == parse.UnknownUnit:
		case unit == parse.UnknownUnit:
			unit, place = of, row[1].Place
		case unit != of:
			return "", ""
		}
	}
	return unit, place
}

// join sets the grids below each other, a blank row between: one mail is one
// sheet.
func join(grids []table.Grid) []table.Grid {
	var rows [][]table.Cell
	for i, g := range grids {
		if i > 0 {
			rows = append(rows, nil)
		}
		rows = append(rows, g.Rows...)
	}
	return []table.Grid{{Rows: rows}}
}

func (r *reader) problem(code parse.Code, place, raw, message string) {
	r.problems = append(r.problems, parse.Problem{
		Code: code, Source: parse.Source{File: r.file, Place: place, Raw: raw}, Message: message,
	})
}
