package parse

// Stern is the shape of a boat's after end.
type Stern string

// The sterns a form can name.
const (
	Pointed Stern = "pointed"
	Square  Stern = "square" // a transom, with a pair of girths of its own
)

// Survey is one boat as one customer measured it. Absent numbers are zero
// Readings.
type Survey struct {
	Unit     Unit   // the customer's own
	Customer string // "" when not written
	Boat     string // make and model, "" when not written
	Decked   bool
	Stern    Stern // Pointed unless written otherwise

	LengthOverall Reading
	BowHeight     Reading
	SternHeight   Reading
	CarryPoint    Reading // distance aft of the foremost point

	Greatest Greatest
	Transom  Pair
	Stations []Station // by distance from the bow, as far as it is known; repeated rows are kept
}

// Pair is the two girths taken at one place.
type Pair struct {
	HullGirth Reading // open at the top: gunwale, under the hull, gunwale
	FullGirth Reading // the closed loop
}

// Girth returns the reading of HullGirth or FullGirth, nil for any other measure.
func (p *Pair) Girth(m Measure) *Reading {
	switch m {
	case HullGirth:
		return &p.HullGirth
	case FullGirth:
		return &p.FullGirth
	}
	return nil
}

// Station is a pair at a distance aft of the foremost point.
type Station struct {
	At Length
	Pair
}

// Greatest is the pair at the place of the greatest full girth, and the
// opening measured there as a control.
type Greatest struct {
	At Reading
	Pair
	Opening Reading
}

// Measure names a number of a survey, as the JSON does.
type Measure string

// The measures. MeasurePair stands for both girths of one place in a finding.
const (
	HullGirth         Measure = "hull_girth"
	FullGirth         Measure = "full_girth"
	MeasurePair       Measure = "pair"
	LengthOverall     Measure = "length_overall"
	BowHeight         Measure = "bow_height"
	SternHeight       Measure = "stern_height"
	CarryPoint        Measure = "carry_point"
	GreatestAt        Measure = "greatest.at"
	GreatestHullGirth Measure = "greatest.hull_girth"
	GreatestFullGirth Measure = "greatest.full_girth"
	GreatestPair      Measure = "greatest.pair"
	GreatestOpening   Measure = "greatest.opening"
	TransomHullGirth  Measure = "transom.hull_girth"
	TransomFullGirth  Measure = "transom.full_girth"
	TransomPair       Measure = "transom.pair"
)

// Cell names one number of one survey: a station's when the measure is
// HullGirth, FullGirth or MeasurePair, else one that the boat has once, with
// At zero.
type Cell struct {
	At      Length
	Measure Measure
}

// OnceMeasures lists the measures that a boat has once, as a form asks for them.
func OnceMeasures() []Measure {
	return []Measure{
		LengthOverall, BowHeight, SternHeight, CarryPoint, GreatestAt, GreatestHullGirth, GreatestFullGirth, GreatestOpening,
		TransomHullGirth, TransomFullGirth,
	}
}

// Once returns the reading of a measure that a boat has once, or nil for one
// that stands at every station and for one that no survey has.
func (s *Survey) Once(m Measure) *Reading {
	switch m {
	case LengthOverall:
		return &s.LengthOverall
	case BowHeight:
		return &s.BowHeight
	case SternHeight:
		return &s.SternHeight
	case CarryPoint:
		return &s.CarryPoint
	case GreatestAt:
		return &s.Greatest.At
	case GreatestHullGirth:
		return &s.Greatest.HullGirth
	case GreatestFullGirth:
		return &s.Greatest.FullGirth
	case GreatestOpening:
		return &s.Greatest.Opening
	case TransomHullGirth:
		return &s.Transom.HullGirth
	case TransomFullGirth:
		return &s.Transom.FullGirth
	}
	return nil
}
