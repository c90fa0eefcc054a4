package fair

import (
	"math"
	"math/rand/v2"
	"testing"
)

// swept is a boat whose sheer sweeps up to ends with stems that turn: between the
// last two stations the hull girth may rise and fall again.
type swept struct{ length, deep, beam, sweep, power, turn, takes float64 }

func sweptBoat(rng *rand.Rand) swept {
	u := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	return swept{length: u(150, 220), deep: u(26, 34), beam: u(28, 44), sweep: u(4, 20), power: u(2, 4), turn: u(3, 17), takes: u(6, 18)}
}

func (b swept) girths(x float64) (hull, full float64) {
	s := math.Abs(2*x/b.length - 1)
	opening := 1.2 + b.beam*(1-s*s)
	up := b.deep + b.sweep*math.Pow(s, b.power)
	if in := 1 - math.Min(x, b.length-x)/b.turn; in > 0 {
		up -= b.takes * (1 - math.Sqrt(1-in*in))
	}
	hull = math.Hypot(up, opening)
	return hull, hull + opening
}

// searchedFor returns the worlds of a boat measured at every foot to the half
// inch.
func searchedFor(t *testing.T, b swept, girths func(x float64) (hull, full float64)) []World {
	t.Helper()
	var data []Datum
	for x := 12.0; x < b.length-1.5; x += 12 {
		h, f := girths(x)
		data = append(data, Datum{X: x, Hull: 1, Value: half(h), SD: 0.144}, Datum{X: x, Hull: 1, Opening: 1, Value: half(f), SD: 0.144})
	}
	for _, x := range []float64{0, b.length} {
		data = append(data, Datum{X: x, Hull: 1, Value: half(b.deep + b.sweep), SD: 3, Fixed: true}, Datum{X: x, Opening: 1, Value: 1.2, SD: 0.6, Fixed: true})
	}
	f, err := New(Boat{Length: b.length}, data)
	if err != nil {
		t.Fatal(err)
	}
	shapes, _ := f.Shapes(7)
	return f.Worlds(shapes)
}

// misses returns by how much a curve misses a boat at most, from a foot aft of the
// bow to a foot ahead of the stern, and at which share of places by more than two
// of the spreads that it states.
func misses(c Curve, b swept) (most, beyond float64) {
	places := 0.0
	for x := 12.0; x <= b.length-12; x++ {
		h, f := b.girths(x)
		hull, full := c.At(x)
		for _, e := range []Estimate{{hull.Mean - h, hull.SD}, {full.Mean - f, full.SD}} {
			most = math.Max(most, math.Abs(e.Mean))
			places++
			if math.Abs(e.Mean) > 2*e.SD {
				beyond++
			}
		}
	}
	return most, beyond / places
}

// Boats are drawn nearer to what they are between their stations than a search
// for slips has them, and as near as the curve states.
func TestDrawSweptBoats(t *testing.T) {
	const boats = 60
	rng := rand.New(rand.NewPCG(12, 1))
	var drawn, searched, beyond float64 // sums of fourth powers: the worst boats tell
	for range boats {
		b := sweptBoat(rng)
		worlds := searchedFor(t, b, b.girths)
		most, out := misses(Draw(worlds), b)
		drawn += math.Pow(most, 4)
		beyond += out / boats
		most, _ = misses(Blend(worlds), b)
		searched += math.Pow(most, 4)
	}
	if drawn >= searched || beyond > 0.05 {
		t.Errorf("drawn %.3f, searched %.3f; %.1f %% beyond two spreads", drawn, searched, 100*beyond)
	}
}

// A boat whose sheer steps is drawn as it was searched.
func TestDrawSteppedBoat(t *testing.T) {
	b := sweptBoat(rand.New(rand.NewPCG(12, 2)))
	worlds := searchedFor(t, b, func(x float64) (hull, full float64) {
		hull, full = b.girths(x)
		if x > 66 && x < 102 {
			return hull - 6, full - 8
		}
		return hull, full
	})
	drawn, searched := Draw(worlds), Blend(worlds)
	for x := 12.0; x <= b.length-12; x++ {
		_, d := drawn.At(x)
		_, s := searched.At(x)
		if math.Abs(d.Mean-s.Mean) > 0.01 || math.Abs(d.SD-s.SD) > 0.01 {
			t.Fatalf("at %.0f: drawn %v, searched %v", x, d, s)
		}
	}
}

// What a search left out stays out.
func TestDrawWithoutDropped(t *testing.T) {
	f, err := New(Boat{Length: 192}, sheet(every(12)...))
	if err != nil {
		t.Fatal(err)
	}
	wrong := f.Replace(14, 60).Drop(14)
	got, want := Draw(wrong.Worlds([]Shape{{}})), Draw(f.Drop(14).Worlds([]Shape{{}}))
	for x := 12.0; x <= 180; x += 4 {
		a, _ := got.At(x)
		b, _ := want.At(x)
		if math.Abs(a.Mean-b.Mean) > 1e-6 {
			t.Errorf("at %.0f: %v with the wrong number left out, %v without it", x, a, b)
		}
	}
}
