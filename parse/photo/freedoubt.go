package photo

import (
	"slices"

	"fairtape/parse"
)

// Doubts about the numbers of a table that their signs alone do not raise.

// doubtBeside doubts numbers close to signs that belong to no column.
func doubtBeside(line, all []freeCell, height float64) {
	const close = 1.5
	for _, o := range all {
		if o.bounds == (box{}) {
			continue
		}
		for k := range line {
			c := &line[k]
			if c.bounds == o.bounds || c.bounds == (box{}) {
				continue
			}
			if gap := max(o.bounds.x0-c.bounds.x1, c.bounds.x0-o.bounds.x1); gap < close*height && !held(line, o) {
				c.doubt(cutOff)
			}
		}
	}
}

func held(line []freeCell, c freeCell) bool {
	for _, k := range line {
		if k.bounds == c.bounds {
			return true
		}
	}
	return false
}

// doubtCut doubts numbers close behind which there is more ink than a line of the
// table has: the last sign of the number may touch that line.
func doubtCut(cells [][]freeCell, large []shape, w int, height float64) {
	const (
		near, within = 0.8, 0.15 // heights of a digit, behind it and from its head and foot
		most         = 0.12      // heights squared: twice a line across
	)
	for _, line := range cells {
		for j := range line {
			c := &line[j]
			if c.text == "" {
				continue
			}
			ink := 0
			for _, s := range large {
				if s.bounds.x1 < c.bounds.x1 || s.bounds.x0 > c.bounds.x1+near*height || s.bounds.y1 < c.bounds.y0 || s.bounds.y0 > c.bounds.y1 {
					continue
				}
				for _, i := range s.pixels {
					x, y := float64(i%w), float64(i/w)
					if x > c.bounds.x1 && x < c.bounds.x1+near*height && y > c.bounds.y0+within*height && y < c.bounds.y1-within*height {
						ink++
					}
				}
			}
			if float64(ink) > most*height*height {
				c.doubt(cutOff)
			}
		}
	}
}

// doubtClose doubts numbers beside which the next begins so close that it may be
// a part of them.
func doubtClose(cells [][]freeCell, stations int, height float64) {
	const close = 1.2
	for _, line := range cells {
		for j := 1; j < len(line); j++ {
			a, b := &line[j-1], &line[j]
			if j-1 != stations && a.text != "" && b.text != "" && b.bounds.x0-a.bounds.x1 < close*height {
				a.doubt(touching)
			}
		}
	}
}

// doubtLong doubts numbers with more digits than a measure of a boat has.
func doubtLong(cells [][]freeCell) {
	for i := range cells {
		for j := range cells[i] {
			if c := &cells[i][j]; c.text != "" && !fits(c.text) {
				c.doubt(touching)
			}
		}
	}
}

// doubtStrays doubts numbers that are far from their neighbours above and below:
// a point that was not seen, a speck taken for one, or a piece of a line for a 1.
func doubtStrays(cells [][]freeCell, stations int) {
	last := len(cells) - 1
	for j := range cells[0] {
		if j == stations {
			continue
		}
		strays := make([]bool, len(cells))
		for i := range cells {
			strays[i] = isStray(cells, i, j, 3)
		}
		for i, stray := range strays {
			// Towards an end girths fall off fast.
			if stray && i == 0 && !strays[1] || stray && i == last && !strays[last-1] {
				stray = isStray(cells, i, j, 1)
			}
			if stray || cells[i][j].sure < parse.Sure && i > 0 && i < last && beyondBoth(cells[i-1][j], cells[i][j], cells[i+1][j]) {
				cells[i][j].doubt(touching)
			}
		}
	}
}

// isStray reports a number that is far from the middle one of those within
// so many rows, of the surer ones where there are some.
func isStray(cells [][]freeCell, i, j, within int) bool {
	const far = 1.8 // times, or less than its inverse
	v, ok := cells[i][j].value()
	var near, surer []float64
	for k := max(i-within, 0); k <= min(i+within, len(cells)-1); k++ {
		if o, ok := cells[k][j].value(); ok && k != i {
			near = append(near, o)
			if cells[k][j].sure > touching {
				surer = append(surer, o)
			}
		}
	}
	if len(surer) > 1 {
		near = surer
	}
	if !ok || len(near) == 0 {
		return false
	}
	slices.Sort(near)
	middle := near[len(near)/2]
	return v > far*middle || v < middle/far
}

// beyondBoth reports a number well above or below those of both neighbours.
func beyondBoth(before, c, after freeCell) bool {
	const far = 1.2 // times
	a, known := before.value()
	b, too := after.value()
	v, ok := c.value()
	return ok && known && too && (v > far*max(a, b) || far*v < min(a, b))
}
