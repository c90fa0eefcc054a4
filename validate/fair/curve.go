// Package fair fits the fair curve of a boat: hull girth and opening as smooth
// functions of the distance from the bow. It works in inches and knows nothing
// of files or letters.
package fair

// Estimate is a value with its spread, in inches.
type Estimate struct {
	Mean, SD float64
}

// Curve is the fair curve of one boat: what its girths are anywhere between
// its ends, and how surely.
type Curve interface {
	// At returns hull girth and full girth at x inches aft of the foremost
	// point. The spread is that of the boat, without the tape's noise.
	At(x float64) (hull, full Estimate)
	// Span returns the range of x, in inches, over which the curve is meant.
	Span() (from, to float64)
}
