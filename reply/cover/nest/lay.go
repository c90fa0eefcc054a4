package nest

import (
	"math"
	"slices"
)

// shape is a piece turned one way, its lowest corner at the origin, cut into
// columns.
type shape struct {
	cell      float64   // inches along the roll
	low, high []float64 // of each column
	width     float64
	length    float64
	dx, dy    float64 // from the turned outline to the shape
}

func newShape(p Piece, turned bool, cell float64) shape {
	outline := Placed{Piece: 0, Turned: turned}.Outline([]Piece{p})
	least, most := bounds(outline)
	s := shape{cell: cell, dx: -least.X, dy: -least.Y, width: most.Y - least.Y, length: most.X - least.X}
	n := max(int(math.Ceil(s.length/cell)), 1)
	s.low, s.high = make([]float64, n), make([]float64, n)
	for i := range n {
		s.low[i], s.high[i] = math.Inf(1), math.Inf(-1)
	}
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		s.cover(Point{a.X + s.dx, a.Y + s.dy}, Point{b.X + s.dx, b.Y + s.dy})
	}
	return s
}

// cover widens the columns that a side of the outline runs through.
func (s *shape) cover(a, b Point) {
	if a.X > b.X {
		a, b = b, a
	}
	first, last := s.column(a.X), s.column(b.X)
	// A point on the border of two columns belongs to both.
	first = max(min(first, s.column(a.X-1e-9)), 0)
	for k := first; k <= last; k++ {
		from, to := math.Max(a.X, float64(k)*s.cell), math.Min(b.X, float64(k+1)*s.cell)
		for _, x := range []float64{from, to} {
			y := a.Y
			if b.X > a.X {
				y = a.Y + (b.Y-a.Y)*min(max((x-a.X)/(b.X-a.X), 0), 1)
			}
			s.low[k], s.high[k] = math.Min(s.low[k], y), math.Max(s.high[k], y)
		}
		if a.X == b.X {
			s.low[k], s.high[k] = math.Min(s.low[k], b.Y), math.Max(s.high[k], b.Y)
		}
	}
}

func (s *shape) column(x float64) int {
	return min(max(int(x/s.cell), 0), len(s.low)-1)
}

// clash says, for each number of columns that b lies behind a, between which
// heights of b over a the two overlap.
type clash struct {
	first int // columns of the first entry, negative
	down  []float64
	up    []float64
}

func newClash(a, b shape) clash {
	c := clash{first: 1 - len(b.low)}
	for shift := c.first; shift < len(a.low); shift++ {
		down, up := math.Inf(-1), math.Inf(-1)
		for i := max(shift, 0); i < min(len(a.low), len(b.low)+shift); i++ {
			up = math.Max(up, a.high[i]-b.low[i-shift])
			down = math.Max(down, b.high[i-shift]-a.low[i])
		}
		c.down, c.up = append(c.down, -down-Clearance), append(c.up, up+Clearance)
	}
	return c
}

// bench lays pieces in some order.
type bench struct {
	cell    float64
	width   float64
	shapes  [][2]shape // not turned, turned
	clashes []*clash   // of each two shapes, made when they first meet
}

func newBench(pieces []Piece, width, cell float64) *bench {
	b := &bench{cell: cell, width: width, clashes: make([]*clash, 4*len(pieces)*len(pieces))}
	for _, p := range pieces {
		b.shapes = append(b.shapes, [2]shape{newShape(p, false, cell), newShape(p, true, cell)})
	}
	return b
}

// choice is an order of the pieces, and how each lies.
type choice struct {
	order []int
	turn  []bool
	high  []bool // the piece is laid to the far edge of the roll where it can be
}

// spot is where a shape lies, in columns along the roll and inches across it.
type spot struct {
	piece, turn, column int
	y                   float64
}

// mostTries bounds the search. A cover of two panels has 32 choices, all of them
// neighbours of each other or nearly; a few covers on one roll gain little after
// so many.
const mostTries = 1500

// Lay lays the pieces on a roll of the given usable width, using up as little
// of its length as the search finds. The error wraps ErrTooWide.
func Lay(pieces []Piece, width float64) (Layout, error) {
	if err := check(pieces, width); err != nil {
		return Layout{}, err
	}
	l := Layout{Width: width}
	for _, p := range pieces {
		l.Area += Area(p.Outline)
	}
	if len(pieces) == 0 {
		return l, nil
	}
	b := newBench(pieces, width, fine)
	spots, length := b.lay(newBench(pieces, width, coarse).search())
	if boxes, err := Boxes(pieces, width); err == nil && boxes.Length <= length {
		return boxes, nil // outlines that do not help only cost chalk
	}
	for _, s := range spots {
		shape := b.shapes[s.piece][s.turn]
		l.Placed = append(l.Placed, Placed{
			Piece: s.piece, Turned: s.turn == 1,
			At: Point{float64(s.column)*b.cell + shape.dx, s.y + shape.dy},
		})
	}
	l.Length = length
	return l, nil
}

