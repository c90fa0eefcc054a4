package photo

import (
	"math"
	"slices"
)

// token is a whole number that stands by itself in a line.
type token struct {
	line   int
	bounds box
	value  float64
	signs  int
	sure   float64
}

func (t token) y() float64 { return t.bounds.middle().y }

// gapHeights is the gap, in heights of a digit, that parts one number from the next.
const gapHeights = 0.6

// tokensOf returns the numbers of the lines that may name a station: up to three
// digits, whatever letters follow them.
func tokensOf(lines [][]freeGlyph, height float64) []token {
	const most = 3
	var out []token
	for i, line := range lines {
		for _, group := range groups(line, height) {
			t := token{line: i, bounds: group[0].bounds, sure: 1}
			for _, g := range group {
				if !g.isDigit() || t.signs > most {
					break
				}
				t.value, t.sure, t.signs = 10*t.value+float64(g.digit), t.sure*g.sure, t.signs+1
				t.bounds = t.bounds.union(g.bounds)
			}
			if t.signs > 0 && t.signs <= most {
				out = append(out, t)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b token) int { return int(a.y() - b.y()) })
	return out
}

// groups parts a line where gaps are, and leaves specks out.
func groups(line []freeGlyph, height float64) [][]freeGlyph {
	var out [][]freeGlyph
	last := math.Inf(-1)
	for _, g := range line {
		if g.speck(height) {
			continue
		}
		if g.bounds.x0-last > gapHeights*height {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], g)
		last = max(last, g.bounds.x1)
	}
	return out
}

// atStation is a line of the page that stands at a station.
type atStation struct {
	line  int
	value float64
	y     float64
	seen  bool // it has a number, and which one is plain
}

// stationsOf finds the column of stations among tokens: numbers below each other that rise by
// even steps, with even distances, and the lines between them whose own number
// was not read. It is nil where there is none that is plain to see.
func stationsOf(lines [][]freeGlyph, tokens []token, height float64) (stations []atStation, column box) {
	var best []int
	var step, pitch float64
	for i, a := range tokens {
		for _, b := range tokens[i+1:] {
			s, p := b.value-a.value, b.y()-a.y()
			if p > 7*height {
				break
			}
			if s <= 0 || p < 1.1*height || !below(a, b, height) {
				continue
			}
			if c := chain(tokens, s, p, height); len(c) > len(best) || len(c) == len(best) && len(c) > 0 && tokens[c[0]].bounds.x0 < tokens[best[0]].bounds.x0-height {
				best, step, pitch = c, s, p
			}
		}
	}
	sure := 0
	for _, i := range best {
		if tokens[i].sure > likely {
			sure++
		}
	}
	if len(best) < fewestRows || sure < fewestRows {
		return nil, box{}
	}
	column = tokens[best[0]].bounds
	for n, i := range best {
		t := tokens[i]
		column = column.union(t.bounds)
		if n > 0 {
			stations = append(stations, between(lines, stations[len(stations)-1], atStation{line: t.line, value: t.value, y: t.y()}, step)...)
		}
		stations = append(stations, atStation{line: t.line, value: t.value, y: t.y(), seen: true})
	}
	stations = beyond(lines, stations, column, step, pitch, height)
	for i, s := range stations {
		within := i > 0 && i < len(stations)-1
		signs := signsIn(lines[s.line], column, height)
		stations[i].seen = s.seen || within && signs > 0 || signs == digitsOf(s.value)
	}
	return stations, column
}

// likely is the belief in a station's number from which it counts as read when
// the column is sought; its even steps prove it afterwards.
const likely = 0.5

// below reports numbers of one column: their left or right edges or their
// middles stand below each other.
func below(a, b token, height float64) bool {
	off := min(math.Abs(a.bounds.x0-b.bounds.x0), math.Abs(a.bounds.x1-b.bounds.x1), math.Abs(a.bounds.middle().x-b.bounds.middle().x))
	return off < 0.7*height
}

// chain is the longest row of numbers, each so many steps and about as many
// pitches below the one before.
func chain(tokens []token, step, pitch, height float64) []int {
	const (
		mostLost = 4   // numbers, one after the other, less one
		uneven   = 0.3 // of a distance
	)
	length, before := make([]int, len(tokens)), make([]int, len(tokens))
	last := -1
	for i, b := range tokens {
		length[i], before[i] = 1, -1
		for j := i - 1; j >= 0; j-- {
			a := tokens[j]
			n := (b.value - a.value) / step
			if b.y()-a.y() > (1+uneven)*mostLost*pitch {
				break
			}
			if n < 1 || n > mostLost || n != math.Round(n) || !below(a, b, height) || math.Abs((b.y()-a.y())/(n*pitch)-1) > uneven {
				continue
			}
			if length[j]+1 > length[i] {
				length[i], before[i] = length[j]+1, j
			}
		}
		if last < 0 || length[i] > length[last] {
			last = i
		}
	}
	var out []int
	for i := last; i >= 0; i = before[i] {
		out = append(out, i)
	}
	slices.Reverse(out)
	return out
}

