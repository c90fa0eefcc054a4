package parse

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Merge makes one survey of what several documents say, and passes on their
// problems with those that follow from comparing them. Where documents agree
// the first is kept as the source; where they say different things the reading
// has no value and both as alternatives, and one problem shows them. Two
// lengths overall, or two full tables that differ, are two boats: then the
// survey is empty and a problem says so, for a person to decide. The order of
// the documents changes nothing but the sources.
func Merge(docs ...Document) (Survey, []Problem) {
	var problems []Problem
	var surveys []Survey
	twoBoats := false
	for _, d := range docs {
		problems = append(problems, d.Problems...)
		surveys = append(surveys, d.Surveys...)
		twoBoats = twoBoats || len(d.Surveys) > 1
	}
	if !twoBoats {
		if p, differ := twoBoatsIn(surveys); differ {
			twoBoats = true
			problems = append(problems, p)
		}
	}
	if twoBoats {
		return Survey{Stern: Pointed}, problems
	}
	m := merger{unit: commonUnit(surveys)}
	merged := m.merge(surveys)
	if p, lone := doubtLone(&merged); lone {
		m.problems = append(m.problems, p)
	}
	return merged, append(problems, m.problems...)
}

// Two tables are two boats, and not one with corrections, when they share at
// least so many stations and more than half of the shared numbers differ.
const fullTable = 4

// TwoBoats reports whether two surveys cannot be of one boat: their lengths
// overall differ, or their full tables do.
func TwoBoats(a, b Survey) bool {
	near := tolerance(a.Unit, b.Unit)
	if a.LengthOverall.Certain() && b.LengthOverall.Certain() && !same(a.LengthOverall.Value, b.LengthOverall.Value, near) {
		return true
	}
	if len(a.Stations) < fullTable || len(b.Stations) < fullTable {
		return false
	}
	shared, differ := 0, 0
	pairs := pairUp(a.Stations, b.Stations)
	for _, p := range pairs {
		for _, r := range [][2]Reading{{p[0].HullGirth, p[1].HullGirth}, {p[0].FullGirth, p[1].FullGirth}} {
			if r[0].Known && r[1].Known {
				shared++
				if !same(r[0].Value, r[1].Value, near) {
					differ++
				}
			}
		}
	}
	if shared >= fullTable {
		return 2*differ > shared
	}
	if shared == 0 && len(pairs) >= fullTable {
		return false // one has the hull girths, the other the full girths
	}
	// Tables on different stations go together when one continues the other, or
	// has the stations between.
	a0, a1 := reach(a.Stations)
	b0, b1 := reach(b.Stations)
	return a0 < b1 && b0 < a1 && !oneSeries(a.Stations, b.Stations)
}

func reach(stations []Station) (first, last Length) {
	first, last = stations[0].At, stations[0].At
	for _, s := range stations {
		first, last = min(first, s.At), max(last, s.At)
	}
	return first, last
}

// pairUp matches the stations of two tables: the first at a place with the
// first there, the second with the second.
func pairUp(a, b []Station) [][2]Station {
	var pairs [][2]Station
	used := make([]bool, len(b))
	for _, s := range a {
		for j, t := range b {
			if !used[j] && same(s.At, t.At, onePlace) {
				used[j] = true
				pairs = append(pairs, [2]Station{s, t})
				break
			}
		}
	}
	return pairs
}

func twoBoatsIn(surveys []Survey) (Problem, bool) {
	for i := range surveys {
		for j := i + 1; j < len(surveys); j++ {
			if !TwoBoats(surveys[i], surveys[j]) {
				continue
			}
			a, b := describe(surveys[i]), describe(surveys[j])
			return Problem{
				Code:    CodeTwoBoats,
				Source:  firstSource(surveys[i]),
				Message: fmt.Sprintf("These look like two boats: %s and %s. Please say which belongs to this job.", a, b),
			}, true
		}
	}
	return Problem{}, false
}

