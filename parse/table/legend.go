package table

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// A legend says what the letters over the columns stand for: "U = girth under
// the hull, L = full loop".
var (
	legendEntry = regexp.MustCompile(`(?:^|[,;:.(] ?|\b(?:and|et) )(?:(?:a |an |un |une |the |le |la )?(?:col(?:umn|onne)?|letter|lettre|mark|marque|flag)s?\.? )?["']?([a-z]{1,2}|[a-z]\d|[*~!?†‡°]{1,3})["']?(?: ?(?:=|:|\b(?:is|means?|for|signifie|veut dire)\b) ?| ?- )([^,;.=:]+)`)
	legendName  = regexp.MustCompile(`^(?:col(?:umn|onne)?\.? |(?:girth|tour) )?([a-z]{1,2}|[a-z]\d)(?: ?[(\[].*)?$`)
)

// meaning is what a letter stands for, and its unit.
type meaning struct {
	role  role
	scale parse.Scale
}

// readLegends finds the legends of a sheet. A letter with two meanings has none;
// one that may say that a number is not sure does: "U = uncertain".
// A unit at the end, "..., inches", is that of all.
func (s *sheet) readLegends() {
	s.legend, s.unsure = map[string]meaning{}, map[string]bool{}
	for _, row := range s.withComments() {
		if mark, says, ok := keyLine(row); ok && parse.DoubtsHere(says) {
			s.unsure[mark] = true
		}
		for _, it := range row {
			if !it.word() || len(it.folded) > 3*longestLabel {
				continue
			}
			all := parse.Bare
			if i := strings.LastIndex(it.folded, ","); i >= 0 {
				all = scaleOfWord(strings.TrimPrefix(strings.TrimSpace(it.folded[i+1:]), "in "))
			}
			found := legendEntry.FindAllStringSubmatchIndex(it.folded, -1)
			for i, at := range found {
				letter, text := it.folded[at[2]:at[3]], strings.TrimSpace(it.folded[at[4]:at[5]])
				end := len(it.folded)
				if i+1 < len(found) {
					end = found[i+1][0]
				}
				if doubts := it.folded[at[4]:end]; parse.DoubtsHere(doubts) {
					s.unsure[letter] = true
				}
				says := meaning{roleOf(text), headingScale(text)}
				if says.scale == parse.Bare {
					says.scale = all
				}
				if says.role == noRole || says.role == roleNotes || unitOnly.MatchString(letter) {
					continue
				}
				it.legend = true
				if before, twice := s.legend[letter]; twice && before.role != says.role {
					says.role = noRole
				}
				s.legend[letter] = says
			}
		}
	}
}

var keyMark = regexp.MustCompile(`^["'(]?([a-z]{1,2}|[*~!?†‡°]{1,3})["')]?\.?$`)

// keyLine reads a line of a key that has a cell for the mark, and one for what it
// means, and no other.
func keyLine(row []*item) (mark, says string, ok bool) {
	var filled []*item
	for _, it := range row {
		if !it.empty() {
			filled = append(filled, it)
		}
	}
	if len(filled) != 2 || !keyMark.MatchString(filled[0].folded) || !filled[1].word() {
		return "", "", false
	}
	return keyMark.FindStringSubmatch(filled[0].folded)[1], filled[1].folded, true
}

// meaning is what the legend says of a heading; ok is false when it says
// nothing.
func (s *sheet) meaning(heading string) (says meaning, ok bool) {
	m := legendName.FindStringSubmatch(heading)
	if m == nil {
		return meaning{}, false
	}
	says, ok = s.legend[m[1]]
	return says, ok
}
