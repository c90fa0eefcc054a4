package table

import (
	"fmt"
	"regexp"
	"slices"

	"fairtape/parse"
)

// correctedWords head a column whose numbers take the place of those beside
// them: "Hull girth corrected".
var correctedWords = regexp.MustCompile(`\b(?:corrected|corrections?|revised|amended|corrigee?s?|rectifiee?s?)\b`)

// corrected keeps of several numbers of one girth the corrected one. That the
// other no longer counts is said.
func (v view) corrected(entries []entry) []entry {
	isNew := func(e entry) bool { return e.instead }
	i := slices.IndexFunc(entries, isNew)
	if i < 0 || entries[i].fault.Some() || slices.ContainsFunc(entries[i+1:], isNew) {
		return entries
	}
	for k, e := range entries {
		if k != i {
			v.problem(parse.CodeSecondTry, e.item, fmt.Sprintf("The column of corrections gives %q in its place, and that is read.", entries[i].Text))
		}
	}
	return entries[i : i+1]
}
