package known

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"fairtape/parse"
)

// BoxGirth returns the hull girth of a box section of breadth w and depth d.
func BoxGirth(w, d float64) float64 { return w + 2*d }

// VGirth returns the hull girth of a V section of breadth w and depth d.
func VGirth(w, d float64) float64 { return math.Sqrt(w*w + 4*d*d) }

// EllipseGirth returns the hull girth of a half ellipse of breadth w and depth
// d: half of the perimeter 4aE of an ellipse (DLMF 19.30.5).
func EllipseGirth(w, d float64) float64 {
	a, b := max(w/2, d), min(w/2, d)
	if a == 0 {
		return 0
	}
	return 2 * a * mathext.CompleteE(1-b*b/(a*a))
}

// WigleyGirth returns the hull girth of a section of the Wigley hull, a
// parabola of breadth w and draught t.
func WigleyGirth(w, t float64) float64 {
	if w == 0 {
		return 2 * t
	}
	return math.Sqrt(t*t+w*w) + t*t/w*math.Asinh(w/t)
}

// Measures of the exact boats, in inches: those of the Wigley hull whose girths
// stand in data.
const (
	exactLength  = 192
	exactBreadth = 33
	exactDepth   = 12
	exactCarry   = 22
)

// Wigley returns the Wigley hull of 16 ft, y = (B/2)(1-(2x/L)²)(1-(z/T)²), x
// from midships: parabolic waterlines, a level sheer, upright ends.
func Wigley() Boat { return exact("Wigley hull", WigleyGirth) }

// Box returns the boat with the Wigley hull's plan and box sections.
func Box() Boat { return exact("box sections", BoxGirth) }

// V returns the boat with the Wigley hull's plan and V sections.
func V() Boat { return exact("V sections", VGirth) }

// Ellipse returns the boat with the Wigley hull's plan and elliptical sections.
func Ellipse() Boat { return exact("elliptical sections", EllipseGirth) }

func exact(name string, girth func(w, d float64) float64) Boat {
	parabola := betaPlan(1, 1)
	return Boat{
		Name: name, Length: exactLength, CarryPoint: exactCarry, Stern: parse.Pointed,
		BowHeight: exactDepth, SternHeight: exactDepth,
		girths: func(x float64) (hull, full float64) {
			w := exactBreadth * parabola(x/exactLength)
			hull = girth(w, exactDepth)
			return hull, hull + w
		},
	}
}

// Exact returns the survey of the boat without any error but the rounding to
// half inches or whole centimetres.
func (b Boat) Exact(unit parse.Unit) parse.Survey {
	return b.Measure(nil, Tape{Unit: unit, Exactly: true})
}

// TrippingCanoe returns what is known of a cut-down tripping canoe of 17 ft 6 in
// with a plumb bow: four stations, in inches. Nothing in it is wrong. Common
// practice, no source.
func TrippingCanoe() parse.Survey {
	half := func(x float64) parse.Reading { return typed(parse.Inches(x), parse.Inch) }
	row := func(feet, hull, full float64) parse.Station {
		return parse.Station{
			At:   parse.Inches(feet * inchesPerFoot),
			Pair: parse.Pair{HullGirth: half(hull), FullGirth: half(full)},
		}
	}
	return parse.Survey{
		Unit: parse.Inch, Stern: parse.Pointed,
		LengthOverall: half(210), BowHeight: half(16), CarryPoint: half(22),
		Stations: []parse.Station{row(1, 31.5, 37), row(2, 33, 41.5), row(3, 35, 46.5), row(9, 49, 71)},
	}
}
