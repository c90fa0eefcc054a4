// Package history compares a survey with boats whose covers proved to fit. Two
// boats from one mould are the same boat measured twice, so it sees what no
// curve can: a column that is off as a whole, rows moved along the boat. It
// tells the shop; it never asks a customer, and it changes no finding.
package history

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"gonum.org/v1/gonum/interp"

	"fairtape/parse"
)

// Boat is a settled survey whose cover proved to fit.
type Boat struct {
	Job    int
	Survey parse.Survey
}

// Shift is how the rows of a survey lie beside those of the boat it is like.
type Shift string

// The shifts.
const (
	InPlace      Shift = ""
	TowardsBow   Shift = "towards the bow"   // every row is written one station too far forward
	TowardsStern Shift = "towards the stern" // ... too far aft
	FromStern    Shift = "from the stern"    // the rows were counted from the stern
)

// Likeness is what a survey and the boat nearest to it have in common.
type Likeness struct {
	Boat    Boat
	Rows    Shift
	OffHull parse.Length // by how much all hull girths are more here; 0 for not as a whole
	OffFull parse.Length // the same of full girths
	Spread  parse.Length // root mean square of what is left, once shift and offset are taken away
	Differ  []Difference // single numbers that stand out from that, largest first
}

// Difference is one number that is not as on the boat whose cover fits.
type Difference struct {
	Cell parse.Cell
	More parse.Length // here than there
}

// perInch is millimetres in an inch, exact by definition.
const perInch = 25.4

// What counts as the same kind of boat. Two hulls of one make differ by what
// builders, gunwales and tapes differ. The values are our own judgement; the
// benchmark holds them: strangers are not taken for sisters.
const (
	lengthNear = 0.015          // of the length overall
	sisterNear = 0.75 * perInch // spread beside a boat of the same make
	twinNear   = 0.5 * perInch  // spread beside a boat whose make is not the same, or not written
	offAsWhole = 0.75 * perInch // an offset of a column: half of what costs a cover
	standsOut  = 1.5 * perInch  // a single number: the least that a cover shows
	shiftGain  = 0.5            // moved rows have to leave less than this share of the misfit
	fewestRows = 5
)

// Nearest finds the boat that a survey is most like. It reports false when none
// is of similar length and of the same make, or so like it that the make does
// not matter.
func Nearest(s parse.Survey, boats []Boat) (Likeness, bool) {
	var best Likeness
	found := false
	for _, b := range boats {
		if !similarLength(s, b.Survey) {
			continue
		}
		l, ok := compare(s, b)
		limit := parse.Length(twinNear)
		if sameMake(s.Boat, b.Survey.Boat) {
			limit = sisterNear
		}
		if !ok || l.Spread > limit || found && l.Spread >= best.Spread {
			continue
		}
		best, found = l, true
	}
	return best, found
}

func similarLength(a, b parse.Survey) bool {
	x, y := float64(a.LengthOverall.Value), float64(b.LengthOverall.Value)
	return a.LengthOverall.Known && b.LengthOverall.Known && math.Abs(x-y) <= lengthNear*math.Max(x, y)
}

// sameMake reports that two names of boats share most of their words. Numbers
// count: a 15 and a 17 of one builder are two boats.
func sameMake(a, b string) bool {
	x, y := words(a), words(b)
	if len(x) == 0 || len(y) == 0 {
		return false
	}
	common := 0
	for _, w := range x {
		if slices.Contains(y, w) {
			common++
		}
	}
	const most = 2.0 / 3
	return float64(common) >= most*float64(max(len(x), len(y)))
}

func words(name string) []string {
	list := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	slices.Sort(list)
	return slices.Compact(list)
}

// column is one girth along a boat.
type column struct {
	measure parse.Measure
	at      []float64 // mm from the bow, rising
	girth   []float64 // mm
}

func columnOf(s parse.Survey, m parse.Measure) column {
	c := column{measure: m}
	for _, st := range s.Stations {
		r := st.HullGirth
		if m == parse.FullGirth {
			r = st.FullGirth
		}
		if n := len(c.at); !r.Known || n > 0 && float64(st.At) <= c.at[n-1] {
			continue
		}
		c.at, c.girth = append(c.at, float64(st.At)), append(c.girth, float64(r.Value))
	}
	return c
}

