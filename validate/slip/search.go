package slip

import (
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// edit is one slip undone: numbers set to what was meant, or given up where
// that is not known.
type edit struct {
	id     int // among the edits of a sheet
	kind   Kind
	cells  []int
	values []float64 // inches; empty when the numbers are given up
	log    float64   // log of the slip's chance
	tail   float64   // spread of what was meant about what was written, when given up
	extra  float64   // log density of what was written, when it says nothing of the boat
}

// mostSlips is the most slips that are looked for in one survey.
const mostSlips = 6

// search weighs sets of slips for one sheet.
type search struct {
	sheet sheet
	edits []edit
	nodes []node
	index map[[mostSlips]int]int // of each node
}

// node is a set of slips that was weighed.
type node struct {
	edits  [mostSlips]int // sorted ids, 0 for none
	weight float64        // log
}

// note keeps the weight of a set of slips; a closer look replaces the first.
func (s *search) note(ids []int, weight float64, closer bool) {
	k := key(ids)
	i, ok := s.index[k]
	switch {
	case !ok:
		s.index[k] = len(s.nodes)
		s.nodes = append(s.nodes, node{k, weight})
	case closer:
		s.nodes[i].weight = weight
	}
}

// Spreads of a tape's slip, inches: a common one and a gross one.
const (
	tapeSlip  = 4
	grossSlip = 15
)

func newSearch(sh sheet) *search {
	s := &search{sheet: sh, index: map[[mostSlips]int]int{}}
	s.listEdits()
	return s
}

func (s *search) add(e edit) {
	e.id = len(s.edits) + 1
	s.edits = append(s.edits, e)
}

func (s *search) listEdits() {
	sh := s.sheet
	for i, n := range sh.numbers {
		for _, c := range candidates(n.written, sh.unit) {
			meant := inches(parse.Measured(c.value, sh.unit))
			if n.height {
				meant *= endGirthPerHeight
			}
			s.add(edit{kind: c.kind, cells: []int{i}, values: []float64{meant}, log: c.log})
		}
		if n.height {
			continue // what a height speaks for is too vague to tell a slip of the tape
		}
		s.add(edit{kind: MisreadTape, cells: []int{i}, log: math.Log(rateTape), tail: tapeSlip})
		s.add(edit{kind: Unknown, cells: []int{i}, log: math.Log(rateUnknown), tail: grossSlip})
		if j := n.partner; j >= 0 && sh.data[i].Opening == 1 {
			h, f := sh.data[j].Value, sh.data[i].Value
			s.add(edit{kind: OpeningForFull, cells: []int{i}, values: []float64{h + f}, log: math.Log(rateOpening)})
			s.add(edit{kind: SwappedPair, cells: []int{j, i}, values: []float64{f, h}, log: math.Log(rateSwapped)})
		}
	}
	grain := -2 * math.Log(step(sh.unit))
	for i := 1; i < len(sh.rows); i++ {
		a, b := sh.rows[i-1], sh.rows[i]
		if a.hull < 0 || a.full < 0 || b.hull < 0 || b.full < 0 {
			continue
		}
		if sh.data[a.hull].Value == sh.data[b.hull].Value && sh.data[a.full].Value == sh.data[b.full].Value {
			s.add(edit{kind: RowRepeated, cells: []int{b.hull, b.full}, log: math.Log(rateRepeated), extra: grain})
		}
	}
}

// state is a set of slips undone.
type state struct {
	edits  []int
	fit    *fair.Fit
	shapes []fair.Shape
	worlds []fair.World // the fit under each of the shapes
	log    float64      // prior of its slips
}

// Bounds of the search.
const (
	mostShapes = 7
	beam       = 3
	depth      = 9 // how far below the best, in log weight, a set of slips is followed
)

// run searches from the fit of a sheet and returns the best set of slips. It
// gives up when slips are not going to lift it near rival, the log weight of
// another arrangement.
func (s *search) run(f *fair.Fit, shapes []fair.Shape, rival float64) (best state) {
	frontier := []state{{fit: f, shapes: shapes, worlds: f.Worlds(shapes)}}
	best = frontier[0]
	top := math.Inf(-1)
	for level := 0; level <= mostSlips; level++ {
		before := top
		var children []child
		for _, st := range frontier {
			total := logWeight(st.worlds)
			s.note(st.edits, st.log+total, true)
			if st.log+total > top {
				top, best = st.log+total, st
			}
			if level < mostSlips {
				children = append(children, s.expand(st, total)...)
			}
		}
		frontier = s.next(children, top)
		lift := top - before
		if len(frontier) == 0 || level > 0 && top+lift < rival-depth {
			return best
		}
	}
	return best
}

func logWeight(worlds []fair.World) float64 {
	var t fair.LogSum
	for _, w := range worlds {
		t.Add(w.LogWeight)
	}
	return t.Value()
}

// child is a state with one more slip.
type child struct {
	from   state
	edit   *edit
	weight float64
}

// view is what one world predicts of every number, ready for many questions.
type view struct {
	world    *fair.World
	weight   float64
	mean, sd []float64
	base     []float64 // weight less the density of the number as read, -Inf when dropped
	logSD    []float64
}

func (s *search) views(worlds []fair.World) []view {
	vs := make([]view, len(worlds))
	n := len(s.sheet.numbers)
	for k := range worlds {
		w := &worlds[k]
		buf := make([]float64, 4*n)
		v := view{w, w.LogWeight, buf[:n], buf[n : 2*n], buf[2*n : 3*n], buf[3*n:]}
		for i := range n {
			mean, sd, ok := w.Predict(i)
			v.base[i] = math.Inf(-1)
			if ok {
				v.mean[i], v.sd[i] = mean, sd
				v.base[i] = w.LogWeight - w.Density(i)
				v.logSD[i] = math.Log(sd) + logRootTau
			}
		}
		vs[k] = v
	}
	return vs
}

// span is where any world would have a number.
type span struct{ from, to float64 }

func (s *search) reach(vs []view) []span {
	all := make([]span, len(s.sheet.numbers))
	for i := range all {
		r := span{math.Inf(1), math.Inf(-1)}
		for k := range vs {
			r.from = min(r.from, vs[k].mean[i]-farAway*vs[k].sd[i])
			r.to = max(r.to, vs[k].mean[i]+farAway*vs[k].sd[i])
		}
		all[i] = r
	}
	return all
}

const (
	logRootTau = 0.91893853320467274178 // log sqrt(2 pi)
	farAway    = 7                      // spreads beyond which a prediction excludes a value
)

// expand weighs every further slip, in every world, and keeps those that
// count.
func (s *search) expand(st state, total float64) []child {
	taken := map[int]bool{}
	for _, id := range st.edits {
		for _, c := range s.edits[id-1].cells {
			taken[c] = true
		}
	}
	vs := s.views(st.worlds)
	reach := s.reach(vs)
	var out []child
	for i := range s.edits {
		e := &s.edits[i]
		if slices.ContainsFunc(e.cells, func(c int) bool { return taken[c] }) {
			continue
		}
		w := st.log + e.log + s.weigh(e, vs, reach)
		if w < st.log+total-depth {
			continue
		}
		out = append(out, child{st, e, w})
		s.note(append(slices.Clone(st.edits), e.id), w, false)
	}
	return out
}

// weigh returns the log density of the data, summed over worlds, once the slip
// is undone.
func (s *search) weigh(e *edit, vs []view, reach []span) float64 {
	var sum fair.LogSum
	i := e.cells[0]
	if len(e.cells) == 1 && len(e.values) == 1 && (e.values[0] < reach[i].from || e.values[0] > reach[i].to) {
		return math.Inf(-1)
	}
	for k := range vs {
		v := &vs[k]
		switch {
		case len(e.cells) == 2:
			sum.Add(v.weight + s.gainPair(e, v.world))
		case len(e.values) == 1:
			z := (e.values[0] - v.mean[i]) / v.sd[i]
			if z*z < farAway*farAway {
				sum.Add(v.base[i] - z*z/2 - v.logSD[i])
			}
		default:
			sd := math.Hypot(v.sd[i], e.tail)
			z := (s.sheet.data[i].Value - v.mean[i]) / sd
			sum.Add(v.base[i] - z*z/2 - math.Log(sd) - logRootTau)
		}
	}
	return sum.Value()
}

// gainPair is how much likelier the data are in a world once a slip of a whole
// pair is undone.
func (s *search) gainPair(e *edit, w *fair.World) float64 {
	p, ok := w.PredictPair(e.cells[0], e.cells[1])
	switch {
	case !ok:
		return math.Inf(-1)
	case len(e.values) == 2:
		return p.Density(e.values[0], e.values[1]) - p.Read()
	}
	return e.extra - p.Read()
}

// next makes the states that are worth following.
func (s *search) next(children []child, top float64) []state {
	slices.SortStableFunc(children, func(a, b child) int {
		switch {
		case a.weight > b.weight:
			return -1
		case a.weight < b.weight:
			return 1
		}
		return 0
	})
	var states []state
	seen := map[[mostSlips]int]bool{}
	for _, c := range children {
		if len(states) == beam || c.weight < top-depth/2 {
			break
		}
		ids := append(slices.Clone(c.from.edits), c.edit.id)
		k := key(ids)
		if seen[k] {
			continue
		}
		seen[k] = true
		f := c.from.fit
		for i, cell := range c.edit.cells {
			if len(c.edit.values) > 0 {
				f = f.Replace(cell, c.edit.values[i])
			} else {
				f = f.Drop(cell)
			}
		}
		st := state{edits: ids, fit: f, log: c.from.log + c.edit.log, shapes: c.from.shapes}
		if len(states) == 0 { // the best is worth looking at the boat afresh
			st.shapes, _ = f.Shapes(mostShapes)
		}
		st.worlds = f.Worlds(st.shapes)
		if len(c.edit.values) == 0 {
			// What was written counts beside the evidence of the rest.
			st.log = c.weight - logWeight(st.worlds)
		}
		states = append(states, st)
	}
	return states
}

func key(ids []int) [mostSlips]int {
	var k [mostSlips]int
	copy(k[:], ids)
	slices.Sort(k[:])
	return k
}
