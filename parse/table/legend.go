package table

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// A legend says what the letters over the columns stand for: "U = girth under
// the hull, L = full loop".
var (
	legendEntry = regexp.MustCompile(`(?:^|[,;.(] ?|\band )(?:col(?:umn|onne)?\.? )?([a-z]{1,2}|[a-z]\d) ?(?:=|:|\bis\b|\bmeans\b|-) ?([^,;.=:]+)`)
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
	for _, row := range s.items {
		for _, it := range row {
			if !it.word() || len(it.folded) > 3*longestLabel {
				continue
			}
			all := parse.Bare
			if i := strings.LastIndex(it.folded, ","); i >= 0 {
				all = scaleOfWord(strings.TrimPrefix(strings.TrimSpace(it.folded[i+1:]), "in "))
			}
			for _, m := range legendEntry.FindAllStringSubmatch(it.folded, -1) {
				text := strings.TrimSpace(m[2])
				if unsureRemark.MatchString(text) {
					s.unsure[m[1]] = true
				}
				says := meaning{roleOf(text), headingScale(text)}
				if says.scale == parse.Bare {
					says.scale = all
				}
				if says.role == noRole || says.role == roleNotes || unitOnly.MatchString(m[1]) {
					continue
				}
				it.legend = true
				if before, twice := s.legend[m[1]]; twice && before.role != says.role {
					says.role = noRole
				}
				s.legend[m[1]] = says
			}
		}
	}
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
