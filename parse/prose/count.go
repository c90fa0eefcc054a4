package prose

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"fairtape/parse"
)

// countedLine is a line of a numbered list that goes on with a place: "3) 3 ft:
// 40, 60.5". The number before it counts the lines.
var countedLine = regexp.MustCompile(`^(\s*\(?(\d{1,2})[.)]\s+)(?i:(?:at |station |stn\.? |st\.? ?|à )?\d+(?:[.,]5|\s1/2|½)?\s?(?:ft|foot|feet|'|in\b|"|cm|m\b|pi|pieds?))`)

// countedLeast is how many lines are counted on from each other at least.
const countedLeast = 3

// uncount takes off the numbers by which the lines of a list are counted, where
// each line names a place of its own after it.
func uncount(lines []line) []line {
	lines = orderedFeet(lines)
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

// orderedFoot is a place that is counted in feet: "the 3rd foot mark".
var orderedFoot = regexp.MustCompile(`(?i)\b(\d{1,2})(?:st|nd|rd|th|er|e|ème|ième)[\s-](?:foot|ft|pied)(?:[\s-](?:mark|station|line))?\b`)

// orderedFeet writes places that are counted in feet as distances.
func orderedFeet(lines []line) []line {
	out := append([]line(nil), lines...)
	for i, l := range out {
		if l.cells == nil {
			out[i].text = orderedFoot.ReplaceAllString(l.text, "$1 ft")
		}
	}
	return out
}

// countedRow is a line of a numbered list: "3. hull girth 42, full girth 60",
// "#3 42 / 60".
var countedRow = regexp.MustCompile(`^\s*(?:#\s?(\d{1,2})[.:)]?|\(?(\d{1,2})[.)])\s+(.+)$`)

// countStations names the stations of a numbered list whose lines give the
// girths of a place and no place of their own: the numbers count the stations.
// A list that does not begin with 1, or leaves one out, is none.
func countStations(lines []line) []line {
	out := append([]line(nil), lines...)
	for i := 0; i < len(lines); i++ {
		var rows []int
		shape := ""
		for k := i; k < len(lines) && (lines[k].blank() || lines[k].cells == nil); k++ {
			if lines[k].blank() {
				continue
			}
			n, rest, ok := countedGirths(lines[k].text)
			if !ok || n != len(rows)+1 || len(rows) > 0 && rest != shape {
				break
			}
			rows, shape = append(rows, k), rest
		}
		if len(rows) < bareLeast {
			continue
		}
		for n, k := range rows {
			m := countedRow.FindStringSubmatch(lines[k].text)
			out[k].text = fmt.Sprintf("Station %d: %s", n+1, m[3])
		}
		i = rows[len(rows)-1]
	}
	return out
}

// countedGirths reads the number of a counted line that gives two girths, and
// the words around them.
func countedGirths(text string) (n int, words string, ok bool) {
	m := countedRow.FindStringSubmatch(text)
	if m == nil {
		return 0, "", false
	}
	between, nums, _ := weave(scan(m[3]))
	words = parse.Fold(strings.Join(between, "#"))
	if len(nums) != 2 || nums[0].amount.Scale == parse.ScaleFoot || stationWord.MatchString(words) || labelOf(words).measure != "" || labelOf(words).place != noPlace {
		return 0, "", false
	}
	n, _ = strconv.Atoi(m[1] + m[2])
	return n, words, true
}
