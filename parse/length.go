package parse

import "math"

// Length is a length or a girth in millimetres, whatever unit the customer
// wrote it in. It is converted once, when it is read; sixteenths of an inch
// and tenths of a centimetre are both exact to well under a micrometre.
type Length float64

// Unit is the unit a customer writes a survey in.
type Unit string

// The units of a survey. Feet, millimetres and metres are accepted where a
// single length is written, but a survey as a whole is in one of these two.
const (
	UnknownUnit Unit = ""
	Inch        Unit = "in"
	Centimetre  Unit = "cm"
)

const (
	millimetresPerInch       = 25.4 // exact by definition (international inch, 1959)
	millimetresPerCentimetre = 10
)

// Inches returns the length of x inches.
func Inches(x float64) Length { return onGrid(x * millimetresPerInch) }

// Centimetres returns the length of x centimetres.
func Centimetres(x float64) Length { return onGrid(x * millimetresPerCentimetre) }

// onGrid rounds millimetres to a nanometre, so that one length is one number
// however it was written: 80.5 cm, 805 mm and 0.805 m are equal.
func onGrid(millimetres float64) Length {
	return Length(math.Round(millimetres*1e6) / 1e6)
}

// Measured returns the length of x in the given unit; an unknown unit counts
// as inches.
func Measured(x float64, unit Unit) Length {
	if unit == Centimetre {
		return Centimetres(x)
	}
	return Inches(x)
}

// In returns the length as a plain number in the given unit, rounded to a
// thousand-millionth so that what was written comes back as it was written,
// and Measured of it is the same Length again. An unknown unit counts as
// inches.
func (l Length) In(unit Unit) float64 {
	per := float64(millimetresPerInch)
	if unit == Centimetre {
		per = millimetresPerCentimetre
	}
	return math.Round(float64(l)/per*1e9) / 1e9
}
