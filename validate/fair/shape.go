package fair

import (
	"cmp"
	"math"
	"slices"
)

// A Shape is an honest way in which a boat departs from one smooth run: a step
// in the sheer, or an end that does not close to a point. The zero Shape is the
// boat without any.
type Shape struct {
	columns []column
	prior   float64 // log
}

// Plain reports a boat without steps.
func (s Shape) Plain() bool { return len(s.columns) == 0 }

// Steps returns the places, in inches, where girths step, in order.
func (s Shape) Steps() []float64 {
	var at []float64
	for _, c := range s.columns {
		if c.datum < 0 && c.stern == 0 {
			at = append(at, c.at)
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// column is one effect of a shape with the spread of its size: a step at a
// place in hull girth or opening, or a shift of one fixed datum.
type column struct {
	at     float64 // inches; girths abaft it are stepped
	run    float64 // length of the ramp about at, inches
	hull   bool
	datum  int // -1 for a step
	spread float64
	base   int // index among the columns that the gram matrix holds
	// A ramp over two gaps is a share of the step at base first and the rest of
	// that at the next.
	first int
	share float64 // 0 for what is no ramp
	// A square bow lifts the opening, at the bow by the step and ever less to the
	// stern at this place, inches; 0 for what is none.
	stern float64
}

// step reports a step between two places.
func (c column) step() bool { return c.datum < 0 && c.share == 0 && c.stern == 0 }

// value is the column's effect at x.
func (c column) value(x float64) (hull, opening float64) {
	switch {
	case c.datum >= 0:
		return 0, 0
	case c.stern > 0:
		return 0, 1 - x/c.stern
	}
	v := math.Min(1, math.Max(0, (x-c.at)/c.run+0.5))
	if c.hull {
		return v, 0
	}
	return 0, v
}

func (c column) on(i int, d Datum) float64 {
	if c.datum >= 0 {
		if c.datum == i {
			return 1
		}
		return 0
	}
	if c.stern > 0 && d.Fixed { // what closes is what the bow is square beside
		return 0
	}
	h, o := c.value(d.X)
	return d.Hull*h + d.Opening*o
}

// Spreads of steps, inches, and how common odd shapes are among boats that are
// surveyed by post. Sides are cut down by up to half a foot, which the hull
// girth shows twice; the gunwales come in or out by less. Common practice, no
// source.
const (
	hullStep     = 6
	openingStep  = 3
	looseEnd     = 6
	squareBow    = 15
	priorPlain   = 0.80
	priorStep    = 0.06 // one step
	priorPair    = 0.08 // two steps
	priorFurther = 0.05 // one step more than two
	priorLoose   = 0.15 // each end: transom, round bow, recurved
	priorSquare  = 0.02 // of boats with a square stern, those with a square bow
	hullOnlyOf   = 0.5  // share of steps that leave the opening as it is
	priorDeck    = 0.30 // two edges of a deck, or a rim about a cockpit; one of either likewise
	edgeStep     = 2    // sides that flare more to the ends narrow the opening most at the edge of a cut
	priorEdge    = 0.10 // to either side of a step
	priorRamp    = 0.15 // a step that takes two gaps, to either side, for each that takes one
	// Between the two stations nearest to an end a stem turns and a full end
	// closes; sheers seldom step there.
	endGap = 0.1
)

// stepBases returns the elementary columns: for every gap between neighbouring
// places a step in hull girth and one in opening, then one per fixed datum,
// and a square bow. After them come the ramps, each the mean of two neighbouring
// steps.
func (f *Fit) stepBases() (bases []column, gaps int) {
	var places []float64
	for i, d := range f.data {
		if !d.Fixed && !f.dropped[i] {
			places = append(places, d.X)
		}
	}
	slices.Sort(places)
	places = slices.Compact(places)
	var steps []column
	for i := 1; i < len(places); i++ {
		run := places[i] - places[i-1]
		if run < leastGap {
			continue
		}
		steps = append(steps, column{at: (places[i] + places[i-1]) / 2, run: run, datum: -1})
	}
	gaps = len(steps)
	for _, hull := range []bool{true, false} {
		for _, c := range steps {
			c.hull = hull
			c.spread = openingStep
			if hull {
				c.spread = hullStep
			}
			bases = append(bases, c)
		}
	}
	for i, d := range f.data {
		if d.Fixed && d.Opening != 0 && !f.dropped[i] {
			bases = append(bases, column{datum: i, spread: looseEnd})
		}
	}
	bases = append(bases, column{datum: -1, stern: f.boat.Length, spread: squareBow})
	bases = append(bases, ramps(bases[:gaps], 0)...)
	bases = append(bases, ramps(bases[gaps:2*gaps], gaps)...)
	for i := range bases {
		bases[i].base = i
	}
	return bases, gaps
}

// ramps joins neighbouring steps, whose bases begin at first.
func ramps(steps []column, first int) []column {
	var all []column
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		from, to := a.at-a.run/2, b.at+b.run/2
		all = append(all, column{at: (from + to) / 2, run: to - from, hull: a.hull, datum: -1, spread: a.spread,
			first: first + i - 1, share: a.run / (a.run + b.run)})
	}
	return all
}

// leastGap is the distance, inches, below which two places are one for a step:
// the greatest pair at its station.
const leastGap = 0.25

// Shapes returns the most credible shapes for the data, the plain boat first,
// then best first, and the log of prior times density of the data under the
// best.
func (f *Fit) Shapes(most int) ([]Shape, float64) {
	bases, gaps := f.stepBases()
	all := append([]Shape{{prior: math.Log(priorPlain)}}, candidates(bases, gaps, f.boat.Decked)...)
	sc := f.scorer(bases)
	scores := sc.scores(all)
	// Boats with more steps than two are rare; one more is tried on the best.
	for range moreSteps {
		top := all[best(scores)[0]]
		more := further(top, bases, gaps)
		if top.Plain() || len(more) == 0 {
			break
		}
		all = append(all, more...)
		scores = append(scores, sc.scores(more)...)
	}
	order := best(scores)
	var more []Shape
	for _, i := range order[:min(len(order), mostRamped)] {
		more = append(more, ramped(all[i], bases, gaps)...)
	}
	all = append(all, more...)
	scores = append(scores, sc.scores(more)...)
	order = best(scores)
	kept := []Shape{all[0]}
	for _, i := range order {
		if len(kept) >= most || scores[i] < scores[order[0]]-shapeDepth {
			break
		}
		if i != 0 {
			kept = append(kept, all[i])
		}
	}
	return kept, scores[order[0]]
}

const (
	moreSteps  = 2  // how many steps are tried beyond two
	mostRamped = 12 // of how many shapes the steps are tried as ramps
)

// best returns the indices of scores, the greatest first.
func best(scores []float64) []int {
	order := make([]int, len(scores))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(scores[b], scores[a]) })
	return order
}

