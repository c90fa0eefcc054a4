package prose

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// run is stations that follow each other in running text, several to a line or
// broken anywhere: "1 ft 39.5 57.5, 2 ft 43.5 69".
type run struct {
	words []string // folded; words[i] stands before nums[i]
	nums  []item
	first int  // the number that begins the first station
	size  int  // numbers of a station: its place, and what was measured there
	one   role // the girth, where it is the same in all
}

const (
	// runLeast is how many stations a run has at least, and bareLeast where no
	// unit sets their places apart from their girths.
	runLeast  = 3
	bareLeast = 4
)

var (
	// runJoint is what stands between the numbers of a run, and runPlace what
	// stands before the next station.
	runJoint = regexp.MustCompile(`^(?:[\s,;:/|=\-()>.&+]|and|et|then|puis)*$`)
	runPlace = regexp.MustCompile(`^(?:[\s,;:/|=\-()>.&+*•·]|and|et|then|puis)*(?:\b(?:at|station|stn|sta|st|a|poste)\b\.?\s*)?$`)
)

// paragraph is lines up to a blank one, scanned as one text.
type paragraph struct {
	lines []line
	text  string
	ends  []int    // where each line ends in the text
	words []string // folded; words[i] stands before nums[i]
	nums  []item
	at    []int // where each number begins in the text
}

func newParagraph(lines []line) *paragraph {
	p := &paragraph{}
	for len(p.lines) < len(lines) && !lines[len(p.lines)].blank() && lines[len(p.lines)].cells == nil {
		p.lines = lines[:len(p.lines)+1]
	}
	p.text, p.ends = joinLines(p.lines)
	words, nums, _ := weave(scan(p.text))
	for _, w := range words {
		p.words = append(p.words, parse.Fold(graveA.Replace(w)))
	}
	p.nums, p.at = nums, offsets(p.text, nums)
	return p
}

// lineOf is the line on which a number begins.
func (p *paragraph) lineOf(num int) int { return p.lineAt(p.at[num]) }

func (p *paragraph) lineAt(offset int) int {
	line, _ := slices.BinarySearch(p.ends, offset+1)
	return min(line, len(p.ends)-1)
}

// run reads a run that begins on a line of a paragraph, and returns how many
// lines it takes up to the one on which it ends; what follows it there is left.
func (r *reader) run(p *paragraph, first int) (n int, ok bool) {
	start := 0
	if first > 0 {
		start = p.ends[first-1]
	}
	begins, _ := slices.BinarySearch(p.at, start)
	for i := begins; i < len(p.nums) && p.lineOf(i) == first; i++ {
		u := run{words: p.words, nums: p.nums, first: i}
		intro := p.text[start:p.at[i]]
		head := r.rolesOf(intro, &u)
		count := u.stations(head)
		end := i + count*u.size
		if count == 0 || end < len(p.nums) && runJoint.MatchString(u.words[end]) {
			continue
		}
		after := p.at[end-1] + len(strings.TrimSpace(p.nums[end-1].text))
		last := p.lineAt(after - 1)
		if count <= last-first+1 {
			return 0, false // a line each
		}
		r.intro(intro, p.lines[first])
		r.reached = u.nums[end-u.size].amount.Number
		if r.header == nil && u.one == noRole {
			r.header = head
		}
		for i := u.first; i < end; i += u.size {
			r.stationOfRun(u, i, p.lines[p.lineOf(i)].place())
		}
		p.lines[last].text = strings.TrimLeft(p.text[after:p.ends[last]], " .,;)")
		return last - first, true
	}
	return 0, false
}

// rolesOf finds what the words before a run, or those on the lines above it,
// say of its numbers: one girth for all, or headings in their order.
func (r *reader) rolesOf(intro string, u *run) []table.Cell {
	u.size, u.one = 3, noRole
	sentences := cut(intro)
	if len(sentences) > 0 {
		s := parse.Fold(sentences[len(sentences)-1])
		if head := bothNamed(s); head != nil {
			u.size = len(head)
			return head
		}
		if l := labelOf(s); l.place == noPlace && (l.role == hull || l.role == full) {
			u.size, u.one = 2, l.role
			return nil
		}
	}
	switch {
	case r.header != nil:
		u.size = len(r.header)
	case r.section != noRole && u.nums[u.first].amount.Number > r.reached:
		u.size, u.one = 2, r.section
	}
	return r.header
}

