package fair

import "math"

// prior is what a fit reckons with before it has seen a girth: how boats may
// bend, and what their ends do to the hull girth.
type prior struct {
	grid []hyper
	turn turn
	rise rise
}

// hyper is one setting of how a boat may bend. Ranges are fractions of the
// boat's length, spreads are in inches.
type hyper struct {
	hullRange, hullSpread       float64
	openingRange, openingSpread float64
	tape                        float64 // sd of one reading of the tape, without rounding
	prior                       float64
}

// searching is what slips are looked for with: settings that are averaged over,
// from a boat drawn with a long batten to one with quick turns at the ends. Stems
// turn over 2 to 18 in of length and take 3 to 9 in of height (common practice, no
// source).
func searching() prior {
	return prior{turn: turn{least: 3, step: 2, mean: 10, spread: 5}, grid: []hyper{
		{0.17, 3, 0.38, 8.0, 0.18, 0.25},
		{0.17, 3, 0.17, 1.5, 0.16, 0.15},
		{0.38, 8, 0.26, 2.0, 0.16, 0.15},
		{0.17, 3, 0.17, 3.0, 0.17, 0.15},
		{0.38, 8, 0.38, 8.0, 0.18, 0.10},
		{0.10, 2, 0.26, 2.0, 0.18, 0.10},
		{0.26, 4, 0.10, 2.0, 0.30, 0.08},
		{0.17, 3, 0.26, 4.0, 0.35, 0.06},
		{0.26, 4, 0.26, 4.0, 0.55, 0.02},
	}}
}

// matern is the Matern covariance of smoothness 7/2 with unit variance at
// distance d in units of its range (Rasmussen and Williams 2006, eq. 4.16 with
// p = 3).
func matern(d float64) float64 {
	a := math.Sqrt(7) * d
	return (1 + a + 2*a*a/5 + a*a*a/15) * math.Exp(-a)
}

// warpShare is how far the length is stretched at the ends, where girths turn
// faster than amidships: 0 none, 1 as the cosine does, which makes a rounded
// end as smooth as the middle.
const warpShare = 0.9

// warp maps the distance from the bow, as a fraction of the length, to the
// coordinate in which a boat is equally smooth everywhere.
func warp(s float64) float64 {
	c := math.Min(1, math.Max(0, s))
	return (1-warpShare)*s + warpShare*math.Acos(1-2*c)/math.Pi
}

// The broad shape every boat shares: hull girth a constant with a hump,
// opening a hump that vanishes at the ends. Means and spreads are wide enough
// for boats of 8 to 24 ft (common practice, no source); what is left is the
// Matern part's.
const (
	hullMean, hullSpread       = 40, 15
	hullHumpMean, hullHump     = 10, 10
	hullLean                   = 5
	openingMean, openingSpread = 30, 12
	openingLean                = 6
	openingLift                = 5
	transomMean, transomSpread = 22, 12 // at the stern; ever less to the bow
)

func hump(s float64) float64 { return 4 * s * (1 - s) }

// meanAt is the prior mean of hull girth and opening at x inches.
func (b Boat) meanAt(x float64) (hull, opening float64) {
	s := x / b.Length
	hull, opening = hullMean+hullHumpMean*hump(s), openingMean*hump(s)
	if b.Square {
		opening += transomMean * s
	}
	return hull, opening
}

// priorHull is the prior covariance of the hull girths at two places, and
// priorOpening that of the openings, without their Matern parts.
func priorHull(s, t float64) float64 {
	return hullSpread*hullSpread + hullHump*hullHump*hump(s)*hump(t) + hullLean*hullLean*(2*s-1)*(2*t-1)
}

func (b Boat) priorOpening(s, t float64) float64 {
	v := openingSpread*openingSpread*hump(s)*hump(t) + openingLift*openingLift +
		openingLean*openingLean*(2*s-1)*(2*t-1)*hump(s)*hump(t)
	if b.Square {
		v += transomSpread * transomSpread * s * t
	}
	return v
}
