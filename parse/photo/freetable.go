package photo

import (
	"fmt"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/parse/digits"
)

// freeTable is the numbers of a table, in rows and columns.
type freeTable struct {
	cells    [][]freeCell
	stations int // the column that holds them
}

// tableFrom finds the table of a page. ok is false where there is none. The rows
// of a printed sheet may be numbered beside the stations, from its head on; the
// stations are counted from the bow.
func tableFrom(lines [][]freeGlyph, height float64, closer closerLook) (t freeTable, ok bool) {
	const mostLead = 3 // the first stations may be left out, or hard to read
	least := mostLead + 1.0
	tokens := tokensOf(lines, height)
	for range 2 {
		stations, column := stationsOf(lines, tokens, height)
		if len(stations) < fewestRows {
			break
		}
		if found, fits := tableAt(lines, stations, column, height, closer); fits {
			if lead := found.lead(); lead < least {
				t, ok, least = found, true, lead
			}
		}
		if least == 0 {
			break
		}
		tokens = slices.DeleteFunc(tokens, func(t token) bool { return t.bounds.x0 < column.x1 && t.bounds.x1 > column.x0 })
	}
	return t, ok
}

// tableAt lays the lines that stand at stations into a table, with the columns
// that most of them fill.
func tableAt(lines [][]freeGlyph, stations []atStation, column box, height float64, closer closerLook) (t freeTable, ok bool) {
	rows := make([][]freeGlyph, len(stations))
	for i, s := range stations {
		for _, g := range lines[s.line] {
			rows[i] = append(rows[i], closer.sign(g))
		}
	}
	tilt, ok := tiltOf(rows, height)
	if !ok || math.Abs(tilt) > mostTilt {
		return t, false // its lines run across the rows
	}
	edges := withoutParts(rows, edgesOf(rows, height), height)
	all := make([][]freeCell, len(rows))
	for i, row := range rows {
		all[i] = cellsOf(row, edges, height, closer)
	}
	if math.Abs(tilt) > levelTilt && !level(all, stations) {
		return t, false
	}
	t.stations = -1
	var kept []int
	for j := range edges {
		filled, here := 0, false
		for i := range all {
			c := all[i][j]
			if c.text != "" {
				filled++
				here = here || c.bounds.x0 < column.x1 && c.bounds.x1 > column.x0
			}
		}
		if 2*filled < len(rows) {
			continue
		}
		if here && t.stations < 0 {
			t.stations = len(kept)
		}
		kept = append(kept, j)
	}
	if t.stations < 0 {
		return t, false
	}
	for i, s := range stations {
		line := make([]freeCell, len(kept))
		for k, j := range kept {
			line[k] = all[i][j]
			if !s.seen {
				line[k].doubt(justUnsure) // its place alone says which station it is
			}
		}
		doubtBeside(line, all[i], height)
		c := &line[t.stations]
		c.text, c.sure, c.others = fmt.Sprint(s.value), 1, nil
		t.cells = append(t.cells, line)
	}
	t.dropCounts()
	doubtClose(t.cells, t.stations, height)
	putPoints(t.cells, t.stations)
	doubtLong(t.cells)
	doubtStrays(t.cells, t.stations)
	return t, true
}

// mostTilt is the slope of the digits of a number above which the page was laid
// askew: evenly spaced rows and columns look straight in other slopes too, and
// then each number stands beside the station of another row. Hands that write
// uphill do so by 0.08; from levelTilt on the columns have to stand level, too.
const mostTilt, levelTilt = 0.1, 0.05

// level reports that the numbers of every column stand beside the stations, not
// between them, as they do in one of the columns of a page laid askew.
func level(cells [][]freeCell, stations []atStation) bool {
	const most = 0.25 // of a row
	last := len(stations) - 1
	pitch := (stations[last].y - stations[0].y) / float64(last)
	for j := range cells[0] {
		var off []float64
		for i, s := range stations {
			if c := cells[i][j]; c.text != "" {
				off = append(off, c.bounds.middle().y-s.y)
			}
		}
		slices.Sort(off)
		if len(off) > 0 && math.Abs(off[len(off)/2]) > most*pitch {
			return false
		}
	}
	return true
}

// tiltOf is how much the digits of one number rise beside each other, the median
// of all; ok is false where too few say so.
func tiltOf(rows [][]freeGlyph, height float64) (tilt float64, ok bool) {
	const fewest = 6
	var slopes []float64
	for _, row := range rows {
		for _, signs := range groups(row, height) {
			for i := 1; i < len(signs); i++ {
				a, b := signs[i-1], signs[i]
				if dx := b.bounds.middle().x - a.bounds.middle().x; a.kind == glyphDigit && b.kind == glyphDigit && dx > 0.3*height {
					slopes = append(slopes, (b.bounds.middle().y-a.bounds.middle().y)/dx)
				}
			}
		}
	}
	if len(slopes) < fewest {
		return 0, false
	}
	slices.Sort(slopes)
	return slopes[len(slopes)/2], true
}

