package prose

import (
	"math"
	"regexp"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// spot is a place of a boat, or the boat itself, with the numbers said of it.
type spot struct {
	place    place
	at       *item
	where    string // the line
	sentence string
	hull     []item
	full     []item
	opening  []item
	bare     []item // no girth named
	was      []item
	same     bool
	amends   bool // the words say that an earlier number is answered
}

func (s *spot) count() int { return len(s.hull) + len(s.full) + len(s.opening) + len(s.bare) }

// clauseBreak parts what belongs to the number before from what belongs to the
// number after.
var clauseBreak = regexp.MustCompile(`,|;|/|\||\s-+\s|\.\s|\band\b|\bet\b|\bwhile\b|\bbut\b|\bplus\b|\bthen\b|\bpuis\b|\bmais\b|\btandis que\b`)

// restBreak ends what belongs to the last number of a sentence.
var restBreak = regexp.MustCompile(`[,;]|\.\s|\bbut\b|\bmais\b`)

// Sentences that name two numbers, or two places, and mean one: "70 or 71",
// "not 9 ft but 10 ft".
var (
	eitherOr   = regexp.MustCompile(`\d\s*(?:"|'|in\b|inches\b|ft\b|cm\b|po\b)?\s+(?:or|ou|maybe|peut-etre)\s+(?:maybe\s+)?\d`)
	otherPlace = regexp.MustCompile(`\b(?:not|pas)\s+(?:at\s+|a\s+)?\d+\s*(?:ft|feet|foot|pi|pieds|cm|')[^.;]*\b(?:but|mais)\b`)
)

// sentence reads one sentence, or one line of a list.
func (r *reader) sentence(text, where string) {
	text = r.withoutRemarks(figures(gluedComma.ReplaceAllString(text, "$1, $2")), where)
	words, nums, ok := weave(scan(text))
	if !ok {
		r.endBlock()
		r.section = noRole
		s := parse.Fold(text)
		if unit := unitNamed(s); unit != "" && !strings.Contains(s, "nearest") {
			r.unit(unit, where)
		}
		return
	}
	r.endBlock()
	if folded := parse.Fold(text); eitherOr.MatchString(folded) || otherPlace.MatchString(folded) {
		for _, n := range nums {
			r.problem(CodeSentence, where, strings.TrimSpace(n.text), "The sentence leaves open which number, or which place, is meant.")
		}
		return
	}
	words = plainLabel(words)
	w := weaver{reader: r, text: text, where: where, nums: nums}
	for _, p := range words {
		folded := parse.Fold(graveA.Replace(p))
		open := strings.LastIndexByte(folded, '(')
		if open < 0 || strings.Contains(folded[open:], ")") || !labelOf(folded[open:]).some() {
			open = 0
		}
		left := brackets.Replace(folded[:open])
		w.words = append(w.words, left+brackets.Replace(folded[open:]))
		w.open = append(w.open, len(left))
	}
	w.read()
}

// plainLabel puts a plain name in the place of the label of a number that stands
// alone with it, where the label asks for a measure in other words: "Grab handle: 20".
func plainLabel(words []string) []string {
	if len(words) != 2 || strings.Trim(words[1], " .;,)") != "" {
		return words
	}
	label := strings.Trim(parse.Fold(words[0]), " :=-.")
	m, l := table.LabelOf(label), labelOf(label)
	if name := gridNames[m]; name != "" && l.measure != m && (l.role == noRole || l.place == noPlace) {
		return []string{name + ": ", words[1]}
	}
	return words
}

// brackets and quotes around words say nothing of a number.
var brackets = strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ", `"`, " ", string(masked), " "+string(masked)+" ")

// graveA keeps the French "at" apart from the English article when accents are
// taken off.
var graveA = strings.NewReplacer("à", "at", "À", "at")

// weaver reads the numbers of one sentence by the words around them.
type weaver struct {
	*reader
	text, where string
	words       []string // folded; words[i] stands before nums[i], the last after all
	open        []int    // where in them a bracket opens that has the label of the number in it; 0 for none
	nums        []item
	suffix      bool // labels follow their numbers
	facts       []*fact
	amends      bool
	spots       []*spot
	lost        []item // that no word places
}

func (w *weaver) read() {
	w.suffix = !w.firstLabelled()
	amends := correctWords.MatchString(parse.Fold(w.text))
	w.amends = amends
	current := w.row
	if current != nil && current.where != "" && !w.continues() {
		w.endRow()
		current = nil
	}
	begin := func(p place, at *item) *spot {
		s := &spot{place: p, at: at, where: w.where, sentence: w.text}
		w.spots = append(w.spots, s)
		return s
	}
	var last *[]item     // where the number before went
	carried := w.section // "hull at 9 ft": of the numbers that follow the place
	var order []role     // "hull and full at 3 ft": of the two that follow
	if w.placeLast() {
		if current == w.row {
			w.endRow()
		}
		current = begin(station, &w.nums[len(w.nums)-1])
	}
	for i := range w.nums {
		w.nums[i].where = w.where
		w.nums[i].label = unitLast(w.words[i])
		n := w.nums[i]
		if current != nil && current.at == &w.nums[i] {
			continue // taken already
		}
		before, after := w.around(i)
		l := w.labelFor(i, before, after)
		placed := i > 0 && current != nil && current.place == station && current.count() == 0 && current.at == &w.nums[i-1]
		switch {
		case w.wasAt(i) && (current != nil && current.count() > 0 || len(w.facts) > 0):
			if current != nil {
				current.was = append(current.was, n)
			} else {
				f := w.facts[len(w.facts)-1]
				f.was = append(f.was, n)
			}
			amends = true
		case placed && strings.TrimSpace(w.words[i]) == "" && n.amount.Scale == parse.ScaleFoot && samePlace(*current.at, n):
			current.at = &w.nums[i] // "station 3 (3 ft)": the same place again
		case w.placeAt(i, l, before, current):
			if current != nil && current.place == greatest && current.at == nil && (w.goesOn(current) || strings.HasSuffix(strings.TrimSpace(before), "at")) {
				current.at = &w.nums[i]
				break
			}
			switch l.place {
			case greatest, transom:
				current = begin(l.place, &w.nums[i])
			default:
				if current == w.row && current != nil {
					w.endRow()
				}
				current = begin(station, &w.nums[i])
				if w.section != noRole && !w.reach(n.amount.Number) {
					carried = noRole
				}
			}
			if l.role != noRole {
				carried = l.role
			}
			order, last = nil, nil
			if l.role == bothRoles {
				carried, order = noRole, rolesIn(before)
			}
		case l.measure != "":
			f := &fact{measure: l.measure, nums: []item{n}}
			w.facts = append(w.facts, f)
			last = &f.nums
			if current == w.row {
				current = nil
			}
		default:
			if l.place != noPlace && (current == nil || current.place != l.place) {
				current = begin(l.place, nil)
				carried = noRole
			}
			if current == nil && l.role == noRole && last != nil && w.tryAfter(i, *last, n, true) {
				*last = append(*last, n)
				break
			}
			if current == nil {
				w.lost = append(w.lost, n)
				break
			}
			role := l.role
			if role == noRole && len(order) > 0 {
				role, order = order[0], order[1:]
			}
			if role == noRole && last != nil && w.tryAfter(i, *last, n, last != &current.bare) {
				*last = append(*last, n)
				break
			}
			if role == noRole && current.count() == 0 {
				role = carried
			}
			if role == noRole && w.follows(i, last, current) {
				*last = append(*last, n) // what it says of the girth before, a person must see
				break
			}
			last = current.list(role)
			*last = append(*last, n)
		}
	}
	w.settle(amends)
}

// follows reports a number without a name right behind a girth that has one:
// "hull girth 49 in = 104 cm", "hull 47 - no, 42".
func (w *weaver) follows(i int, last *[]item, current *spot) bool {
	return !w.suffix && last != nil && (last == &current.hull || last == &current.full) && labelOf(w.words[i+1]).role != noRole
}

func rolesIn(s string) []role {
	h, f := hullWords.FindStringIndex(s), fullWords.FindStringIndex(s)
	if f[0] < h[0] {
		return []role{full, hull}
	}
	return []role{hull, full}
}

// paired reports a place that has both its girths: what follows on a line of
// its own can be another place.
func (s *spot) paired() bool { return len(s.hull) > 0 && len(s.full) > 0 }

func (s *spot) list(r role) *[]item {
	switch r {
	case hull:
		return &s.hull
	case full:
		return &s.full
	case opening:
		return &s.opening
	}
	return &s.bare
}

// around is what belongs to number i of the words before it and after it.
func (w *weaver) around(i int) (before, after string) {
	before, after = w.words[i], w.words[i+1]
	if open := w.open[i+1]; open > 0 {
		after = after[:open] // "280 cm closed (opening 114 cm)"
	}
	if at := strings.LastIndex(before, ": "); i == 0 && at >= 0 && stationEnds.MatchString(before[at+1:]) {
		if l := labelOf(before[:at]); l.place == noPlace && l.role == noRole {
			before = before[at+1:] // "We went from bow to stern: at 1 ft ..."
		}
	}
	if at := clauseBreak.FindAllStringIndex(before, -1); i == 0 && at != nil {
		// "Held against a plank along the bottom, the bow stands ..."
		if last := before[at[len(at)-1][1]:]; labelOf(before).measure == "" && labelOf(last).measure != "" {
			before = last
		}
	}
	if open := w.open[i]; i > 0 && open > 0 {
		before = before[open:]
	} else if i > 0 {
		if at := clauseBreak.FindAllStringIndex(before, -1); at != nil {
			before = before[at[len(at)-1][1]:]
		} else if w.suffix {
			before = ""
		}
	}
	if i+1 < len(w.nums) {
		if at := clauseBreak.FindStringIndex(after); at != nil {
			after = after[:at[0]]
		} else if !w.suffix {
			after = ""
		}
	} else if at := restBreak.FindStringIndex(after); at != nil && at[0] > 0 || w.suffix && at != nil {
		after = after[:at[0]]
	}
	return before, after
}

// wholeTerm is the name of a measure of the whole boat, spelled out.
var wholeTerm = regexp.MustCompile(`\b(?:bow height|stern height|height of (?:the )?(?:bow|stern)|length over ?all|carry(?:ing)? point|hauteur (?:de |a )?(?:l'|la )?(?:etrave|proue|poupe)|longueur hors[- ]tout|point de portage)\b`)

// thatOf stands for the name of the measure before.
var thatOf = regexp.MustCompile(`\b(?:that of|the one (?:at|of)|celle de|celui de|celle a|celui a) `)

func (w *weaver) labelFor(i int, before, after string) label {
	l := w.labelBeside(before, after)
	if at := clauseBreak.FindAllStringIndex(before, -1); at != nil {
		before = before[at[len(at)-1][1]:]
	}
	if l.measure == parse.LengthOverall && !tellsLength(before+" "+after) {
		return label{} // "my other canoe is 16 ft long"
	}
	return l
}

func (w *weaver) labelBeside(before, after string) label {
	if at := wholeTerm.FindAllStringIndex(before, -1); at != nil {
		before = before[at[len(at)-1][0]:] // what explains the term stands before it
	}
	if n := len(w.facts); n > 0 && (w.facts[n-1].measure == parse.BowHeight || w.facts[n-1].measure == parse.SternHeight) {
		before = thatOf.ReplaceAllString(before, "height ") // "the bow height is 20, that of the stern 18"
	}
	l := labelOf(before)
	if !l.some() || w.suffix {
		if a := labelOf(after); a.some() && (w.suffix || strings.TrimSpace(before) == "") {
			return a
		}
	}
	if !l.some() {
		l.measure = table.MeasureOf(strings.Join(strings.Fields(before+" "+after), " ")) // "the front end is 18 high"
	}
	return l
}

func (w *weaver) wasAt(i int) bool {
	return i > 0 && wasWords.MatchString(strings.TrimRight(w.words[i], " ")+" ")
}

// triesWithin is how far two tries of one number may lie apart: the trade asks
// for a third when they differ by more than half an inch, and a full girth is
// an inch or more above the hull girth.
const (
	triesWithin = 25.4
	// Where the words name the girth, a number joined to another can be
	// nothing but a second try.
	namedTriesWithin = 2.5 * 25.4
)

// tryAfter reports that a number repeats the one before: "47 1/2 and 47 1/2".
func (w *weaver) tryAfter(i int, before []item, n item, named bool) bool {
	if len(before) == 0 || n.fault.Some() || before[0].fault.Some() || !tryJoin.MatchString(w.words[i]) {
		return false
	}
	a, okA := before[0].amount.Length(parse.ScaleInch)
	b, okB := n.amount.Length(parse.ScaleInch)
	within := triesWithin
	if named {
		within = namedTriesWithin
	}
	return okA && okB && math.Abs(float64(a-b)) < within
}
