package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// cellMost is how long a cell of a typed table is at most, in bytes; what is
// longer is a sentence with two blanks after its point.
const cellMost = 40

var columnGap = regexp.MustCompile(`\s*(?:\t+|\s\|\s?|\|| {2,})\s*`)

var placeColon = regexp.MustCompile(`^((?i:station |st\.? ?|at )?\d+(?:[.,]5)?\s?(?i:ft|feet|foot|'|in|"|cm|pi|pieds?)?)\s?[:=]\s*(\d\S*(?:\s\d/\d+)?\S*)$`)

// labelColon is the label of a row with the first number of it.
var labelColon = regexp.MustCompile(`^(\pL[^:=]*?)\s*[:=]\s*([\d½¼¾].*)$`)

// labelledRow is how many cells a row has at least that begins with a label.
const labelledRow = 3

// split cuts a line into the cells of a typed table; nil when it is none.
func split(l line) []string {
	if l.cells != nil {
		return l.cells
	}
	text := strings.Trim(strings.ReplaceAll(l.text, "\u00a0", " "), " ")
	text = strings.Trim(text, "|\t")
	cells := columnGap.Split(strings.TrimSpace(text), -1)
	if len(cells) < 2 {
		return nil
	}
	if m := placeColon.FindStringSubmatch(cells[0]); m != nil { // "1 ft: 35  42"
		cells = slices.Insert(cells[1:], 0, m[1], m[2])
	}
	if m := labelColon.FindStringSubmatch(cells[0]); m != nil && len(cells) > labelledRow && !measuredNumbers(m[1]) { // "Feet: 1  2  3"
		cells = slices.Insert(cells[1:], 0, m[1], m[2])
	}
	for i, c := range cells {
		if i >= rowOf && onlyNumbers(cells[:rowOf]) {
			break // remarks behind a row say nothing of it
		}
		if measuredNumbers(c) && labelOf(parse.Fold(c)).some() {
			return nil // a label and its number, not a cell of a table
		}
		if len(c) > cellMost || len(strings.Fields(c)) > 6 || strings.HasSuffix(c, ". ") {
			return nil
		}
	}
	if strings.HasSuffix(cells[0], ".") && len(cells) == 2 && len(strings.Fields(cells[0])) > 3 {
		return nil
	}
	return cells
}

// rowOf is how many numbers make a row: a place and its girths.
const rowOf = 3

func onlyNumbers(cells []string) bool {
	for _, c := range cells {
		if words, nums, _ := weave(scan(c)); len(nums) != 1 || strings.TrimSpace(strings.Join(words, "")) != "" {
			return false
		}
	}
	return true
}

// rowsLeast is how many lines of typed columns make a table.
const rowsLeast = 2

// cells reads a table of typed columns from the lines on, and returns how many
// lines it has; 0 when there is none.
func (r *reader) cells(lines []line) int {
	if len(lines) == 0 || lines[0].blank() {
		return 0
	}
	first := edgesOf(lines)
	below := first
	var rows [][]table.Cell
	numbered, used := 0, 0
	for i, l := range lines {
		if l.blank() {
			below = edgesOf(lines[i+1:]) // what follows may have columns of its own
			continue
		}
		cut := split(l)
		if cut == nil && !(len(rows) > 0 && tableEntry(l)) {
			break
		}
		if cut == nil {
			cut = []string{strings.TrimSpace(l.text)}
		}
		cut = below.place(l, aligned(l, cut, first.begins))
		row := make([]table.Cell, len(cut))
		for j, c := range cut {
			row[j] = table.Cell{Text: strings.TrimSpace(c), Place: l.place()}
			if rule.MatchString(row[j].Text) {
				row[j].Text = ""
			}
		}
		if measuredNumbers(l.text) {
			numbered++
		}
		rows = append(rows, row)
		used = i + 1
	}
	if numbered == 0 || numbered < rowsLeast && !onlyMeasures(rows[0]) {
		return 0
	}
	r.endRow()
	r.endBlock()
	if head := r.header; head != nil && len(rows[0]) == len(head) && measuredNumbers(rows[0][1].Text) {
		rows = slices.Insert(rows, 0, head)
		r.header = nil
	}
	r.grids = append(r.grids, table.Grid{Rows: r.headed(rows)})
	return used
}

// aligned parts two numbers that only one blank stands between, where the second
// begins a column of other lines: "41 1/2 58" under "41     51".
func aligned(l line, cells []string, begins map[int]int) []string {
	if l.cells != nil {
		return cells
	}
	var out []string
	at := cellOffsets(l, cells)
	for i, c := range cells {
		words, nums, _ := weave(scan(c))
		if len(nums) == 2 && strings.TrimSpace(strings.Join(words, "")) == "" {
			if second := strings.LastIndex(c, nums[1].text); second > 0 && begins[at[i]+second] > 0 {
				out, c = append(out, strings.TrimSpace(c[:second])), c[second:]
			}
		}
		out = append(out, c)
	}
	return out
}

// headed puts headings over a run of rows that has none, where the numbers
// settle them.
func (r *reader) headed(rows [][]table.Cell) [][]table.Cell {
	rows = placesNamed(rows)
	for i, row := range rows {
		if len(row) == 2 && saysPlace(row[0].Text) && (r.section == hull || r.section == full) && r.reachAll(rows[i:]) {
			return slices.Insert(slices.Clone(rows), i, []table.Cell{{Text: "station", Place: row[0].Place}, {Text: headNames[r.section], Place: row[0].Place}})
		}
		if len(row) == 3 && saysPlace(row[0].Text) {
			end := i
			for end < len(rows) && len(rows[end]) == 3 && saysPlace(rows[end][0].Text) {
				end++
			}
			if head := r.orderOf(rows[i:end]); head != nil {
				return slices.Insert(slices.Clone(rows), i, head)
			}
			return rows
		}
		for _, c := range row {
			if l := labelOf(parse.Fold(c.Text)); l.role != noRole {
				return rows
			}
		}
	}
	return rows
}

// reachAll notes the places of rows.
func (r *reader) reachAll(rows [][]table.Cell) bool {
	for _, row := range rows {
		if len(row) == 0 {
			continue
		}
		if name, fault := parse.ParseStation(row[0].Text); !fault.Some() && !r.reach(name.Amount.Number) {
			return false
		}
	}
	return true
}

// placesNamed puts a heading over the places where only the girths have one: the
// rows have a cell more, and begin with a place.
func placesNamed(rows [][]table.Cell) [][]table.Cell {
	out := slices.Clone(rows)
	for i, row := range rows[:len(rows)-1] {
		next := rows[i+1]
		if len(row) < 2 || len(next) != len(row)+1 || !saysPlace(next[0].Text) || !onlyGirths(row) {
			continue
		}
		out[i] = slices.Insert(slices.Clone(row), 0, table.Cell{Text: "station", Place: row[0].Place})
	}
	return out
}

func onlyGirths(row []table.Cell) bool {
	for _, c := range row {
		if l := labelOf(parse.Fold(c.Text)); l.role == noRole || l.role == bothRoles || l.place != noPlace || measuredNumbers(c.Text) {
			return false
		}
	}
	return true
}

// onlyMeasures reports headings that each name a measure of the boat: one line
// of numbers below them is a table.
func onlyMeasures(row []table.Cell) bool {
	for _, c := range row {
		if labelOf(parse.Fold(c.Text)).measure == "" || measuredNumbers(c.Text) {
			return false
		}
	}
	return true
}

var rule = regexp.MustCompile(`^[-=+_|: ]+$`)

// tableEntry is a line of a typed table that fills only one of its columns: a
// station that was left empty, or the rule under the headings.
func tableEntry(l line) bool {
	return rule.MatchString(strings.TrimSpace(l.text))
}
