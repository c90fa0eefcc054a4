package table

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// outlineNumber is how the lines of an outline are counted: "2.1.1 Hull girth".
var outlineNumber = regexp.MustCompile(`^(\d{1,2}(?:\.\d{1,2})*)\.?\s+(\pL.*)$`)

// withoutOutline takes the numbers of an outline from its lines. It is one where
// every number follows the one before: 2.1 is followed by 2.1.1, 2.2, or 3.
func withoutOutline(g Grid) Grid {
	var last []int
	lines := map[int]string{} // rows to their lines without numbers
	nested := 0
	for r, row := range g.Rows {
		first := firstWritten(row)
		if first < 0 {
			continue
		}
		m := outlineNumber.FindStringSubmatch(strings.TrimSpace(row[first].Text))
		if m == nil {
			continue
		}
		number := outlinePlace(m[1])
		if !follows(last, number) {
			return g
		}
		last, lines[r] = number, m[2]
		if len(number) > 1 {
			nested++
		}
	}
	if nested < fewRows {
		return g
	}
	g.Rows = slices.Clone(g.Rows)
	for r, line := range lines {
		g.Rows[r] = slices.Clone(g.Rows[r])
		cell := &g.Rows[r][firstWritten(g.Rows[r])]
		cell.Raw, cell.Text = cell.Text, line
	}
	return g
}

func outlinePlace(number string) []int {
	var place []int
	for _, part := range strings.Split(number, ".") {
		n, _ := strconv.Atoi(part)
		place = append(place, n)
	}
	return place
}

// follows reports that a number of an outline may come right after another.
func follows(before, number []int) bool {
	depth := len(number) - 1
	switch {
	case depth > len(before), !slices.Equal(number[:depth], before[:depth]):
		return false
	case depth == len(before):
		return number[depth] == 1
	}
	return number[depth] == before[depth]+1
}
