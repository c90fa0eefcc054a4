package prose

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// series is the stations of a list that names only the first and the last of
// them: "hull girth at every foot from 1 ft to 4 ft: 30, 36, 40, 41".
type series struct {
	from, to float64
	scale    parse.Scale // Bare where stations are counted
}

var throughWords = regexp.MustCompile(`^\s*(?:to|through|thru|until|up to|at|jusqu'at|-|–)\s*$`)

// seriesSteps are the distances between stations that people use.
var seriesSteps = map[parse.Scale][]float64{
	parse.Bare: {1}, parse.ScaleFoot: {0.5, 1, 2}, parse.ScaleInch: {6, 12, 24}, parse.ScaleCM: {15, 20, 25, 30, 50, 60},
}

// seriesOf reads a list of one girth that begins on a line of a paragraph, and
// returns how many lines it takes up to the one on which it ends. The list
// counts only where it has exactly a number for every station.
func (r *reader) seriesOf(p *paragraph, first int) (n int, ok bool) {
	start := 0
	if first > 0 {
		start = p.ends[first-1]
	}
	i := slices.IndexFunc(p.at, func(at int) bool { return at >= start })
	if i < 0 || p.lineOf(i) > first+1 {
		return 0, false
	}
	l := labelOf(parse.Fold(p.text[start:p.at[i]]))
	if l.role != hull && l.role != full || l.place != noPlace {
		return 0, false
	}
	over, given := p.seriesAt(i)
	if given {
		i += 2
	} else {
		over = r.series
	}
	end := i + 1
	for end < len(p.nums) && runJoint.MatchString(p.words[end]) {
		end++
	}
	if end-i < runLeast || over.to == 0 || end > len(p.nums) {
		return 0, false
	}
	step := (over.to - over.from) / float64(end-i-1)
	if !slices.Contains(seriesSteps[over.scale], step) {
		return 0, false
	}
	r.series = over
	r.endRow()
	r.endBlock()
	for k, num := range p.nums[i:end] {
		where := p.lines[p.lineOf(i+k)].place()
		name := fmt.Sprintf("%g %s", over.from+step*float64(k), over.scale)
		if over.scale == parse.Bare {
			name = "station " + name
		}
		row := []table.Cell{{Text: strings.TrimSpace(name), Place: where}, {Place: where}, {Place: where}}
		row[map[role]int{hull: 1, full: 2}[l.role]].Text = strings.TrimSpace(num.text)
		r.pair(row)
	}
	after := p.at[end-1] + len(strings.TrimSpace(p.nums[end-1].text))
	last := p.lineAt(after - 1)
	p.lines[last].text = strings.TrimLeft(p.text[after:p.ends[last]], " .,;)")
	return last - first, true
}

// seriesAt reads the first and the last station of a series.
func (p *paragraph) seriesAt(i int) (s series, ok bool) {
	if i+1 >= len(p.nums) || !throughWords.MatchString(p.words[i+1]) || p.nums[i].fault.Some() || p.nums[i+1].fault.Some() {
		return series{}, false
	}
	a, b := p.nums[i].amount, p.nums[i+1].amount
	s = series{a.Number, b.Number, b.Scale}
	if a.Scale != parse.Bare && a.Scale != b.Scale || s.from <= 0 || s.to <= s.from {
		return series{}, false
	}
	return s, true
}
