package slip

import (
	"cmp"
	"math"
	"slices"

	"fairtape/validate/fair"
)

// Slopes are taken over no less than leastReach, inches, since rounding tells
// for much over less. At the outermost row a girth changes no more than
// endSteeper times as fast as inside of it.
const (
	leastReach = 5.0
	endSteeper = 2.0
)

// slopes returns for each datum how fast its girth changes along the boat, in
// inches per inch: what it errs by when the loop lies off its station. It is the
// lesser of the slopes to the rows on either side, nought where these differ in
// sign, so that one wrong number makes no place steep.
func slopes(data []fair.Datum) []float64 {
	out := make([]float64, len(data))
	for _, opening := range []float64{0, 1} {
		var run []int // girths of one kind from bow to stern
		for i, d := range data {
			if !d.Fixed && d.Hull == 1 && d.Opening == opening {
				run = append(run, i)
			}
		}
		slices.SortStableFunc(run, func(i, j int) int { return cmp.Compare(data[i].X, data[j].X) })
		for k, i := range run {
			out[i] = slopeAt(data, run, k)
		}
	}
	return out
}

// slopeAt is the slope at place k of a run.
func slopeAt(data []fair.Datum, run []int, k int) float64 {
	fore, nextFore := slopeTo(data, run, k, -1)
	aft, nextAft := slopeTo(data, run, k, 1)
	switch {
	case nextFore == k:
		fore, _ = slopeTo(data, run, nextAft, 1)
		fore *= endSteeper
	case nextAft == k:
		aft, _ = slopeTo(data, run, nextFore, -1)
		aft *= endSteeper
	}
	if fore*aft <= 0 {
		return 0
	}
	return math.Copysign(min(math.Abs(fore), math.Abs(aft)), aft)
}

// slopeTo returns the slope from place k of a run to the next one to a side
// that is far enough, and that place: k itself where there is none.
func slopeTo(data []fair.Datum, run []int, k, side int) (slope float64, next int) {
	from := data[run[k]]
	for j := k + side; j >= 0 && j < len(run); j += side {
		to := data[run[j]]
		if reach := to.X - from.X; math.Abs(reach) >= leastReach {
			return (to.Value - from.Value) / reach, j
		}
	}
	return 0, k
}