// describe names a survey by its length, or its table, and its file.
func describe(s Survey) string {
	if s.LengthOverall.Known {
		return fmt.Sprintf("length overall %s (%s)", s.LengthOverall.Source.Raw, where(s.LengthOverall.Source))
	}
	return fmt.Sprintf("a table of %d stations (%s)", len(s.Stations), where(firstSource(s)))
}

func where(s Source) string {
	return strings.Trim(s.File+", "+s.Place, ", ")
}

func firstSource(s Survey) Source {
	var first Source
	s.Each(func(r *Reading) {
		if first == (Source{}) {
			first = r.Source
		}
	})
	return first
}

// Each calls f for every reading of the survey.
func (s *Survey) Each(f func(*Reading)) {
	for _, r := range []*Reading{&s.LengthOverall, &s.BowHeight, &s.SternHeight, &s.CarryPoint,
		&s.Greatest.At, &s.Greatest.HullGirth, &s.Greatest.FullGirth, &s.Greatest.Opening,
		&s.Transom.HullGirth, &s.Transom.FullGirth} {
		f(r)
	}
	for i := range s.Stations {
		f(&s.Stations[i].HullGirth)
		f(&s.Stations[i].FullGirth)
	}
}

// Readings counts the numbers of the survey that somebody wrote.
func (s Survey) Readings() int {
	n := 0
	s.Each(func(r *Reading) {
		if !r.Absent() {
			n++
		}
	})
	return n
}

// commonUnit is the unit that most numbers were written in; inches when there
// are as many of each.
func commonUnit(surveys []Survey) Unit {
	count := map[Unit]int{}
	for _, s := range surveys {
		if s.Unit != UnknownUnit {
			count[s.Unit] += 1 + s.Readings()
		}
	}
	switch {
	case count[Centimetre] > count[Inch]:
		return Centimetre
	case count[Inch] > 0:
		return Inch
	}
	return UnknownUnit
}

const (
	// exactly is how far apart two equal lengths may come out, in mm.
	exactly = 0.01
	// roundedAgain allows for a length that was written once in inches and
	// once in centimetres, each rounded as usual: half a centimetre.
	roundedAgain = 5
	// onePlace is how far apart the same station may come out, in mm.
	onePlace = 1
)

func tolerance(a, b Unit) float64 {
	if a != b {
		return roundedAgain
	}
	return exactly
}

func same(a, b Length, within float64) bool {
	return math.Abs(float64(a-b)) <= within
}

type merger struct {
	unit     Unit
	problems []Problem
}

// said is a reading with the unit of the document it comes from.
type said struct {
	Reading
	unit Unit
}

func (m *merger) merge(surveys []Survey) Survey {
	out := Survey{Unit: m.unit, Stern: Pointed}
	all := func(of func(Survey) Reading) Reading {
		var list []said
		for _, s := range surveys {
			list = append(list, said{of(s), s.Unit})
		}
		return m.reading(list)
	}
	for _, s := range surveys {
		out.Customer = bothTexts(out.Customer, s.Customer)
		out.Boat = bothTexts(out.Boat, s.Boat)
		out.Decked = out.Decked || s.Decked
		if s.Stern == Square {
			out.Stern = Square
		}
	}
	out.LengthOverall = all(func(s Survey) Reading { return s.LengthOverall })
	out.BowHeight = all(func(s Survey) Reading { return s.BowHeight })
	out.SternHeight = all(func(s Survey) Reading { return s.SternHeight })
	out.CarryPoint = all(func(s Survey) Reading { return s.CarryPoint })
	out.Greatest.At = all(func(s Survey) Reading { return s.Greatest.At })
	out.Greatest.HullGirth = all(func(s Survey) Reading { return s.Greatest.HullGirth })
	out.Greatest.FullGirth = all(func(s Survey) Reading { return s.Greatest.FullGirth })
	out.Greatest.Opening = all(func(s Survey) Reading { return s.Greatest.Opening })
	out.Transom.HullGirth = all(func(s Survey) Reading { return s.Transom.HullGirth })
	out.Transom.FullGirth = all(func(s Survey) Reading { return s.Transom.FullGirth })
	out.Stations = m.stations(surveys)
	return out
}