// between returns the lines between two stations that stand where those
// between them should.
func between(lines [][]freeGlyph, a, b atStation, step float64) []atStation {
	const off = 0.25 // of a step
	var out []atStation
	n := (b.value - a.value) / step
	for k := a.line + 1; k < b.line; k++ {
		y := middleOf(lines[k])
		part := (y - a.y) / (b.y - a.y) * n
		whole := math.Round(part)
		if whole < 1 || whole >= n || math.Abs(part-whole) > off {
			continue
		}
		value := a.value + whole*step
		if len(out) == 0 || out[len(out)-1].value < value {
			out = append(out, atStation{line: k, value: value, y: y})
		}
	}
	return out
}

// beyond adds stations before the first and after the last whose number was
// misread. There is none at the bow itself.
func beyond(lines [][]freeGlyph, stations []atStation, column box, step, pitch, height float64) []atStation {
	next := func(from atStation, way int) (atStation, bool) {
		value := from.value + float64(way)*step
		for k := from.line + way; k >= 0 && k < len(lines); k += way {
			y := middleOf(lines[k])
			off := math.Abs(y-from.y) / pitch
			if off > 1.3 || value <= 0 {
				break
			}
			if off > 0.7 && signsIn(lines[k], column, height) == digitsOf(value) {
				return atStation{line: k, value: value, y: y}, true
			}
		}
		return atStation{}, false
	}
	for s, ok := next(stations[0], -1); ok; s, ok = next(s, -1) {
		stations = slices.Insert(stations, 0, s)
	}
	for s, ok := next(stations[len(stations)-1], 1); ok; s, ok = next(s, 1) {
		stations = append(stations, s)
	}
	return stations
}

// signsIn counts the signs of a line that stand in a column.
func signsIn(line []freeGlyph, column box, height float64) int {
	n := 0
	for _, g := range line {
		if x := g.bounds.middle().x; !g.speck(height) && x > column.x0-height/4 && x < column.x1+height/4 {
			n++
		}
	}
	return n
}

func digitsOf(v float64) int { return 1 + int(math.Log10(max(v, 1))+1e-9) }

// middleOf is how far down a line stands: the median of its signs.
func middleOf(line []freeGlyph) float64 {
	var ys []float64
	for _, g := range line {
		if g.isDigit() {
			ys = append(ys, g.bounds.middle().y)
		}
	}
	if len(ys) == 0 {
		return line[0].bounds.middle().y
	}
	slices.Sort(ys)
	return ys[len(ys)/2]
}

// lead is how many stations there would be before the first row with two numbers
// that are plain to read: words look like numbers, too.
func (t freeTable) lead() float64 {
	step := leastStep(append([]float64{0}, t.places()...))
	for _, line := range t.cells {
		numbers := 0
		for j, c := range line {
			if _, ok := c.value(); ok && j != t.stations && c.sure > touching {
				numbers++
			}
		}
		if numbers >= 2 {
			at, _ := line[t.stations].value()
			return max(0, math.Round(at/step-1))
		}
	}
	return math.Inf(1)
}

// places are where the stations of a table are, as it counts them.
func (t freeTable) places() []float64 {
	var out []float64
	for _, line := range t.cells {
		at, _ := line[t.stations].value()
		out = append(out, at)
	}
	return out
}

// leastStep is the least distance between places that follow each other.
func leastStep(places []float64) float64 {
	step := math.Inf(1)
	for i := 1; i < len(places); i++ {
		if places[i] > places[i-1] {
			step = min(step, places[i]-places[i-1])
		}
	}
	return step
}

// dropCounts leaves out what rises by ones before the stations: the numbers of a
// sheet's rows.
func (t *freeTable) dropCounts() {
	for j := t.stations - 1; j >= 0; j-- {
		counts := true
		for i := 1; i < len(t.cells) && counts; i++ {
			before, _ := t.cells[i-1][j].value()
			here, _ := t.cells[i][j].value()
			counts = here == before+1
		}
		if !counts {
			continue
		}
		for i, line := range t.cells {
			t.cells[i] = slices.Delete(line, j, j+1)
		}
		t.stations--
	}
}
