package known

import (
	"math/rand/v2"
)

const inchesPerFoot = 12

// between returns a number drawn evenly from lo to hi.
func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

// Simulate draws a boat of the class.
func Simulate(rng *rand.Rand, class Class) Boat {
	h := double(rng)
	switch class {
	case CutDown:
		h.change = cutDown(rng, h.length, 0, 0)
	case CutDownRamped:
		h.change = cutDown(rng, h.length, 4, 30)
	case StepHull:
		plumbSides(&h)
		h.change = step(rng, h.length, between(rng, 0, 8))
	case StepBoth:
		flaredSides(rng, &h)
		h.change = step(rng, h.length, between(rng, 0, 8))
	case TwoSteps:
		h.change = twoSteps(rng, h.length)
	case Ramp:
		if rng.IntN(2) == 0 {
			flaredSides(rng, &h)
		}
		h.change = step(rng, h.length, between(rng, 1, 4)*inchesPerFoot)
	case Recurved:
		recurve(rng, &h)
	case Plumb:
		h.bow.reach, h.stern.reach = between(rng, 0, 2), between(rng, 0, 2)
	case Transom:
		h = transom(rng)
	case Tumblehome:
		h.form = homing(rng)
	case FullForward:
		h.plan = fullEnd(rng, true)
	case FullAft:
		h.plan = fullEnd(rng, false)
	case Decked:
		h = kayak(rng)
	}
	return h.boat(string(class), carry(rng, h.length))
}

// carry draws a carry point: ahead of midships, usually within 3 ft of the bow.
func carry(rng *rand.Rand, length float64) float64 {
	return min(between(rng, 13, 36), 0.3*length)
}

// size is what a type of boat ranges over, in feet and inches.
type size struct {
	feet, beam, depth, bow, stern [2]float64
}

func draw(rng *rand.Rand, of [2]float64) float64 { return between(rng, of[0], of[1]) }

// doubleEnders are the open boats with two pointed ends: from pack canoes over
// tripping canoes and guideboats to double-ended skiffs and large canoes. The
// ranges are common practice, no source.
func doubleEnders() []size {
	return []size{
		{feet: [2]float64{8, 14}, beam: [2]float64{24, 31}, depth: [2]float64{9, 12.5}, bow: [2]float64{12, 19}, stern: [2]float64{12, 17}},
		{feet: [2]float64{14, 18.5}, beam: [2]float64{30, 38}, depth: [2]float64{11, 15}, bow: [2]float64{15, 24}, stern: [2]float64{15, 23}},
		{feet: [2]float64{14, 18.5}, beam: [2]float64{30, 38}, depth: [2]float64{11, 15}, bow: [2]float64{15, 24}, stern: [2]float64{15, 23}},
		{feet: [2]float64{12, 18}, beam: [2]float64{35, 44}, depth: [2]float64{11, 14.5}, bow: [2]float64{18, 27}, stern: [2]float64{17, 26}},
		{feet: [2]float64{12, 18}, beam: [2]float64{38, 52}, depth: [2]float64{13, 18}, bow: [2]float64{20, 29}, stern: [2]float64{18, 28}},
		{feet: [2]float64{18.5, 24}, beam: [2]float64{36, 50}, depth: [2]float64{13, 19}, bow: [2]float64{20, 30}, stern: [2]float64{20, 30}},
	}
}

// double draws an open double-ender.
func double(rng *rand.Rand) hull {
	sizes := doubleEnders()
	of := sizes[rng.IntN(len(sizes))]
	depth := draw(rng, of.depth)
	h := hull{
		length:  draw(rng, of.feet) * inchesPerFoot,
		breadth: draw(rng, of.beam),
		siding:  between(rng, 1, 1.8),
		plan:    sharpPlan(rng),
		sheer: rise{
			level: depth, at: between(rng, 0.44, 0.58),
			bow: max(draw(rng, of.bow)-depth, 1), aft: max(draw(rng, of.stern)-depth, 1),
			bowN: between(rng, 2, 4), aftN: between(rng, 2, 4),
		},
		keel: rise{
			at:  0.5,
			bow: between(rng, 0, 2), aft: between(rng, 0, 2),
			bowN: between(rng, 2, 4), aftN: between(rng, 2, 4),
		},
		bow:   roundStem(rng),
		stern: roundStem(rng),
		form:  openForm(rng),
	}
	if rng.IntN(3) == 0 { // many boats are the same at both ends
		h.sheer.at, h.sheer.aft, h.sheer.aftN = 0.5, h.sheer.bow, h.sheer.bowN
		h.keel.aft, h.keel.aftN, h.stern = h.keel.bow, h.keel.bowN, h.bow
	}
	return h
}

// sharpPlan draws a plan with two sharp ends.
func sharpPlan(rng *rand.Rand) plan {
	switch rng.IntN(3) {
	case 0:
		return betaPlan(between(rng, 0.75, 1.15), between(rng, 0.75, 1.15))
	case 1:
		return powerPlan(between(rng, 0.45, 0.56), between(rng, 2, 2.8), 0)
	default:
		return sinePlan(between(rng, 0.75, 1.15), between(rng, -0.05, 0.05))
	}
}

// roundStem draws the turn of a stem.
func roundStem(rng *rand.Rand) end {
	return end{reach: between(rng, 2, 18), turn: between(rng, 3, 9)}
}

