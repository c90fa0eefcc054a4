package fair

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// hullOf is the Wigley hull of length 192, breadth 33 and draught 12 inches:
// opening w = 33 (1-(2x/L)^2), hull girth sqrt(T^2+w^2) + T^2/w asinh(w/T).
// At amidships the hull girth is 42.6905837458, two feet off 40.9836362885
// (closed form, checked by quadrature).
func hullOf(x float64) (hull, full float64) {
	const length, breadth, draught = 192, 33, 12
	s := 2*x/length - 1
	w := breadth * (1 - s*s)
	if w == 0 {
		return 2 * draught, 2 * draught
	}
	hull = math.Sqrt(draught*draught+w*w) + draught*draught/w*math.Asinh(w/draught)
	return hull, hull + w
}

func half(x float64) float64 { return math.Round(2*x) / 2 }

// sheet reads the hull at the given places to the half inch.
func sheet(places ...float64) []Datum {
	var data []Datum
	for _, x := range places {
		h, f := hullOf(x)
		data = append(data, Datum{X: x, Hull: 1, Value: half(h), SD: 0.144}, Datum{X: x, Hull: 1, Opening: 1, Value: half(f), SD: 0.144})
	}
	return append(data,
		Datum{X: 0, Opening: 1, Value: 0.5, SD: 1.5, Fixed: true}, Datum{X: 192, Opening: 1, Value: 0.5, SD: 1.5, Fixed: true})
}

func every(step float64) []float64 {
	var at []float64
	for x := step; x < 192; x += step {
		at = append(at, x)
	}
	return at
}

func TestTooFew(t *testing.T) {
	for name, data := range map[string][]Datum{"none": nil, "two stations": sheet(12, 24)} {
		if _, err := New(Boat{Length: 192}, data); !errors.Is(err, ErrTooFew) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := New(Boat{}, sheet(every(12)...)); !errors.Is(err, ErrTooFew) {
		t.Errorf("no length: %v", err)
	}
}

// TestHull checks the hull's formula against known values.
func TestHull(t *testing.T) {
	for x, want := range map[float64]float64{96: 42.6905837458, 120: 40.9836362885, 144: 36.065634493} {
		if got, _ := hullOf(x); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %v: %v, want %v", x, got, want)
		}
	}
}

// TestCurve holds the curve, laid through rounded girths, to the true hull
// between the stations, with gaps, few rows and mixed spacing.
func TestCurve(t *testing.T) {
	for _, test := range []struct {
		name      string
		places    []float64
		rms, most float64 // inches
	}{
		{"every foot", every(12), 0.25, 0.6},
		{"every 30 cm", every(30 / 2.54), 0.25, 0.6},
		{"every half foot", every(6), 0.25, 0.6},
		{"mixed", []float64{6, 12, 18, 24, 36, 48, 60, 72, 84, 96, 108, 120, 132, 144, 156, 168, 174, 180, 186}, 0.25, 0.6},
		{"a gap of two stations", []float64{12, 24, 36, 48, 84, 96, 108, 120, 132, 144, 156, 168, 180}, 0.25, 0.6},
		{"every two feet", every(24), 0.35, 0.9},
		{"four rows", []float64{24, 72, 120, 168}, 1, 2.5},
	} {
		t.Run(test.name, func(t *testing.T) {
			f, err := New(Boat{Length: 192}, sheet(test.places...))
			if err != nil {
				t.Fatal(err)
			}
			shapes, _ := f.Shapes(7)
			curve := Blend(f.Worlds(shapes))
			var sum, n, most, beyond float64
			for x := 12.0; x <= 180; x += 3 {
				hull, full := curve.At(x)
				h, o := hullOf(x)
				for _, e := range [][2]float64{{hull.Mean - h, hull.SD}, {full.Mean - o, full.SD}} {
					sum, n, most = sum+e[0]*e[0], n+1, math.Max(most, math.Abs(e[0]))
					if math.Abs(e[0]) > 2*e[1] {
						beyond++
					}
				}
			}
			if rms := math.Sqrt(sum / n); rms > test.rms || most > test.most {
				t.Errorf("rms %.3f, at most %.3f; want %.2f, %.2f", rms, most, test.rms, test.most)
			}
			if beyond/n > 0.1 {
				t.Errorf("%.0f %% lie beyond two spreads", 100*beyond/n)
			}
		})
	}
}

