package photo

import (
	"cmp"
	"math"
	"slices"
)

// parted reads signs that touch, parted where they are paler or else cut where
// the least ink is; nil where they do not look like such.
func parted(f *freePage, s shape, usual float64, see look) []freeGlyph {
	const (
		sureWhole = 0.9  // no need to part it
		sureCut   = 0.97 // of the worst piece: no need to look for a better cut
	)
	if !f.isRun(s, usual) {
		return nil
	}
	if g := glyph(f, s, see); g.kind == glyphSlash || g.kind == glyphDigit && g.sure >= sureWhole && g.digit != 1 {
		return nil
	}
	best, worst := f.partsOf(f.loosened(s), usual, see)
	n := max(2, int(s.bounds.width()/(1.08*usual)+0.5))
	if len(best) > n && !slices.ContainsFunc(best, freeGlyph.upright) {
		best, worst = nil, 0 // more signs than there is room for: one fell apart
	}
	for _, pieces := range f.cuts(s, n) {
		if worst > sureCut {
			break
		}
		for i := range pieces {
			pieces[i].cut = true
		}
		if parts, least := f.partsOf(pieces, math.Inf(1), see); least > worst {
			best, worst = parts, least
		}
	}
	return best
}

// partsOf reads the pieces of a shape, and parts those again that are wider than
// usual. least is the belief in the worst of them, 0 where that is no sign.
func (f *freePage) partsOf(pieces []shape, usual float64, see look) (parts []freeGlyph, least float64) {
	const enough = 0.3 // to be weighed with the rest of the boat
	if len(pieces) == 0 {
		return nil, 0
	}
	least = 1
	for _, piece := range pieces {
		signs := parted(f, piece, usual, see)
		if signs == nil {
			signs = []freeGlyph{glyph(f, piece, see)}
		}
		for _, g := range signs {
			if g.kind == glyphOther {
				return nil, 0
			}
			least = min(least, g.sure)
			parts = append(parts, g)
		}
	}
	if least < enough {
		return nil, 0
	}
	return parts, least
}

// loosened parts a shape where its signs hang together by pale ink alone: a
// picture that is not quite sharp smears them into each other. It is nil where
// they do not come apart.
func (f *freePage) loosened(s shape) []shape {
	w := f.straight.w
	for share := float32(0.5); share < 0.9; share += 0.05 {
		dark := map[int]int{} // by pixel, its piece from 1; 0 not yet known
		for _, i := range s.pixels {
			if f.dark[i] > share*f.pen {
				dark[i] = 0
			}
		}
		pieces, tall := 0, []int{}
		var front []int
		for _, start := range s.pixels {
			if piece, ok := dark[start]; !ok || piece > 0 {
				continue
			}
			pieces++
			dark[start] = pieces
			y0, y1 := start/w, start/w
			for stack := []int{start}; len(stack) > 0; {
				i := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				y0, y1 = min(y0, i/w), max(y1, i/w)
				for _, k := range [4]int{i - w, i - 1, i + 1, i + w} {
					if piece, ok := dark[k]; ok && piece == 0 {
						dark[k] = pieces
						stack = append(stack, k)
					}
				}
			}
			if float64(y1-y0+1) > 0.55*f.height {
				tall = append(tall, pieces)
			}
		}
		if len(tall) < 2 {
			continue
		}
		// Every other pixel goes to the piece that it is nearest to.
		owner := map[int]int{}
		for i, piece := range dark {
			if slices.Contains(tall, piece) {
				owner[i] = piece
				front = append(front, i)
			}
		}
		slices.Sort(front) // so that one picture is always read the same
		own := map[int]bool{}
		for _, i := range s.pixels {
			own[i] = true
		}
		for len(front) > 0 {
			i := front[0]
			front = front[1:]
			for _, k := range around(i, w) {
				if _, ok := owner[k]; own[k] && !ok {
					owner[k] = owner[i]
					front = append(front, k)
				}
			}
		}
		return f.shapesOf(s, len(tall), func(i int) int { return slices.Index(tall, owner[i]) })
	}
	return nil
}

