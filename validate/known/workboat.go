package known

import "math/rand/v2"

// Boats of other trades than the first classes: each is honest, and odd in a
// table of girths in its own way. All ranges are common practice, no source.
const (
	Dory        Class = "dory"          // flat bottom, flared sides, narrow stern
	DriftBoat   Class = "drift boat"    // flat bottom, strong rocker, broad
	Pram        Class = "pram"          // square at both ends, 6 to 10 ft
	PullingBoat Class = "pulling boat"  // round, a hollow stern with a raked transom
	SeaKayak    Class = "sea kayak"     // long overhanging ends, decked
	Freighter   Class = "freight canoe" // up to 25 ft, pointed or square
	DuckBoat    Class = "duck boat"     // low and broad, a crowned deck over most of it
	NarrowHull  Class = "narrow hull"   // a shell or one hull of two
)

// WorkBoats returns the classes of boats of other trades.
func WorkBoats() []Class {
	return []Class{Dory, DriftBoat, Pram, PullingBoat, SeaKayak, Freighter, DuckBoat, NarrowHull}
}

// WorkBoat draws a boat of another trade.
func WorkBoat(rng *rand.Rand, class Class) Boat {
	var h hull
	switch class {
	case Dory:
		h = dory(rng)
	case DriftBoat:
		h = driftBoat(rng)
	case Pram:
		h = pram(rng)
	case PullingBoat:
		h = pullingBoat(rng)
	case SeaKayak:
		h = seaKayak(rng)
	case Freighter:
		h = freighter(rng)
	case DuckBoat:
		h = duckBoat(rng)
	case NarrowHull:
		h = narrowHull(rng)
	}
	return h.boat(string(class), carry(rng, h.length))
}

func dory(rng *rand.Rand) hull {
	depth := between(rng, 18, 24)
	h := hull{
		length: between(rng, 12, 20) * inchesPerFoot, breadth: between(rng, 46, 62), siding: between(rng, 1, 3),
		plan:  powerPlan(between(rng, 0.46, 0.56), between(rng, 2, 2.6), 0),
		sheer: rise{level: depth, at: between(rng, 0.45, 0.6), bow: between(rng, 8, 16), aft: between(rng, 4, 12), bowN: between(rng, 1.8, 2.6), aftN: between(rng, 1.8, 2.6)},
		keel:  rise{at: between(rng, 0.45, 0.55), bow: between(rng, 2, 6), aft: between(rng, 1, 5), bowN: 2, aftN: 2},
		bow:   end{reach: between(rng, 4, 20), turn: between(rng, 4, 12)},
		stern: end{reach: between(rng, 4, 16), turn: between(rng, 4, 12)},
		form:  form{flat: between(rng, 0.45, 0.65)},
	}
	if rng.IntN(2) == 0 { // a tombstone transom, narrow at the bottom
		h.plan, h.stern = powerPlan(between(rng, 0.46, 0.56), between(rng, 2, 2.6), between(rng, 0.2, 0.4)), end{}
	}
	if rng.IntN(2) == 0 {
		h.form.knuckle = between(rng, 0.3, 0.5)
	}
	return h
}

func driftBoat(rng *rand.Rand) hull {
	return hull{
		length: between(rng, 13, 17) * inchesPerFoot, breadth: between(rng, 58, 76), siding: between(rng, 1, 3),
		plan:  powerPlan(between(rng, 0.48, 0.58), between(rng, 2, 2.6), between(rng, 0.2, 0.6)),
		sheer: rise{level: between(rng, 22, 27), at: between(rng, 0.45, 0.55), bow: between(rng, 10, 18), aft: between(rng, 4, 10), bowN: between(rng, 1.8, 2.4), aftN: between(rng, 1.8, 2.4)},
		keel:  rise{at: between(rng, 0.45, 0.55), bow: between(rng, 6, 14), aft: between(rng, 5, 12), bowN: between(rng, 1.8, 2.4), aftN: between(rng, 1.8, 2.4)},
		bow:   end{reach: between(rng, 4, 18), turn: between(rng, 4, 12)},
		form:  form{flat: between(rng, 0.65, 0.8)},
	}
}