// withoutParts leaves out edges between numbers and their halves: a column of
// nothing but "1/2" or single digits that stand close to the numbers before.
func withoutParts(rows [][]freeGlyph, edges []float64, height float64) []float64 {
	const close = 1.7 // heights of a digit: a space of a typewriter's
	for j := 1; j < len(edges); j++ {
		part, near := true, math.Inf(1)
		for _, row := range rows {
			before, here := signsFrom(row, edges, j-1, height), signsFrom(row, edges, j, height)
			if len(here) == 0 {
				continue
			}
			if len(before) == 0 || !isPart(here) {
				part = false
				break
			}
			near = min(near, here[0].bounds.x0-before[len(before)-1].bounds.x1)
		}
		if part && near < close*height {
			edges = slices.Delete(slices.Clone(edges), j-1, j)
			j--
		}
	}
	return edges
}

// isPart reports signs that can be what follows a whole number: a half.
func isPart(signs []freeGlyph) bool {
	if signs[0].kind == glyphPoint {
		signs = signs[1:]
	}
	switch len(signs) {
	case 0, 1:
		return true
	case 3:
		return signs[0].upright() && signs[1].upright() && signs[2].kind == glyphDigit && signs[2].digit == 2
	}
	return false
}

// signsFrom returns the signs of a row that stand in a column.
func signsFrom(row []freeGlyph, edges []float64, j int, height float64) []freeGlyph {
	var out []freeGlyph
	for _, g := range row {
		if x := g.bounds.middle().x; x < edges[j] && (j == 0 || x >= edges[j-1]) && (g.kind == glyphPoint || !g.speck(height)) {
			out = append(out, g)
		}
	}
	return out
}

// edgesOf finds the gaps that go through all rows, and returns where they end
// the columns.
func edgesOf(rows [][]freeGlyph, height float64) []float64 {
	x1 := 0.0
	for _, row := range rows {
		for _, g := range row {
			x1 = max(x1, g.bounds.x1)
		}
	}
	covered := make([]int, int(x1)+2)
	for _, row := range rows {
		for _, g := range row {
			if g.speck(height) {
				continue
			}
			for x := int(g.bounds.x0); x <= int(g.bounds.x1); x++ {
				covered[x]++
			}
		}
	}
	var edges []float64
	last := -1
	for x, n := range covered {
		if n == 0 {
			continue
		}
		if last >= 0 && float64(x-last) > gapHeights*height {
			edges = append(edges, float64(x+last)/2)
		}
		last = x
	}
	return append(edges, math.Inf(1))
}

func cellsOf(row []freeGlyph, edges []float64, height float64, closer closerLook) []freeCell {
	cells := make([]freeCell, len(edges))
	for j := range edges {
		signs := signsFrom(row, edges, j, height)
		cells[j] = cellOf(signs)
		if len(signs) > 0 && (cells[j].sure < parse.Sure || !fits(cells[j].text)) {
			cells[j] = closer.number(signs, cells[j])
		}
		if cells[j].marked(row, height) {
			cells[j].doubt(touching)
		}
	}
	return cells
}

// fill gives a reading what its cell says: how sure it is, and what else it may
// be. A number that is not counted in the survey's own unit, or that no girth
// has, is doubted.
func (c freeCell) fill(r *parse.Reading, unit parse.Unit) {
	v, ok := c.value()
	if !ok {
		return
	}
	sure := c.sure
	if low, high := girths(unit); v < low || v > high || r.Known && r.Value.In(unit) != v {
		sure = min(sure, touching)
	}
	if !r.Known {
		// What a doubtful cell may say, its signs tell better than its text.
		r.Value, r.Known, r.Confidence, r.Alternatives = parse.Measured(v, unit), true, parse.Typed, nil
	}
	r.Confidence = min(r.Confidence, sure)
	if r.Confidence < sure {
		return // what it means is doubted, not what it says
	}
	for _, o := range c.others {
		if v, ok := valueOf(o.text); ok && (o.probability >= leastAlternative || len(r.Alternatives) == 0) {
			r.Alternatives = append(r.Alternatives, parse.Candidate{Value: parse.Measured(v, unit), Probability: o.probability})
		}
	}
}

// girths are the least and the most that girths of small open boats have.
func girths(unit parse.Unit) (low, high float64) {
	const least, most = 6, 150 // inches
	if unit == parse.Centimetre {
		return 2.5 * least, 2.5 * most
	}
	return least, most
}

// closerLook reads again what was only glanced at.
type closerLook interface {
	sign(g freeGlyph) freeGlyph
	number(signs []freeGlyph, was freeCell) freeCell
}

// look is a way to read one shape.
type look func(*digits.Box) digits.Distribution
