package pdf

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Gaps between characters of a line, as parts of the size of the print. A
// space is a quarter of it, or six tenths where all characters are as wide, a
// gap between columns seldom under the whole. Two blanks part columns too.
const (
	spaceGap  = 0.13
	columnGap = 0.85
)

// sameLine is how much two characters overlap in height at least when they
// stand on one line.
const sameLine = 0.5

// cell is text that stands together on one line.
type cell struct {
	text    string
	box     box
	high    float64 // the highest line that its print stands on
	low     float64 // and the lowest
	hidden  bool    // it is not seen on the page
	field   *field  // that it is the value of, else nil
	differs bool    // the field shows something else than it holds
	digits  []glyph // in it, that are looked at where it is read
	place   string
}

// grid lays a page out in rows and columns.
func (s *sheet) grid(p *page) table.Grid {
	lines := p.lines()
	for i, line := range lines {
		for j := range line {
			c := &line[j]
			if c.place == "" {
				c.place = fmt.Sprintf("page %d, line %d, item %d", p.number, i+1, j+1)
			}
			s.judge(p, c)
		}
	}
	lines = apartBlocks(s.joinUnits(dropHidden(s.joinTicks(p, lines))))
	columns := columnsOf(lines)
	grid := table.Grid{Name: fmt.Sprintf("page %d", p.number)}
	for _, line := range lines {
		if len(line) == 1 && pageNumber.MatchString(line[0].text) {
			continue
		}
		grid.Rows = append(grid.Rows, rowOf(line, columns))
	}
	return grid
}

// rowOf puts the cells of a line into columns. A heading that lies over several
// of them, with nothing else there on its line, spans those.
func rowOf(line []cell, columns []column) []table.Cell {
	row := make([]table.Cell, len(columns))
	for k, c := range line {
		i, across := nearest(columns, c.box), 1
		if first, n := over(columns, c.box); n > 1 && !hasDigit(c.text) && !othersOver(line, k, columns[first:first+n]) {
			i, across = first, n
		}
		for i < len(row) && row[i].Text != "" {
			i++
		}
		if i == len(row) {
			row = append(row, table.Cell{})
		}
		row[i] = table.Cell{Text: c.text, Place: c.place, Across: across}
	}
	return row
}

// over finds the columns that a box lies over: the first, and how many.
func over(columns []column, b box) (first, n int) {
	for i, c := range columns {
		if c.meets(column{b.x0, b.x1}) {
			if n == 0 {
				first = i
			}
			n++
		}
	}
	return first, n
}

func othersOver(line []cell, k int, columns []column) bool {
	for i, c := range line {
		if _, n := over(columns, c.box); i != k && n > 0 {
			return true
		}
	}
	return len(line) == 1
}

// pageNumber is what a program prints at the foot of a page.
var pageNumber = regexp.MustCompile(`^(?i:page\s*\d+(?:\s*(?:of|/|sur|de)\s*\d+)?|\d+\s*(?:of|/|sur)\s*\d+|-\s*\d+\s*-)$`)

// judge keeps a number, to be looked at where it is read. Text that is not seen
// is no reading at all.
func (s *sheet) judge(p *page, c *cell) {
	switch {
	case !hasDigit(c.text):
	case c.hidden:
		s.problem(CodeNotShown, c.place, c.text, "There is a number in the file here that is not seen on the page.")
	default:
		s.stands[c.place] = append(s.stands[c.place], standing{p, *c})
	}
}

func dropHidden(lines [][]cell) [][]cell {
	var kept [][]cell
	for _, line := range lines {
		line = slices.DeleteFunc(line, func(c cell) bool { return c.hidden })
		if len(line) > 0 {
			kept = append(kept, line)
		}
	}
	return kept
}

func (p *page) fieldBetween(a, b glyph) bool {
	for _, f := range p.fields {
		if f.box.y0 < b.tight.middle() && b.tight.middle() < f.box.y1 && f.box.x0 >= a.tight.x1-1 && f.box.x1 <= b.tight.x0+1 {
			return true
		}
	}
	return false
}

// ruled reports a drawn upright line between two characters: a column of
// pixels that is darker than the paper from above the line of text to below.
func (p *page) ruled(x0, x1 float64, line box) bool {
	if p.paper == nil || x1-x0 < 1 {
		return false
	}
	scale := float64(p.paper.Rect.Dx()) / p.width()
	top, bottom := int(line.y0*scale), int(line.y1*scale)
	for x := int(math.Floor(x0 * scale)); x <= int(x1*scale); x++ {
		dark := 0
		for y := top; y < bottom; y++ {
			if p.paper.GrayAt(x, y).Y < 255-inkContrast && x >= 0 && x < p.paper.Rect.Dx() && y >= 0 && y < p.paper.Rect.Dy() {
				dark++
			}
		}
		if bottom > top && dark*10 >= (bottom-top)*9 && !p.shaded(x, (top+bottom)/2) {
			return true
		}
	}
	return false
}

// ruleWidth is how wide in pixels a drawn line is at most; what is wider is a
// shaded cell.
const ruleWidth = 6

