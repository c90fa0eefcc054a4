package slip

import (
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
	Off         float64 // how far Read lies from what was meant if it is wrong, inches, on the mean
	Whole       bool    // a cause of a whole column
	Every       bool    // a slip of rows from the first row on
}

// near reports whether two arrangements of one kind would be the same finding:
// the place of a skipped station is right within one row.
func (r *reading) near(o *reading) bool {
	return r.kind == o.kind && (r.kind != RowSkipped || len(r.rows)-len(o.rows) <= 1 && len(o.rows)-len(r.rows) <= 1)
}

// chance is the log weight of all that would be the same finding as r; those at
// other rows count by the share given.
func (r *reading) chance(all []reading, others float64) float64 {
	var sum fair.LogSum
	for i := range all {
		o := &all[i]
		switch {
		case !r.near(o):
		case len(r.rows) == len(o.rows):
			sum.Add(o.weight)
		default:
			sum.Add(o.weight + math.Log(others))
		}
	}
	return sum.Value()
}

// besides is what a place next to the true one is worth in choosing the place
// to tell: nearly as much.
const besides = 0.9

// rowSuspicions gathers the weights of the slips of rows and columns, by kind,
// each described by the arrangement that is likeliest to be right or near it.
func rowSuspicions(s parse.Survey, all []reading, total float64) []Suspicion {
	type likeliest struct {
		*reading
		score float64
	}
	var best []likeliest // one a kind
	for i := range all {
		r := likeliest{&all[i], all[i].chance(all, besides)}
		if r.kind == None {
			continue
		}
		k := slices.IndexFunc(best, func(b likeliest) bool { return b.kind == r.kind })
		switch {
		case k < 0:
			best = append(best, r)
		case r.score > best[k].score:
			best[k] = r
		}
	}
	var out []Suspicion
	for _, r := range best {
		p := math.Exp(r.chance(all, 1) - total)
		if p < leastProbability {
			continue
		}
		sus := Suspicion{Kind: r.kind, Probability: math.Min(p, 1), Whole: r.kind != RowSkipped, Every: len(r.rows) == len(s.Stations)}
		for _, k := range r.rows {
			sus.Rows = append(sus.Rows, s.Stations[k].At)
		}
		out = append(out, sus)
	}
	return out
}

// leastProbability is the probability from which a suspicion is worth a word.
const leastProbability = 0.01

