package prose

import (
	"regexp"
	"strconv"
)

// countedLine is a line of a numbered list that goes on with a place: "3) 3 ft:
// 40, 60.5". The number before it counts the lines.
var countedLine = regexp.MustCompile(`^(\s*\(?(\d{1,2})[.)]\s+)(?i:(?:at |station |stn\.? |st\.? ?|à )?\d+(?:[.,]5|\s1/2|½)?\s?(?:ft|foot|feet|'|in\b|"|cm|m\b|pi|pieds?))`)

// countedLeast is how many lines are counted on from each other at least.
const countedLeast = 3

// uncount takes off the numbers by which the lines of a list are counted, where
// each line names a place of its own after it.
func uncount(lines []line) []line {
	next, first := 0, 0
	var run []int // lines
	out := append([]line(nil), lines...)
	flush := func() {
		if len(run) >= countedLeast && first == 1 {
			for _, i := range run {
				out[i].text = out[i].text[len(countedLine.FindStringSubmatch(out[i].text)[1]):]
			}
		}
		run = nil
	}
	for i, l := range lines {
		m := countedLine.FindStringSubmatch(l.text)
		if m == nil {
			continue
		}
		n, _ := strconv.Atoi(m[2])
		if len(run) == 0 || n != next {
			flush()
			first = n
		}
		run, next = append(run, i), n+1
	}
	flush()
	return out
}
