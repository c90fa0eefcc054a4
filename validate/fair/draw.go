package fair

import (
	"math"
	"slices"
	"sync"
)

// drawing is what a boat is drawn with between its stations. It reckons with
// more of what boats have in common than a search for slips needs: sheers that
// sweep up to the ends with some power of the distance from midships, stems that
// take little or much, and for the rest lines bent with a long batten. Chosen on
// simulated boats of two families that share no line, on seeds 31 to 43, for the
// greatest error between stations.
func drawing() prior {
	return prior{
		turn: turn{least: 3, step: 2, mean: 11, spread: 21},
		rise: rise{mean: 17, spread: 1},
		grid: []hyper{
			{0.34, 23, 0.29, 12, 0.25, 0.49},
			{0.34, 23, 0.38, 12, 0.25, 0.49},
			{0.34, 23, 0.29, 12, 0.50, 0.02},
		},
	}
}

// Draw returns the curve of the boat that the worlds were searched for slips
// under: the same data, and the same shapes with the weight that the search gave
// them. Where its sheer steps a boat bends quickly, and is drawn as it was
// searched. The drawing is left until it is asked for: most surveys are judged
// alone.
func Draw(worlds []World) Curve {
	return &drawn{worlds[0].fit.boat.Length, sync.OnceValue(func() Curve { return draw(worlds) })}
}

// drawn is a curve that is drawn when it is first looked at.
type drawn struct {
	length float64
	curve  func() Curve
}

// Span returns the boat's length.
func (d *drawn) Span() (from, to float64) { return 0, d.length }

// At returns hull girth and full girth at x inches aft of the foremost point.
func (d *drawn) At(x float64) (hull, full Estimate) { return d.curve().At(x) }

func draw(worlds []World) Curve {
	searched := worlds[0].fit
	f, err := newFit(searched.boat, append(slices.Clone(searched.data), searched.tips()...), drawing())
	if err != nil {
		return Blend(worlds)
	}
	for i, dropped := range searched.dropped {
		if dropped {
			f.drop(i)
		}
	}
	if stepped(worlds) > mostStepped {
		return Blend(worlds)
	}
	var all []World
	for same := range slices.Chunk(worlds, len(searched.members)) { // of one shape
		if len(same[0].shape.Steps()) > 0 {
			all = append(all, same...)
			continue
		}
		under := f.Worlds([]Shape{same[0].shape})
		shift := weight(same) - weight(under)
		for i := range under {
			under[i].LogWeight += shift
		}
		all = append(all, under...)
	}
	return Blend(all)
}

// mostStepped is how likely steps of the sheer may be for a boat to be drawn as a
// plain one where it is that: a ramp of some feet looks plain to most shapes.
const mostStepped = 0.1

// stepped is the share of the worlds' weight in which the sheer steps.
func stepped(worlds []World) float64 {
	var steps LogSum
	for _, w := range worlds {
		if len(w.shape.Steps()) > 0 {
			steps.Add(w.LogWeight)
		}
	}
	return math.Exp(steps.Value() - weight(worlds))
}

// What a stem has taken from the hull girth at the very end, in inches: 3 to 9 in
// of height, and rocker a little more (common practice, no source).
const (
	tipTaken  = 13
	tipSpread = 5
)

// tips are the hull girths at the very ends, as far as their heights tell.
func (f *Fit) tips() (data []Datum) {
	for i, d := range f.data {
		if d.Fixed && d.Hull == 1 && d.Opening == 0 && !f.dropped[i] {
			data = append(data, Datum{X: d.X, Hull: 1, Value: d.Value - tipTaken, SD: math.Hypot(tipSpread, d.SD)})
		}
	}
	return data
}

// weight is the log of the weight of worlds together.
func weight(worlds []World) float64 {
	var s LogSum
	for _, w := range worlds {
		s.Add(w.LogWeight)
	}
	return s.Value()
}
