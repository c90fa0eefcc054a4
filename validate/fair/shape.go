package fair

import (
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
		if c.datum < 0 {
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
}

// value is the column's effect at x.
func (c column) value(x float64) (hull, opening float64) {
	if c.datum >= 0 {
		return 0, 0
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
	priorPlain   = 0.80
	priorStep    = 0.06 // one step
	priorPair    = 0.08 // two steps
	priorFurther = 0.05 // one step more than two
	priorLoose   = 0.15 // each end: transom, round bow, recurved
	hullOnlyOf   = 0.5  // share of steps that leave the opening as it is
)

// stepBases returns the elementary columns: for every gap between neighbouring
// places a step in hull girth and one in opening, then one per fixed datum.
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
	for i := range bases {
		bases[i].base = i
	}
	return bases, gaps
}

// leastGap is the distance, inches, below which two places are one for a step:
// the greatest pair at its station.
const leastGap = 0.25

// Shapes returns the most credible shapes for the data, the plain boat first,
// then best first, and the log of prior times density of the data under the
// best.
func (f *Fit) Shapes(most int) ([]Shape, float64) {
	bases, gaps := f.stepBases()
	all := append([]Shape{{prior: math.Log(priorPlain)}}, candidates(bases, gaps)...)
	sc := f.scorer(bases)
	scores := sc.scores(all)
	// Boats with more steps than two are rare; one more is tried on the best.
	best := 0
	for range moreSteps {
		for i := range scores {
			if scores[i] > scores[best] {
				best = i
			}
		}
		more := further(all[best], bases, gaps)
		if all[best].Plain() || len(more) == 0 {
			break
		}
		all = append(all, more...)
		scores = append(scores, sc.scores(more)...)
	}
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case scores[a] > scores[b]:
			return -1
		case scores[a] < scores[b]:
			return 1
		}
		return 0
	})
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

// moreSteps is how many steps are tried beyond two.
const moreSteps = 2

// further lists the shapes with one step more than s.
func further(s Shape, bases []column, gaps int) []Shape {
	var all []Shape
	for g := range gaps {
		hull, opening := bases[g], bases[gaps+g]
		if slices.ContainsFunc(s.columns, func(c column) bool { return c.base == hull.base }) {
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

// candidates lists the odd shapes.
func candidates(bases []column, gaps int) []Shape {
	var all []Shape
	hull := func(g int) column { return bases[g] }
	opening := func(g int) column { return bases[gaps+g] }
	ends := bases[2*gaps:]
	add := func(prior float64, columns ...column) {
		all = append(all, Shape{columns: columns, prior: math.Log(prior)})
	}
	for _, e := range ends {
		add(priorPlain*priorLoose, e)
	}
	if len(ends) == 2 {
		add(priorPlain*priorLoose*priorLoose, ends[0], ends[1])
	}
	pairs := float64(gaps*(gaps-1)) / 2
	for g := range gaps {
		add(priorStep*hullOnlyOf/float64(gaps), hull(g))
		add(priorStep*(1-hullOnlyOf)/float64(gaps), hull(g), opening(g))
		for _, e := range ends {
			add(priorStep*(1-hullOnlyOf)*priorLoose/float64(gaps), hull(g), opening(g), e)
		}
		for k := g + 1; k < gaps; k++ {
			add(priorPair*hullOnlyOf/pairs, hull(g), hull(k))
			add(priorPair*(1-hullOnlyOf)/pairs, hull(g), hull(k), opening(g), opening(k))
		}
	}
	return all
}
