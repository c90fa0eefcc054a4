package curves

import (
	"fairtape/parse"
	"fairtape/validate/known"
)

// A target is what a figure must reach; 0 for figures that are only reported.
// Most are lower limits, needless asks and the calibration error upper ones.
const (
	cleanOrdinary    = 0.03 // sound numbers asked for, per survey
	cleanOdd         = 0.10
	needlessWithSlip = 0.10
	bothFound        = 0.85
	columnNamed      = 0.95
	calibrationError = 0.05
	millisecondsEach = 5
)

// slipTarget is what is asked of a slip.
type slipTarget struct{ found, named, valued float64 }

// targetOf returns the target of a slip.
func targetOf(slip known.Slip, unit parse.Unit) slipTarget {
	discrete := slipTarget{found: 0.99, named: 0.95, valued: 0.95}
	switch slip {
	case known.Ten:
		if unit == parse.Centimetre {
			discrete.found = 0.90 // ten centimetres are 3.9 in
		}
		return discrete
	case known.Foot:
		return slipTarget{found: 0.99, named: 0.85, valued: 0.95}
	case known.Transposed, known.MetricEdge, known.Joined, known.DecimalLost, known.Swapped, known.OpeningForFull:
		return discrete
	case known.Digit:
		return slipTarget{found: 0.95, named: 0.90}
	case known.Tape4to6:
		return slipTarget{found: 0.96}
	case known.Tape2to3:
		return slipTarget{found: 0.80}
	case known.RowRepeated:
		return slipTarget{found: 0.92}
	case known.RowSkipped:
		return slipTarget{found: 0.95}
	}
	return slipTarget{}
}
