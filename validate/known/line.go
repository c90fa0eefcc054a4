package known

import "math"

// plan is the breadth of a boat along its length as a share of the greatest,
// for t from 0 at the bow to 1 at the stern.
type plan func(t float64) float64

// betaPlan rises as t to the power fore and falls as 1-t to the power aft; the
// Wigley hull is betaPlan(1, 1). Powers under 1 give blunt ends, over 1 hollow
// ones; the greatest breadth lies at fore/(fore+aft).
func betaPlan(fore, aft float64) plan {
	at := fore / (fore + aft)
	return func(t float64) float64 {
		t = min(max(t, 0), 1)
		return math.Pow(t/at, fore) * math.Pow((1-t)/(1-at), aft)
	}
}

// powerPlan falls from the greatest breadth at the given place as the power n
// of the distance from it, to the given share at the stern (0 for a sharp one).
func powerPlan(at, n, stern float64) plan {
	return func(t float64) float64 {
		if t < at {
			return 1 - math.Pow((at-t)/at, n)
		}
		return 1 - (1-stern)*math.Pow(min((t-at)/(1-at), 1), n)
	}
}

// sinePlan is a sine to the power k, its greatest breadth moved aft by skew
// (forward when negative), as a share of the length.
func sinePlan(k, skew float64) plan {
	return func(t float64) float64 {
		t = min(max(t, 0), 1)
		return math.Pow(max(math.Sin(math.Pi*(t-skew*math.Sin(math.Pi*t))), 0), k)
	}
}

// rise is a line that is level at one place and rises to both ends, a sheer or
// a keel with rocker. Heights are in inches.
type rise struct {
	level      float64 // height at the lowest place
	at         float64 // the lowest place, as share of the length
	bow, aft   float64 // what it rises at the ends
	bowN, aftN float64 // powers of the rise
}

func (r rise) height(t float64) float64 {
	if t < r.at {
		return r.level + r.bow*math.Pow((r.at-t)/r.at, r.bowN)
	}
	return r.level + r.aft*math.Pow((t-r.at)/(1-r.at), r.aftN)
}

// end is the profile of one end, in inches.
type end struct {
	reach   float64 // over this length the keel turns up into the stem, as a quarter ellipse
	turn    float64 // height of that turn
	recurve float64 // the top falls back over this length towards the end ...
	fall    float64 // ... by this much
}

// keel returns what the stem's turn adds to the keel at a distance from the end.
func (e end) keel(from float64) float64 {
	if from >= e.reach {
		return 0
	}
	s := (e.reach - max(from, 0)) / e.reach
	return e.turn * (1 - math.Sqrt(1-s*s))
}

// top returns what a recurved end takes from the sheer at a distance from it.
func (e end) top(from float64) float64 {
	if from >= e.recurve {
		return 0
	}
	s := (e.recurve - max(from, 0)) / e.recurve
	return e.fall * s * s
}
