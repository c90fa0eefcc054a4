package form

import (
	"fmt"

	"fairtape/parse"
)

// MostPlaces is how many places a slip can ask for; with more all stations are
// measured again, on a form.
const MostPlaces = 8

// SlipSpec is what a slip is made for.
type SlipSpec struct {
	Paper  Paper
	Unit   parse.Unit
	Job    int
	Places []parse.Cell // 1 to MostPlaces, in the order asked; a pair is one place
}

// Where things lie on a slip, in millimetres from the left margin or the top.
const (
	slipTop      = 33.0
	slipPitch    = 2*RowPitch + 3 // a place with its two tries
	slipHull     = 42.0
	slipFull     = 89.0
	slipDistance = 46.0  // where feet and inches end
	slipRight    = 142.0 // the column beside the table
	slipUnder    = 84.0  // above the lower edge: what lay under the tape
	slipUnder2   = slipUnder - 9
	slipUnder3   = slipUnder2 - 9
)

// NewSlip lays out a slip: each place twice, one try under the other. Its
// errors wrap ErrPaper, ErrUnit or ErrPlaces.
func NewSlip(spec SlipSpec) (Layout, error) {
	if err := checkSheet(spec.Paper, spec.Unit); err != nil {
		return Layout{}, fmt.Errorf("lay out a slip: %w", err)
	}
	if len(spec.Places) < 1 || len(spec.Places) > MostPlaces {
		return Layout{}, fmt.Errorf("lay out a slip: %w: %d, possible are 1 to %d", ErrPlaces, len(spec.Places), MostPlaces)
	}
	b := newBuilder(spec.Paper, spec.Unit)
	b.Slip, b.Job = true, spec.Job
	code := Code{Version: Version, Slip: true, Page: 1, Paper: spec.Paper, Unit: spec.Unit, Job: spec.Job, Places: spec.Places}
	at := Rect{b.Width - b.left - SlipCodeSide, 26, b.Width - b.left, 26 + SlipCodeSide}
	b.Pages = []Page{newPage(b.Width, b.Height, 1, code, at)}
	y, stations := slipTop, 0
	for _, place := range spec.Places {
		if _, ok := shortNames[place.Measure]; !ok {
			return Layout{}, fmt.Errorf("lay out a slip: %w: %q is no measure", ErrPlaces, place.Measure)
		}
		prefix := ""
		if isStation(place.Measure) {
			prefix = fmt.Sprintf("stations[%d].", stations)
			stations++
		}
		for b.try = 1; b.try <= 2; b.try++ {
			b.place(fmt.Sprintf("try%d.%s", b.try, prefix), place, y+float64(b.try-1)*RowPitch)
		}
		y += slipPitch
	}
	b.try = 0
	b.tick(NameNothingUnder, b.left+slipRight, b.Height-slipUnder)
	b.tick(NameSomethingUnder, b.left+slipRight, b.Height-slipUnder2)
	b.text(NameUnderTape, b.left+slipRight, b.Height-slipUnder3, b.Width-2*b.left-slipRight, 20)
	return b.Layout, nil
}

// place adds the fields of one try; prefix comes before the measure's name.
func (b *builder) place(prefix string, place parse.Cell, y float64) {
	whole := func(m parse.Measure, x float64) {
		b.whole(prefix+string(m), parse.Cell{At: place.At, Measure: m}, 3, b.left+x+3*BoxWidth+2*BoxGap, y)
	}
	switch m := place.Measure; m {
	case parse.MeasurePair:
		whole(parse.HullGirth, slipHull)
		whole(parse.FullGirth, slipFull)
	case parse.GreatestPair:
		whole(parse.GreatestHullGirth, slipHull)
		whole(parse.GreatestFullGirth, slipFull)
	case parse.TransomPair:
		whole(parse.TransomHullGirth, slipHull)
		whole(parse.TransomFullGirth, slipFull)
	case parse.FullGirth, parse.GreatestFullGirth, parse.TransomFullGirth:
		whole(m, slipFull)
	case parse.LengthOverall, parse.GreatestAt:
		b.distance(prefix+string(m), place, b.left+slipHull+slipDistance, y)
	default:
		whole(m, slipHull)
	}
}

func isStation(m parse.Measure) bool {
	return m == parse.HullGirth || m == parse.FullGirth || m == parse.MeasurePair
}
