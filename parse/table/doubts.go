package table

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// correctionHead heads remarks that put right what stands in their row.
var correctionHead = regexp.MustCompile(`\bcorrections?\b`)

// A column may ask of each row whether it is sure: "Sure?" with no below,
// "Doubtful" with a cross, "Confidence" with low.
var (
	sureHead       = regexp.MustCompile(`^(?:(?:are )?you |am i |is it |etes-vous )?(?:certain|reliable|trust(?:ed)?|sure?s?|certaine?s?|fiables?)(?: (?:of it|about it|with it))? ?\?*$`)
	confidenceHead = regexp.MustCompile(`^(?:confidence|quality|certainty|reliability|how sure|confiance|qualite|certitude|fiabilite)\b`)
	littleTrust    = regexp.MustCompile(`^(?:low|poor|bad|medium|fair|so-so|not (?:good|sure|very)|little|faible|basse?|moyen(?:ne)?|mauvaise?|mediocre|peu)\b|^[0-8]?\d ?%$`)
)

// doubtHeading is how many words a heading over marks of doubt has at most.
const doubtHeading = 4

func answersDoubt(heading, cell string) bool {
	switch {
	case sureHead.MatchString(heading):
		return noWords.MatchString(cell) || parse.Doubts(cell)
	case parse.Doubts(heading) && len(strings.Fields(heading)) <= doubtHeading:
		return cell != "" && !noWords.MatchString(cell) && !blankWords.MatchString(cell) || cell == "x"
	case confidenceHead.MatchString(heading):
		return littleTrust.MatchString(cell)
	}
	return false
}

// doubtRow doubts the girths of a row whose remark does so, or those of them that
// it names. One that plainly says what is right puts it there.
func (t *tableRows) doubtRow(r int, line row) {
	for _, it := range t.remarksOf(r) {
		hull := hullWords.MatchString(it.folded) || withoutTop.MatchString(it.folded)
		full := fullWords.MatchString(it.folded) || withTop.MatchString(it.folded)
		var meant []*entry
		for _, girth := range []struct {
			tries []entry
			named bool
		}{{line.hull, hull}, {line.full, full}} {
			for i := range girth.tries {
				if girth.named || hull == full {
					meant = append(meant, &girth.tries[i])
				}
			}
		}
		if putRight(it, meant) {
			continue
		}
		for _, e := range meant {
			e.doubt = parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("The remark in this row says that it may not be right: %q.", it.Text)}
		}
	}
}

// remarksOf returns the remarks in a row that doubt it, under a heading or behind
// the last girth.
func (t *tableRows) remarksOf(r int) []*item {
	var remarks []*item
	for _, o := range t.others {
		it := t.at(r, o.at)
		headings := t.headings(t.start, o.at)
		corrects := it.word() && slices.ContainsFunc(headings, correctionHead.MatchString)
		if !it.numeric && !it.empty() && (corrects || t.doubts(it) || len(headings) > 0 && answersDoubt(headings[0], it.folded)) {
			remarks = append(remarks, it)
		}
	}
	last := t.station.at
	for _, g := range t.girths {
		for c := last + 1; c < g.at; c++ { // columns without a heading between the girths
			if it := t.at(r, c); !it.numeric && t.doubts(it) && !slices.Contains(remarks, it) {
				remarks = append(remarks, it)
			}
		}
		last = max(last, g.at)
	}
	for c := last + 1; c < t.cols() && !t.at(r, c).numeric; c++ {
		if it := t.at(r, c); t.doubts(it) && !slices.Contains(remarks, it) {
			remarks = append(remarks, it)
		}
	}
	return remarks
}

// doubts reports a remark, or a letter that the legend makes one, which says
// that a row is not sure.
func (s *sheet) doubts(it *item) bool {
	if s.tellsLook(it) {
		return false // it is heard of all that look so
	}
	return parse.Doubts(it.folded) || slices.ContainsFunc(letterEnd.Split(it.folded, -1), func(letter string) bool { return s.unsure[letter] })
}

// letterEnd parts letters in one cell: "A, U", "B/U".
var letterEnd = regexp.MustCompile(`[ ,;/+&]+`)

// doubtBeside doubts the numbers of a label behind which a remark in the same row
// does so: "Length overall | 15 ft | not sure".
func (s *sheet) doubtBeside(t *tag, cells []*item, entries []entry) {
	last := t.item
	for _, it := range cells {
		if it.row == t.row && it.col > last.col {
			last = it
		}
	}
	for _, it := range s.items[last.row][last.col+1:] {
		switch {
		case it.value() || it.word() && newTag(it) != nil:
			return
		case s.doubts(it):
			doubt := parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("The remark beside this number says that it may not be right: %q.", it.Text)}
			for i := range entries {
				entries[i].doubt = doubt
			}
			return
		}
	}
}
