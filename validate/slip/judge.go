package slip

import (
	"cmp"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// Judgement is what the search says of a survey.
type Judgement struct {
	Suspicions []Suspicion
	Curve      fair.Curve
}

// Judge looks for slips in a survey. The error is fair.ErrTooFew when there is
// too little for a curve.
func Judge(s parse.Survey) (Judgement, error) {
	s = measured(s)
	rs, err := readings(s)
	if err != nil {
		return Judgement{}, err
	}
	best := &rs[0]
	var all fair.LogSum
	for i := range rs {
		r := &rs[i]
		all.Add(r.weight)
		if r.weight > best.weight {
			best = r
		}
	}
	j := Judgement{Curve: fair.Blend(best.best.worlds)}
	j.Suspicions = rowSuspicions(s, rs, all.Value())
	j.Suspicions = append(j.Suspicions, best.search.suspicions(best.best, j.Curve)...)
	return j, nil
}

// lengthSlack is how far a station at the very stern may lie beyond a length
// that was rounded or measured a little short, inches.
const lengthSlack = 1.0

// measured returns the survey with a length that its stations fit in: where it
// is not known, or lies short of the stations, one station more than there are.
func measured(s parse.Survey) parse.Survey {
	var last parse.Length
	for _, st := range s.Stations {
		last = max(last, st.At)
	}
	if s.LengthOverall.Certain() && s.LengthOverall.Value > last-parse.Inches(lengthSlack) {
		return s
	}
	s.LengthOverall = parse.Reading{Value: last + s.Spacing(), Known: true, Confidence: parse.Typed}
	return s
}

// reading is one arrangement of a survey, searched.
type reading struct {
	arrangement
	search *search
	best   state
	weight float64 // log of prior times density of all it may be
}

// readings searches the survey as written and in every arrangement that could
// explain it better.
func readings(s parse.Survey) ([]reading, error) {
	asWritten := whole(s)
	sh, f, err := asWritten.lay(s)
	if err != nil {
		return nil, err
	}
	shapes, evidence := f.Shapes(mostShapes)
	plain := asWritten.log + evidence
	todo := []laid{{asWritten, sh, f, shapes, plain}}
	weigh := func(as []arrangement, least float64, most int) {
		var found []laid
		for _, a := range as {
			if sh, f, err := a.lay(s); err == nil {
				if e := f.Evidence(); e+a.log > plain+least {
					found = append(found, laid{a, sh, f, nil, e + a.log})
				}
			}
		}
		slices.SortStableFunc(found, func(a, b laid) int { return cmp.Compare(b.plain, a.plain) })
		todo = append(todo, found[:min(most, len(found))]...)
	}
	weigh(columns(s), leastBetter, 2)
	weigh(promising(s, skipped(s)), -skipDepth, mostPlaces)
	weigh(fromStern(s), -doubtDepth, 1)
	for _, a := range offsets(s) {
		off := make([]float64, len(sh.data))
		for i, d := range newSheet(s, a.survey, 1).data {
			off[i] = sh.data[i].Value - d.Value
		}
		if a.log+f.EvidenceLess(off)-f.Evidence() > -offsetDepth {
			sh, f, err := a.lay(s)
			if err == nil {
				todo = append(todo, laid{a, sh, f, nil, plain})
			}
		}
	}
	slices.SortStableFunc(todo, func(a, b laid) int { return cmp.Compare(b.plain, a.plain) })
	top := math.Inf(-1)
	var rs []reading
	for _, l := range todo {
		if l.kind != None && l.plain < todo[0].plain-hopeless {
			continue
		}
		if l.shapes == nil {
			l.shapes, _ = l.fit.Shapes(mostShapes)
		}
		se := newSearch(l.sheet)
		r := reading{arrangement: l.arrangement, search: se, best: se.run(l.fit, l.shapes, top-l.log)}
		r.weight = l.log + se.total()
		top = max(top, r.weight)
		rs = append(rs, r)
	}
	return rs, nil
}

// hopeless is how far below the best, in log weight, an arrangement is left
// aside. The survey as written never is: an arrangement that takes a gross slip
// off the boat looks far better until the slip is undone.
const hopeless = 100

// mostPlaces is how many places of a skipped station are weighed in full: the
// true one and its neighbours.
const mostPlaces = 3

// promising returns the arrangements that look best at a glance.
func promising(s parse.Survey, all []arrangement) []arrangement {
	looks := make([]float64, len(all))
	for i, a := range all {
		sh := newSheet(s, a.survey, 1)
		look, err := fair.Glance(sh.boat, sh.data)
		if err != nil {
			return nil
		}
		looks[i] = a.log + look
	}
	var best []arrangement
	for _, i := range descending(looks)[:min(mostPlaces, len(all))] {
		best = append(best, all[i])
	}
	return best
}

// laid is an arrangement laid out, with its log weight when nothing else is
// wrong.
type laid struct {
	arrangement
	sheet  sheet
	fit    *fair.Fit
	shapes []fair.Shape // nil until looked for
	plain  float64
}
