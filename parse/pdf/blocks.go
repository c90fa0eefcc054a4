package pdf

import (
	"regexp"
	"slices"
	"strconv"
)

const (
	// turnsLeast is how often lines at the left and at the right take turns at
	// least where two blocks of print stand beside each other.
	turnsLeast = 3
	// wholeLeast is how many lines of a block say at least what their numbers
	// are. A column of labels, or of numbers, is no block.
	wholeLeast = 2
	// gutterLeast is how wide in points the gap between two blocks is at least.
	gutterLeast = 12
	// linesMost bounds the work on one page; sixty lines of print fill it.
	linesMost = 100
)

// apartBlocks sets blocks of print that stand beside each other below each
// other. The lines of two blocks lie at heights of their own, where the cells of
// one row lie at the same, or each line says all of a station.
func apartBlocks(lines [][]cell) [][]cell {
	if len(lines) > linesMost {
		return lines
	}
	var left, right [][]cell
	first, end := 0, 0
	for from := range lines {
		if l, r, to := blocksFrom(lines, from); l != nil && to-from > end-first {
			left, right, first, end = l, r, from, to
		}
	}
	if left == nil {
		return lines
	}
	out := slices.Concat(lines[:first], apartBlocks(left), apartBlocks(right))
	return append(out, apartBlocks(lines[end:])...)
}

// blocksFrom parts the most lines it can from one on into two blocks beside each
// other; left is nil where there are none.
func blocksFrom(lines [][]cell, from int) (left, right [][]cell, to int) {
	var spans []column
	for end := from + 1; end <= len(lines); end++ {
		for _, c := range lines[end-1] {
			spans = append(spans, column{c.box.x0, c.box.x1})
		}
		spans = merge(spans)
		gaps := gutters(spans)
		if len(gaps) == 0 && end > from+1 {
			break
		}
		for _, x := range gaps {
			if l, r, ok := partAt(lines[from:end], x); ok {
				left, right, to = l, r, end
				break
			}
		}
	}
	return left, right, to
}

// partAt parts lines at a gutter; ok is false where the parts are no blocks.
func partAt(lines [][]cell, x float64) (left, right [][]cell, ok bool) {
	var sides []bool // the lines that stand on one side only; right is true
	for _, line := range lines {
		k := slices.IndexFunc(line, func(c cell) bool { return c.box.x0 > x })
		switch {
		case k < 0:
			left, sides = append(left, line), append(sides, false)
		case k == 0:
			right, sides = append(right, line), append(sides, true)
		default:
			left, right = append(left, line[:k]), append(right, line[k:])
		}
	}
	atOwnHeights := 2*len(sides) > len(lines) && turns(sides) >= turnsLeast
	return left, right, atOwnHeights && saysMuch(left) && saysMuch(right) || tellsStations(left) && tellsStations(right) ||
		listsLabels(left) && rowsOfStations(right) || rowsOfStations(left) && listsLabels(right)
}

// placeAlone is a cell that is the place of a station and nothing else.
var placeAlone = regexp.MustCompile(`^(\d{1,3}) ?(?:ft|feet|'|in|"|cm|pi|pieds?|po)?\.?$`)

// stationCells is how many cells the row of a station has: its place, and two
// girths.
const stationCells = 3

// rowsOfStations reports rows that each begin with a place, one step after the
// other: what stands beside them is no part of them.
func rowsOfStations(lines [][]cell) bool {
	whole, places := 0, []int{}
	for _, line := range lines {
		m := placeAlone.FindStringSubmatch(line[0].text)
		if m == nil {
			if slices.ContainsFunc(line, func(c cell) bool { return hasDigit(c.text) }) {
				return false
			}
			continue
		}
		at, _ := strconv.Atoi(m[1])
		places = append(places, at)
		if len(line) >= stationCells { // the last may be left empty
			whole++
		}
	}
	for i := range places {
		if places[i] != places[0]*(i+1) {
			return false
		}
	}
	return whole > wholeLeast
}

// listsLabels reports lines of which all that have a number begin with its label.
func listsLabels(lines [][]cell) bool {
	n := 0
	for _, line := range lines {
		switch {
		case !slices.ContainsFunc(line, func(c cell) bool { return hasDigit(c.text) }):
		case !longWord.MatchString(line[0].text) || hasDigit(line[0].text[:1]):
			return false
		default:
			n++
		}
	}
	return n > wholeLeast
}

// stationTold is a line that says the place and a girth of it in words: no cell
// beside it belongs to it.
var stationTold = regexp.MustCompile(`\d[^\pL]*\pL.*\pL{3}.*\d.*\pL{3}.*\d`)

// tellsStations reports a block of which some lines tell a whole station each.
func tellsStations(lines [][]cell) bool {
	n := 0
	for _, line := range lines {
		if len(line) == 1 && stationTold.MatchString(line[0].text) {
			n++
		}
	}
	return n > wholeLeast
}

// gutters are the gaps between spans, from the left.
func gutters(spans []column) (at []float64) {
	for i := 1; i < len(spans); i++ {
		if a, b := spans[i-1].x1, spans[i].x0; b-a >= gutterLeast {
			at = append(at, (a+b)/2)
		}
	}
	return at
}

// turns counts how often sides change.
func turns(sides []bool) (n int) {
	for i := 1; i < len(sides); i++ {
		if sides[i] != sides[i-1] {
			n++
		}
	}
	return n
}

var longWord = regexp.MustCompile(`\pL{3}`)

// saysMuch reports a block of which some lines have a number together with a label
// or with other numbers.
func saysMuch(lines [][]cell) bool {
	n := 0
	for _, line := range lines {
		if slices.ContainsFunc(line, func(c cell) bool { return hasDigit(c.text) && (len(line) > 1 || longWord.MatchString(c.text)) }) {
			n++
		}
	}
	return n >= wholeLeast
}
