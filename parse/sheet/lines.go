package sheet

import (
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// readGrids recognises the survey in the sheets of a file: whole lines of a text
// in one column are divided first, and sentences in cells are read by words.
func readGrids(name string, grids []table.Grid, words table.Words) parse.Document {
	read := make([]table.Grid, len(grids))
	for i, g := range grids {
		read[i] = divided(g)
	}
	doc := table.OrSentences(table.Read(name, read), read, words)
	heedNotes(&doc, grids)
	doc.Remarks = append(doc.Remarks, noteRemarks(name, grids)...)
	return doc
}

const (
	// dividedLines is how many lines of a column have the same fields at least
	// where they are lines of a text.
	dividedLines = 4
	// dividedFields is how many fields such a line has at least: a place and two
	// girths.
	dividedFields = 3
)

// divided gives the fields of every line a cell of its own where the only column
// of a sheet holds the lines of a text: "1,40,53.5" in one cell.
func divided(g table.Grid) table.Grid {
	var lines []string
	for _, row := range g.Rows {
		text, ok := onlyText(row)
		if !ok {
			return g
		}
		lines = append(lines, text)
	}
	delimiter := delimiterOf(lines)
	count := map[int]int{}
	usual := 0
	for _, l := range lines {
		if fields, _ := splitLine([]string{l}, delimiter); len(fields) >= dividedFields && strings.ContainsAny(l, "0123456789") {
			if count[len(fields)]++; count[len(fields)] > count[usual] {
				usual = len(fields)
			}
		}
	}
	if count[usual] < dividedLines {
		return g
	}
	out := table.Grid{Name: g.Name, Commas: delimiter == ',', Comments: g.Comments}
	for i, row := range g.Rows {
		var cells []table.Cell
		if lines[i] != "" {
			fields, _ := splitLine(lines[i:i+1], delimiter)
			for _, f := range fields[:min(len(fields), maxCols)] {
				cell := fieldCell(strings.TrimSpace(f))
				cell.Place = firstCell(row).Place
				cells = append(cells, cell)
			}
		}
		out.Rows = append(out.Rows, cells)
	}
	return out
}

// onlyText returns the text of a row that has no more than one cell with any.
func onlyText(row []table.Cell) (text string, ok bool) {
	for _, c := range row {
		switch {
		case c.Text == "" && c.Code == "":
		case text != "" || c.Code != "":
			return "", false
		default:
			text = c.Text
		}
	}
	return text, true
}

func firstCell(row []table.Cell) table.Cell {
	for _, c := range row {
		if c.Text != "" {
			return c
		}
	}
	return table.Cell{}
}
