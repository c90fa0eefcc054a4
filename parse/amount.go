package parse

// Scale is what one number is counted in. A survey as a whole is in inches or
// centimetres; a single number may also be in feet, millimetres or metres.
type Scale string

// The scales. Bare is a number with no unit beside it.
const (
	Bare      Scale = ""
	ScaleInch Scale = "in"
	ScaleFoot Scale = "ft"
	ScaleMM   Scale = "mm"
	ScaleCM   Scale = "cm"
	ScaleM    Scale = "m"
)

// Unit returns the unit of a survey whose numbers are in the scale.
func (s Scale) Unit() Unit {
	switch s {
	case ScaleInch, ScaleFoot:
		return Inch
	case ScaleMM, ScaleCM, ScaleM:
		return Centimetre
	}
	return UnknownUnit
}

// millimetres returns how long one of the scale is; 0 for Bare.
func (s Scale) millimetres() float64 {
	switch s {
	case ScaleInch:
		return millimetresPerInch
	case ScaleFoot:
		return 12 * millimetresPerInch
	case ScaleMM:
		return 1
	case ScaleCM:
		return millimetresPerCentimetre
	case ScaleM:
		return 1000
	}
	return 0
}

// ScaleOf returns the scale of bare numbers in a survey of the given unit.
func ScaleOf(unit Unit) Scale {
	switch unit {
	case Inch:
		return ScaleInch
	case Centimetre:
		return ScaleCM
	}
	return Bare
}

// Amount is a length as it was written: a number and what it is counted in.
// Feet and inches together are one number of inches.
type Amount struct {
	Number float64
	Scale  Scale // Bare when the text names no unit
}

// Length returns the amount as a length; bare numbers are counted in the given
// scale. Without any scale there is no length, and ok is false.
func (a Amount) Length(bare Scale) (l Length, ok bool) {
	scale := a.Scale
	if scale == Bare {
		scale = bare
	}
	per := scale.millimetres()
	return onGrid(a.Number * per), per != 0
}

// Fault is why a text is not taken as a length. The zero Fault is none.
type Fault struct {
	Code    Code
	Message string   // one sentence for a person of the shop
	May     []Amount // what it may mean, where that can be said
}

// Some reports that there is a fault.
func (f Fault) Some() bool { return f.Code != "" }
