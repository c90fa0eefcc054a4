package prose

import (
	"regexp"
	"strconv"
	"strings"

	"fairtape/parse"
)

// People and programs set things beside each other that are read below each
// other: rows of a table three to a line, a table beside the measures of the
// boat, stations as cards. Each is put into lines of its own; the number of the
// line stays.

// wideGap parts what stands beside each other on one line.
var wideGap = regexp.MustCompile(`\s*(?:\t+| {3,}|\s\|\s)\s*`)

func partsOf(l line) []string {
	if l.cells != nil || len(l.text) > lineBytes {
		return nil
	}
	return wideGap.Split(strings.Trim(strings.ReplaceAll(l.text, "\u00a0", " "), " |\t"), -1)
}

// besideToBelow sets things that stand beside each other below each other.
func besideToBelow(lines []line) []line {
	return measuresAside(rowsAside(cardsAside(headedOnce(withoutRulers(eachPlace(lines))))))
}

// twoPlaces is a line that gives the girths of two places at once: "8 and 9 ft
// (both the same): hull 45, full 78".
var twoPlaces = regexp.MustCompile(`^\s*(?i:at )?(\d+(?:[.,]5)?)\s?((?i:ft|feet|foot|cm|pi|pieds?)?)\s*(?:and|&|et|\+)\s*(\d+(?:[.,]5)?)\s?((?i:ft|feet|foot|cm|pi|pieds?))(?:\s*\([^)\d]*\))?(\s*[:=–-].*\d.*)$`)

// eachPlace gives each of two places a line of its own.
func eachPlace(lines []line) (out []line) {
	for _, l := range lines {
		m := twoPlaces.FindStringSubmatch(l.text)
		if m == nil || l.cells != nil || m[2] != "" && m[2] != m[4] {
			out = append(out, l)
			continue
		}
		for _, at := range []string{m[1], m[3]} {
			out = append(out, line{number: l.number, text: at + " " + m[4] + m[5]})
		}
	}
	return out
}

// columnLetters is the line of letters over the columns of a sheet that was
// printed with them.
var columnLetters = regexp.MustCompile(`^\s*A\s+B(?:\s+C(?:\s+D(?:\s+[E-Z])*)?)?\s*$`)

// rowNumber is the number of a row of such a sheet.
var rowNumber = regexp.MustCompile(`^\s*(\d{1,3})(?:\s+|$)`)

// withoutRulers takes the letters and the numbers off a sheet that was printed
// with them at its edges.
func withoutRulers(lines []line) []line {
	out := append([]line(nil), lines...)
	for i, l := range lines {
		if !columnLetters.MatchString(l.text) {
			continue
		}
		next, taken := 1, map[int]string{}
		for k := i + 1; k < len(lines); k++ {
			m := rowNumber.FindStringSubmatch(lines[k].text)
			if lines[k].blank() {
				continue
			}
			if m == nil || m[1] != strconv.Itoa(next) {
				break
			}
			taken[k] = lines[k].text[len(m[0]):]
			next++
		}
		if len(taken) <= rowsLeast {
			continue
		}
		out[i].text = ""
		for k, text := range taken {
			out[k].text = text
		}
	}
	return out
}

// headedOnce leaves out the headings that a form repeats over each of its rows.
func headedOnce(lines []line) []line {
	count, seen := map[string]int{}, map[string]bool{}
	heads := func(l line) string {
		s := strings.Join(strings.Fields(parse.Fold(l.text)), " ")
		if l.cells != nil || len(strings.Fields(s)) > headingMost || !hullWords.MatchString(s) || !fullWords.MatchString(s) || measuredNumbers(l.text) {
			return ""
		}
		return s
	}
	for _, l := range lines {
		count[heads(l)]++
	}
	var out []line
	for _, l := range lines {
		s := heads(l)
		if s != "" && seen[s] && count[s] > repeatedHeads {
			continue
		}
		seen[s] = true
		out = append(out, l)
	}
	return out
}

// repeatedHeads is how often a heading stands at most that is not repeated over
// each row: over the halves of a table, say.
const repeatedHeads = 3

// wholeRow is a part of a line that is a row by itself: a place and two girths.
var wholeRow = regexp.MustCompile(`^(?i:(?:at|à|station|stn?\.?|sta\.?|#)\s*)?\d+(?:[.,]\d+)?(?:\s?(?i:ft|feet|foot|'|cm|m|pi|pieds?|in|")\s+|\s?(?i:ft|feet|foot|'|cm|m|pi|pieds?|in|")?\s*[:=–—-]\s*)\S`)

