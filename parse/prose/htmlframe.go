package prose

import (
	"slices"

	"fairtape/parse/table"
)

// unframed takes the letters of the columns and the numbers of the rows from the
// lines of a sheet that was saved as a page.
func unframed(lines []line) []line {
	var rows [][]string
	for _, l := range lines {
		if l.cells != nil {
			rows = append(rows, l.cells)
		} else if !l.blank() {
			return lines
		}
	}
	if !table.Framed(rows) {
		return lines
	}
	lines = slices.Clone(lines)
	for i, l := range lines {
		switch {
		case l.cells == nil:
		case l.cells[0] == "":
			lines[i] = line{number: l.number, quote: l.quote, depth: l.depth}
		default:
			lines[i] = lineOf(l, l.cells[1:])
		}
	}
	return lines
}
