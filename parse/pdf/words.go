package pdf

import (
	"fmt"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// better returns what the pages say as tables, or as lines of text where that
// gives more numbers: a list or a letter that was printed.
func (s *sheet) better(asTable parse.Document, grids []table.Grid) parse.Document {
	if s.words == nil || certain(asTable) > 0 && !strays(asTable) {
		return asTable
	}
	var text []string
	var places []string // of each line of the text
	for _, g := range grids {
		for i, row := range g.Rows {
			var cells []string
			place := fmt.Sprintf("%s, line %d", g.Name, i+1)
			for _, c := range row {
				if c.Text == "" {
					continue
				}
				cells = append(cells, c.Text)
				if d, ok := s.doubts[c.Place]; ok {
					s.doubtAt(place, d.code, d.message)
				}
			}
			text = append(text, strings.Join(cells, "   "))
			places = append(places, place)
		}
	}
	asText := s.words(s.file, strings.Join(text, "\n"))
	if certain(asText) <= certain(asTable) {
		return asTable
	}
	for i := range asText.Surveys {
		for _, r := range readings(&asText.Surveys[i]) {
			r.Source.Place = pageLine(r.Source.Place, places)
		}
	}
	for i := range asText.Problems {
		asText.Problems[i].Source.Place = pageLine(asText.Problems[i].Source.Place, places)
	}
	return asText
}

// pageLine turns the place of a line of the text into that on its page.
func pageLine(place string, places []string) string {
	var n int
	if _, err := fmt.Sscanf(place, "line %d", &n); err != nil || n < 1 || n > len(places) {
		return place
	}
	return places[n-1]
}

func certain(doc parse.Document) (n int) {
	for i := range doc.Surveys {
		for _, r := range readings(&doc.Surveys[i]) {
			if r.Certain() {
				n++
			}
		}
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