func isRow(part string) bool {
	if !wholeRow.MatchString(part) {
		return false
	}
	_, nums, _ := weave(scan(part))
	return len(nums) == 3
}

// rowsAside undoes rows that stand two or more to a line: column by column.
func rowsAside(lines []line) []line {
	var out []line
	for i := 0; i < len(lines); {
		columns, n := [][]line{}, 0
		for ; i+n < len(lines); n++ {
			parts := partsOf(lines[i+n])
			rows := 0
			for _, p := range parts {
				if isRow(p) {
					rows++
				}
			}
			if rows == 0 || rows != len(parts) || n == 0 && rows < 2 {
				break
			}
			for k, p := range parts {
				if k == len(columns) {
					columns = append(columns, nil)
				}
				columns[k] = append(columns[k], line{number: lines[i+n].number, text: p})
			}
		}
		if n < rowsLeast {
			out = append(out, lines[i])
			i++
			continue
		}
		for _, c := range columns {
			out = append(out, c...)
		}
		i += n
	}
	return out
}

// measuresAside parts measures of the boat from the table beside them: "Bow
// height  19   1 ft  41  55".
func measuresAside(lines []line) []line {
	var left, right []line
	begin := -1
	for i, l := range lines {
		parts := partsOf(l)
		if len(parts) < 4 || !measureBeside(parts) {
			continue
		}
		if begin < 0 {
			begin = i
		}
		left = append(left, line{number: l.number, text: parts[0] + ": " + parts[1]})
		right = append(right, line{number: l.number, text: strings.Join(parts[2:], "   ")})
	}
	if len(left) < rowsLeast {
		return lines
	}
	out := append([]line(nil), lines[:begin]...)
	out = append(append(out, left...), line{number: lines[begin].number})
	k := 0
	for _, l := range lines[begin:] {
		switch {
		case k < len(right) && l.number == right[k].number:
			out = append(out, right[k])
			k++
		case k < len(right) && l.blank():
		default:
			out = append(out, l)
		}
	}
	return out
}

// measureBeside reports a line that begins with the label of a measure of the
// boat and its number, and goes on with a row or the heading of a table.
func measureBeside(parts []string) bool {
	if labelOf(parse.Fold(parts[0])).measure == "" || measuredNumbers(parts[0]) {
		return false
	}
	words, nums, _ := weave(scan(parts[1]))
	if len(nums) != 1 || !betweenRow.MatchString(strings.Join(words, "")) {
		return false
	}
	name, fault := parse.ParseStation(parts[2])
	return !fault.Some() && name.Special == "" || stationHead.MatchString(parse.Fold(parts[2]))
}

// cardsAside undoes cards that stand beside each other: a line of places, and
// below each place its girths, every one with its label.
func cardsAside(lines []line) []line {
	var out []line
	for i := 0; i < len(lines); i++ {
		places := partsOf(lines[i])
		if len(places) < 2 || !allPlaces(places) {
			out = append(out, lines[i])
			continue
		}
		cards := make([][]line, len(places))
		for k, p := range places {
			cards[k] = []line{{number: lines[i].number, text: p}}
		}
		n := i + 1
		for ; n < len(lines); n++ {
			parts := partsOf(lines[n])
			if lines[n].blank() && len(cards[0]) == 1 {
				continue
			}
			if len(parts) != len(places) || !allLabelled(parts) {
				break
			}
			for k, p := range parts {
				cards[k] = append(cards[k], line{number: lines[n].number, text: p})
			}
		}
		if len(cards[0]) == 1 {
			out = append(out, lines[i])
			continue
		}
		for _, c := range cards {
			out = append(append(out, c...), line{number: lines[i].number})
		}
		i = n - 1
	}
	return out
}

func allPlaces(parts []string) bool {
	for _, p := range parts {
		if !saysPlace(p) {
			return false
		}
	}
	return true
}

// allLabelled reports parts that each are one girth with its label.
func allLabelled(parts []string) bool {
	for _, p := range parts {
		_, nums, _ := weave(scan(p))
		if l := labelOf(parse.Fold(p)); len(nums) != 1 || l.role != hull && l.role != full || l.place != noPlace {
			return false
		}
	}
	return true
}
