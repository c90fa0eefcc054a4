package phototest

import (
	"math/rand/v2"

	"fairtape/parse/form"
)

// BoxName names one digit box of a page: its field, and which of its boxes.
type BoxName struct {
	Field string
	Index int
}

// What a digit box may hold beside the digits 0 to 9.
const (
	NoDigit    = 10 // nothing
	CrossedOut = 11
)

// FillBoxes writes digits into the boxes of the page, whatever number they make,
// and returns what each box then holds. Of the digits a share is crossed out.
func (s *Sheet) FillBoxes(h *Hand, crossedOut float64, rng *rand.Rand) map[BoxName]int {
	held := map[BoxName]int{}
	for _, f := range s.Layout.Fields {
		if f.Page != s.Page || f.Kind != form.Digits {
			continue
		}
		first := max(rng.IntN(2*len(f.Boxes))-len(f.Boxes), 0) // half of the numbers fill their boxes
		for i, box := range f.Boxes {
			name := BoxName{f.Name, i}
			if held[name] = NoDigit; i < first {
				continue
			}
			held[name] = rng.IntN(10)
			x, y := box.Centre()
			s.digit(h, held[name], x, y, rng)
			if rng.Float64() < crossedOut {
				s.strike(h, box, rng)
				held[name] = CrossedOut
			}
		}
	}
	return held
}