func (p *page) shaded(x, y int) bool {
	n := 0
	for dx := -ruleWidth; dx <= ruleWidth; dx++ {
		if q := x + dx; q >= 0 && q < p.paper.Rect.Dx() && p.paper.GrayAt(q, y).Y < 255-inkContrast {
			n++
		}
	}
	return n > ruleWidth
}

// width is that of the page as it is shown, in points.
func (p *page) width() float64 {
	x0, _ := p.view.point(float64(p.view.frame.Left), float64(p.view.frame.Bottom))
	x1, _ := p.view.point(float64(p.view.frame.Right), float64(p.view.frame.Top))
	return math.Abs(x1 - x0)
}

// column is a range of x that cells of one column share.
type column struct{ x0, x1 float64 }

// columnsOf finds the columns that the numbers and short words of lines with
// several cells stand in. Titles and sentences belong to the one they begin in.
func columnsOf(lines [][]cell) []column {
	numbers := make([][]column, len(lines))
	for i, line := range lines {
		if len(line) < 2 {
			continue
		}
		for _, c := range line {
			if hasDigit(c.text) && len(c.text) <= 16 {
				numbers[i] = append(numbers[i], column{c.box.x0, c.box.x1})
			}
		}
	}
	columns := apart(merge(slices.Concat(numbers...)), numbers)
	var words []column
	for _, line := range lines {
		for _, c := range line {
			span := column{c.box.x0, c.box.x1}
			if !slices.ContainsFunc(columns, span.meets) {
				words = append(words, span)
			}
		}
	}
	columns = append(columns, merge(words)...)
	slices.SortFunc(columns, func(a, b column) int { return cmp.Compare(a.x0, b.x0) })
	return columns
}

func (c column) meets(o column) bool { return c.x0 < o.x1 && o.x0 < c.x1 }

// apart divides the columns in which one line has two numbers: a wide cell
// elsewhere on the page lies over both, and belongs to neither.
func apart(columns []column, lines [][]column) []column {
	lines = tableFirst(lines)
	var out []column
	for _, c := range columns {
		var inside []column
		shared := false
		for _, line := range lines {
			n := 0
			for _, span := range line {
				if span.meets(c) {
					inside = append(inside, span)
					n++
				}
			}
			shared = shared || n > 1
		}
		if shared {
			out = append(out, inTurn(inside)...)
		} else {
			out = append(out, c)
		}
	}
	return out
}

// tableFirst puts the lines that are like most others first: by how many
// numbers stand in lines of as many.
func tableFirst(lines [][]column) [][]column {
	count := map[int]int{}
	for _, line := range lines {
		count[len(line)] += len(line)
	}
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b []column) int { return cmp.Compare(count[len(b)], count[len(a)]) })
	return lines
}

// inTurn makes columns of spans, and leaves out those that lie over two of the
// columns before them.
func inTurn(spans []column) []column {
	var out []column
	for _, s := range spans {
		first := slices.IndexFunc(out, s.meets)
		switch {
		case first < 0:
			out = append(out, s)
		case !slices.ContainsFunc(out[first+1:], s.meets):
			out[first] = column{min(out[first].x0, s.x0), max(out[first].x1, s.x1)}
		}
	}
	return out
}

func merge(spans []column) []column {
	slices.SortFunc(spans, func(a, b column) int { return cmp.Compare(a.x0, b.x0) })
	var out []column
	for _, s := range spans {
		if n := len(out); n > 0 && out[n-1].meets(s) {
			out[n-1].x1 = max(out[n-1].x1, s.x1)
			continue
		}
		out = append(out, s)
	}
	return out
}

// nearest is the column that shares most with a box, else the one closest.
func nearest(columns []column, b box) int {
	best, most := 0, math.Inf(-1)
	for i, c := range columns {
		if shared := min(c.x1, b.x1) - max(c.x0, b.x0); shared > most {
			best, most = i, shared
		}
	}
	return best
}

// text is what a field holds, "" for one that is no text.
func (f *field) text() string {
	return strings.Join(strings.Fields(f.value), " ")
}

// lines is what a field holds, line by line; none for one that is no text.
func (f *field) lines() (lines []string) {
	for _, l := range strings.FieldsFunc(f.value, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if l = strings.Join(strings.Fields(l), " "); l != "" {
			lines = append(lines, l)
		}
	}
	return lines
}

// line is the part of a field's box that its text stands in.
func (f *field) line() box {
	if len(f.shown) == 0 {
		return f.box
	}
	b := f.shown[0].loose
	for _, g := range f.shown[1:] {
		b = b.join(g.loose)
	}
	return b
}

func (f *field) cell(page int) cell {
	c := cell{text: f.text(), box: f.box, field: f, place: f.place(page)}
	var shown strings.Builder
	seen := true
	for _, g := range f.shown {
		shown.WriteRune(g.char)
		seen = seen && g.seen
		c.digits = g.join(c.digits)
	}
	c.differs = !seen || squeeze(shown.String()) != squeeze(f.text())
	c.hidden = len(f.shown) == 0 || !seen && squeeze(shown.String()) == squeeze(f.text())
	return c
}

// unplaced is the problem of a number that belongs to no measure.
func (s *sheet) unplaced(place, raw string) {
	s.problem(parse.CodeUnplaced, place, raw, "This number belongs to no measure that is known.")
}