func pram(rng *rand.Rand) hull {
	at, n := between(rng, 0.5, 0.6), between(rng, 2, 2.6)
	bow, stern := between(rng, 0.35, 0.6), powerPlan(at, n, between(rng, 0.6, 0.85))
	h := hull{
		length: between(rng, 6.5, 10) * inchesPerFoot, breadth: between(rng, 40, 52), siding: 1,
		plan: func(t float64) float64 {
			if t < at {
				return bow + (1-bow)*stern(t)
			}
			return stern(t)
		},
		sheer: rise{level: between(rng, 13, 18), at: between(rng, 0.5, 0.65), bow: between(rng, 2, 7), aft: between(rng, 0.5, 4), bowN: 2, aftN: 2},
		keel:  rise{at: between(rng, 0.45, 0.55), bow: between(rng, 3, 8), aft: between(rng, 1, 4), bowN: between(rng, 1.8, 2.6), aftN: between(rng, 1.8, 2.6)},
		form:  form{flat: between(rng, 0.6, 0.85), vee: between(rng, 0, 0.1)},
	}
	if rng.IntN(2) == 0 {
		h.form = form{bilge: between(rng, 2, 3), ends: between(rng, 1.8, 2.4)}
	}
	return h
}

func pullingBoat(rng *rand.Rand) hull {
	h := double(rng)
	h.length, h.breadth = between(rng, 11, 18)*inchesPerFoot, between(rng, 40, 54)
	depth := between(rng, 15, 20)
	h.sheer = rise{level: depth, at: between(rng, 0.5, 0.62), bow: between(rng, 6, 13), aft: between(rng, 3, 8), bowN: between(rng, 1.8, 2.8), aftN: between(rng, 1.8, 2.8)}
	h.plan = powerPlan(between(rng, 0.5, 0.58), between(rng, 2, 2.6), between(rng, 0.3, 0.7))
	h.bow, h.stern = end{reach: between(rng, 2, 14), turn: between(rng, 4, 12)}, end{}
	h.form = form{bilge: between(rng, 2, 2.8), ends: between(rng, 1.1, 1.5), vee: between(rng, 0.1, 0.4), flare: between(rng, 0, 0.15)}
	h.keel.aft, h.keel.aftN = between(rng, 0, 3), between(rng, 2, 3.5)
	return h
}

func seaKayak(rng *rand.Rand) hull {
	h := kayak(rng)
	h.length, h.breadth = between(rng, 15, 19)*inchesPerFoot, between(rng, 19.5, 24)
	h.sheer.level = between(rng, 8, 10.5)
	h.sheer.bow, h.sheer.aft = between(rng, 4, 10), between(rng, 2, 8)
	h.sheer.bowN, h.sheer.aftN = between(rng, 2.5, 5), between(rng, 2.5, 5)
	h.plan = betaPlan(between(rng, 0.9, 1.4), between(rng, 0.9, 1.4))
	h.bow, h.stern = end{reach: between(rng, 20, 48), turn: between(rng, 6, 12)}, end{reach: between(rng, 12, 40), turn: between(rng, 5, 10)}
	return h
}

func freighter(rng *rand.Rand) hull {
	h := double(rng)
	h.length, h.breadth = between(rng, 19, 25)*inchesPerFoot, between(rng, 48, 62)
	h.sheer.level, h.sheer.bow, h.sheer.aft = between(rng, 17, 23), between(rng, 6, 14), between(rng, 4, 12)
	h.form = form{bilge: between(rng, 2.4, 3.8), ends: between(rng, 1.4, 2)}
	if rng.IntN(2) == 0 {
		h.plan, h.stern = powerPlan(between(rng, 0.5, 0.58), between(rng, 2, 3), between(rng, 0.25, 0.6)), end{}
		h.sheer.aft = between(rng, 1, 6)
	}
	return h
}

func duckBoat(rng *rand.Rand) hull {
	h := double(rng)
	h.length, h.breadth = between(rng, 10, 15)*inchesPerFoot, between(rng, 36, 50)
	h.sheer.level, h.sheer.bow, h.sheer.aft = between(rng, 7, 11), between(rng, 0.5, 3), between(rng, 0.5, 2)
	h.form = form{bilge: between(rng, 1.8, 2.6), ends: between(rng, 1.4, 2), crown: between(rng, 0.06, 0.16),
		openFrom: between(rng, 0.3, 0.4), openTo: between(rng, 0.6, 0.75)}
	h.plan = powerPlan(between(rng, 0.45, 0.55), between(rng, 2, 3), between(rng, 0, 0.6))
	h.stern = end{}
	return h
}

func narrowHull(rng *rand.Rand) hull {
	h := double(rng)
	h.length, h.breadth = between(rng, 18, 26)*inchesPerFoot, between(rng, 15, 24)
	h.sheer.level, h.sheer.bow, h.sheer.aft = between(rng, 9, 16), between(rng, 1, 6), between(rng, 1, 6)
	h.form = form{bilge: between(rng, 2, 2.6), ends: between(rng, 1.5, 2)}
	return h
}
