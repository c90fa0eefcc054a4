package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// withComments returns the rows of a sheet, and the lines of comment that stand
// beside them.
func (s *sheet) withComments() [][]*item {
	if len(s.aside) == 0 {
		return s.items
	}
	return append(slices.Clone(s.items), s.aside)
}

// A note hangs on a number, a name or a heading. What it says reaches the number
// on which it hangs; else those of its row; else those of its column.

// NotesOn returns the readings of a document that the note on a cell of a grid
// reaches.
func NotesOn(doc *parse.Document, g Grid, row, col int) []*parse.Reading {
	at := map[string]*parse.Reading{}
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			if !r.Absent() {
				at[r.Source.Place] = r
			}
		})
	}
	var reached []*parse.Reading
	reach := func(c Cell) {
		if r := at[c.Place]; r != nil && c.Place != "" {
			reached = append(reached, r)
		}
	}
	if reach(g.Rows[row][col]); len(reached) > 0 {
		return reached
	}
	for _, c := range g.Rows[row] {
		reach(c)
	}
	if len(reached) > 0 {
		return reached
	}
	for _, below := range g.Rows[row:] {
		if col < len(below) {
			reach(below[col])
		}
	}
	return reached
}

// Doubtful reports a note after which the number that it speaks of may not be
// taken as it stands: it says so, or gives another.
func Doubtful(note string, on Cell) bool {
	folded := parse.Fold(note)
	if saidRight.MatchString(folded) && !strings.Contains(folded, "?") {
		return false
	}
	return parse.DoubtsHere(note) || givesAnother(folded, on)
}

// saidRight says of the number on which a note hangs that it is the one.
var saidRight = regexp.MustCompile(`\b(?:this|that|it|this one|this number|the number here)(?:'s| is| was)(?: now)? (?:the )?(?:right|correct|good|true|exact)(?: one| number)?(?:[.,;!)]|$)|\b(?:c'est|celle-ci est) (?:la bonne|bon|bonne|juste|exacte?)(?:[.,;!)]|$)`)

// noteNumber is a number of a note that may be a length; otherNumber is one of
// something else.
var (
	noteNumber  = regexp.MustCompile(`\d+(?:[.,]\d+)?(?: \d/\d)?`)
	otherNumber = regexp.MustCompile(`\d+(?:[.,]\d+)? ?(?:min\w*|h|hrs?|hours?|heures?|s|sec\w*|days?|jours?|years?|ans|°|%|times|fois|kg|lbs?|people|of|jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)\b`)
)

// givesAnother reports a note with a length that is about as large as the number
// on which it hangs, and another: a second try.
func givesAnother(note string, on Cell) bool {
	a, f := parse.ParseLength(on.Text)
	if f.Some() || a.Number == 0 {
		return false
	}
	return slices.ContainsFunc(noteNumber.FindAllString(otherNumber.ReplaceAllString(note, ""), -1), func(text string) bool {
		n, f := parse.ParseLength(strings.TrimSpace(text))
		ratio := n.Number / a.Number
		return !f.Some() && ratio != 1 && ratio > 1/clearRatio && ratio < clearRatio
	})
}
