package pdf

import (
	"fmt"

	"fairtape/parse"
	"fairtape/parse/table"
)

// better returns what the pages say as tables, or as lines of text where that
// gives more numbers. A doubt about any part of a line is one about the line.
func (s *sheet) better(asTable parse.Document, grids []table.Grid) parse.Document {
	line := func(g table.Grid, row int) string { return fmt.Sprintf("%s, line %d", g.Name, row+1) }
	for _, g := range grids {
		for i, row := range g.Rows {
			for _, c := range row {
				s.sharesDoubts(line(g, i), c.Place)
			}
		}
	}
	return table.OrWords(asTable, grids, s.words, line)
}