// TestAgainstGonum checks precision and evidence of one setting against
// gonum's Cholesky decomposition.
func TestAgainstGonum(t *testing.T) {
	data := sheet(every(12)...)
	boat := Boat{Length: 192}
	f, err := newFit(boat, data, first())
	if err != nil {
		t.Fatal(err)
	}
	h := first().grid[0]
	k := f.layout().covariance(h)
	var chol mat.Cholesky
	if !chol.Factorize(mat.NewSymDense(k.n, append([]float64(nil), k.v...))) {
		t.Fatal("not positive definite")
	}
	var inverse mat.SymDense
	if err := chol.InverseTo(&inverse); err != nil {
		t.Fatal(err)
	}
	m := f.members[0]
	for i := range k.n {
		for j := range k.n {
			if d := m.precision.v[i*k.n+j] - inverse.At(i, j); math.Abs(d) > 1e-8*math.Abs(inverse.At(i, i)) {
				t.Fatalf("precision (%d, %d) is off by %g", i, j, d)
			}
		}
	}
	y := mat.NewVecDense(k.n, f.resid)
	want := math.Log(h.prior) - (mat.Inner(y, &inverse, y)+chol.LogDet()+float64(k.n)*math.Log(2*math.Pi))/2
	if math.Abs(m.evidence-want) > 1e-8 {
		t.Errorf("evidence %v, want %v", m.evidence, want)
	}
}

// TestEditsEqualFreshFits holds that undoing slips by updates is the same as
// fitting anew.
func TestEditsEqualFreshFits(t *testing.T) {
	data := sheet(every(12)...)
	boat := Boat{Length: 192}
	f, err := New(boat, data)
	if err != nil {
		t.Fatal(err)
	}
	const i = 9
	changed := append([]Datum(nil), data...)
	changed[i].Value += 3
	fresh, _ := New(boat, changed)
	if got, want := f.Replace(i, changed[i].Value).Evidence(), fresh.Evidence(); math.Abs(got-want) > 1e-6 {
		t.Errorf("replaced: evidence %v, want %v", got, want)
	}
	off := make([]float64, len(data))
	off[i] = -3
	if got, want := f.EvidenceLess(off), fresh.Evidence(); math.Abs(got-want) > 1e-6 {
		t.Errorf("shifted: evidence %v, want %v", got, want)
	}
	less := append(append([]Datum(nil), data[:i]...), data[i+1:]...)
	fresh, _ = New(boat, less)
	dropped := f.Drop(i)
	if got, want := dropped.Evidence(), fresh.Evidence(); math.Abs(got-want) > 1e-6 {
		t.Errorf("dropped: evidence %v, want %v", got, want)
	}
	a, _ := Blend(dropped.Worlds([]Shape{{}})).At(70)
	b, _ := Blend(fresh.Worlds([]Shape{{}})).At(70)
	if math.Abs(a.Mean-b.Mean) > 1e-6 || math.Abs(a.SD-b.SD) > 1e-6 {
		t.Errorf("dropped: curve %v, want %v", a, b)
	}
}

// TestLeaveOneOut holds the closed form to a fit without the number.
func TestLeaveOneOut(t *testing.T) {
	data := sheet(every(12)...)
	boat := Boat{Length: 192}
	f, err := newFit(boat, data, first())
	if err != nil {
		t.Fatal(err)
	}
	const i = 6
	w := f.Worlds([]Shape{{}})[0]
	mean, sd, ok := w.Predict(i)
	if !ok {
		t.Fatal("no prediction")
	}
	less, err := newFit(boat, append(append([]Datum(nil), data[:i]...), data[i+1:]...), first())
	if err != nil {
		t.Fatal(err)
	}
	hull, _ := Blend(less.Worlds([]Shape{{}})).At(data[i].X)
	want := math.Sqrt(hull.SD*hull.SD + first().grid[0].noise(data[i]))
	if math.Abs(mean-hull.Mean) > 1e-6 || math.Abs(sd-want) > 1e-6 {
		t.Errorf("mean %v spread %v, want %v %v", mean, sd, hull.Mean, want)
	}
}

