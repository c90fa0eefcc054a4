package table

import (
	"slices"
	"strconv"

	"fairtape/parse"
)

// A spreadsheet program that prints a sheet, or saves it for the web, may set the
// letters of the columns over it and the numbers of the rows beside it.

// Framed reports rows with such a frame: their first cells count the rows, those
// of headings too, and the first row may letter the columns.
func Framed(rows [][]string) bool {
	letters := len(rows) > 0 && lettered(rows[0])
	if letters {
		rows = rows[1:]
	}
	if len(rows) < fewRows {
		return false
	}
	headed := letters
	for i, row := range rows {
		if len(row) == 0 || !follow(rows, i) {
			return false
		}
		headed = headed || headsTable(row[1:])
	}
	return headed
}

// lettered reports the letters of columns: A, B, C.
func lettered(row []string) bool {
	n := 0
	for i, text := range row {
		switch {
		case i == 0 && text == "":
		case text != string(rune('A'+n)):
			return false
		default:
			n++
		}
	}
	return n > 1
}

// follow reports that a row is counted by one more than the row before it.
func follow(rows [][]string, i int) bool {
	n, err := strconv.Atoi(rows[i][0])
	if err != nil || i == 0 {
		return err == nil
	}
	before, err := strconv.Atoi(rows[i-1][0])
	return err == nil && n == before+1
}

// headsTable reports the headings of stations and of a girth, beside which no
// number of a station can stand.
func headsTable(row []string) bool {
	has := func(is func(role) bool) bool {
		return slices.ContainsFunc(row, func(text string) bool { return is(roleOf(parse.Fold(text))) })
	}
	return has(func(r role) bool { return r == roleStation }) && has(role.girth)
}

// withoutFrame takes such a frame away.
func withoutFrame(g Grid) Grid {
	texts := make([][]string, len(g.Rows))
	for r, row := range g.Rows {
		texts[r] = textsOf(row)
	}
	if !Framed(texts) {
		return g
	}
	if lettered(texts[0]) {
		g.Rows = g.Rows[1:]
	}
	rows := make([][]Cell, len(g.Rows))
	for r, row := range g.Rows {
		rows[r] = row[1:]
	}
	g.Rows = rows
	return g
}
