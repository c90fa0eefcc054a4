package parse

import (
	"math"
	"slices"
)

// betweenNeighbours is how far, as a share of it, a girth of one boat lies from
// the straight line between its neighbours. Common practice, no source.
const betweenNeighbours = 0.1

// oneSeries reports two tables that hold every other station of one boat, as of
// a survey that was taken on two evenings: together their steps are even, and
// most girths of one lie between those of the other.
func oneSeries(a, b []Station) bool {
	var at []Length
	for _, s := range slices.Concat(a, b) {
		at = append(at, s.At)
	}
	slices.Sort(at)
	odd := 0
	for i := 2; i < len(at); i++ {
		if math.Abs(float64(at[i]-at[i-1]-(at[1]-at[0]))) > onePlace {
			odd++
		}
	}
	if odd > 1 {
		return false
	}
	fits, apart := 0, 0
	for _, s := range b {
		before, after, ok := neighbours(a, s.At)
		if !ok {
			continue
		}
		share := float64((s.At - before.At) / (after.At - before.At))
		for _, girth := range []func(Pair) Reading{func(p Pair) Reading { return p.HullGirth }, func(p Pair) Reading { return p.FullGirth }} {
			x, y, z := girth(before.Pair), girth(after.Pair), girth(s.Pair)
			if !x.Known || !y.Known || !z.Known {
				continue
			}
			line := float64(x.Value) + share*float64(y.Value-x.Value)
			if math.Abs(float64(z.Value)-line) <= betweenNeighbours*line {
				fits++
			} else {
				apart++
			}
		}
	}
	return fits >= fullTable && apart < fits
}

// neighbours returns the stations before and after a place.
func neighbours(stations []Station, at Length) (before, after Station, ok bool) {
	hasBefore, hasAfter := false, false
	for _, s := range stations {
		switch {
		case s.At < at && (!hasBefore || s.At > before.At):
			before, hasBefore = s, true
		case s.At > at && (!hasAfter || s.At < after.At):
			after, hasAfter = s, true
		}
	}
	return before, after, hasBefore && hasAfter
}