// TestStepsAreFound gives a boat whose sides are cut down between two stations.
func TestStepsAreFound(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	data := sheet(every(12)...)
	for i := range data {
		if !data[i].Fixed {
			data[i].Value += 0.2 * rng.NormFloat64()
			if x := data[i].X; data[i].Hull == 1 && x > 66 && x < 138 {
				data[i].Value -= 6
			}
		}
	}
	f, err := New(Boat{Length: 192}, data)
	if err != nil {
		t.Fatal(err)
	}
	shapes, best := f.Shapes(7)
	if !shapes[0].Plain() || len(shapes) < 2 {
		t.Fatalf("%d shapes, the plain boat first: %v", len(shapes), shapes[0].Plain())
	}
	if at := shapes[1].Steps(); len(at) != 2 || at[0] != 66 || at[1] != 138 {
		t.Errorf("steps at %v, want 66 and 138", at)
	}
	if plain := f.Evidence(); best < plain+20 {
		t.Errorf("evidence %v with steps, %v without", best, plain)
	}
}

// TestOpeningAtTheEdgeOfACut holds that sides cut down where they flare most,
// which narrows the opening at the first row of the cut, leave no full girth
// there in doubt.
func TestOpeningAtTheEdgeOfACut(t *testing.T) {
	const edge = 72
	data := sheet(every(12)...)
	row := 0
	for i, d := range data {
		if d.Hull == 1 && d.X >= edge && d.X < 138 {
			data[i].Value -= 6 + d.Opening
			if d.X == edge && d.Opening == 1 {
				data[i].Value -= 2
				row = i
			}
		}
	}
	f, err := New(Boat{Length: 192}, data)
	if err != nil {
		t.Fatal(err)
	}
	shapes, _ := f.Shapes(7)
	var total, doubt LogSum
	worlds := f.Worlds(shapes)
	for _, w := range worlds {
		total.Add(w.LogWeight)
		if mean, sd, _ := w.Predict(row); math.Abs(mean-data[row].Value) > 3*sd {
			doubt.Add(w.LogWeight)
		}
	}
	if share := math.Exp(doubt.Value() - total.Value()); share > 0.1 {
		t.Errorf("%.3f of the belief lies with shapes in which the row at %d in is wrong", share, edge)
	}
}

// TestStepGramEqualsGram checks the running sums against plain products.
func TestStepGramEqualsGram(t *testing.T) {
	f, err := New(Boat{Length: 192}, sheet(every(12)...))
	if err != nil {
		t.Fatal(err)
	}
	bases, _ := f.stepBases()
	on := make([][]float64, len(bases))
	for k, c := range bases {
		on[k] = make([]float64, len(f.data))
		for i, d := range f.data {
			on[k][i] = c.on(i, d)
		}
	}
	want := f.gram(&f.members[0], bases, on)
	got := f.scorer(bases).grams[0]
	for i := range want.g {
		if math.Abs(got.g[i]-want.g[i]) > 1e-7*(1+math.Abs(want.g[i])) {
			t.Fatalf("product %d: %v, want %v", i, got.g[i], want.g[i])
		}
	}
	for i := range want.c {
		if math.Abs(got.c[i]-want.c[i]) > 1e-7*(1+math.Abs(want.c[i])) {
			t.Fatalf("right side %d: %v, want %v", i, got.c[i], want.c[i])
		}
	}
}

func TestLogSum(t *testing.T) {
	var s LogSum
	if !math.IsInf(s.Value(), -1) {
		t.Errorf("empty: %v", s.Value())
	}
	for _, x := range []float64{-1000, -1001, -999} {
		s.Add(x)
	}
	want := -999 + math.Log(1+math.Exp(-1)+math.Exp(-2))
	if math.Abs(s.Value()-want) > 1e-12 {
		t.Errorf("got %v, want %v", s.Value(), want)
	}
}

// first is what is looked for slips with, but its first setting alone.
func first() prior {
	p := searching()
	p.grid = p.grid[:1]
	return p
}
