package form

import (
	"fmt"
	"slices"

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
	slipBetween  = 6.0            // between the girths and the other measures
	slipHull     = 38.0
	slipFull     = 92.0
	slipDistance = 46.0  // where feet and inches end, behind slipHull
	slipRight    = 142.0 // the column beside the table

	// What lay under the tape, above the lower edge.
	slipNothing   = 62.0
	slipSomething = 53.0
	slipWhat      = 45.0
	slipWhatHigh  = 16.0
)

// NewSlip lays out a slip: each place twice, one try under the other, girths
// before other measures. Its errors wrap ErrPaper, ErrUnit or ErrPlaces.
func NewSlip(spec SlipSpec) (Layout, error) {
	if err := checkSheet(spec.Paper, spec.Unit); err != nil {
		return Layout{}, fmt.Errorf("lay out a slip: %w", err)
	}
	if len(spec.Places) < 1 || len(spec.Places) > MostPlaces {
		return Layout{}, fmt.Errorf("lay out a slip: %w: %d, possible are 1 to %d", ErrPlaces, len(spec.Places), MostPlaces)
	}
	b := newBuilder(spec.Paper, spec.Unit)
	b.Slip, b.Job = true, spec.Job
	places := girthsFirst(spec.Places)
	code := Code{Version: Version, Slip: true, Page: 1, Paper: spec.Paper, Unit: spec.Unit, Job: spec.Job, Places: places}
	at := Rect{b.Width - b.left - SlipCodeSide, 26, b.Width - b.left, 26 + SlipCodeSide}
	b.Pages = []Page{newPage(b.Width, b.Height, 1, code, at)}
	y, stations := slipTop, 0
	for i, place := range places {
		if _, ok := shortNames[place.Measure]; !ok {
			return Layout{}, fmt.Errorf("lay out a slip: %w: %q is no measure", ErrPlaces, place.Measure)
		}
		if i > 0 && IsGirth(places[i-1].Measure) && !IsGirth(place.Measure) {
			y += slipBetween
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
	b.tick(NameNothingUnder, b.left+slipRight, b.Height-slipNothing)
	b.tick(NameSomethingUnder, b.left+slipRight, b.Height-slipSomething)
	b.text(NameUnderTape, b.left+slipRight, b.Height-slipWhat, b.Width-2*b.left-slipRight, slipWhatHigh)
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

// IsGirth reports a hull or full girth, or a pair of them, anywhere on the boat.
func IsGirth(m parse.Measure) bool {
	switch m {
	case parse.LengthOverall, parse.BowHeight, parse.SternHeight, parse.CarryPoint, parse.GreatestAt, parse.GreatestOpening:
		return false
	}
	return true
}

func girthsFirst(places []parse.Cell) []parse.Cell {
	sorted := slices.Clone(places)
	slices.SortStableFunc(sorted, func(a, b parse.Cell) int {
		switch ga, gb := IsGirth(a.Measure), IsGirth(b.Measure); {
		case ga == gb:
			return 0
		case ga:
			return -1
		}
		return 1
	})
	return sorted
}