// around are the eight pixels around one.
func around(i, w int) [8]int {
	return [8]int{i - w - 1, i - w, i - w + 1, i - 1, i + 1, i + w - 1, i + w, i + w + 1}
}

// shapesOf deals the pixels of a shape out to n, from the left.
func (f *freePage) shapesOf(s shape, n int, to func(pixel int) int) []shape {
	w := f.straight.w
	pieces := make([]shape, n)
	for k := range pieces {
		pieces[k].bounds = box{math.Inf(1), math.Inf(1), 0, 0}
	}
	for _, i := range s.pixels {
		k := to(i)
		if k < 0 {
			continue
		}
		x, y := float64(i%w), float64(i/w)
		pieces[k].pixels = append(pieces[k].pixels, i)
		pieces[k].bounds = pieces[k].bounds.union(box{x, y, x + 1, y + 1})
	}
	slices.SortFunc(pieces, func(a, b shape) int { return int(a.bounds.middle().x - b.bounds.middle().x) })
	return pieces
}

// cuts are ways to part a shape into n from the left, upright or leaning, where
// the least ink is near where even parts would end; the likelier ones first.
func (f *freePage) cuts(s shape, n int) [][]shape {
	type cut struct {
		cost float64
		to   func(pixel int) int
	}
	var all []cut
	for _, lean := range []float64{0, 0.2, -0.2, 0.4} {
		across := func(i int) float64 {
			y := float64(i/f.straight.w) - s.bounds.middle().y
			return float64(i%f.straight.w) + y*lean - s.bounds.x0
		}
		columns, from := f.columns(s, across)
		at := lows(columns, n)
		for way := range at[0] {
			edges := make([]int, n-1)
			c := cut{}
			for k := range edges {
				edges[k] = at[k][min(way, len(at[k])-1)]
				c.cost += columns[edges[k]]
			}
			c.to = func(i int) int {
				k := 0
				for k < len(edges) && int(across(i)-from) >= edges[k] {
					k++
				}
				return k
			}
			all = append(all, c)
			if n > 2 {
				break // only two parts are tried in several ways
			}
		}
	}
	slices.SortStableFunc(all, func(a, b cut) int { return cmp.Compare(a.cost, b.cost) })
	const tried = 5
	var out [][]shape
	for _, c := range all[:min(len(all), tried)] {
		out = append(out, f.shapesOf(s, n, c.to))
	}
	return out
}

// columns is the ink of a shape in columns, as wide as pixels, that may lean, and
// where the first one is.
func (f *freePage) columns(s shape, across func(pixel int) float64) (columns []float64, from float64) {
	from, to := math.Inf(1), math.Inf(-1)
	for _, i := range s.pixels {
		from, to = min(from, across(i)), max(to, across(i))
	}
	columns = make([]float64, int(to-from)+1)
	for _, i := range s.pixels {
		columns[int(across(i)-from)] += float64(f.dark[i])
	}
	return columns, from
}

// lows are, for each of n-1 cuts, the columns with the least ink near where even
// parts would end, the best first.
func lows(columns []float64, n int) [][]int {
	const near = 0.42 // of a part: digits are not as wide as each other
	even := float64(len(columns)) / float64(n)
	var out [][]int
	for k := 1; k < n; k++ {
		cost := func(x int) float64 {
			off := (float64(x) - float64(k)*even) / even
			return columns[x] + off*off
		}
		var may []int
		for x := max(int((float64(k)-near)*even), 1); x <= min(int((float64(k)+near)*even), len(columns)-2); x++ {
			if cost(x) < cost(x-1) && cost(x) <= cost(x+1) {
				may = append(may, x)
			}
		}
		if len(may) == 0 {
			may = []int{int(float64(k) * even)}
		}
		slices.SortFunc(may, func(a, b int) int { return cmp.Compare(cost(a), cost(b)) })
		out = append(out, may)
	}
	return out
}
