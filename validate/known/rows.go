package known

import (
	"math"
	"math/rand/v2"

	"fairtape/parse"
)

// leastRepeat is the least that a row must differ from its true values, in one
// girth and in inches, to count as repeated: nobody can tell a row written
// twice amidships from two rows that are alike, and it does no harm.
const leastRepeat = 1.5

// repeatRow writes the values of one row into the next too.
func (s Sheet) repeatRow(rng *rand.Rand) (parse.Survey, Done, bool) {
	for range tries {
		survey := s.copy()
		i := 1 + rng.IntN(len(survey.Stations)-1)
		was, copied := survey.Stations[i].Pair, survey.Stations[i-1].Pair
		if apart(was, copied) < leastRepeat {
			continue
		}
		survey.Stations[i].Pair = copied
		at := survey.Stations[i].At
		return survey, Done{
			Slip: RowRepeated, Name: "row-repeated", Rows: []parse.Length{at},
			Wrong: []Wrong{
				{parse.Cell{At: at, Measure: parse.HullGirth}, was.HullGirth.Value, "row-repeated"},
				{parse.Cell{At: at, Measure: parse.FullGirth}, was.FullGirth.Value, "row-repeated"},
			},
		}, true
	}
	return s.Survey, Done{}, false
}

// apart returns the larger difference between two pairs, in inches.
func apart(p, q parse.Pair) float64 {
	return math.Max(
		math.Abs(p.HullGirth.Value.In(parse.Inch)-q.HullGirth.Value.In(parse.Inch)),
		math.Abs(p.FullGirth.Value.In(parse.Inch)-q.FullGirth.Value.In(parse.Inch)))
}

// skipRow leaves one station out: from there on every row holds the girths of
// the next station aft, and the last row is missing. Three rows at least are
// moved.
func (s Sheet) skipRow(rng *rand.Rand) (parse.Survey, Done, bool) {
	survey := s.copy()
	last := len(survey.Stations) - 1
	i := rng.IntN(last - 2)
	done := Done{Slip: RowSkipped, Name: "row-skipped"}
	for k := i; k < last; k++ {
		survey.Stations[k].Pair = survey.Stations[k+1].Pair
		done.Rows = append(done.Rows, survey.Stations[k].At)
	}
	survey.Stations = survey.Stations[:last]
	return survey, done, true
}

// What must tell a boat's two ends apart, in inches: the end heights, which are
// written down as those of bow and stern, and the full girths at equal
// distances from the ends, on the mean. Otherwise counting from the wrong end
// neither shows nor matters.
const (
	leastHeights = 3.0
	leastGirths  = 1.0
)

// fromStern measures the boat anew with the stations counted from the stern.
// Heights and carry point stay those of bow and stern.
func (s Sheet) fromStern(rng *rand.Rand) (parse.Survey, Done, bool) {
	sum, n := 0.0, 0.0
	for x := inchesPerFoot * 1.0; x < s.Boat.Length/2; x += inchesPerFoot {
		_, fore := s.Boat.Girths(x)
		_, aft := s.Boat.Girths(s.Boat.Length - x)
		sum, n = sum+math.Abs(fore-aft), n+1
	}
	if sum/n < leastGirths || math.Abs(s.Boat.BowHeight-s.Boat.SternHeight) < leastHeights {
		return s.Survey, Done{}, false
	}
	survey := s.Tape.measure(rng, s.Boat, true)
	done := Done{Slip: FromStern, Name: "from-stern"}
	for _, row := range survey.Stations {
		done.Rows = append(done.Rows, row.At)
	}
	return survey, done, true
}

// column spoils all girths of the survey in one way.
func (s Sheet) column(slip Slip) (parse.Survey, Done, bool) {
	survey := s.copy()
	done := Done{Slip: slip}
	spoil := func(p *parse.Pair) {
		hull, full := p.HullGirth.Value.In(s.Tape.Unit), p.FullGirth.Value.In(s.Tape.Unit)
		switch slip {
		case AllSwapped:
			done.Name = "swapped-pair"
			p.HullGirth, p.FullGirth = p.FullGirth, p.HullGirth
		case AllOpenings:
			done.Name = "opening-for-full"
			p.FullGirth = s.write(full - hull)
		case AllToKeel:
			done.Name = "half-girth"
			p.HullGirth = s.writeNear(hull / 2)
		case AllOtherUnit:
			done.Name = "metric-edge"
			p.HullGirth, p.FullGirth = s.other(p.HullGirth), s.other(p.FullGirth)
		case AllFromFirstMark:
			done.Name = "tape-offset"
			p.HullGirth, p.FullGirth = s.write(hull+s.firstMark()), s.write(full+s.firstMark())
		}
	}
	for i := range survey.Stations {
		spoil(&survey.Stations[i].Pair)
		done.Rows = append(done.Rows, survey.Stations[i].At)
	}
	if survey.Greatest.HullGirth.Known {
		spoil(&survey.Greatest.Pair)
	}
	if survey.Transom.HullGirth.Known {
		spoil(&survey.Transom)
	}
	if opening := &survey.Greatest.Opening; opening.Known {
		switch slip {
		case AllFromFirstMark:
			*opening = s.write(opening.Value.In(s.Tape.Unit) + s.firstMark())
		case AllOtherUnit:
			*opening = s.other(*opening)
		}
	} else if slip == AllFromFirstMark {
		return survey, done, false // nothing on the sheet tells
	}
	return survey, done, true
}

// other returns a reading of the same length taken from the tape's other edge
// and written as if it were this unit.
func (s Sheet) other(r parse.Reading) parse.Reading {
	factor := centimetresPerInch
	if s.Tape.Unit == parse.Centimetre {
		factor = 1 / centimetresPerInch
	}
	return s.writeNear(r.Value.In(s.Tape.Unit) * factor)
}

// firstMark is where a cut-off tape begins, in the survey's unit: at 1 in, or at
// 3 cm.
func (s Sheet) firstMark() float64 {
	if s.Tape.Unit == parse.Centimetre {
		return 3
	}
	return 1
}

// writeNear returns a reading of x rounded to the survey's grid.
func (s Sheet) writeNear(x float64) parse.Reading {
	return typed(s.Tape.grid(parse.Measured(x, s.Tape.Unit).In(parse.Inch)), s.Tape.Unit)
}
