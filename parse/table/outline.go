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

// chapter is how the parts of a form are counted without a sign: "3 Bow height".
// unitBegins tells it from "56 cm high".
var (
	chapter    = regexp.MustCompile(`^(\d{1,2})\s+(\pL.*)$`)
	unitBegins = regexp.MustCompile(`(?i)^(?:in|ins|inch|inches|cms?|centimet(?:re|er)s?|mm|millimet(?:re|er)s?|m|met(?:re|er)s?|ft|foot|feet|po|pouces?|pi|pieds?|high|long|tall|deep|wide|up|de|and|et)\b`)
)

// withoutChapters takes such numbers from the labels of a boat's measures, where
// they count down a column: 1, 2, 3. "40 by the thwart" is a number and a
// remark, and "3 hull girth" may be the third station's.
func withoutChapters(g Grid) Grid {
	type place struct{ column, number int }
	counted := map[place]bool{}
	cloned := false
	for r := range g.Rows {
		for c := range g.Rows[r] {
			m := chapter.FindStringSubmatch(g.Rows[r][c].Text)
			if m == nil || unitBegins.MatchString(m[2]) {
				continue
			}
			n, _ := strconv.Atoi(m[1])
			if n > 1 && !counted[place{c, n - 1}] {
				continue
			}
			counted[place{c, n}] = true
			if labelOf(labelHead(m[2])).none() {
				continue
			}
			if !cloned {
				g.Rows, cloned = slices.Clone(g.Rows), true
			}
			g.Rows[r] = slices.Clone(g.Rows[r])
			cell := &g.Rows[r][c]
			cell.Raw, cell.Text = cell.Text, m[2]
		}
	}
	return g
}
