package validate

import (
	"math"
	"slices"
	"strings"

	"fairtape/parse"
)

// missing lists what the customer is asked to supply, one finding per thing; a
// run of blank stations is one thing.
func missing(s parse.Survey) []Finding {
	var out []Finding
	add := func(m parse.Measure, absent bool) {
		if absent {
			out = append(out, Finding{Kind: Missing, Rule: MissingNumber, Cell: parse.Cell{Measure: m},
				Message: names(m) + " is missing"})
		}
	}
	add(parse.LengthOverall, s.LengthOverall.Absent())
	add(parse.BowHeight, s.BowHeight.Absent())
	add(parse.SternHeight, s.SternHeight.Absent())
	add(parse.CarryPoint, s.CarryPoint.Absent())
	hull, full := s.Greatest.HullGirth.Absent(), s.Greatest.FullGirth.Absent()
	add(parse.GreatestPair, hull && full)
	add(parse.GreatestHullGirth, hull && !full)
	add(parse.GreatestFullGirth, full && !hull)
	add(parse.GreatestAt, s.Greatest.At.Absent() && !(hull && full))
	return append(out, missingRows(s)...)
}

// mostRuns is how many runs of blanks are worth a line each.
const mostRuns = 3

// blank is a station of which something was not written.
type blank struct {
	at         parse.Length
	hull, full bool // which girths are absent
}

// missingRows lists the stations that should be there and are not, and those
// with a girth left blank.
func missingRows(s parse.Survey) []Finding {
	var runs [][]blank
	last := -2
	for k, at := range Stations(s) {
		b, ok := blankAt(s, at)
		if !ok {
			continue
		}
		if n := len(runs) - 1; n >= 0 && last == k-1 && alike(runs[n][0], b) {
			runs[n] = append(runs[n], b)
		} else {
			runs = append(runs, []blank{b})
		}
		last = k
	}
	if len(runs) > mostRuns {
		runs = [][]blank{slices.Concat(runs...)}
	}
	var out []Finding
	for _, r := range runs {
		out = append(out, missingRun(r, s.Unit))
	}
	return out
}

func alike(a, b blank) bool { return a.hull == b.hull && a.full == b.full }

func missingRun(run []blank, unit parse.Unit) Finding {
	f := Finding{Kind: Missing, Rule: MissingNumber}
	if b := run[0]; len(run) == 1 && b.hull != b.full {
		f.Cell = parse.Cell{At: b.at, Measure: parse.HullGirth}
		if b.full {
			f.Cell.Measure = parse.FullGirth
		}
		f.Message = place(f.Cell, unit) + " is missing"
		return f
	}
	var at []string
	for _, b := range run {
		f.Rows = append(f.Rows, b.at)
		at = append(at, b.at.Along(unit))
	}
	switch {
	case len(run) == 1:
		f.Message = "the station at " + at[0] + " is missing"
	default:
		f.Message = "the stations at " + strings.Join(at, ", ") + " are missing or incomplete"
	}
	return f
}

// blankAt returns what is absent at a station that should be there.
func blankAt(s parse.Survey, at parse.Length) (blank, bool) {
	b := blank{at, true, true}
	for _, st := range s.Stations {
		if math.Abs(float64(st.At-at)) < onStation {
			b.hull = b.hull && st.HullGirth.Absent()
			b.full = b.full && st.FullGirth.Absent()
		}
	}
	return b, b.hull || b.full
}
