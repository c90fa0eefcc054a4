package table

import (
	"fmt"
	"regexp"
	"slices"

	"fairtape/parse"
)

// unsureRemark is what people write beside a row of whose numbers they are not
// sure, or of which one is wrong.
var (
	unsureRemark = regexp.MustCompile(`\b(?:should (?:be|read|have been)|wrong|mistake|instead of|not (?:too |quite |very )?sure|unsure|uncertain|doubtful|guess(?:ed|es|work|ing)?|estimate[ds]?|maybe|perhaps|re-?check|check (?:again|this)|measure again|redo|typo|oops|ignore|devrait|erreur|faux|fausse|plutot|au lieu|pas sure?|incertaine?|douteu(?:x|se)|estimee?s?|ne pas (?:en )?tenir compte|a ignorer|ignore[rz]|a verifier|a refaire|peut-etre|approximati\pL+)\b|^(?:or|ou) \d`)
	// roughRemark says so without a word of right and wrong.
	roughRemark    = regexp.MustCompile(`^\?+$|\b(?:rough(?:ly)?|approx\w*|doubts?|doubted|hard to (?:read|see|tell|reach|say)|could(?: well)? be|might(?: well)? be|may (?:well )?be (?:off|out|wrong|less|more|\d)|questionable|suspect|suspicious|unreliable|not (?:reliable|certain|happy|confident|to be (?:relied|trusted))|(?:don't|do not|can't) (?:rely|trust|swear)|illegible|(?:tape|it|rope|ruban) (?:\pL+ )?(?:slipped|sagg(?:ed|ing)|twisted|slack|loose|caught)|slipped|to be (?:re-?)?(?:confirmed|checked|verified|measured)|needs (?:re-?)?(?:checking|measuring)|not 100|by eye|eyeballed|a l'oeil|tbc|interpolated|computed from|calculated|copied|from (?:the |a )?(?:plans?|drawings?|brochures?|catalogu?e|website)|not (?:really |actually )?measured|interpolee?s?|calculee?s?|copiee?s?|d'apres (?:le |les )?(?:plans?|catalogue)|pas (?:ete )?mesuree?s?|doute|hesit\w+|pas (?:tres )?certaine?|a revoir|a reprendre|a confirmer|a peu pres|environ|au pif|illisible|a glisse|mal (?:mesuree?|lue?|prise?))\b`)
	correctionHead = regexp.MustCompile(`\bcorrections?\b`)
)

// doubtful reports words after which the number beside them may not be taken as
// it stands.
func doubtful(folded string) bool {
	return unsureRemark.MatchString(folded) || roughRemark.MatchString(folded) && !settled.MatchString(folded)
}

// settled says that what went wrong was put right: "the tape slipped, done again".
var settled = regexp.MustCompile(`\b(?:(?:done|did|taken|took|measured|tried|checked) (?:it |this |that |them )?(?:again|over|anew|twice|once more)|re-?(?:done|did|measured|taken|checked)|refaite?s?|recommencee?s?|remesuree?s?|reprise?s?)\b`)

// roughLabel says of the number under a heading, or beside a label, that it is
// not sure, or was not measured.
var roughLabel = regexp.MustCompile(`\b(?:approx\w*|rough(?:ly)?|guess\w*|estimat\w+|estimee?s?|environ|by eye|a l'oeil|not sure|unsure|uncertain|doubtful|pas sure?|incertaine?s?|douteu(?:x|se)s?|a verifier|a refaire|from (?:the |a )?(?:plans?|drawings?|brochures?|catalogu?e|website)|d'apres (?:le |les )?(?:plans?|catalogue))\b`)

// A column may ask of each row whether it is sure: "Sure?" with no below,
// "Doubtful" with a cross, "Confidence" with low.
var (
	sureHead       = regexp.MustCompile(`^(?:(?:are )?you |am i |is it |etes-vous )?(?:certain|reliable|trust(?:ed)?|sure?s?|certaine?s?|fiables?)(?: (?:of it|about it|with it))? ?\?*$`)
	doubtHead      = regexp.MustCompile(`^(?:doubt(?:s|ful|ed)?|unsure|not sure|uncertain|guess(?:ed)?|estimated?|rough|approx\w*\.?|re-?check|check again|to check|(?:to )?(?:be )?re-?(?:do|done|measured?)|doutes?|douteu(?:x|se)s?|incertaine?s?|pas sure?|estimee?s?|a verifier|a refaire|a revoir) ?\?*$`)
	confidenceHead = regexp.MustCompile(`^(?:confidence|quality|certainty|reliability|how sure|confiance|qualite|certitude|fiabilite)\b`)
	littleTrust    = regexp.MustCompile(`^(?:low|poor|bad|medium|fair|so-so|not (?:good|sure|very)|little|faible|basse?|moyen(?:ne)?|mauvaise?|mediocre|peu)\b|^[0-8]?\d ?%$`)
)

func answersDoubt(heading, cell string) bool {
	switch {
	case sureHead.MatchString(heading):
		return noWords.MatchString(cell) || doubtful(cell)
	case doubtHead.MatchString(heading):
		return cell != "" && !noWords.MatchString(cell) && !blankWords.MatchString(cell) || cell == "x"
	case confidenceHead.MatchString(heading):
		return littleTrust.MatchString(cell)
	}
	return false
}

// doubtRow doubts the girths of a row whose remark does so, or those of them that
// it names.
func (t *tableRows) doubtRow(r int, line row) {
	for _, it := range t.remarksOf(r) {
		doubt := parse.Fault{Code: parse.CodeApproximate, Message: fmt.Sprintf("The remark in this row says that it may not be right: %q.", it.Text)}
		hull := hullWords.MatchString(it.folded) || withoutTop.MatchString(it.folded)
		full := fullWords.MatchString(it.folded) || withTop.MatchString(it.folded)
		for _, girth := range []struct {
			tries []entry
			named bool
		}{{line.hull, hull}, {line.full, full}} {
			for i := range girth.tries {
				if girth.named || hull == full {
					girth.tries[i].doubt = doubt
				}
			}
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
	return doubtful(it.folded) || slices.ContainsFunc(letterEnd.Split(it.folded, -1), func(letter string) bool { return s.unsure[letter] })
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
