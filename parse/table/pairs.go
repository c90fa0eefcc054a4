package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// pairSign parts two numbers in one cell: "38 / 52 1/2". A stroke without
// blanks may belong to a fraction.
var pairSign = regexp.MustCompile(`\s+/\s+|\s*[;|]\s*|\s+[x-]\s+`)

// splitPairs gives each girth a column of its own where a heading names both
// and the cells below hold both.
func splitPairs(g Grid) Grid {
	for r := 0; r < len(g.Rows); r++ {
		for c := 0; c < len(g.Rows[r]); c++ {
			hull, full, ok := bothHeadings(g.Rows[r][c].Text)
			if ok && pairsBelow(g, r, c) >= fewRows {
				g = splitColumn(g, r, c, hull, full)
			}
		}
	}
	return g
}

// bothHeadings parts a heading that names both girths, in its order; the unit
// counts for both.
func bothHeadings(text string) (first, second string, ok bool) {
	s := parse.Fold(text)
	h, f := hullWords.FindStringIndex(s), fullWords.FindStringIndex(s)
	if h == nil || f == nil || len(s) > longestLabel || strings.ContainsAny(s, "0123456789") || !labelOf(s).none() {
		return "", "", false
	}
	unit := ""
	if scale := headingScale(s); scale != parse.Bare {
		unit = " (" + string(scale) + ")"
	}
	if h[0] < f[0] {
		return "hull girth" + unit, "full girth" + unit, true
	}
	return "full girth" + unit, "hull girth" + unit, true
}

// pairsBelow counts the cells under a heading that hold two lengths.
func pairsBelow(g Grid, r, c int) int {
	n := 0
	for _, row := range g.Rows[r+1:] {
		if c >= len(row) {
			continue
		}
		if parts := pairSign.Split(row[c].Text, -1); len(parts) == 2 {
			_, a := parse.ParseLength(parts[0])
			if _, b := parse.ParseLength(parts[1]); !a.Some() && !b.Some() {
				n++
			}
		}
	}
	return n
}

func splitColumn(g Grid, heading, c int, first, second string) Grid {
	rows := make([][]Cell, len(g.Rows))
	for r, row := range g.Rows {
		rows[r] = slices.Clone(row)
		if c >= len(row) {
			continue
		}
		left, right := row[c], Cell{Place: row[c].Place}
		switch parts := pairSign.Split(row[c].Text, -1); {
		case r == heading:
			left.Text, right.Text = first, second
		case r > heading && len(parts) == 2:
			left.Text, right.Text = strings.TrimSpace(parts[0]), strings.TrimSpace(parts[1])
		}
		rows[r][c] = left
		rows[r] = slices.Insert(rows[r], c+1, right)
	}
	g.Rows = rows
	return g
}
