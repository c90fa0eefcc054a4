package desk

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// foreignUnit counts the numbers of a mail that have no unit in that of the
// job's survey, where they agree with it. It returns why numbers whose unit was
// guessed cannot be taken into the job: they would be in another unit.
func (d *Desk) foreignUnit(tx *ledger.Tx, job ledger.Job, r *route) (string, error) {
	guessed := func(p parse.Problem) bool { return p.Code == parse.CodeUnitGuessed }
	if !slices.ContainsFunc(r.problems, func(p parse.Problem) bool { return guessed(p) || p.Code == parse.CodeUnitUnclear }) {
		return "", nil
	}
	known, err := tx.Survey(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) || err == nil && known.Survey.Readings() == 0 {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	r.settleUnits(known.Survey)
	if !slices.ContainsFunc(r.problems, guessed) {
		return "", nil
	}
	if known.Survey.Unit != r.survey.Unit {
		return fmt.Sprintf("its numbers have no unit and look like %s, but those of job %d are in %s", r.survey.Unit, job.ID, known.Survey.Unit), nil
	}
	r.problems = slices.DeleteFunc(r.problems, guessed)
	return "", nil
}

// settleUnits counts numbers of which it is not clear what they are in, in the
// unit of the survey that is known, where they come near its numbers so and
// would not in the other unit. The others stay in doubt.
func (r *route) settleUnits(known parse.Survey) {
	r.survey.Stations = slices.Clone(r.survey.Stations)
	for _, cell := range Cells(r.survey) {
		reading := readingAt(&r.survey, cell)
		unclear := func(p parse.Problem) bool {
			return p.Code == parse.CodeUnitUnclear && p.Source == reading.Source
		}
		if !reading.Doubtful() || !slices.ContainsFunc(r.problems, unclear) {
			continue
		}
		value, ok := bareIn(reading.Source.Raw, known.Unit)
		if !ok || !nearKin(known, cell, value) {
			continue
		}
		*reading = parse.Reading{Value: value, Known: true, Confidence: parse.Typed, Source: reading.Source}
		r.problems = slices.DeleteFunc(r.problems, unclear)
		r.survey.Unit = known.Unit
	}
}

// bareIn is a number written without a unit, counted in one.
func bareIn(raw string, unit parse.Unit) (parse.Length, bool) {
	a, fault := parse.ParseLength(raw)
	if fault.Some() || a.Scale != parse.Bare {
		return 0, false
	}
	return a.Length(parse.ScaleOf(unit))
}

// kinNear is how far a number may lie from its kin, as a ratio, to be of the
// same unit: less than the square root of 2.54, where inches and centimetres
// are equally likely, and more than a foot is of a girth.
const kinNear = 1.4

// nearKin reports that a number comes near what is known at its place: the
// number itself, or where it is missing the one most like it.
func nearKin(known parse.Survey, cell parse.Cell, value parse.Length) bool {
	kin := ReadingAt(known, cell)
	if !kin.Known {
		kin = kinOf(known, cell)
	}
	if !kin.Known || kin.Value <= 0 || value <= 0 {
		return false
	}
	return math.Abs(math.Log(float64(value/kin.Value))) <= math.Log(kinNear)
}

// kinOf is the number that is most like a missing one.
func kinOf(known parse.Survey, cell parse.Cell) (kin parse.Reading) {
	switch cell.Measure {
	case parse.BowHeight:
		return known.SternHeight
	case parse.SternHeight:
		return known.BowHeight
	case parse.HullGirth, parse.FullGirth:
		nearest := parse.Length(math.Inf(1))
		for _, st := range known.Stations {
			r := st.HullGirth
			if cell.Measure == parse.FullGirth {
				r = st.FullGirth
			}
			if away := max(st.At-cell.At, cell.At-st.At); r.Known && away < nearest {
				nearest, kin = away, r
			}
		}
	}
	return kin
}