// ramped lists the shapes in which steps of s take two gaps, or change the
// opening beside them.
func ramped(s Shape, bases []column, gaps int) []Shape {
	all := []Shape{s}
	for g := range gaps {
		if !slices.ContainsFunc(s.columns, func(c column) bool { return c.base == g || c.base == gaps+g }) {
			continue
		}
		for _, t := range all { // every step may, with and without those before it
			for _, k := range []int{g - 1, g} {
				if k >= 0 && k < gaps-1 {
					all = append(all, t.widened(g, k, bases, gaps))
				}
			}
			for _, k := range []int{g - 1, g + 1} {
				if k >= 0 && k < gaps && len(t.columns) < mostColumns && !t.holds(bases[gaps+k]) {
					all = append(all, t.narrowed(bases[gaps+k]))
				}
			}
		}
	}
	return all[1:]
}

// widened returns the shape with the step at gap g over the gaps k and k+1.
func (s Shape) widened(g, k int, bases []column, gaps int) Shape {
	first := len(bases) - 2*(gaps-1)
	t := Shape{columns: slices.Clone(s.columns), prior: s.prior + math.Log(priorRamp)}
	for i, c := range t.columns {
		switch c.base {
		case g:
			t.columns[i] = bases[first+k]
		case gaps + g:
			t.columns[i] = bases[first+gaps-1+k]
		}
	}
	return t
}

// narrowed returns the shape with the opening changed beside a step as well.
func (s Shape) narrowed(beside column) Shape {
	beside.spread = edgeStep
	return Shape{append(slices.Clone(s.columns), beside), s.prior + math.Log(priorEdge)}
}

// holds reports whether the shape has the column.
func (s Shape) holds(c column) bool {
	return slices.ContainsFunc(s.columns, func(d column) bool { return d.base == c.base })
}

// further lists the shapes with one step more than s.
func further(s Shape, bases []column, gaps int) []Shape {
	var all []Shape
	for g := range gaps {
		hull, opening := bases[g], bases[gaps+g]
		if s.holds(hull) {
			continue
		}
		prior := s.prior + math.Log(priorFurther/float64(gaps))
		if len(s.columns)+2 <= mostColumns {
			all = append(all, Shape{append(slices.Clone(s.columns), hull, opening), prior + math.Log(1-hullOnlyOf)})
		}
		if len(s.columns)+1 <= mostColumns {
			all = append(all, Shape{append(slices.Clone(s.columns), hull), prior + math.Log(hullOnlyOf)})
		}
	}
	return all
}

// shapeDepth is how far below the best, in log evidence, a shape is dropped.
const shapeDepth = 7

// candidates lists the odd shapes. A deck steps the opening alone, where the
// closed loop comes onto it or over a rim.
func candidates(bases []column, gaps int, decked bool) []Shape {
	var all []Shape
	hull := func(g int) column { return bases[g] }
	opening := func(g int) column { return bases[gaps+g] }
	square := len(bases) - 2*max(gaps-1, 0) - 1
	ends := bases[2*gaps : square]
	add := func(prior float64, columns ...column) {
		all = append(all, Shape{columns: columns, prior: math.Log(prior)})
	}
	for _, e := range ends {
		add(priorPlain*priorLoose, e)
	}
	if len(ends) == 2 {
		add(priorPlain*priorLoose*priorLoose, ends[0], ends[1])
	}
	if len(ends) == 1 { // a boat that is square forward is square aft too
		add(priorPlain*priorSquare, bases[square])
	}
	// at is the share of the steps that lie in a gap.
	at := func(g int) float64 {
		if g == 0 || g == gaps-1 {
			return endGap / float64(gaps)
		}
		return 1 / float64(gaps)
	}
	for g := range gaps {
		one := at(g)
		add(priorStep*hullOnlyOf*one, hull(g))
		add(priorStep*(1-hullOnlyOf)*one, hull(g), opening(g))
		for _, e := range ends {
			add(priorStep*(1-hullOnlyOf)*priorLoose*one, hull(g), opening(g), e)
		}
		if decked {
			add(priorDeck*one, opening(g))
		}
		for k := g + 1; k < gaps; k++ {
			two := 2 * one * at(k)
			add(priorPair*hullOnlyOf*two, hull(g), hull(k))
			add(priorPair*(1-hullOnlyOf)*two, hull(g), hull(k), opening(g), opening(k))
			if decked {
				add(priorDeck*two, opening(g), opening(k))
			}
		}
	}
	return all
}