// openForm draws the sections of an ordinary open boat.
func openForm(rng *rand.Rand) form {
	ends := between(rng, 1.2, 1.7)
	switch rng.IntN(6) {
	case 0: // elliptical
		return form{bilge: between(rng, 1.8, 2.4), ends: ends}
	case 1: // flat arch with hard bilge
		return form{bilge: between(rng, 2.4, 3.6), ends: ends}
	case 2: // shallow V
		return form{bilge: between(rng, 2, 3), ends: ends, vee: between(rng, 0.05, 0.25)}
	case 3: // rounded V
		return form{bilge: between(rng, 1.4, 2), ends: between(rng, 1.1, 1.4), vee: between(rng, 0.2, 0.6)}
	case 4: // flared
		return form{bilge: between(rng, 2, 3.2), ends: ends, flare: between(rng, 0.05, 0.3)}
	default: // flat bottom, one knuckle or two
		f := form{flat: between(rng, 0.55, 0.8), vee: between(rng, 0, 0.1)}
		if rng.IntN(2) == 0 {
			f.flat, f.knuckle = between(rng, 0.4, 0.6), between(rng, 0.3, 0.5)
		}
		return f
	}
}

// plumbSides makes the upper sides upright, so that a lower sheer leaves the
// opening as it is.
func plumbSides(h *hull) {
	h.form = form{bilge: 3.6, ends: 2.8}
}

// flaredSides makes the sides lean out, so that a lower sheer narrows the
// opening too.
func flaredSides(rng *rand.Rand, h *hull) {
	h.form = form{flat: between(rng, 0.5, 0.7), vee: between(rng, 0, 0.1)}
	h.form.strake = between(rng, 0.2, 0.5)
}

// homing draws sections with tumblehome.
func homing(rng *rand.Rand) form {
	return form{
		bilge: between(rng, 2, 3), ends: between(rng, 1.3, 1.7),
		homing: between(rng, 0.03, 0.12), vee: between(rng, 0, 0.1),
	}
}

// recurve turns the ends back over themselves: the highest point lies inboard
// of the foremost.
func recurve(rng *rand.Rand, h *hull) {
	for _, e := range []*end{&h.bow, &h.stern} {
		e.recurve, e.fall = between(rng, 4, 16), between(rng, 4, 10)
		e.reach, e.turn = between(rng, 6, 18), between(rng, 6, 10)
	}
	h.sheer.bow += between(rng, 1, 5)
	h.sheer.aft += between(rng, 1, 5)
	h.sheer.bowN, h.sheer.aftN = between(rng, 3, 5.5), between(rng, 3, 5.5)
}

// fullEnd draws a plan whose greatest breadth lies well forward, or well aft.
func fullEnd(rng *rand.Rand, forward bool) plan {
	at := between(rng, 0.3, 0.4)
	if !forward {
		at = 1 - at
	}
	if rng.IntN(2) == 0 {
		return powerPlan(at, between(rng, 2.1, 2.8), 0)
	}
	sum := between(rng, 1.6, 2.2)
	return betaPlan(at*sum, (1-at)*sum)
}

// transom draws a boat with a square stern: dinghies, skiffs, square-stern
// canoes.
func transom(rng *rand.Rand) hull {
	h := double(rng)
	switch rng.IntN(3) {
	case 0: // dinghy
		h.length, h.breadth = between(rng, 8, 14)*inchesPerFoot, between(rng, 44, 58)
		h.sheer.level, h.sheer.bow, h.sheer.aft = between(rng, 16, 21), between(rng, 3, 9), between(rng, 0.5, 4)
		h.bow = end{reach: between(rng, 6, 28), turn: between(rng, 6, 14)}
	case 1: // flat-bottomed skiff
		h.length, h.breadth = between(rng, 10, 16)*inchesPerFoot, between(rng, 42, 56)
		h.sheer.level, h.sheer.bow, h.sheer.aft = between(rng, 14, 19), between(rng, 3, 10), between(rng, 0.5, 4)
		h.form = form{flat: between(rng, 0.65, 0.8)}
	case 2: // square-stern canoe
		h.length = between(rng, 14, 19) * inchesPerFoot
	}
	h.plan = powerPlan(between(rng, 0.5, 0.62), between(rng, 2, 2.8), between(rng, 0.35, 0.85))
	h.stern = end{}
	h.keel.aft, h.keel.aftN = between(rng, 0, 4), between(rng, 2, 3.5)
	return h
}

// kayak draws a decked boat: all over, about a cockpit with a rim, or at the ends.
func kayak(rng *rand.Rand) hull {
	h := double(rng)
	h.length, h.breadth = between(rng, 9, 18)*inchesPerFoot, between(rng, 20, 32)
	h.sheer.level = between(rng, 8, 11)
	h.sheer.bow, h.sheer.aft = between(rng, 1, 6), between(rng, 0.5, 4)
	h.bow = end{reach: between(rng, 8, 30), turn: between(rng, 4, 9)}
	h.stern = end{reach: between(rng, 4, 20), turn: between(rng, 3, 7)}
	h.form.crown = between(rng, 0.06, 0.18)
	switch rng.IntN(3) {
	case 0: // decked all over, without a rim
	case 1: // decks at the ends only
		h.form.openFrom, h.form.openTo = between(rng, 0.2, 0.38), between(rng, 0.62, 0.8)
	default: // a cockpit with its rim
		from := between(rng, 0.38, 0.45) * h.length
		h.coaming = coaming{
			from: from, to: from + between(rng, 30, 42),
			breadth: between(rng, 0.6, 0.8), height: between(rng, 0.5, 1.5),
		}
	}
	return h
}
