package table

import (
	"slices"

	"fairtape/parse"
)

// apart makes two grids of one in which the measures of the boat stand beside
// the table of its stations, with an empty column between: neither goes on in
// the other.
func apart(g Grid) []Grid {
	if len(g.Comments) > 0 {
		return []Grid{g} // they may speak of either
	}
	for c := 1; c+1 < width(g); c++ {
		if slices.ContainsFunc(g.Rows, func(row []Cell) bool { return c < len(row) && row[c].Text != "" }) {
			continue
		}
		left, right := g, g
		left.Rows, right.Rows = columnsOf(g, 0, c), columnsOf(g, c+1, width(g))
		if listsMeasures(left) && holdsTable(right) || holdsTable(left) && listsMeasures(right) {
			return []Grid{left, right}
		}
	}
	return []Grid{g}
}

func columnsOf(g Grid, from, to int) [][]Cell {
	rows := make([][]Cell, len(g.Rows))
	for r, row := range g.Rows {
		rows[r] = row[min(from, len(row)):min(to, len(row))]
	}
	return rows
}

// holdsTable reports a table of stations with its headings.
func holdsTable(g Grid) bool {
	return slices.ContainsFunc(g.Rows, func(row []Cell) bool { return headsTable(textsOf(row)) })
}

func textsOf(row []Cell) (texts []string) {
	for _, c := range row {
		texts = append(texts, parse.Plain(c.Text))
	}
	return texts
}

// leastMeasures is how many measures of the boat make a list of them.
const leastMeasures = 3

// listsMeasures reports labels with their numbers and nothing else: no remark
// that may speak of the other part.
func listsMeasures(g Grid) bool {
	labels, numbers := 0, 0
	for r, row := range g.Rows {
		for _, c := range row {
			it := newItem(c, 0, 0)
			switch l := it.asLabel(); {
			case it.value():
				numbers++
			case !it.word(), r == 0 && l.none():
			case firstDigit(it.folded) >= 0 && l.none(), parse.Doubts(it.folded), saysKept(it.folded):
				return false
			case l.measure != "":
				labels++
			}
		}
	}
	return labels >= leastMeasures && numbers >= labels && !holdsTable(g)
}

// partsOf makes the grids to be read of those that a file has.
func partsOf(grids []Grid) (parts []Grid) {
	for _, g := range grids {
		parts = append(parts, apart(withoutFrame(g))...)
	}
	return parts
}
