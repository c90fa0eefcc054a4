package curves

import (
	"slices"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// rival is a published way to find odd points in a series. It sees hull girths
// and full girths as two series along the boat, the greatest pair and that of a
// transom among the stations.
type rival struct {
	name  string
	score func(x, y []float64) []float64 // how odd each point is; inches in, x rising
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
			for _, along := range seriesOf(sheets[i].survey) {
				worst[i] = max(worst[i], slices.Max(r.score(along.x, along.y)))
			}
		})
		slices.Sort(worst)
		limit := worst[int((1-flaggedClean)*float64(len(worst)-1))]
		judges = append(judges, judge{r.name, func(s parse.Survey) []validate.Finding {
			return r.findings(s, limit)
		}})
	}
	return judges
}

// series is one girth along a boat.
type series struct {
	x, y  []float64 // inches
	cells []parse.Cell
}

// apartLeast is the least distance between two points of a series, in inches:
// a greatest pair at a station adds nothing to it.
const apartLeast = 1

// seriesOf returns hull girths and full girths along a boat.
func seriesOf(s parse.Survey) [2]series {
	var hull, full series
	for _, row := range s.Stations {
		hull.put(row.At, parse.Cell{At: row.At, Measure: parse.HullGirth}, row.HullGirth)
		full.put(row.At, parse.Cell{At: row.At, Measure: parse.FullGirth}, row.FullGirth)
	}
	if g := s.Greatest; g.At.Known {
		hull.put(g.At.Value, parse.Cell{Measure: parse.GreatestHullGirth}, g.HullGirth)
		full.put(g.At.Value, parse.Cell{Measure: parse.GreatestFullGirth}, g.FullGirth)
	}
	hull.put(s.LengthOverall.Value, parse.Cell{Measure: parse.TransomHullGirth}, s.Transom.HullGirth)
	full.put(s.LengthOverall.Value, parse.Cell{Measure: parse.TransomFullGirth}, s.Transom.FullGirth)
	return [2]series{hull, full}
}

// put adds a girth where it belongs, unless another lies there already.
func (s *series) put(at parse.Length, cell parse.Cell, girth parse.Reading) {
	x := at.In(parse.Inch)
	i, _ := slices.BinarySearch(s.x, x)
	if !girth.Known || i > 0 && x-s.x[i-1] < apartLeast || i < len(s.x) && s.x[i]-x < apartLeast {
		return
	}
	s.x = slices.Insert(s.x, i, x)
	s.y = slices.Insert(s.y, i, girth.Value.In(parse.Inch))
	s.cells = slices.Insert(s.cells, i, cell)
}

// drop takes a point out.
func (s *series) drop(i int) {
	s.x, s.y, s.cells = slices.Delete(s.x, i, i+1), slices.Delete(s.y, i, i+1), slices.Delete(s.cells, i, i+1)
}

// fewestPoints is the least of a series that a rival is asked about.
const fewestPoints = 4

// findings asks for the girth whose score is highest and over the limit, takes
// it out and looks again, so that one odd point does not taint its neighbours.
func (r rival) findings(s parse.Survey, limit float64) []validate.Finding {
	var out []validate.Finding
	for _, along := range seriesOf(s) {
		for len(along.x) >= fewestPoints {
			scores := r.score(along.x, along.y)
			oddest := slices.Index(scores, slices.Max(scores))
			if scores[oddest] <= limit {
				break
			}
			out = append(out, validate.Finding{Kind: validate.Recheck, Cell: along.cells[oddest], Rule: validate.Rule(r.name)})
			along.drop(oddest)
		}
	}
	return out
}

// noise is the standard deviation, in inches, of a girth read to half inches
// with a tape that errs by 0.18: the least scale at which a difference is odd.
const noise = 0.23
