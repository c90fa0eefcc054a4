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
		if r.search != nil && r.weight > best.weight {
			best = r
		}
	}
	j := Judgement{Curve: fair.Draw(best.best.worlds)}
	j.Suspicions = rowSuspicions(s, rs, all.Value())
	j.Suspicions = append(j.Suspicions, best.search.suspicions(best.best, fair.Blend(best.best.worlds))...)
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

// reading is one arrangement of a survey, searched. A place of a skipped station
// that looked less likely than others is only glanced at: its search is nil and
// its weight what the others' search made of theirs.
type reading struct {
	arrangement
	search *search
	best   state
	weight float64 // log of prior times density of all it may be
}

// readings searches the survey as written and in every arrangement that could
// explain it better. The first is searched.
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
	places := glanceAt(s, skipped(s))
	var likely []arrangement
	for _, p := range places[:min(mostPlaces, len(places))] {
		likely = append(likely, p.arrangement)
	}
	weigh(likely, -skipDepth, mostPlaces)
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
	return append(rs, unsearched(places, rs)...), nil
}

// hopeless is how far below the best, in log weight, an arrangement is left
// aside. The survey as written never is: an arrangement that takes a gross slip
// off the boat looks far better until the slip is undone.
const hopeless = 100

// mostPlaces is how many places of a skipped station are weighed in full: the
// true one and its neighbours.
const mostPlaces = 3

// place is where a station may have been passed over, and what the survey looks
// like with that undone.
type place struct {
	arrangement
	look float64 // log of prior times density, at a glance
}

// glanceAt returns the places of a skipped station, the likeliest at a glance
// first.
func glanceAt(s parse.Survey, skips []arrangement) []place {
	places := make([]place, len(skips))
	for i, a := range skips {
		sh := newSheet(s, a.survey, 1)
		look, err := fair.Glance(sh.boat, sh.data)
		if err != nil {
			return nil
		}
		places[i] = place{a, a.log + look}
	}
	slices.SortStableFunc(places, func(a, b place) int { return cmp.Compare(b.look, a.look) })
	return places
}

// unsearched returns the places that were only glanced at, weighed as if a
// search lifted them as much as it did the others. Along a parallel middle one
// place is hardly likelier than the next, and all of them count when it is asked
// which is likeliest to be near.
func unsearched(places []place, searched []reading) []reading {
	weights := map[int]float64{} // of the places searched, by how many rows move
	for _, r := range searched {
		if r.kind == RowSkipped {
			weights[len(r.rows)] = r.weight
		}
	}
	if len(weights) == 0 {
		return nil
	}
	var lift float64
	for _, p := range places {
		if w, ok := weights[len(p.rows)]; ok {
			lift += (w - p.look) / float64(len(weights))
		}
	}
	var out []reading
	for _, p := range places {
		if _, ok := weights[len(p.rows)]; !ok {
			out = append(out, reading{arrangement: p.arrangement, weight: p.look + lift})
		}
	}
	return out
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
