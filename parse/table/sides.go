package table

import (
	"math"
	"regexp"
	"slices"

	"fairtape/parse"
)

// A girth may be taken in two halves, from the keel to each gunwale, with their
// sum beside them. The sum is the hull girth.

var (
	portSide  = regexp.MustCompile(`\b(?:port|left|babord|gauche)\b`)
	rightSide = regexp.MustCompile(`\b(?:starboard|stbd|right|tribord|droite?)\b`)
)

// withSum finds the column that is the sum of one of the port side and one of the
// starboard side in every row, and makes it the hull girth.
func (v view) withSum(start int, girths, others []column) (g, o []column) {
	all := slices.Concat(girths, others)
	side := func(words *regexp.Regexp) int {
		return slices.IndexFunc(all, func(c column) bool {
			texts := v.headings(start, c.at)
			return len(texts) > 0 && words.MatchString(texts[0]) && v.mostlyNumbers(start, c.at) && c.role != roleFull && c.role != roleOpening
		})
	}
	port, starboard := side(portSide), side(rightSide)
	if port < 0 || starboard < 0 || port == starboard {
		return girths, others
	}
	sum := slices.IndexFunc(all, func(c column) bool {
		return c.at != all[port].at && c.at != all[starboard].at && c.role != roleFull && v.addsUp(start, all[port].at, all[starboard].at, c.at)
	})
	if sum < 0 {
		return girths, others
	}
	hull := all[sum]
	hull.role = roleHull
	parts := []int{all[port].at, all[starboard].at, hull.at}
	rest := func(columns []column) []column {
		return slices.DeleteFunc(slices.Clone(columns), func(c column) bool { return slices.Contains(parts, c.at) })
	}
	g = append(rest(girths), hull)
	slices.SortFunc(g, func(a, b column) int { return a.at - b.at })
	return g, rest(others)
}

// addsUp reports a column that is the sum of two others in every row but one, and
// doubts it there.
func (v view) addsUp(start, a, b, sum int) bool {
	rows := 0
	var off []*item
	for r := start; r < v.rows() && !v.emptyRow(r); r++ {
		x, y, z := v.at(r, a), v.at(r, b), v.at(r, sum)
		if !x.numeric || !y.numeric || !z.numeric || x.fault.Some() || y.fault.Some() || z.fault.Some() {
			continue
		}
		rows++
		if math.Abs(x.amount.Number+y.amount.Number-z.amount.Number) > sameStep {
			off = append(off, z)
		}
	}
	if rows < fewRows || len(off) > slipsMost {
		return false
	}
	for _, it := range off {
		it.fault = parse.Fault{Code: parse.CodeDerived, Message: "This is not the sum of the two sides.", May: []parse.Amount{it.amount}}
	}
	return true
}

// sumSaying says how a full girth is made: "Full girth = hull girth + opening".
var (
	sumSaying = regexp.MustCompile(`^(.*\pL)(?: ?= ?| (?:is|are|equals?|est|vaut|egale?) (?:the |la |le )?)(\pL[^=]*?)(?: ?\+ ?| (?:plus|and|et|added to|with) (?:the |l'|la |le )?)(\pL[^=]*)$`)
	sayingEnd = regexp.MustCompile(`[.;:]\s+`)
)

// hearSum takes from the words of a sheet that its full girths are those sums.
func (s *sheet) hearSum() {
	for _, row := range s.withComments() {
		for _, it := range row {
			if !it.word() {
				continue
			}
			for _, clause := range sayingEnd.Split(it.folded, -1) {
				m := sumSaying.FindStringSubmatch(clause)
				if m == nil || roleOf(m[1]) != roleFull {
					continue
				}
				a, b := roleOf(m[2]), roleOf(m[3])
				s.sumSaid = s.sumSaid || a == roleHull && b == roleOpening || a == roleOpening && b == roleHull
			}
		}
	}
}