// stations gathers the rows at each place; a row that one document has twice
// stays twice.
func (m *merger) stations(surveys []Survey) []Station {
	type row struct {
		at         Length
		copy       int
		hull, full []said
	}
	var rows []*row
	for _, s := range surveys {
		for i, st := range s.Stations {
			copies := 0
			for _, before := range s.Stations[:i] {
				if same(before.At, st.At, onePlace) {
					copies++
				}
			}
			k := slices.IndexFunc(rows, func(r *row) bool { return same(r.at, st.At, onePlace) && r.copy == copies })
			if k < 0 {
				rows = append(rows, &row{at: st.At, copy: copies})
				k = len(rows) - 1
			}
			rows[k].hull = append(rows[k].hull, said{st.HullGirth, s.Unit})
			rows[k].full = append(rows[k].full, said{st.FullGirth, s.Unit})
		}
	}
	if len(surveys) > 1 {
		slices.SortStableFunc(rows, func(a, b *row) int {
			if !same(a.at, b.at, onePlace) {
				if a.at < b.at {
					return -1
				}
				return 1
			}
			return a.copy - b.copy
		})
	}
	var out []Station
	for _, r := range rows {
		out = append(out, Station{r.at, Pair{m.reading(r.hull), m.reading(r.full)}})
	}
	return out
}

// reading makes one of what was said of one number.
func (m *merger) reading(list []said) Reading {
	list = slices.DeleteFunc(slices.Clone(list), func(r said) bool { return r.Absent() })
	if len(list) == 0 {
		return Reading{}
	}
	best := list[0]
	for _, r := range list[1:] {
		if r.Known != best.Known || r.Known && !same(r.Value, best.Value, tolerance(r.unit, best.unit)) ||
			!r.Known && !slices.Equal(r.Alternatives, best.Alternatives) {
			return m.disagree(list)
		}
		source := best.Source
		if r.Confidence > best.Confidence || r.unit == m.unit && best.unit != m.unit {
			confidence := max(r.Confidence, best.Confidence)
			best = r
			best.Confidence = confidence
		}
		best.Source = source
	}
	return best.Reading
}

// disagree returns a reading without a value and with all that was said.
func (m *merger) disagree(list []said) Reading {
	var texts []string
	var out []Candidate
	for _, r := range list {
		texts = append(texts, fmt.Sprintf("%q (%s)", r.Source.Raw, where(r.Source)))
		candidates := r.Alternatives
		if r.Known {
			candidates = append([]Candidate{{r.Value, r.Confidence}}, candidates...)
		}
		for _, c := range candidates {
			if !slices.ContainsFunc(out, func(o Candidate) bool { return same(o.Value, c.Value, exactly) }) {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Candidate) int {
		if a.Value < b.Value {
			return -1
		}
		if a.Value > b.Value {
			return 1
		}
		return 0
	})
	for i := range out {
		out[i].Probability = 1 / float64(len(out))
	}
	m.problems = append(m.problems, Problem{
		Code:    CodeSourcesDiffer,
		Source:  list[0].Source,
		Message: "Different values are given: " + strings.Join(texts, ", ") + ".",
	})
	return Reading{Alternatives: out, Source: list[0].Source}
}

// bothTexts keeps the first of two texts that say the same; different ones are both
// kept, for a person to see.
func bothTexts(a, b string) string {
	switch {
	case b == "" || Fold(a) == Fold(b):
		return a
	case a == "":
		return b
	}
	parts := strings.Split(a, " / ")
	if slices.ContainsFunc(parts, func(p string) bool { return Fold(p) == Fold(b) }) {
		return a
	}
	parts = append(parts, b)
	slices.Sort(parts) // whichever came first
	return strings.Join(parts, " / ")
}
