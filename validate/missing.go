package validate

import (
	"cmp"
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

const (
	// lastStation is how near the stern the last station may be left out,
	// inches. Common practice, no source.
	lastStation = 4
	// mostStations bounds the stations that a mistaken length can ask for.
	mostStations = 100
	// mostRuns is how many runs of blanks are worth a line each.
	mostRuns = 3
)

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
	for k, at := range expectedStations(s) {
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
		at = append(at, distance(b.at, unit))
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

// onStation is how near a row lies to a station to be it, millimetres: a foot
// and 30 cm differ by 5.
const onStation = 2

// expectedStations returns every station from the bow to the stern, and those
// between that the customer added.
func expectedStations(s parse.Survey) []parse.Length {
	pitch := spacing(s)
	end := parse.Length(0)
	if s.LengthOverall.Certain() {
		end = s.LengthOverall.Value
	} else if n := len(s.Stations); n > 0 {
		end = s.Stations[n-1].At + 1
	}
	var all []parse.Length
	for _, st := range s.Stations {
		all = append(all, st.At)
	}
	for k := 1; k <= mostStations && parse.Length(k)*pitch < end-hair; k++ {
		at := parse.Length(k) * pitch
		// The last may be left out near the stern.
		if _, lacks := blankAt(s, at); !lacks || !s.LengthOverall.Certain() || end-at > parse.Inches(lastStation)+hair {
			all = append(all, at)
		}
	}
	slices.SortFunc(all, cmp.Compare[parse.Length])
	return slices.CompactFunc(all, func(a, b parse.Length) bool { return math.Abs(float64(a-b)) < onStation })
}

// spacing returns the distance between stations: a foot or 30 cm, whichever
// more stations lie on, or the customer's own when few lie on either.
func spacing(s parse.Survey) parse.Length {
	foot, metric := parse.Inches(12), parse.Centimetres(30)
	usual, other := foot, metric
	if s.Unit == parse.Centimetre {
		usual, other = metric, foot
	}
	on := func(pitch parse.Length) (n int) {
		for _, st := range s.Stations {
			k := math.Round(float64(st.At / pitch))
			if math.Abs(float64(st.At)-k*float64(pitch)) < onStation {
				n++
			}
		}
		return n
	}
	switch n := len(s.Stations); {
	case n < 2 || 2*on(usual) >= n:
		return usual
	case 2*on(other) >= n:
		return other
	}
	var gaps []parse.Length
	for i := 1; i < len(s.Stations); i++ {
		if gap := s.Stations[i].At - s.Stations[i-1].At; gap > 0 {
			gaps = append(gaps, gap)
		}
	}
	if len(gaps) == 0 {
		return usual
	}
	slices.SortFunc(gaps, cmp.Compare[parse.Length])
	return gaps[len(gaps)/2]
}
