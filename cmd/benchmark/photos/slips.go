package photos

import (
	"fmt"
	"io"
	"math/rand/v2"
	"slices"

	"fairtape/parse"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/slip"
)

// slipsPerPhoto is how many slips are planted, one at a time, into what one
// photo says.
const slipsPerPhoto = 6

// altered counts slips that a customer truly wrote and what reading with the
// curve made of them: a slip has to reach the judge as it was written.
type altered struct{ planted, sent, changed int }

func (a *altered) add(o altered) {
	a.planted, a.sent, a.changed = a.planted+o.planted, a.sent+o.sent, a.changed+o.changed
}

func (a altered) print(out io.Writer) {
	if a.planted == 0 {
		return
	}
	n := float64(a.planted)
	fmt.Fprintf(out, "  true slips planted: %d; sent to a person %.2f%%; altered by the curve %.2f%% (%d; 95 %% bound %.2f%%)\n",
		a.planted, 100*float64(a.sent)/n, 100*float64(a.changed)/n, a.changed, 100*upperBound(a.changed, a.planted))
}

// plantSlips moves a number of a survey as it was read, with all else that it
// may be, by what a slip of the pen or the tape does, and reads the survey with
// the curve. Numbers that were misread are left alone.
func plantSlips(survey parse.Survey, written []phototest.Written, rng *rand.Rand) altered {
	var count altered
	for range slipsPerPhoto {
		w := written[rng.IntN(len(written))]
		was := numberIn(survey, w.Cell)
		if w.Cell.Measure != parse.HullGirth && w.Cell.Measure != parse.FullGirth || !was.Known || !near(was.Value, w.Length) {
			continue
		}
		by := parse.Measured([]float64{10, -10, 1, -1, 2, -3, 5, -6}[rng.IntN(8)], survey.Unit)
		if was.Value+by <= 0 {
			continue
		}
		slipped := survey
		slipped.Stations = slices.Clone(survey.Stations)
		for i, st := range slipped.Stations {
			if !near(st.At, w.Cell.At) {
				continue
			}
			if w.Cell.Measure == parse.HullGirth {
				slipped.Stations[i].HullGirth = moved(was, by)
			} else {
				slipped.Stations[i].FullGirth = moved(was, by)
			}
		}
		count.planted++
		switch now := numberIn(slip.Settle(slipped), w.Cell); {
		case !now.Certain():
			count.sent++
		case !near(now.Value, was.Value+by):
			count.changed++
		}
	}
	return count
}

func moved(r parse.Reading, by parse.Length) parse.Reading {
	r.Value += by
	r.Alternatives = slices.Clone(r.Alternatives)
	for i := range r.Alternatives {
		r.Alternatives[i].Value += by
	}
	return r
}
