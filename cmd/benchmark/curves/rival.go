package curves

import (
	"slices"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// rival is a published way to find odd points in a series. It sees hull girths
// and full girths as two series along the boat.
type rival struct {
	name  string
	score func(x, y []float64) []float64 // how odd each point is; inches in
}

// flaggedClean is the share of clean ordinary sheets on which a rival may flag
// anything: its threshold is set so.
const flaggedClean = 0.05

// rivals returns the rivals, their thresholds set on ordinary boats that no
// table is made from.
func rivals(b bench) []judge {
	b.seed++
	sheets := b.clean(known.Ordinary)
	var judges []judge
	for _, r := range []rival{
		{"Hampel", hampel}, {"robust LOESS", loess}, {"LOO spline", spline},
	} {
		worst := make([]float64, len(sheets))
		each(len(sheets), func(i int) {
			worst[i] = slices.Max(append(r.scores(sheets[i].survey), 0))
		})
		slices.Sort(worst)
		limit := worst[int((1-flaggedClean)*float64(len(worst)-1))]
		judges = append(judges, judge{r.name, func(s parse.Survey) []validate.Finding {
			return r.findings(s, limit)
		}})
	}
	return judges
}

// scores returns how odd each girth is: hull girths, then full girths.
func (r rival) scores(s parse.Survey) []float64 {
	var x, hull, full []float64
	for _, row := range s.Stations {
		x = append(x, row.At.In(parse.Inch))
		hull = append(hull, row.HullGirth.Value.In(parse.Inch))
		full = append(full, row.FullGirth.Value.In(parse.Inch))
	}
	return append(r.score(x, hull), r.score(x, full)...)
}

// findings asks for every girth whose score is over the limit.
func (r rival) findings(s parse.Survey, limit float64) []validate.Finding {
	var out []validate.Finding
	for i, odd := range r.scores(s) {
		if odd <= limit {
			continue
		}
		cell := parse.Cell{At: s.Stations[i%len(s.Stations)].At, Measure: parse.HullGirth}
		if i >= len(s.Stations) {
			cell.Measure = parse.FullGirth
		}
		out = append(out, validate.Finding{Kind: validate.Recheck, Cell: cell, Rule: validate.Rule(r.name)})
	}
	return out
}

// noise is the standard deviation, in inches, of a girth read to half inches
// with a tape that errs by 0.18: the least scale at which a difference is odd.
const noise = 0.23
