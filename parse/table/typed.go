package table

import (
	"fmt"
	"strings"

	"fairtape/parse"
)

// Words reads lines of text that are no table. Its places are "line 12".
type Words func(file, text string) parse.Document

// OrWords returns what was read of the grids, or what the lines of the same
// grids say as typed text where that gives more numbers: a list, or a letter
// that was printed. The place of each line is what line says of its grid and row.
func OrWords(asTable parse.Document, grids []Grid, words Words, line func(g Grid, row int) string) parse.Document {
	if words == nil || certain(asTable) > 0 && !strays(asTable) {
		return asTable
	}
	var text, places []string
	for _, g := range grids {
		for i, row := range g.Rows {
			var cells []string
			for _, c := range row {
				if c.Text == "" {
					continue
				}
				cells = append(cells, strings.ReplaceAll(c.Text, "\n", " "))
			}
			text, places = append(text, strings.Join(cells, "   ")), append(places, line(g, i))
		}
	}
	asText := words(asTable.File, strings.Join(text, "\n"))
	if certain(asText) <= certain(asTable) {
		return asTable
	}
	for i := range asText.Surveys {
		asText.Surveys[i].Each(func(r *parse.Reading) { r.Source.Place = lineOf(r.Source.Place, places) })
	}
	for i := range asText.Problems {
		asText.Problems[i].Source.Place = lineOf(asText.Problems[i].Source.Place, places)
	}
	return asText
}

// lineOf turns the place of a line of the text into its own.
func lineOf(place string, places []string) string {
	var n int
	if _, err := fmt.Sscanf(place, "line %d", &n); err != nil || n < 1 || n > len(places) {
		return place
	}
	return places[n-1]
}

func certain(doc parse.Document) (n int) {
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			if r.Certain() {
				n++
			}
		})
	}
	return n
}

// strays reports numbers that found no place.
func strays(doc parse.Document) bool {
	for _, p := range doc.Problems {
		if p.Code == parse.CodeUnplaced || p.Code == parse.CodeColumnsUnclear {
			return true
		}
	}
	return false
}
