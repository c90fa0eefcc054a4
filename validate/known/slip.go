package known

import (
	"math"
	"math/rand/v2"
	"slices"

	"fairtape/parse"
)

// Slip is a way to go wrong with tape or pen.
type Slip string

// The slips of single numbers.
const (
	Digit       Slip = "digit"
	Transposed  Slip = "transposed"
	Ten         Slip = "ten"
	Foot        Slip = "foot"
	MetricEdge  Slip = "metric edge"
	Joined      Slip = "feet-inches joined"
	DecimalLost Slip = "decimal lost"
	HalfLost    Slip = "half lost" // within the tolerance of the trade: never to be asked for
	Tape4to6    Slip = "tape off 4 to 6 in"
	Tape2to3    Slip = "tape off 2 to 3 in"
	TapeShort   Slip = "tape shorter than the girth"
)

// The slips of a pair, of rows, and two at once.
const (
	Swapped        Slip = "swapped pair"
	OpeningForFull Slip = "opening for full"
	RowRepeated    Slip = "row repeated"
	RowSkipped     Slip = "row skipped"
	FromStern      Slip = "from the stern"
	TwoSlips       Slip = "two slips"
)

// The causes that spoil whole columns.
const (
	AllSwapped       Slip = "all pairs swapped"
	AllOpenings      Slip = "opening for full, all"
	AllToKeel        Slip = "girth to the keel only"
	AllOtherUnit     Slip = "other unit"
	AllFromFirstMark Slip = "tape begins at 1 in"
)

// SingleSlips returns the slips of one number or one pair that the judge is to
// find, in the order of the table.
func SingleSlips() []Slip {
	return []Slip{
		Ten, Foot, Transposed, MetricEdge, Joined, DecimalLost, Swapped,
		OpeningForFull, TapeShort, Digit, Tape4to6, Tape2to3,
	}
}

// ColumnCauses returns the causes that spoil whole columns.
func ColumnCauses() []Slip {
	return []Slip{AllSwapped, AllOpenings, AllToKeel, AllOtherUnit, AllFromFirstMark}
}

// Wrong is one number that a slip spoiled.
type Wrong struct {
	Cell  parse.Cell
	Truth parse.Length // what would have stood there
	Name  string       // what a finding calls the slip
}

// Done says what a slip did.
type Done struct {
	Slip  Slip
	Name  string         // what a finding calls it; that of the first number when there are two slips
	Wrong []Wrong        // single numbers and pairs: those now wrong
	Rows  []parse.Length // slips of rows and columns: the stations they touch
}

// Sheet is a survey together with what it was measured from.
type Sheet struct {
	Boat   Boat
	Tape   Tape
	Survey parse.Survey
}

// Family draws a boat of a class: Simulate or Loft.
type Family func(rng *rand.Rand, class Class) Boat

// Draw makes a boat of the class and measures it.
func (f Family) Draw(rng *rand.Rand, class Class, tape Tape) Sheet {
	b := f(rng, class)
	return Sheet{Boat: b, Tape: tape, Survey: b.Measure(rng, tape)}
}

// Draw makes a boat of the first family and measures it.
func Draw(rng *rand.Rand, class Class, tape Tape) Sheet {
	return Family(Simulate).Draw(rng, class, tape)
}

// tries is how many cells or rows are looked at for one that a slip can befall.
const tries = 60

// Spoil returns the sheet's survey with the slip in it. It reports false when
// the slip cannot befall this survey - nobody transposes 44 - or would change
// it by so little that it is no slip.
func (s Sheet) Spoil(rng *rand.Rand, slip Slip) (parse.Survey, Done, bool) {
	if len(s.Survey.Stations) < fewestRows {
		return s.Survey, Done{}, false
	}
	switch slip {
	case RowRepeated:
		return s.repeatRow(rng)
	case RowSkipped:
		return s.skipRow(rng)
	case FromStern:
		return s.fromStern(rng)
	case TwoSlips:
		return s.twoSlips(rng)
	case AllSwapped, AllOpenings, AllToKeel, AllOtherUnit, AllFromFirstMark:
		return s.column(slip)
	}
	for range tries {
		survey := s.copy()
		places := placesOf(&survey)
		if wrong, ok := s.befall(rng, slip, places[rng.IntN(len(places))]); ok {
			return survey, Done{Slip: slip, Name: wrong[0].Name, Wrong: wrong}, true
		}
	}
	return s.Survey, Done{}, false
}

// fewestRows is the least number of stations on which a slip is tried.
const fewestRows = 5

// copy returns the survey with stations of its own.
func (s Sheet) copy() parse.Survey {
	survey := s.Survey
	survey.Stations = slices.Clone(survey.Stations)
	return survey
}

