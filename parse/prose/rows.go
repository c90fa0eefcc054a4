package prose

import (
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// betweenRow is what may stand between the numbers of a row: signs, and the
// word that says a place.
var (
	betweenRow = parse.NewPattern(`^[\s,;:/|=\-()>.]*$`)
	beforeRow  = parse.NewPattern(`^[\s\-*•·(#]*(?:(?:at|station|stations|stn|sta|st|s|mark|a|poste|section|repere|row|@|no)\.?\s*#?:?\s*)?$`)
	afterPlace = parse.NewPattern(`^\s*(?:mark|from (?:the )?(?:bow|stem)|aft|de l'etrave|depuis l'etrave)?[\s,;:/|=\-()>.]*$`)
)

// plainRow reads a line of nothing but numbers as a row of a table: 1 ft: 35
// 1/2 / 42. A line with words is none.
func (r *reader) plainRow(l line) bool {
	before, nums, ok := weave(scan(strings.TrimLeft(l.text, " \t")))
	if !ok {
		return false
	}
	for i, p := range before {
		s := parse.Fold(p)
		switch {
		case i == 0 && !beforeRow.MatchString(s), i == 1 && !afterPlace.MatchString(s), i > 1 && !betweenRow.MatchString(s):
			return false
		}
	}
	if len(nums) < 3 && !(len(nums) == 2 && r.row == nil && r.header != nil) || r.header != nil && len(nums) > len(r.header)+1 {
		return false
	}
	if placesOnly(nums) {
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

// placesOnly reports places in their order, 1 ft, 2 ft, 3 ft, and no girth.
func placesOnly(nums []item) bool {
	places := make([]numeral, len(nums))
	for i, n := range nums {
		places[i] = numeral{item: n}
	}
	return inSteps(places, places[0])
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

// placeHeading is a heading over the numbers of a place that has a name.
var placeHeading = parse.NewPattern(`^(?:(?:at|a) )?(?:the |l[ae] |au )?(?:(?:` + parse.GreatestTerms + `)(?: (?:girth|point|section|station|place|spot|part|beam|tour|endroit))?|section maximale|tour maximal|(?:square )?transom(?: stern)?|tableau(?: arriere)?)\s*[:.-]?$`)

// headingMost is how many words a heading has at most.
const headingMost = 14

// clause is the first part of a heading, without what explains it.
var clause = parse.NewPattern(`^[^,;(]*`)

// sectionMost is how many words a heading over a list of one girth has.
const sectionMost = 4

// heading reads a line without numbers that heads what follows: both girths of
// rows, in its order, one girth of all places, or a place.
func (r *reader) heading(text, where string) bool {
	s := parse.Fold(text)
	switch l := labelOf(s); {
	case placeHeading.MatchString(s):
		r.endRow()
		r.endBlock()
		r.section = noRole
		r.row = &spot{place: l.place, where: where, sentence: text}
		return true
	case (l.role == hull || l.role == full) && l.place == noPlace && len(strings.Fields(clause.FindString(s))) <= sectionMost && len(strings.Fields(s)) <= headingMost:
		r.endRow()
		r.endBlock()
		r.section, r.reached = l.role, 0
		return true
	}
	head := bothNamed(s)
	if head == nil {
		return false
	}
	for i := range head {
		head[i].Place = where
	}
	r.endRow()
	r.endBlock()
	r.section = noRole
	r.header = head
	if unit := unitNamed(s); unit != "" {
		r.unit(unit, where)
	}
	return true
}

// bothNamed heads rows in the order in which words name both girths, and the
// opening where it comes last; nil when they do not.
func bothNamed(s string) []table.Cell {
	h, f := hullWords.FindStringIndex(s), fullWords.FindStringIndex(s)
	if h == nil || f == nil || len(strings.Fields(s)) > headingMost || strings.Contains(s, string(masked)) || measuredNumbers(s) {
		return nil
	}
	head := []table.Cell{{Text: "station"}, {Text: "hull girth"}, {Text: "full girth"}}
	if f[0] < h[0] != comesAfter.MatchString(s[min(f[1], h[1]):max(f[0], h[0])]) {
		head[1], head[2] = head[2], head[1]
	}
	if o := openingWords.FindStringIndex(hullWords.ReplaceAllString(s, "")); o != nil && o[0] > max(h[0], f[0]) {
		head = append(head, table.Cell{Text: "opening"})
	}
	return head
}

// comesAfter stands between two names of which the second comes first: "full
// girth in brackets after the hull girth".
var comesAfter = parse.NewPattern(`\b(?:after|behind|follows|apres|suit|derriere)\b`)

// reach notes a place below a heading of one girth. Where the places begin
// again, ok is false and the heading no longer counts: another girth is given.
func (r *reader) reach(place float64) (ok bool) {
	if ok = place > r.reached; !ok {
		r.section = noRole
	}
	r.reached = place
	return ok
}

// headNames are the headings of columns by what they hold.
var headNames = map[role]string{hull: "hull girth", full: "full girth", opening: "opening"}

// stationHead is a heading of the places.
var stationHead = parse.NewPattern(`^(?:stations?|stn|sta|dist(?:ance)?|position|section|place|where|poste|repere|at|ft|feet|cm|inches)\b`)

// endBlock hands over the rows of numbers gathered so far.
func (r *reader) endBlock() {
	if len(r.block) > 0 {
		rows := r.block
		if r.header != nil && !slices.ContainsFunc(rows, func(row []table.Cell) bool { return len(row) >= len(r.header) }) {
			r.header = nil // both girths are named, and there is one
		}
		if r.header == nil {
			r.header = r.orderOf(rows)
		}
		if r.header != nil {
			rows = append([][]table.Cell{r.header}, oneTooMany(rows, len(r.header))...)
		}
		r.grids = append(r.grids, table.Grid{Rows: rows})
		r.header = nil
	}
	r.block = nil
}

// oneTooMany takes the numbers of a row that has more than the others have, and
// more than are headed, together: nobody can tell which one is meant.
func oneTooMany(rows [][]table.Cell, headed int) [][]table.Cell {
	longer := 0
	for _, row := range rows {
		if len(row) > headed {
			longer++
		}
	}
	if 2*longer > len(rows) {
		return rows // a column without a heading
	}
	out := slices.Clone(rows)
	for i, row := range rows {
		if len(row) <= headed {
			continue
		}
		var texts []string
		for _, c := range row[1:] {
			texts = append(texts, c.Text)
		}
		all := table.Cell{Text: strings.Join(texts, " / "), Place: row[0].Place}
		out[i] = []table.Cell{row[0], all, all}
	}
	return out
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
