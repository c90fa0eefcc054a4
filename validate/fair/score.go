package fair

import (
	"cmp"
	"math"
	"slices"
)

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
	elementary := slices.IndexFunc(bases, func(c column) bool { return c.share > 0 })
	if elementary < 0 {
		elementary = len(bases)
	}
	sc := scorer{fit: f}
	for k := range f.members {
		sc.grams = append(sc.grams, f.stepGram(&f.members[k], bases[:elementary], aft).ramped(bases[elementary:]))
	}
	return sc
}

// ramped adds the products of ramps to those of the steps that they are made
// of.
func (g gram) ramped(ramps []column) gram {
	b := g.n + len(ramps)
	all := gram{g: make([]float64, b*b), c: append(slices.Clone(g.c), make([]float64, len(ramps))...), n: b}
	for i := range g.n {
		copy(all.g[i*b:], g.g[i*g.n:(i+1)*g.n])
	}
	for k, r := range ramps {
		to, next := g.n+k, r.first+1
		all.c[to] = r.share*g.c[r.first] + (1-r.share)*g.c[next]
		row := all.g[to*b : (to+1)*b]
		for j := range to {
			row[j] = r.share*all.g[r.first*b+j] + (1-r.share)*all.g[next*b+j]
			all.g[j*b+to] = row[j]
		}
		row[to] = r.share*row[r.first] + (1-r.share)*row[next]
	}
	return all
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
		if c.stern > 0 {
			for i, d := range f.data {
				v := c.on(i, d)
				for j, q := range m.precision.row(i) {
					t[j] += v * q
				}
			}
			continue
		}
		if k == b-1 || !bases[k+1].step() || bases[k+1].hull != c.hull {
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
		if c.stern > 0 {
			out[k] = 0
			for i, d := range f.data {
				out[k] += c.on(i, d) * v[i]
			}
			continue
		}
		if k == len(bases)-1 || !bases[k+1].step() || bases[k+1].hull != c.hull {
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
