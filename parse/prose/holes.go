package prose

import (
	"slices"
	"strings"
)

// edges are the columns of a typed table that blanks line up.
type edges struct {
	begins map[int]int // how many lines have a cell that begins at an offset
	// starts and ends are those of the columns that more than half of the lines
	// share; there are none where tabs or bars part the cells.
	starts, ends []int
}

// edgesOf finds the columns of the lines up to the first blank one.
func edgesOf(lines []line) edges {
	begins, ends := map[int]int{}, map[int]int{}
	n, parted := 0, false
	for _, l := range lines {
		cut := split(l)
		if l.blank() || cut == nil && !tableEntry(l) {
			break
		}
		parted = parted || l.cells != nil || strings.ContainsAny(l.text, "\t|")
		n++
		for i, at := range cellOffsets(l, cut) {
			begins[at]++
			ends[at+len(cut[i])]++
		}
	}
	if parted {
		return edges{begins: begins}
	}
	common := func(count map[int]int) (list []int) {
		for at, times := range count {
			if times > 1 && 2*times > n {
				list = append(list, at)
			}
		}
		slices.Sort(list)
		return list
	}
	return edges{begins, common(begins), common(ends)}
}

// cellOffsets is where each cell begins in its line.
func cellOffsets(l line, cells []string) []int {
	var list []int
	from := 0
	for _, c := range cells {
		from += max(0, strings.Index(l.text[min(from, len(l.text)):], c))
		list = append(list, from)
		from += len(c)
	}
	return list
}

// place puts the cells of a line with holes into the columns over which they
// stand: "5 ft            76.5" has no hull girth. A line whose cells stand
// over no column stays as it is.
func (e edges) place(l line, cells []string) []string {
	for _, side := range []struct {
		columns []int
		at      func(start int, cell string) int
	}{
		{e.starts, func(start int, _ string) int { return start }},
		{e.ends, func(start int, cell string) int { return start + len(cell) }},
	} {
		if len(cells) >= len(side.columns) || l.cells != nil {
			continue
		}
		out := make([]string, len(side.columns))
		whole := true
		for i, start := range cellOffsets(l, cells) {
			k := slices.Index(side.columns, side.at(start, cells[i]))
			if whole = whole && k >= 0; whole {
				out[k] = cells[i]
			}
		}
		if whole {
			return out
		}
	}
	return cells
}
