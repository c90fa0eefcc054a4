package sheet

import (
	"regexp"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// heedNotes tells a document what the notes on its cells say: a number that one
// doubts is no longer sure, and a number in one is not lost.
func heedNotes(doc *parse.Document, grids []table.Grid) {
	for _, g := range grids {
		for r, row := range g.Rows {
			for c, cell := range row {
				if cell.Note != "" {
					heedNote(doc, g, r, c)
				}
			}
		}
	}
}

// noted is the confidence of a number of which a note says that it may be wrong.
const noted = 0.5

func heedNote(doc *parse.Document, g table.Grid, r, c int) {
	cell := g.Rows[r][c]
	message := ""
	if table.Doubtful(cell.Note, cell) {
		for _, reading := range table.NotesOn(doc, g, r, c) {
			reading.Confidence = min(reading.Confidence, noted)
			message = "The note here says that this number may not be right."
		}
	}
	if message == "" && strings.ContainsAny(cell.Note, "0123456789") {
		message = "A note on this cell holds a number, which was not read."
	}
	if message != "" {
		doc.Problems = append(doc.Problems, parse.Problem{
			Code: CodeNote, Source: parse.Source{File: doc.File, Place: cell.Place, Raw: cell.Note}, Message: message,
		})
	}
}

// otherPlace is in a note that speaks of another number than that on which it
// hangs.
var otherPlace = regexp.MustCompile(`\b(?:stations?|rows?|lines?|lignes?|postes?|bow|stern|carry|overall|etrave|poupe|portage)\b|\d ?(?:ft|feet|'|cm)`)

// noteRemarks are the notes of grids as remarks, for whoever reads sentences:
// those that have been heeded only where they speak of another number too.
func noteRemarks(file string, grids []table.Grid) (all []parse.Source) {
	for _, g := range grids {
		for _, row := range g.Rows {
			for _, c := range row {
				if c.Note != "" && (!table.Doubtful(c.Note, c) || otherPlace.MatchString(parse.Fold(c.Note))) {
					all = append(all, parse.Source{File: file, Place: c.Place, Raw: c.Note})
				}
			}
		}
	}
	return all
}

// What a comment between the lines of a text speaks of, where it says so.
var (
	ofAbove = regexp.MustCompile(`\b(?:above|previous|preceding|last|this|ci-dessus|precedente?s?|cette)\b`)
	ofBelow = regexp.MustCompile(`\b(?:below|next|following|this|ci-dessous|suivante?s?|cette)\b`)
)

// hangComments hangs the comments of a grid, which stand in its rows, on the lines
// before or after them of which they speak: "# the line above is a guess".
func hangComments(g table.Grid, rows []int) {
	for i, at := range rows {
		comment := g.Comments[i].Text
		folded := parse.Fold(comment)
		if !table.Doubtful(comment, table.Cell{}) {
			continue
		}
		for _, side := range []struct {
			speaks *regexp.Regexp
			step   int
		}{{ofAbove, -1}, {ofBelow, 1}} {
			if !side.speaks.MatchString(folded) {
				continue
			}
			r := at + side.step
			for r >= 0 && r < len(g.Rows) && len(g.Rows[r]) == 0 {
				r += side.step
			}
			if r >= 0 && r < len(g.Rows) {
				note := &g.Rows[r][0].Note
				*note = strings.TrimSpace(*note + " " + comment)
			}
		}
	}
}
