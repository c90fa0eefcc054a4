package table

import (
	"slices"
	"strings"
)

// stackedLines gives every line of its own cells a row of its own: a table may
// have one row whose cells hold a whole column each, a number in each line.
func stackedLines(g Grid) Grid {
	var rows [][]Cell
	for _, row := range g.Rows {
		n := linesOf(row)
		if n < fewRows {
			rows = append(rows, row)
			continue
		}
		for i := range n {
			line := slices.Clone(row)
			for c := range line {
				texts := strings.Split(line[c].Text, "\n")
				switch {
				case len(texts) == n:
					line[c].Text = strings.TrimSpace(texts[i])
				case i > 0:
					line[c].Text = ""
				}
			}
			rows = append(rows, line)
		}
	}
	g.Rows = rows
	return g
}

// linesOf is how many lines the cells of a row have, where two or more of them
// have as many and no other has more than one; else 0.
func linesOf(row []Cell) int {
	lines, cells := 0, 0
	for _, c := range row {
		n := strings.Count(c.Text, "\n") + 1
		switch {
		case n == 1:
		case lines != 0 && n != lines, c.Code != "":
			return 0
		default:
			lines = n
			cells++
		}
	}
	if cells < 2 {
		return 0
	}
	return lines
}
