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
	Off         float64 // how far Read lies from Expected, inches
}

// Judgement is what the search says of a survey.
type Judgement struct {
	Suspicions []Suspicion
	Curve      fair.Curve
}

// Judge looks for slips in a survey. The error is fair.ErrTooFew when there is
// too little for a curve.
func Judge(s parse.Survey) (Judgement, error) {
	if !s.LengthOverall.Certain() {
		return Judgement{}, fair.ErrTooFew
	}
	length := inches(s.LengthOverall.Value)
	sh := newSheet(s, length, func(i int) (float64, bool) {
		x := inches(s.Stations[i].At)
		return x, x > 0 && x < length
	})
	f, err := fair.New(sh.boat, sh.data)
	if err != nil {
		return Judgement{}, err
	}
	se := newSearch(sh)
	best := se.run(f)
	worlds := best.fit.Worlds(best.shapes)
	j := Judgement{Curve: fair.Blend(worlds)}
	j.Suspicions = se.suspicions(best, worlds, j.Curve)
	return j, nil
}

// leastProbability is the probability from which a suspicion is worth a word.
const leastProbability = 0.01

// suspicions gathers the weights of all sets of slips by number.
func (s *search) suspicions(best state, worlds []fair.World, curve fair.Curve) []Suspicion {
	var all fair.LogSum
	for _, w := range s.nodes {
		all.Add(w)
	}
	total := all.Value()
	wrong := make([]float64, len(s.sheet.numbers))
	share := make([]float64, len(s.edits))
	for k, w := range s.nodes {
		p := math.Exp(w - total)
		for _, id := range k {
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
		out = append(out, s.suspicion(i, wrong[i], share, worlds, curve, done))
	}
	return out
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

// suspicion describes what is wrong with number i, by the slip that explains
// it best.
func (s *search) suspicion(i int, p float64, share []float64, worlds []fair.World, curve fair.Curve, done []bool) Suspicion {
	var e *edit
	for k := range s.edits {
		if slices.Contains(s.edits[k].cells, i) && (e == nil || share[k] > share[e.id-1]) {
			e = &s.edits[k]
		}
	}
	n, d := s.sheet.numbers[i], s.sheet.data[i]
	est := s.expect(i, worlds, curve)
	out := Suspicion{Cell: n.cell, Kind: e.kind, Probability: math.Min(p, 1), Read: parse.Measured(n.written, s.sheet.unit),
		Expected: parse.Inches(est.Mean), Low: parse.Inches(est.Mean - 2*est.SD), High: parse.Inches(est.Mean + 2*est.SD),
		Off: d.Value - est.Mean}
	for k, c := range e.cells {
		done[c] = true
		if c == i && len(e.values) > 0 {
			out.Suggested, out.Suggest = true, parse.Inches(e.values[k])
		}
	}
	if len(e.cells) == 2 {
		out.Cell.Measure = parse.MeasurePair
		if e.kind == RowRepeated {
			out.Rows = []parse.Length{n.cell.At}
			out.Cell = parse.Cell{}
		}
	}
	done[i] = true
	return out
}

// tapeSD is the spread of a reading of the tape, inches, with rounding to the
// half inch: what a second measurement may differ by.
const tapeSD = 0.23

// expect is what number i should read by the rest of the boat.
func (s *search) expect(i int, worlds []fair.World, curve fair.Curve) fair.Estimate {
	d := s.sheet.data[i]
	hull, full := curve.At(d.X)
	switch {
	case d.Hull == 0:
		return fair.Estimate{Mean: full.Mean - hull.Mean, SD: math.Hypot(full.SD, tapeSD)}
	case d.Opening == 0:
		hull.SD = math.Hypot(hull.SD, tapeSD)
		return hull
	}
	full.SD = math.Hypot(full.SD, tapeSD)
	return full
}