// place is a pair on a survey, with the names of its two girths.
type place struct {
	hull, full parse.Cell
	pair       *parse.Pair
}

// placesOf returns the pairs of a survey: the stations', the greatest, the
// transom's.
func placesOf(survey *parse.Survey) []place {
	var places []place
	for i := range survey.Stations {
		row := &survey.Stations[i]
		places = append(places, place{
			parse.Cell{At: row.At, Measure: parse.HullGirth}, parse.Cell{At: row.At, Measure: parse.FullGirth}, &row.Pair,
		})
	}
	if g := &survey.Greatest; g.HullGirth.Known {
		places = append(places, place{parse.Cell{Measure: parse.GreatestHullGirth}, parse.Cell{Measure: parse.GreatestFullGirth}, &g.Pair})
	}
	if t := &survey.Transom; t.HullGirth.Known {
		places = append(places, place{parse.Cell{Measure: parse.TransomHullGirth}, parse.Cell{Measure: parse.TransomFullGirth}, t})
	}
	return places
}

// twoSlips puts two slips of single numbers into two different pairs.
func (s Sheet) twoSlips(rng *rand.Rand) (parse.Survey, Done, bool) {
	survey := s.copy()
	done := Done{Slip: TwoSlips}
	places := placesOf(&survey)
	kinds := s.both(rng)
	for _, i := range rng.Perm(len(places)) {
		wrong, ok := s.befall(rng, kinds[len(done.Wrong)], places[i])
		if !ok {
			continue
		}
		done.Wrong = append(done.Wrong, wrong...)
		if len(done.Wrong) == 2 {
			done.Name = done.Wrong[0].Name
			return survey, done, true
		}
	}
	return survey, done, false
}

// both draws the kinds of two slips of single numbers, as often as they happen:
// misread digits most, then the tape.
func (s Sheet) both(rng *rand.Rand) [2]Slip {
	common := []Slip{Digit, Digit, Digit, Ten, Ten, Foot, Transposed, Tape4to6, Tape4to6, Tape2to3, MetricEdge, DecimalLost}
	if s.Tape.Unit == parse.Centimetre {
		common = []Slip{Digit, Digit, Digit, Ten, Ten, Transposed, Tape4to6, Tape4to6, Tape2to3}
	}
	return [2]Slip{common[rng.IntN(len(common))], common[rng.IntN(len(common))]}
}

// befall puts one slip into one pair; the pair is as it was where it cannot.
func (s Sheet) befall(rng *rand.Rand, slip Slip, at place) ([]Wrong, bool) {
	unit := s.Tape.Unit
	hull, full := at.pair.HullGirth.Value.In(unit), at.pair.FullGirth.Value.In(unit)
	switch slip {
	case Swapped:
		if full-hull < s.least(leastSwap) {
			return nil, false
		}
		wrong := []Wrong{
			{at.hull, at.pair.HullGirth.Value, "swapped-pair"},
			{at.full, at.pair.FullGirth.Value, "swapped-pair"},
		}
		at.pair.HullGirth, at.pair.FullGirth = at.pair.FullGirth, at.pair.HullGirth
		return wrong, true
	case OpeningForFull:
		wrong := Wrong{at.full, at.pair.FullGirth.Value, "opening-for-full"}
		at.pair.FullGirth = s.write(full - hull)
		return []Wrong{wrong}, true
	}
	cell, reading, truth := at.hull, &at.pair.HullGirth, hull
	if rng.IntN(2) == 0 {
		cell, reading, truth = at.full, &at.pair.FullGirth, full
	}
	wrote, name, ok := s.miswrite(rng, slip, truth)
	if !ok || wrote <= 0 || math.Abs(wrote-truth) < s.least(leastOff(slip)) {
		return nil, false
	}
	wrong := Wrong{cell, reading.Value, name}
	*reading = s.write(wrote)
	return []Wrong{wrong}, true
}

// leastSwap is the least opening, in inches, of a pair that is swapped: less
// is a slip within the trade's tolerance.
const leastSwap = 1.5

// leastOff returns the least error in inches that counts as the slip.
func leastOff(slip Slip) float64 {
	switch slip {
	case Transposed:
		return 9
	case Digit:
		return 1.5
	}
	return 0
}

// least converts a least error from inches to the survey's unit. A transposed
// pair of digits is 9 or more in any unit.
func (s Sheet) least(inches float64) float64 {
	if s.Tape.Unit == parse.Centimetre && inches < 9 {
		return inches * centimetresPerInch
	}
	return inches
}

// write returns a reading of x in the survey's unit.
func (s Sheet) write(x float64) parse.Reading {
	return typed(parse.Measured(x, s.Tape.Unit), s.Tape.Unit)
}
