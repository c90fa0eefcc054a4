package table

import (
	"slices"
	"strings"
)

// headedOnce takes out the headings that a form prints anew over every row of
// its table. The first one stands over them all.
func headedOnce(g Grid) Grid {
	rows := slices.Clone(g.Rows)
	first := -1
	for i, row := range rows {
		switch {
		case first >= 0 && i >= 2 && sameWords(row, g.Rows[i-2]) && sameWords(row, g.Rows[first]):
			rows[i] = nil
		case bothGirthsHeaded(row):
			first = i
		}
	}
	g.Rows = slices.DeleteFunc(rows, func(row []Cell) bool { return row == nil })
	return g
}

// bothGirthsHeaded reports a row of words alone with a heading of either girth.
func bothGirthsHeaded(row []Cell) bool {
	if slices.ContainsFunc(row, func(c Cell) bool { return firstDigit(c.Text) >= 0 }) {
		return false
	}
	var roles []role
	for _, c := range row {
		roles = append(roles, newItem(c, 0, 0).asRole())
	}
	return slices.Contains(roles, roleHull) && slices.Contains(roles, roleFull)
}

func sameWords(a, b []Cell) bool {
	return slices.EqualFunc(a, b, func(x, y Cell) bool { return strings.EqualFold(strings.TrimSpace(x.Text), strings.TrimSpace(y.Text)) })
}
