package parse

import (
	"math"
	"strconv"
)

// Along writes a place along the boat as people of the unit name it, to the
// tenth: "7 ft", "7 ft 6 in", "9 in", "210 cm".
func (l Length) Along(unit Unit) string {
	if unit == Centimetre {
		return tenths(l.In(Centimetre)) + " cm"
	}
	const perFoot = 12
	inches := math.Round(l.In(Inch)*10) / 10
	feet := math.Floor(inches / perFoot)
	switch rest := tenths(inches - feet*perFoot); {
	case feet == 0:
		return rest + " in"
	case rest == "0":
		return tenths(feet) + " ft"
	default:
		return tenths(feet) + " ft " + rest + " in"
	}
}

func tenths(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }
