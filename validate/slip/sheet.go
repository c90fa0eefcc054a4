package slip

import (
	"math"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// number is one number of a survey as the search sees it: the datum of the
// same index in the fit.
type number struct {
	cell    parse.Cell
	read    parse.Length // as it was written
	written float64      // in the customer's unit, with a slip of its column undone
	partner int          // index of the other girth of its pair, -1 for none
	height  bool         // of an end: its datum is the girth that it stands for
}

// sheet is a survey laid out for the fit. Numbers come first among the data,
// then what the ends are known to be.
type sheet struct {
	unit    parse.Unit
	boat    fair.Boat
	numbers []number
	data    []fair.Datum
	rows    []row
}

// row is a station's pair as indices of its numbers, -1 where not read.
type row struct {
	at         parse.Length
	hull, full int
}

// Spreads, inches, beside the tape's own. Rounding to a step has the spread
// step/sqrt(12) (GUM F.2.2.1).
const (
	inchStep       = 0.5
	centimetreStep = 1 / 2.54
)

// What a pointed end says of the girths there. A fine end's hull girth would be
// about twice its height if the stem did not turn; its opening closes but for the
// stem, which is 1/2 to 2 in thick. Common practice, no source.
const (
	endGirthPerHeight = 2.0
	endGirthSpread    = 3
	endOverhang       = 6 // the same for a decked boat, whose ends may hang over by feet
	endOpening        = 1.2
	endOpeningSpread  = 0.6
	// Nearer than this to the stern the loop runs off the turn of the stem, and
	// its girth says nothing of the boat.
	stemTurn = 1.5
)

// step returns the step to which numbers are rounded, inches.
func step(u parse.Unit) float64 {
	if u == parse.Centimetre {
		return centimetreStep
	}
	return inchStep
}

func inches(l parse.Length) float64 { return l.In(parse.Inch) }

// newSheet lays out a survey as it was arranged; cells keep the names that
// they have as written. Numbers are rounded grain times as coarsely as the unit
// has it.
func newSheet(written, s parse.Survey, grain float64) sheet {
	length := inches(s.LengthOverall.Value)
	sh := sheet{unit: s.Unit, boat: fair.Boat{Length: length, Decked: s.Decked}}
	round := grain * step(s.Unit) / math.Sqrt(12)
	add := func(c parse.Cell, was, r parse.Reading, x, hull, opening float64) int {
		if !r.Certain() || x < 0 || x > length {
			return -1
		}
		i := len(sh.numbers)
		sh.numbers = append(sh.numbers, number{cell: c, read: was.Value, written: r.Value.In(s.Unit), partner: -1})
		sh.data = append(sh.data, fair.Datum{X: x, Hull: hull, Opening: opening, Value: inches(r.Value), SD: round})
		return i
	}
	pair := func(a, b int) {
		if a >= 0 && b >= 0 {
			sh.numbers[a].partner, sh.numbers[b].partner = b, a
		}
	}
	for i, st := range s.Stations {
		was := written.Stations[i]
		x, at := inches(st.At), was.At
		if x > length-stemTurn {
			sh.rows = append(sh.rows, row{at, -1, -1})
			continue
		}
		h := add(parse.Cell{At: at, Measure: parse.HullGirth}, was.HullGirth, st.HullGirth, x, 1, 0)
		f := add(parse.Cell{At: at, Measure: parse.FullGirth}, was.FullGirth, st.FullGirth, x, 1, 1)
		pair(h, f)
		sh.rows = append(sh.rows, row{at, h, f})
	}
	if g := s.Greatest; g.At.Certain() {
		x := inches(g.At.Value)
		h := add(parse.Cell{Measure: parse.GreatestHullGirth}, written.Greatest.HullGirth, g.HullGirth, x, 1, 0)
		f := add(parse.Cell{Measure: parse.GreatestFullGirth}, written.Greatest.FullGirth, g.FullGirth, x, 1, 1)
		add(parse.Cell{Measure: parse.GreatestOpening}, written.Greatest.Opening, g.Opening, x, 0, 1)
		pair(h, f)
	}
	h := add(parse.Cell{Measure: parse.TransomHullGirth}, written.Transom.HullGirth, s.Transom.HullGirth, length, 1, 0)
	f := add(parse.Cell{Measure: parse.TransomFullGirth}, written.Transom.FullGirth, s.Transom.FullGirth, length, 1, 1)
	pair(h, f)
	pointed := s.Stern != parse.Square && h < 0 && f < 0
	sh.addHeight(0, parse.BowHeight, s.BowHeight)
	if pointed {
		sh.addHeight(length, parse.SternHeight, s.SternHeight)
		sh.closeEnd(length)
	}
	sh.closeEnd(0)
	sh.boat.Square = !pointed
	for i, slope := range slopes(sh.data) {
		sh.data[i].Slope = slope
	}
	return sh
}

// addHeight adds the hull girth that the height of a pointed end at x speaks
// for.
func (sh *sheet) addHeight(x float64, m parse.Measure, r parse.Reading) {
	if !r.Certain() {
		return
	}
	sh.numbers = append(sh.numbers, number{cell: parse.Cell{Measure: m}, read: r.Value, written: r.Value.In(sh.unit), partner: -1, height: true})
	sh.data = append(sh.data, fair.Datum{X: x, Hull: 1, Value: endGirthPerHeight * inches(r.Value), SD: sh.endSpread(), Fixed: true})
}

// endSpread is how surely an end's height speaks for the hull girth there.
func (sh *sheet) endSpread() float64 {
	if sh.boat.Decked {
		return endOverhang
	}
	return endGirthSpread
}

// closeEnd adds that the opening closes at a pointed end. It comes after all
// numbers.
func (sh *sheet) closeEnd(x float64) {
	sh.data = append(sh.data, fair.Datum{X: x, Opening: 1, Value: endOpening, SD: endOpeningSpread, Fixed: true})
}
