package prose

import (
	"encoding/csv"
	"strings"
)

// cellSigns part the cells of a sheet that was pasted as text.
const cellSigns = ",;"

const (
	pastedRows  = 3 // lines that make a pasted sheet at least
	pastedCells = 3 // cells of a line at least
)

// pasted finds sheets that were pasted into a text, a comma or a semicolon
// between their cells, and parts their lines into cells. All lines of one have
// as many cells; where they differ a decimal comma may have split a number.
func pasted(lines []line) []line {
	out := append([]line(nil), lines...)
	for i := 0; i < len(lines); i++ {
		for _, sign := range cellSigns {
			n := pastedFrom(lines[i:], sign)
			if n < pastedRows {
				continue
			}
			for k := i; k < i+n; k++ {
				out[k].cells = pastedCellsOf(lines[k], sign)
			}
			i += n
			break
		}
	}
	return out
}

// pastedFrom counts the lines of a pasted sheet.
func pastedFrom(lines []line, sign rune) int {
	n, width, numbered := 0, 0, 0
	for ; n < len(lines); n++ {
		cells := pastedCellsOf(lines[n], sign)
		if len(cells) < pastedCells || n > 0 && len(cells) != width {
			break
		}
		width = len(cells)
		if measuredNumbers(cells[0]) && (measuredNumbers(cells[1]) || measuredNumbers(cells[2])) {
			numbered++
		} else if n > 0 {
			break
		}
	}
	if numbered < pastedRows {
		return 0
	}
	return n
}

// pastedCellsOf parts a line where a sign stands close between two cells; nil
// when a sentence or a list is parted so.
func pastedCellsOf(l line, sign rune) []string {
	text := strings.TrimSpace(l.text)
	if l.cells != nil || !strings.ContainsRune(text, sign) || strings.Contains(text, string(sign)+" ") {
		return nil
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes = sign, true
	cells, err := r.Read()
	if err != nil {
		return nil
	}
	for _, c := range cells {
		if _, nums, _ := weave(scan(c)); len(nums) > 1 || len(c) > cellMost || columnGap.MatchString(strings.TrimSpace(c)) {
			return nil
		}
	}
	return cells
}
