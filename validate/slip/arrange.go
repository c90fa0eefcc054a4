package slip

import (
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// arrangement is a way of reading a whole survey: as it was written, or with a
// slip of rows or of whole columns undone.
type arrangement struct {
	kind   Kind
	rows   []int        // of the survey's stations, those that the slip touches
	log    float64      // log of its chance, and of the change of scale
	survey parse.Survey // with the slip undone; stations in the order written
	grain  float64      // how much coarser than usual its numbers are rounded; 0 as usual
}

// Rates of slips of rows and columns, per survey. Common practice, no source.
const (
	fewestRows    = 5     // below which no row can be said to be in the wrong place
	fewestMoved   = 2     // rows; that the last alone was moved is told no better than that it is wrong
	rateSkipped   = 0.006 // a station passed over
	rateFromStern = 0.006 // stations counted from the wrong end
	rateCarryAft  = 0.5   // the same, when the carry point lies abaft midships
	tellingHeight = 2.0   // inches between the end heights from which they tell one end from the other
	rateColumn    = 0.01  // each cause of a whole column
	rateOffset    = 0.03  // a tape that does not begin at nought
	rateLastLeft  = 0.001 // the last row left out though there is room for it
	lastStation   = 4     // inches from the stern within which the last station may be left out
	leastBetter   = 2     // log weight from which a cause of a column is weighed in full
	skipDepth     = 3     // how far below the written order a skipped row is weighed in full
	doubtDepth    = 3     // the same, for stations counted from the stern
	offsetDepth   = 4     // the same, for a tape that does not begin at nought
	cutOff        = 1.0   // inches that a tape's cut-off end takes, most often
	wholeBoat     = 0.4   // share of rows that no boat can have, from which a column is suspected
	longestGirth  = 110.0 // inches; few boats' middle full girth is more, so the unit is doubted
	shortestGirth = 45.0  // inches; few boats' middle full girth is less
)

// whole is the arrangement as it was written.
func whole(s parse.Survey) arrangement { return arrangement{survey: s, log: lastLeft(s)} }

// lastLeft is the log of the chance that a survey ends where it does: a station
// for which there is room is seldom left out.
func lastLeft(s parse.Survey) float64 {
	n := len(s.Stations)
	if n == 0 || s.LengthOverall.Value-s.Stations[n-1].At-s.Spacing() <= parse.Inches(lastStation) {
		return 0
	}
	return math.Log(rateLastLeft)
}

// clone copies the survey so that its stations can be changed.
func clone(s parse.Survey) parse.Survey {
	s.Stations = slices.Clone(s.Stations)
	return s
}

func allRows(s parse.Survey) []int {
	rows := make([]int, len(s.Stations))
	for i := range rows {
		rows[i] = i
	}
	return rows
}

// skipped lists the arrangements in which a station was passed over and every
// row from there on belongs one place further aft. There is none unless the
// station after the last row is missing, and only rows without a gap between
// them move.
func skipped(s parse.Survey) []arrangement {
	n := len(s.Stations)
	step := s.Spacing()
	if n < fewestRows {
		return nil
	}
	last := s.Stations[n-1].At + step
	if last >= s.LengthOverall.Value {
		return nil
	}
	moved := math.Log(rateSkipped / float64(n))
	if last > s.LengthOverall.Value-parse.Inches(stemTurn) { // there the last pair says nothing of the boat
		moved -= 2 * math.Log(flatRange)
	}
	var out []arrangement
	for k := n - 1; k >= 0; k-- {
		if k+1 < n && math.Abs(float64(s.Stations[k+1].At-s.Stations[k].At-step)) > 1 {
			break
		}
		a := arrangement{kind: RowSkipped, survey: clone(s), log: moved}
		for i := k; i < n; i++ {
			a.rows = append(a.rows, i)
			at := last
			if i+1 < n {
				at = s.Stations[i+1].At
			}
			a.survey.Stations[i].At = at
		}
		a.log += lastLeft(a.survey)
		if len(a.rows) >= fewestMoved {
			out = append(out, a)
		}
	}
	return out
}

// fromStern lists the arrangement in which stations were counted from the
// stern, so that they lie at length overall less what is written. The heights
// of the ends tell, when they differ; a carry point abaft midships was measured
// from the stern itself.
func fromStern(s parse.Survey) []arrangement {
	if !s.BowHeight.Certain() || !s.SternHeight.Certain() {
		return nil
	}
	rate := rateFromStern
	switch {
	case s.CarryPoint.Certain() && s.CarryPoint.Value > s.LengthOverall.Value/2:
		rate = rateCarryAft
	case math.Abs(inches(s.BowHeight.Value-s.SternHeight.Value)) < tellingHeight:
		return nil
	}
	a := arrangement{kind: FromStern, survey: clone(s), rows: allRows(s), log: math.Log(rate)}
	for i := range a.survey.Stations {
		a.survey.Stations[i].At = s.LengthOverall.Value - s.Stations[i].At
	}
	a.survey.Greatest.At.Value = s.LengthOverall.Value - s.Greatest.At.Value
	return []arrangement{a}
}

// columns lists the arrangements that undo a cause of a whole column, those
// that the survey gives reason for.
func columns(s parse.Survey) []arrangement {
	var below, beyond, n int
	var fulls []float64
	for _, st := range s.Stations {
		if !st.HullGirth.Certain() || !st.FullGirth.Certain() {
			continue
		}
		n++
		h, f := inches(st.HullGirth.Value), inches(st.FullGirth.Value)
		fulls = append(fulls, f)
		if f <= h {
			below++
		}
		if f > 2*h {
			beyond++
		}
	}
	if n == 0 {
		return nil
	}
	var out []arrangement
	many := int(math.Ceil(wholeBoat * float64(n)))
	if below >= many {
		out = append(out, swappedAll(s), openings(s), tooShort(s))
	}
	if beyond >= many {
		out = append(out, toKeel(s))
	}
	slices.Sort(fulls)
	if middle := fulls[n/2]; middle > longestGirth || middle < shortestGirth {
		out = append(out, otherUnit(s))
	}
	return out
}

// mapPairs returns the survey with every pair put through f, and how many
// numbers are known in it.
func mapPairs(s parse.Survey, f func(*parse.Pair)) parse.Survey {
	t := clone(s)
	for i := range t.Stations {
		f(&t.Stations[i].Pair)
	}
	f(&t.Greatest.Pair)
	f(&t.Transom)
	return t
}

func swappedAll(s parse.Survey) arrangement {
	return arrangement{kind: SwappedPair, rows: allRows(s), log: math.Log(rateColumn),
		survey: mapPairs(s, func(p *parse.Pair) { p.HullGirth, p.FullGirth = p.FullGirth, p.HullGirth })}
}

func openings(s parse.Survey) arrangement {
	return arrangement{kind: OpeningForFull, rows: allRows(s), log: math.Log(rateColumn),
		survey: mapPairs(s, func(p *parse.Pair) { p.FullGirth.Value += p.HullGirth.Value })}
}

// tooShort adds the length of a short tape to every full girth that is not
// above its hull girth.
func tooShort(s parse.Survey) arrangement {
	short := parse.Inches(shortTapeInches)
	if s.Unit == parse.Centimetre {
		short = parse.Centimetres(shortTapeCentimetres)
	}
	a := arrangement{kind: TapeLength, log: math.Log(rateColumn)}
	a.survey = mapPairs(s, func(p *parse.Pair) {
		if p.FullGirth.Value <= p.HullGirth.Value && p.FullGirth.Value < short {
			p.FullGirth.Value += short
		}
	})
	for i := range s.Stations {
		if s.Stations[i].FullGirth.Value != a.survey.Stations[i].FullGirth.Value {
			a.rows = append(a.rows, i)
		}
	}
	return a
}

// toKeel doubles every hull girth, and with it how coarsely it was rounded.
func toKeel(s parse.Survey) arrangement {
	a := arrangement{kind: HalfGirth, rows: allRows(s), log: math.Log(rateColumn), grain: 2}
	known := 0
	a.survey = mapPairs(s, func(p *parse.Pair) {
		if p.HullGirth.Certain() {
			known++
		}
		p.HullGirth.Value *= 2
	})
	a.log += float64(known) * math.Ln2
	return a
}

func otherUnit(s parse.Survey) arrangement {
	factor := 1 / 2.54
	if s.Unit == parse.Centimetre {
		factor = 2.54
	}
	a := arrangement{kind: MetricEdge, rows: allRows(s), log: math.Log(rateColumn), grain: factor}
	known := 0
	scale := func(r *parse.Reading) {
		if r.Certain() {
			known++
		}
		r.Value *= parse.Length(factor)
	}
	a.survey = mapPairs(s, func(p *parse.Pair) { scale(&p.HullGirth); scale(&p.FullGirth) })
	scale(&a.survey.Greatest.Opening)
	a.log += float64(known) * math.Log(factor)
	return a
}

// offsets lists the arrangements in which the tape did not begin at nought;
// only the opening, measured as a control, can tell.
func offsets(s parse.Survey) []arrangement {
	g := s.Greatest
	if s.Decked || !g.Opening.Certain() || !g.HullGirth.Certain() || !g.FullGirth.Certain() {
		return nil
	}
	ends := []parse.Length{parse.Inches(cutOff)}
	if s.Unit == parse.Centimetre {
		ends = []parse.Length{parse.Centimetres(1), parse.Centimetres(2), parse.Centimetres(3), parse.Centimetres(5), parse.Centimetres(10)}
	}
	var out []arrangement
	for _, end := range ends {
		a := arrangement{kind: TapeOffset, rows: allRows(s), log: math.Log(rateOffset / float64(len(ends)))}
		a.survey = mapPairs(s, func(p *parse.Pair) { p.HullGirth.Value -= end; p.FullGirth.Value -= end })
		a.survey.Greatest.Opening.Value -= end
		out = append(out, a)
	}
	return out
}

// lay lays an arrangement out for the fit.
func (a arrangement) lay(written parse.Survey) (sheet, *fair.Fit, error) {
	sh := newSheet(written, a.survey, max(a.grain, 1))
	f, err := fair.New(sh.boat, sh.data)
	return sh, f, err
}
