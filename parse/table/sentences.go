package table

import (
	"slices"
	"strings"

	"fairtape/parse"
)

// OrSentences returns what was read of the grids together with what whole
// sentences say that stand in their cells: "She is 14 ft 7 in overall, the bow
// height is 19 1/2 in". They are looked at only where numbers are left over.
func OrSentences(asTable parse.Document, grids []Grid, words Words) parse.Document {
	if !strays(asTable) {
		return asTable
	}
	var told []Grid
	for _, g := range grids {
		var lines [][]Cell
		asLines := typedLines(g)
		for _, row := range g.Rows {
			for _, c := range row {
				if asLines && lastWritten(row) == firstWritten(row) && c.Text != "" {
					lines = append(lines, []Cell{c})
				} else {
					lines = append(lines, sentencesOf(c)...)
				}
			}
		}
		if len(lines) > 0 {
			told = append(told, Grid{Name: g.Name, Rows: lines})
		}
	}
	if len(told) == 0 {
		return asTable
	}
	return OrWords(asTable, told, words, func(g Grid, row int) string { return g.Rows[row][0].Place })
}

// typedLines reports a sheet of which most rows with numbers are lines of a text,
// a cell each: "1 ft: 39 / 48".
func typedLines(g Grid) bool {
	lines, rows := 0, 0
	for _, row := range g.Rows {
		if !slices.ContainsFunc(row, func(c Cell) bool { return firstDigit(c.Text) >= 0 }) {
			continue
		}
		if rows++; firstWritten(row) == lastWritten(row) {
			lines++
		}
	}
	return lines >= fewRows && 2*lines > rows
}

// sentencesOf returns the lines of a cell that tells something in sentences, or
// in many lines; none of any other.
func sentencesOf(c Cell) [][]Cell {
	lines := strings.Split(c.Text, "\n")
	if firstDigit(c.Text) < 0 || c.Code != "" || len(strings.Fields(c.Text)) < sentenceWords || len(lines) < fewRows && !slices.ContainsFunc(lines, tells) {
		return nil
	}
	var rows [][]Cell
	for _, line := range lines {
		rows = append(rows, []Cell{{Text: line, Place: c.Place}})
	}
	return rows
}

// remarks returns the sentences in cells of grids: "Not sure of the full girth at
// 5 ft".
func remarks(file string, grids []Grid) (all []parse.Source) {
	for _, g := range grids {
		for _, row := range append(slices.Clone(g.Rows), g.Comments) {
			for _, c := range row {
				if c.Code == "" && len(strings.Fields(c.Text)) >= sentenceWords {
					all = append(all, parse.Source{File: file, Place: c.Place, Raw: c.Text})
				}
			}
		}
	}
	return all
}

// tells reports a line with more words than a label and its number have.
func tells(line string) bool { return len(strings.Fields(line)) >= 2*sentenceWords }
