package curves

import (
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
	"fairtape/validate/slip"
)

// tally counts what a judge made of surveys.
type tally struct {
	surveys  int
	found    int // surveys in which all that is wrong was asked for
	named    int // ... and called by its name
	valued   int // ... and the true value suggested, within valueWithin
	needless int // sound numbers asked for
}

// valueWithin is how near, in inches, a suggested value counts as the true one.
const valueWithin = 1

func (t *tally) add(u tally) {
	t.surveys += u.surveys
	t.found += u.found
	t.named += u.named
	t.valued += u.valued
	t.needless += u.needless
}

// share returns a count as a share of the surveys.
func (t tally) share(count int) float64 { return float64(count) / float64(max(t.surveys, 1)) }

// score judges the findings of one survey.
func score(t trial, findings []validate.Finding) tally {
	asked := slices.DeleteFunc(slices.Clone(findings), func(f validate.Finding) bool {
		return f.Kind != validate.Recheck && f.Kind != validate.Confirm
	})
	out := tally{surveys: 1, needless: needless(t, asked)}
	found, named, valued := true, true, true
	switch t.done.Slip {
	case "":
		return out
	case known.RowRepeated, known.RowSkipped:
		found, named = rowsFound(t, asked)
		valued = named
	case known.FromStern, known.AllSwapped, known.AllOpenings, known.AllToKeel, known.AllOtherUnit, known.AllFromFirstMark:
		// Naming the cause to the shop is enough: a note does that too.
		named = slices.ContainsFunc(findings, func(f validate.Finding) bool {
			return len(f.Rows) > 0 && string(f.Slip) == t.done.Name
		})
		found = len(asked) > 0
		valued = named
	default:
		for _, w := range t.done.Wrong {
			f, n, v := wrongFound(w, asked)
			found, named, valued = found && f, named && n, valued && v
		}
	}
	out.found, out.named, out.valued = one(found), one(named), one(valued)
	return out
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// wrongFound reports whether a wrong number is asked for, named and valued. The
// value of a swapped pair is known once it is named.
func wrongFound(w known.Wrong, asked []validate.Finding) (found, named, valued bool) {
	for _, f := range asked {
		if !slices.Contains(cells(f), w.Cell) {
			continue
		}
		found = true
		right := string(f.Slip) == w.Name
		named = named || right
		if f.Suggest != nil {
			off := float64(*f.Suggest-w.Truth) / float64(parse.Inches(1))
			valued = valued || math.Abs(off) <= valueWithin+1e-9
		}
		valued = valued || right && f.Slip == slip.SwappedPair
	}
	return found, named, valued
}

// rowsFound reports whether one finding speaks of the rows, its place within one
// row of the true one, and whether it is named. A repeated row counts as found
// too when its pair is asked for.
func rowsFound(t trial, asked []validate.Finding) (found, named bool) {
	place := t.done.Rows[0]
	for _, f := range asked {
		switch {
		case len(f.Rows) > 0 && string(f.Slip) == t.done.Name && t.near(f.Rows[0], place):
			return true, true
		case t.done.Slip == known.RowRepeated && f.Cell.Measure == parse.MeasurePair && f.Cell.At == place:
			found = true
		}
	}
	return found, false
}

// near reports two places within one row of each other.
func (t trial) near(a, b parse.Length) bool {
	stations := t.survey.Stations
	return math.Abs(float64(a-b)) <= 1.01*float64(stations[1].At-stations[0].At)
}

// needless counts the sound numbers asked for. A question about the boat, which
// names no number, counts as one.
func needless(t trial, asked []validate.Finding) int {
	seen := map[parse.Cell]bool{}
	n := 0
	for _, f := range asked {
		if t.rowsRight(f) {
			continue
		}
		of := cells(f)
		if len(of) == 0 {
			n++
		}
		for _, c := range of {
			if !seen[c] && !t.wrong(c) {
				n++
			}
			seen[c] = true
		}
	}
	return n
}

// rowsRight reports a finding about rows that names what was done to them, its
// place within one row.
func (t trial) rowsRight(f validate.Finding) bool {
	return len(f.Rows) > 0 && len(t.done.Rows) > 0 && string(f.Slip) == t.done.Name && t.near(f.Rows[0], t.done.Rows[0])
}

// wrong reports whether a number is spoiled.
func (t trial) wrong(c parse.Cell) bool {
	for _, w := range t.done.Wrong {
		if w.Cell == c {
			return true
		}
	}
	if c.Measure != parse.HullGirth && c.Measure != parse.FullGirth {
		return len(t.done.Rows) == len(t.survey.Stations) // causes of whole columns spoil the greatest pair too
	}
	return slices.Contains(t.done.Rows, c.At)
}

// cells returns the single numbers that a finding speaks of.
func cells(f validate.Finding) []parse.Cell {
	var out []parse.Cell
	for _, at := range f.Rows {
		out = append(out, parse.Cell{At: at, Measure: parse.HullGirth}, parse.Cell{At: at, Measure: parse.FullGirth})
	}
	at := f.Cell.At
	switch f.Cell.Measure {
	case "":
		return out
	case parse.MeasurePair:
		return append(out, parse.Cell{At: at, Measure: parse.HullGirth}, parse.Cell{At: at, Measure: parse.FullGirth})
	case parse.GreatestPair:
		return append(out, parse.Cell{Measure: parse.GreatestHullGirth}, parse.Cell{Measure: parse.GreatestFullGirth})
	case parse.TransomPair:
		return append(out, parse.Cell{Measure: parse.TransomHullGirth}, parse.Cell{Measure: parse.TransomFullGirth})
	}
	return append(out, f.Cell)
}