// stations counts the stations of a run; 0 when its numbers leave open which
// is which.
func (u run) stations(head []table.Cell) int {
	count, bare := 0, false
	var before, step float64
	even := true
	for i := u.first; i+u.size <= len(u.nums); i += u.size {
		place := u.nums[i]
		if place.fault.Some() || i > u.first && !runPlace.MatchString(u.words[i]) || !afterPlace.MatchString(u.words[i+1]) {
			break
		}
		for _, w := range u.words[i+2 : i+u.size] {
			if !runJoint.MatchString(w) {
				return 0
			}
		}
		if i == u.first {
			bare = place.amount.Scale == parse.Bare
		}
		distance := place.amount.Number
		if l, ok := place.amount.Length(parse.Bare); ok {
			distance = float64(l)
		}
		if bare != (place.amount.Scale == parse.Bare) || distance <= before {
			break
		}
		if count > 0 {
			even = even && (count == 1 || distance-before == step)
			step = distance - before
		}
		before = distance
		count++
	}
	switch {
	case count < runLeast, bare && (count < bareLeast || !even || head == nil || u.one != noRole):
		return 0
	case u.one == noRole && !u.paired(head, count), !u.alike(count):
		return 0
	}
	return count
}

// smallestPart is the share of the largest girth below which no girth of the
// same boat lies: common practice, no source.
const smallestPart = 1.0 / 8

// alike reports girths that can be those of one boat: stations listed in a row
// of their own are none.
func (u run) alike(count int) bool {
	least, most := math.Inf(1), 0.0
	for i := u.first; i < u.first+count*u.size; i += u.size {
		for _, n := range u.nums[i+1 : i+min(u.size, 3)] {
			if l, _ := n.amount.Length(parse.ScaleInch); !n.fault.Some() {
				least, most = min(least, float64(l)), max(most, float64(l))
			}
		}
	}
	return least >= smallestPart*most
}

// paired reports that the two girths of nearly all stations fit their headings,
// or fit each other in one order where there are none.
func (u run) paired(head []table.Cell, count int) bool {
	up, down := 0, 0
	for i := u.first; i < u.first+count*u.size; i += u.size {
		a, b := u.nums[i+1].amount.Number, u.nums[i+2].amount.Number
		switch {
		case u.nums[i+1].fault.Some() || u.nums[i+2].fault.Some():
		case a < b && b <= 2*a:
			up++
		case b < a && a <= 2*b:
			down++
		}
	}
	if head != nil && head[1].Text == "full girth" || head == nil && down > up {
		up, down = down, up
	}
	return up > 0 && up >= swappedOneIn*(count-up)
}

// stationOfRun hands over one station.
func (r *reader) stationOfRun(u run, i int, where string) {
	row := make([]table.Cell, u.size)
	for k, n := range u.nums[i : i+u.size] {
		row[k] = table.Cell{Text: strings.TrimSpace(n.text), Place: where}
	}
	switch u.one {
	case hull:
		r.pair([]table.Cell{row[0], row[1], {Place: where}})
	case full:
		r.pair([]table.Cell{row[0], {Place: where}, row[1]})
	default:
		r.block = append(r.block, row)
	}
}

// intro reads what stands before a run on its first line.
func (r *reader) intro(text string, l line) {
	r.endRow()
	for _, s := range cut(text) {
		if measuredNumbers(s) || !r.heading(s, l.place()) {
			r.sentence(s, l.place())
		}
	}
}

// joinLines puts the lines of a paragraph after each other; ends are where each
// of them ends in the text.
func joinLines(lines []line) (text string, ends []int) {
	var b strings.Builder
	for i, l := range lines {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strings.TrimSpace(l.text))
		ends = append(ends, b.Len())
	}
	return b.String(), ends
}

// offsets finds where in a text each of its numbers begins.
func offsets(text string, nums []item) []int {
	at, from := make([]int, len(nums)), 0
	for i, n := range nums {
		raw := strings.TrimSpace(n.text)
		if k := strings.Index(text[from:], raw); k >= 0 {
			from += k
		}
		at[i] = from
		from = min(len(text), from+len(raw))
	}
	return at
}
