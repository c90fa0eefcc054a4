package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// divider is what people type between a place and the girths there.
var divider = regexp.MustCompile(`\s*\.{3,}\s*|\s\.{2}\s|\s+[/;|]\s+|\s*[-=]+>\s*|\s*[→⇒➔]\s*|[:;,]\s+|\s+-\s+`)

const (
	dividedCells = 3 // a place and two girths
	dividedWords = 6 // of a cell at most; more is a sentence
)

// dividedRow reads a line of a typed table in which something stands in place
// of a number, or around it: "5 ft ... same ... 73 1/2", "5 ft / 49 or 50 / 81".
func (r *reader) dividedRow(l line) bool {
	texts := divider.Split(strings.TrimSpace(l.text), dividedCells)
	if len(texts) != dividedCells || !saysPlace(texts[0]) || len(r.block) == 0 && r.header == nil {
		return false
	}
	row := []table.Cell{{Text: texts[0], Place: l.place()}}
	for _, text := range texts[1:] {
		s := parse.Fold(text)
		if s == "" || len(strings.Fields(s)) > dividedWords || labelOf(s).some() || stationWord.MatchString(s) {
			return false
		}
		row = append(row, table.Cell{Text: text, Place: l.place()})
	}
	r.endRow()
	r.block = append(r.block, row)
	return true
}
