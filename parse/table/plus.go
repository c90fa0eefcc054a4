package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A sign behind a number may stand for a fraction, where a legend says so: "A +
// means and a half". Where none does, "35+" is a rough number.

var (
	partSaid   = regexp.MustCompile(`(?:\d+ ?)?(\+|\*|\b(?:plus|asterisk|star|asterisque|etoile)\b)([^.;?]{0,40}?)(?:=|:|\b(?:means?|is|are|for|says?|veut dire|signifie|est)\b)([^.;?]{0,30}?)\b(half|halves|demie?s?|1/2|quarters?|1/4|quarts?)\b(?: (?:an |of an |d'un |de )?(?:inch(?:es)?|in|pouces?|po)\b)?( (?:or|ou)\b)?`)
	partUnsure = regexp.MustCompile(`\b(?:or|ou|about|more|less|least|most|nearly|almost|roughly|up|between|environ|presque|moins|under|over|not|pas)\b`)
	partMarked = regexp.MustCompile(`^(\d+) ?(in\b|inch(?:es)?|"|po\b|pouces?)? ?(\+|\*|plus)( ?(?:in|inch(?:es)?|"|po|pouces?))?$`)
)

// withParts writes out the fractions that a sign stands for, in all sheets of a
// file. A sign with two meanings has none.
func withParts(grids []Grid) []Grid {
	parts := map[string]string{}
	for _, g := range grids {
		for _, row := range append(slices.Clone(g.Rows), g.Comments) {
			for _, c := range row {
				for sign, part := range partsSaid(c.Text) {
					if before, twice := parts[sign]; twice && before != part {
						part = ""
					}
					parts[sign] = part
				}
			}
		}
	}
	if len(parts) == 0 {
		return grids // most files
	}
	out := slices.Clone(grids)
	for i := range out {
		out[i].Rows = slices.Clone(out[i].Rows)
		for r, row := range out[i].Rows {
			out[i].Rows[r] = slices.Clone(row)
			for c := range row {
				cell := &out[i].Rows[r][c]
				text := parse.Fold(cell.Text)
				if m := partMarked.FindStringSubmatch(text); m != nil && parts[signOf(m[3])] != "" && cell.Code == "" {
					cell.Raw, cell.Text = cell.Text, strings.TrimSpace(m[1]+" "+parts[signOf(m[3])]+" "+m[2]+m[4])
				} else if len(partsSaid(cell.Text)) > 0 {
					cell.Raw, cell.Text = cell.Text, strings.Trim(partSaid.ReplaceAllString(text, ""), " ,.;")
				}
			}
		}
	}
	return out
}

// partsSaid is what fraction a text says that a sign stands for.
func partsSaid(text string) map[string]string {
	if len(text) > 2*longestLabel || !strings.ContainsAny(text, "+*") && len(strings.Fields(text)) < fewWords {
		return nil
	}
	parts := map[string]string{}
	for _, m := range partSaid.FindAllStringSubmatch(parse.Fold(text), -1) {
		part := "1/2"
		switch {
		case partUnsure.MatchString(m[2]), partUnsure.MatchString(m[3]), m[5] != "":
			part = ""
		case strings.HasPrefix(m[4], "q"), m[4] == "1/4":
			part = "1/4"
		}
		if before, twice := parts[signOf(m[1])]; twice && before != part {
			part = ""
		}
		parts[signOf(m[1])] = part
	}
	return parts
}

// fewWords is how many words a legend has at least that names its sign: "plus
// means half".
const fewWords = 3

func signOf(word string) string {
	switch word {
	case "+", "plus":
		return "+"
	}
	return "*"
}