// search tries every choice where there are few, else betters one by exchanging
// and turning pieces until nothing helps.
func (b *bench) search() choice {
	n := len(b.shapes)
	c := choice{order: make([]int, n), turn: make([]bool, n), high: make([]bool, n)}
	for i := range n {
		c.order[i], c.high[i], c.turn[i] = i, i%2 == 1, i%2 == 1
	}
	slices.SortStableFunc(c.order, func(i, j int) int {
		switch d := b.shapes[j][0].length - b.shapes[i][0].length; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	_, length := b.lay(c)
	tries := 0
	for better := true; better && tries < mostTries; {
		better = false
		for _, next := range c.neighbours() {
			tries++
			if _, l := b.lay(next); l < length-1e-9 {
				c, length, better = next, l, true
				break
			}
			if tries >= mostTries {
				break
			}
		}
	}
	return c
}

// neighbours returns the choices that differ in one piece's lie, or in one or
// two pieces' lie and the order of two.
func (c choice) neighbours() []choice {
	var all []choice
	edit := func(change func(*choice)) {
		n := choice{slices.Clone(c.order), slices.Clone(c.turn), slices.Clone(c.high)}
		change(&n)
		all = append(all, n)
	}
	for i := range c.order {
		for lie := 1; lie < 4; lie++ {
			edit(func(n *choice) { n.flip(i, lie) })
		}
		for j := range i {
			for lie := range 16 {
				edit(func(n *choice) {
					n.order[i], n.order[j] = n.order[j], n.order[i]
					n.flip(i, lie&3)
					n.flip(j, lie>>2)
				})
				if lie&3 != 0 && lie>>2 != 0 {
					edit(func(n *choice) { n.flip(i, lie&3); n.flip(j, lie>>2) })
				}
			}
		}
	}
	return all
}

// flip turns the i-th piece (bit 0) and sends it to the other edge (bit 1).
func (c *choice) flip(i, lie int) {
	if lie&1 != 0 {
		c.turn[i] = !c.turn[i]
	}
	if lie&2 != 0 {
		c.high[i] = !c.high[i]
	}
}

// lay puts the pieces down one after the other, each as near to the cut end of
// the roll as it goes.
func (b *bench) lay(c choice) ([]spot, float64) {
	var spots []spot
	length := 0.0
	for k, piece := range c.order {
		turn := 0
		if c.turn[k] {
			turn = 1
		}
		s := b.put(spots, piece, turn, c.high[k])
		spots = append(spots, s)
		length = math.Max(length, float64(s.column)*b.cell+b.shapes[piece][turn].length)
	}
	return spots, length
}

func (b *bench) put(spots []spot, piece, turn int, high bool) spot {
	room := b.width - b.shapes[piece][turn].width
	for column := 0; ; column++ {
		if y, ok := b.fit(spots, piece, turn, column, room, high); ok {
			return spot{piece, turn, column, y}
		}
	}
}

// fit returns the height nearest to the wanted edge at which the piece lies
// free.
func (b *bench) fit(spots []spot, piece, turn, column int, room float64, high bool) (float64, bool) {
	y, way := 0.0, 1.0
	if high {
		y, way = room, -1
	}
	for moved := true; moved; {
		moved = false
		for _, s := range spots {
			c := b.clash(s.piece, s.turn, piece, turn)
			k := column - s.column - c.first
			if k < 0 || k >= len(c.up) {
				continue
			}
			over := y - s.y
			if over > c.down[k]+1e-9 && over < c.up[k]-1e-9 {
				if way > 0 {
					y = s.y + c.up[k]
				} else {
					y = s.y + c.down[k]
				}
				moved = true
			}
		}
		if y < -1e-9 || y > room+1e-9 {
			return 0, false
		}
	}
	return y, true
}

func (b *bench) clash(p, pt, q, qt int) *clash {
	at := (2*p+pt)*2*len(b.shapes) + 2*q + qt
	if b.clashes[at] == nil {
		c := newClash(b.shapes[p][pt], b.shapes[q][qt])
		b.clashes[at] = &c
	}
	return b.clashes[at]
}
