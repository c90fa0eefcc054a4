package slip

import (
	"cmp"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/validate/fair"
)

// Suspicion is what the search thinks of one number, or of the rows of one
// slip.
type Suspicion struct {
	Cell        parse.Cell     // MeasurePair for both girths of a place; Measure "" for rows
	Rows        []parse.Length // for slips of rows
	Kind        Kind
	Read        parse.Length
	Expected    parse.Length // what the rest of the boat says
	Low, High   parse.Length // 95 % range of Expected, as the tape would read
	Suggest     parse.Length // what the slip explains
	Suggested   bool
	Probability float64 // that the number is wrong, by the model
	Off         float64 // how far Read lies from Expected, inches
	Whole       bool    // a cause of a whole column
}

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
	j.Suspicions = append(j.Suspicions, best.search.suspicions(j.Curve)...)
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
	s.LengthOverall = parse.Reading{Value: last + pitch(s), Known: true, Confidence: parse.Typed}
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
		if a.log+f.EvidenceLess(off)-f.Evidence() > -doubtDepth {
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
		if l.plain < todo[0].plain-hopeless && (l.kind != None || todo[0].kind != MetricEdge) {
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
// aside: whatever else is wrong is wrong in all of them.
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

// near reports whether two arrangements of one kind would be the same finding:
// the place of a skipped station is right within one row.
func (r *reading) near(o *reading) bool {
	return r.kind != RowSkipped || len(r.rows)-len(o.rows) <= 1 && len(o.rows)-len(r.rows) <= 1
}

// rowSuspicions gathers the weights of the slips of rows and columns, by kind,
// each described by its likeliest arrangement.
func rowSuspicions(s parse.Survey, all []reading, total float64) []Suspicion {
	var out []Suspicion
	for i := range all {
		r := &all[i]
		likeliest := true
		var same fair.LogSum
		for k := range all {
			if all[k].kind == r.kind {
				if r.near(&all[k]) {
					same.Add(all[k].weight)
				}
				likeliest = likeliest && (all[k].weight < r.weight || all[k].weight == r.weight && k >= i)
			}
		}
		p := math.Exp(same.Value() - total)
		if r.kind == None || !likeliest || p < leastProbability {
			continue
		}
		sus := Suspicion{Kind: r.kind, Probability: math.Min(p, 1), Whole: r.kind != RowSkipped}
		for _, k := range r.rows {
			sus.Rows = append(sus.Rows, s.Stations[k].At)
		}
		out = append(out, sus)
	}
	return out
}

// leastProbability is the probability from which a suspicion is worth a word.
const leastProbability = 0.01

// suspicions gathers the weights of all sets of slips by number.
func (s *search) suspicions(curve fair.Curve) []Suspicion {
	total := s.total()
	wrong := make([]float64, len(s.sheet.numbers))
	share := make([]float64, len(s.edits))
	for _, n := range s.nodes {
		p := math.Exp(n.weight - total)
		for _, id := range n.edits {
			if id == 0 {
				continue
			}
			share[id-1] += p
			for _, c := range s.edits[id-1].cells {
				wrong[c] += p
			}
		}
	}
	var out []Suspicion
	done := make([]bool, len(wrong))
	for _, i := range descending(wrong) {
		if wrong[i] < leastProbability || done[i] {
			continue
		}
		out = append(out, s.suspicion(i, wrong[i], share, curve, done))
	}
	return out
}

// total returns the log weight of all sets of slips together.
func (s *search) total() float64 {
	var all fair.LogSum
	for _, n := range s.nodes {
		all.Add(n.weight)
	}
	return all.Value()
}

func descending(v []float64) []int {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case v[a] > v[b]:
			return -1
		case v[a] < v[b]:
			return 1
		}
		return 0
	})
	return order
}

// vague is the weight, in naming a slip, of one that says nothing of what was
// meant: a name with a value helps the shop more, if it is anywhere near as
// likely.
const vague = 0.3

// suspicion describes what is wrong with number i, by the slip that explains
// it best.
func (s *search) suspicion(i int, p float64, share []float64, curve fair.Curve, done []bool) Suspicion {
	var e *edit
	var most float64
	for k := range s.edits {
		claim := share[k]
		if len(s.edits[k].values) == 0 && s.edits[k].kind != RowRepeated {
			claim *= vague
		}
		if slices.Contains(s.edits[k].cells, i) && (e == nil || claim > most) {
			e, most = &s.edits[k], claim
		}
	}
	n := s.sheet.numbers[i]
	est := s.expect(i, curve)
	out := Suspicion{Cell: n.cell, Kind: e.kind, Probability: math.Min(p, 1), Read: n.read,
		Expected: parse.Inches(est.Mean), Low: parse.Inches(est.Mean - 2*est.SD), High: parse.Inches(est.Mean + 2*est.SD),
		Off: inches(parse.Measured(n.written, s.sheet.unit)) - est.Mean}
	for k, c := range e.cells {
		done[c] = true
		if d := s.sheet.data[c]; len(e.cells) == 2 {
			// The pair does as much harm as the worse of its numbers.
			if off := d.Value - s.expect(c, curve).Mean; math.Abs(off) > math.Abs(out.Off) {
				out.Off = off
			}
		}
		if c == i && len(e.values) > 0 {
			out.Suggested, out.Suggest = true, parse.Inches(e.values[k])
			if n.height {
				out.Suggest /= endGirthPerHeight
			}
		}
	}
	if len(e.cells) == 2 {
		out.Cell.Measure = pairOf(n.cell.Measure)
		if e.kind == RowRepeated {
			out.Rows = []parse.Length{n.cell.At}
			out.Cell = parse.Cell{}
		}
	}
	done[i] = true
	return out
}

// pairOf names the pair that a girth belongs to.
func pairOf(m parse.Measure) parse.Measure {
	switch m {
	case parse.GreatestHullGirth, parse.GreatestFullGirth:
		return parse.GreatestPair
	case parse.TransomHullGirth, parse.TransomFullGirth:
		return parse.TransomPair
	}
	return parse.MeasurePair
}

// tapeSD is the spread of a reading of the tape, inches, with rounding to the
// half inch: what a second measurement may differ by.
const tapeSD = 0.23

// expect is what number i should read by the rest of the boat.
func (s *search) expect(i int, curve fair.Curve) fair.Estimate {
	d := s.sheet.data[i]
	hull, full := curve.At(d.X)
	switch {
	case s.sheet.numbers[i].height:
		return fair.Estimate{Mean: hull.Mean / endGirthPerHeight, SD: math.Hypot(hull.SD, endGirthSpread) / endGirthPerHeight}
	case d.Hull == 0:
		return fair.Estimate{Mean: full.Mean - hull.Mean, SD: math.Hypot(full.SD, tapeSD)}
	case d.Opening == 0:
		hull.SD = math.Hypot(hull.SD, tapeSD)
		return hull
	}
	full.SD = math.Hypot(full.SD, tapeSD)
	return full
}