// way is one way in which rows may have been moved along the boat.
type way struct {
	rows Shift
	at   func(float64) float64 // where on the boat a row truly lies
}

func ways(step, length float64) []way {
	return []way{
		{InPlace, func(x float64) float64 { return x }},
		{TowardsBow, func(x float64) float64 { return x + step }},
		{TowardsStern, func(x float64) float64 { return x - step }},
		{FromStern, func(x float64) float64 { return length - x }},
	}
}

// compare lays a survey beside a boat with its rows in place, and moved where
// that explains most of what differs.
func compare(s parse.Survey, b Boat) (Likeness, bool) {
	var pairs []pair
	for _, m := range []parse.Measure{parse.HullGirth, parse.FullGirth} {
		p := pair{here: columnOf(s, m), there: columnOf(b.Survey, m)}
		if len(p.here.at) < fewestRows || len(p.there.at) < fewestRows || p.line.Fit(p.there.at, p.there.girth) != nil {
			return Likeness{}, false
		}
		pairs = append(pairs, p)
	}
	best, found := Likeness{}, false
	least := math.Inf(1)
	for _, w := range ways(spacing(pairs[0].here.at), float64(s.LengthOverall.Value)) {
		l, misfit, ok := lay(pairs, w)
		if !ok || misfit >= least {
			continue
		}
		l.Boat = b
		best, found, least = l, true, misfit
		if w.rows == InPlace {
			least *= shiftGain
		}
	}
	return best, found
}

// lay lays both columns beside the boat. Misfit is the mean of what is left,
// in millimetres, a number that stands out counting as no more than that.
func lay(pairs []pair, w way) (l Likeness, misfit float64, ok bool) {
	l.Rows = w.rows
	var left []float64
	all := 0
	for _, p := range pairs {
		cells, more := p.differences(w.at)
		if len(more) < fewestRows {
			return l, 0, false
		}
		off := whole(more)
		if p.here.measure == parse.HullGirth {
			l.OffHull = parse.Length(off)
		} else {
			l.OffFull = parse.Length(off)
		}
		for i, d := range more {
			d -= off
			all++
			misfit += math.Min(math.Abs(d), 2*standsOut)
			if math.Abs(d) < standsOut {
				left = append(left, d)
				continue
			}
			l.Differ = append(l.Differ, Difference{cells[i], parse.Length(d)})
		}
	}
	slices.SortStableFunc(l.Differ, func(a, b Difference) int {
		return cmp.Compare(math.Abs(float64(b.More)), math.Abs(float64(a.More)))
	})
	l.Spread = parse.Length(rms(left))
	const mostDiffer = 4 // one in so many
	return l, misfit / float64(all), mostDiffer*len(l.Differ) <= all
}

// pair is a column beside the same one of a boat whose cover fits.
type pair struct {
	here, there column
	line        interp.AkimaSpline // through there
}

// differences is by how much each girth is more here than there, where both
// were measured.
func (p *pair) differences(at func(float64) float64) (cells []parse.Cell, more []float64) {
	from, to := p.there.at[0], p.there.at[len(p.there.at)-1]
	for i, x := range p.here.at {
		if y := at(x); y >= from && y <= to {
			cells = append(cells, parse.Cell{At: parse.Length(x), Measure: p.here.measure})
			more = append(more, p.here.girth[i]-p.line.Predict(y))
		}
	}
	return cells, more
}

// whole is the offset that most numbers of a column share, 0 when it is too
// small to say.
func whole(more []float64) float64 {
	if m := median(more); math.Abs(m) >= offAsWhole {
		return m
	}
	return 0
}

func median(values []float64) float64 {
	v := slices.Sorted(slices.Values(values))
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}

func rms(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	return math.Sqrt(sum / float64(max(len(values), 1)))
}

// spacing is the usual step between stations.
func spacing(at []float64) float64 {
	steps := make([]float64, 0, len(at))
	for i := 1; i < len(at); i++ {
		steps = append(steps, at[i]-at[i-1])
	}
	return median(steps)
}