// suspicions gathers the weights of all sets of slips by number. The best set
// and the curve under it say what each should have been.
func (s *search) suspicions(best state, curve fair.Curve) []Suspicion {
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
		e := s.likeliest(i, share)
		out = append(out, s.suspicion(i, wrong[i], e, share, s.expectations(e, best, curve)))
		for _, c := range e.cells {
			done[c] = true
		}
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

// How much a slip's name is worth to the shop, beside others that are as likely.
const (
	vague   = 0.3  // it says nothing of what was meant: a name with a value helps more
	anyOf9  = 0.5  // one digit of nine, where a ten or a pair of digits explains it too
	turning = 1.25 // a pair of digits that was turned, which in centimetres is often a ten but for one
)

// worth is what the name of a slip is worth.
func (e *edit) worth() float64 {
	switch {
	case len(e.values) == 0 && e.kind != RowRepeated:
		return vague
	case e.kind == Digit:
		return anyOf9
	case e.kind == Transposed:
		return turning
	}
	return 1
}

// likeliest returns the slip that explains best what is wrong with number i:
// the kind that all its values together make likeliest, and of that the
// likeliest value.
func (s *search) likeliest(i int, share []float64) *edit {
	kinds := map[Kind]float64{}
	for k := range s.edits {
		if e := &s.edits[k]; slices.Contains(e.cells, i) {
			kinds[e.kind] += share[k] * e.worth()
		}
	}
	var best *edit
	var most float64
	for k := range s.edits {
		e := &s.edits[k]
		if !slices.Contains(e.cells, i) {
			continue
		}
		if best == nil || kinds[e.kind] > kinds[best.kind] || e.kind == best.kind && share[k] > most {
			best, most = e, share[k]
		}
	}
	return best
}

// expectations returns what the rest of the boat says of each number of a slip.
func (s *search) expectations(e *edit, best state, curve fair.Curve) []fair.Estimate {
	var all []fair.Estimate
	for _, c := range e.cells {
		all = append(all, s.expect(c, best, curve))
	}
	return all
}

// suspicion describes what is wrong with number i, by the slip that explains it
// best.
func (s *search) suspicion(i int, p float64, e *edit, share []float64, expected []fair.Estimate) Suspicion {
	n := s.sheet.numbers[i]
	est := expected[slices.Index(e.cells, i)]
	out := Suspicion{Cell: n.cell, Kind: e.kind, Probability: math.Min(p, 1), Read: n.read,
		Expected: parse.Inches(est.Mean), Low: parse.Inches(est.Mean - 2*est.SD), High: parse.Inches(est.Mean + 2*est.SD)}
	for k, c := range e.cells {
		// A pair does as much harm as the worse of its numbers.
		out.Off = math.Max(out.Off, s.off(c, share, expected[k]))
		if c == i && len(e.values) > 0 {
			out.Suggested, out.Suggest = true, parse.Inches(s.measured(i, e.values[k]))
		}
	}
	if len(e.cells) == 2 {
		out.Cell.Measure = pairOf(n.cell.Measure)
		if e.kind == RowRepeated {
			out.Rows = []parse.Length{n.cell.At}
			out.Cell = parse.Cell{}
		}
	}
	return out
}

// off returns how far number i lies from what was meant if it is wrong, inches,
// on the mean of all that may have been.
func (s *search) off(i int, share []float64, expected fair.Estimate) float64 {
	read := s.measured(i, s.sheet.data[i].Value)
	var sum, total float64
	for k := range s.edits {
		at := slices.Index(s.edits[k].cells, i)
		if at < 0 {
			continue
		}
		meant := expected.Mean
		if len(s.edits[k].values) > 0 {
			meant = s.measured(i, s.edits[k].values[at])
		}
		sum += share[k] * math.Abs(read-meant)
		total += share[k]
	}
	return sum / total
}

// measured returns what was measured, inches, for a value of datum i: an end's
// height for the girth that it stands for.
func (s *search) measured(i int, value float64) float64 {
	if s.sheet.numbers[i].height {
		return value / endGirthPerHeight
	}
	return value
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

// expect is what number i should read by the rest of the boat: left out where
// the best set of slips leaves it as it is.
func (s *search) expect(i int, best state, curve fair.Curve) fair.Estimate {
	d := s.sheet.data[i]
	if !slices.ContainsFunc(best.edits, func(id int) bool { return slices.Contains(s.edits[id-1].cells, i) }) {
		e := leftOut(best.worlds, i)
		return fair.Estimate{Mean: s.measured(i, e.Mean), SD: s.measured(i, e.SD)}
	}
	hull, full := curve.At(d.X)
	switch {
	case s.sheet.numbers[i].height:
		return fair.Estimate{Mean: s.measured(i, hull.Mean), SD: s.measured(i, math.Hypot(hull.SD, d.SD))}
	case d.Hull == 0:
		return fair.Estimate{Mean: full.Mean - hull.Mean, SD: math.Hypot(full.SD, tapeSD)}
	case d.Opening == 0:
		hull.SD = math.Hypot(hull.SD, tapeSD)
		return hull
	}
	full.SD = math.Hypot(full.SD, tapeSD)
	return full
}

// leftOut blends what the worlds predict of number i from all others.
func leftOut(worlds []fair.World, i int) fair.Estimate {
	var total fair.LogSum
	weights := make([]float64, len(worlds))
	for k := range worlds {
		w := &worlds[k]
		weights[k] = w.LogWeight - w.Density(i)
		total.Add(weights[k])
	}
	var mean, square float64
	for k := range worlds {
		m, sd, _ := worlds[k].Predict(i)
		p := math.Exp(weights[k] - total.Value())
		mean += p * m
		square += p * (m*m + sd*sd)
	}
	return fair.Estimate{Mean: mean, SD: math.Sqrt(math.Max(square-mean*mean, tapeSD*tapeSD))}
}
