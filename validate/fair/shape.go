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

// gram holds, under one setting, what the data say of the elementary columns.
type gram struct {
	g []float64 // columns' products through the precision
	c []float64 // columns' products with alpha
	n int
}

func (f *Fit) gram(m *member, bases []column, on [][]float64) gram {
	n := len(f.data)
	b := len(bases)
	through := make([]float64, b*n)
	for k, col := range on {
		t := through[k*n : (k+1)*n]
		for i, v := range col {
			if v == 0 {
				continue
			}
			for j, q := range m.precision.row(i) {
				t[j] += v * q
			}
		}
	}
	g := gram{g: make([]float64, b*b), c: make([]float64, b), n: b}
	for i := range b {
		g.c[i] = dot(on[i], m.alpha)
		for j := 0; j <= i; j++ {
			v := dot(on[j], through[i*n:(i+1)*n])
			g.g[i*b+j], g.g[j*b+i] = v, v
		}
	}
	return g
}

// scorer weighs shapes against the data.
type scorer struct {
	fit   *Fit
	grams []gram // one per setting
}

func (f *Fit) scorer(bases []column) scorer {
	aft := make([]int, len(f.data)) // data from the stern forward
	for i := range aft {
		aft[i] = i
	}
	slices.SortStableFunc(aft, func(i, j int) int { return cmp.Compare(f.data[j].X, f.data[i].X) })
	sc := scorer{fit: f}
	for k := range f.members {
		sc.grams = append(sc.grams, f.stepGram(&f.members[k], bases, aft))
	}
	return sc
}

// stepGram is gram for the elementary columns. A step touches all data abaft
// it, so products with steps are running sums from the stern forward.
func (f *Fit) stepGram(m *member, bases []column, aft []int) gram {
	n, b := len(f.data), len(bases)
	through := make([]float64, b*n)
	// Bases of one kind lie from bow to stern: take them from the last.
	sum := make([]float64, n)
	next := 0
	for k := b - 1; k >= 0; k-- {
		c, t := bases[k], through[k*n:(k+1)*n]
		if c.datum >= 0 {
			copy(t, m.precision.row(c.datum))
			continue
		}
		if k == b-1 || bases[k+1].datum >= 0 || bases[k+1].hull != c.hull {
			clear(sum)
			next = 0
		}
		for ; next < n && f.data[aft[next]].X > c.at; next++ {
			if h, o := c.part(f.data[aft[next]]); h+o != 0 {
				for j, q := range m.precision.row(aft[next]) {
					sum[j] += (h + o) * q
				}
			}
		}
		copy(t, sum)
	}
	g := gram{g: make([]float64, b*b), c: make([]float64, b), n: b}
	f.project(bases, aft, m.alpha, g.c)
	for i := range b {
		f.project(bases, aft, through[i*n:(i+1)*n], g.g[i*b:(i+1)*b])
	}
	return g
}

// part is what a step takes of a datum abaft it.
func (c column) part(d Datum) (hull, opening float64) {
	if c.hull {
		return d.Hull, 0
	}
	return 0, d.Opening
}

// project sets out to the products of v with every elementary column.
func (f *Fit) project(bases []column, aft []int, v, out []float64) {
	var sum float64
	next := 0
	for k := len(bases) - 1; k >= 0; k-- {
		c := bases[k]
		if c.datum >= 0 {
			out[k] = v[c.datum]
			continue
		}
		if k == len(bases)-1 || bases[k+1].datum >= 0 || bases[k+1].hull != c.hull {
			sum, next = 0, 0
		}
		for ; next < len(aft) && f.data[aft[next]].X > c.at; next++ {
			h, o := c.part(f.data[aft[next]])
			sum += (h + o) * v[aft[next]]
		}
		out[k] = sum
	}
}

// scores returns the log of prior times evidence of each shape.
func (sc scorer) scores(shapes []Shape) []float64 {
	scores := make([]float64, len(shapes))
	for i, s := range shapes {
		var sum LogSum
		for k := range sc.grams {
			gain, _ := sc.grams[k].gain(s.columns, nil)
			sum.Add(sc.fit.members[k].evidence + gain)
		}
		scores[i] = s.prior + sum.Value()
	}
	return scores
}

// mostColumns is the most effects a shape has.
const mostColumns = 8

// gain returns the log evidence that the columns add: with C their effects and
// T their variances, -log|I+TC'QC|/2 + c'(1/T+C'QC)^-1 c/2. When root is not
// nil it receives the Cholesky factor of 1/T+C'QC.
func (g gram) gain(columns []column, root *[mostColumns][mostColumns]float64) (float64, int) {
	r := len(columns)
	var l [mostColumns][mostColumns]float64
	var z [mostColumns]float64
	det, quad := 1.0, 0.0
	for i := range r {
		bi := columns[i].base
		det *= columns[i].spread
		for j := 0; j <= i; j++ {
			s := g.g[bi*g.n+columns[j].base]
			if i == j {
				s += 1 / (columns[i].spread * columns[i].spread)
			}
			for k := range j {
				s -= l[i][k] * l[j][k]
			}
			if i == j {
				l[i][i] = math.Sqrt(s)
			} else {
				l[i][j] = s / l[j][j]
			}
		}
		s := g.c[bi]
		for k := range i {
			s -= l[i][k] * z[k]
		}
		z[i] = s / l[i][i]
		quad += z[i] * z[i]
		det *= l[i][i]
	}
	if root != nil {
		*root = l
	}
	return quad/2 - math.Log(det), r
}
