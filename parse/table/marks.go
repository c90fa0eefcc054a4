package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A mark behind a number may point to a note: "57*" and "* over the deck". The
// readers of files write a raised figure or letter in brackets: "57 [1]".

var (
	markedNumber = regexp.MustCompile(`^(.*\d.*?) ?(\[\w{1,2}\]|\*{1,3}|†|‡|[¹²³⁴⁵⁶⁷⁸⁹])$`)
	markedNote   = regexp.MustCompile(`^(?:\[(\w{1,2})\]|(\w{1,2})[.):]?\s|(\*{1,3}|†|‡|[¹²³⁴⁵⁶⁷⁸⁹]))\s*[=:-]?\s*(\pL.*)$`)
	// otherThan says that the number is more or less than what was measured.
	otherThan = regexp.MustCompile(`\b(?:check(?:ed)?|again|hal(?:f|ves)|doubled?|twice|minus|plus|less|more|shorte?r?|inside|moitie|demi|moins|interieure?)\b`)
)

// UnsureNote reports a remark after which the number that it speaks of may not
// be taken as it stands.
func UnsureNote(text string) bool {
	return parse.DoubtsHere(text) || otherThan.MatchString(parse.Fold(text))
}

// withoutMarks takes the marks of notes from the numbers that they stand behind.
// A mark without a note, or whose note says that the number is not sure, is left,
// and with it the number to a person.
func withoutMarks(grids []Grid) []Grid {
	marked := func(c Cell) bool { return strings.ContainsAny(c.Text, "[*†‡¹²³⁴⁵⁶⁷⁸⁹") }
	if !slices.ContainsFunc(grids, func(g Grid) bool {
		return slices.ContainsFunc(g.Rows, func(row []Cell) bool { return slices.ContainsFunc(row, marked) })
	}) {
		return grids // most files
	}
	sure := notesOf(grids)
	out := slices.Clone(grids)
	for i := range out {
		out[i].Rows = slices.Clone(out[i].Rows)
		for r, row := range out[i].Rows {
			out[i].Rows[r] = slices.Clone(row)
			for c := range row {
				cell := &out[i].Rows[r][c]
				m := markedNumber.FindStringSubmatch(strings.TrimSpace(cell.Text))
				if m == nil || !sure[strings.Trim(m[2], "[]")] {
					continue
				}
				if _, f := parse.ParseLength(m[1]); !f.Some() {
					cell.Raw, cell.Text = cell.Text, m[1]
				}
			}
		}
	}
	return out
}

// notesOf returns the marks that have a note, and whether all of them leave the
// number as it is.
func notesOf(grids []Grid) map[string]bool {
	sure := map[string]bool{}
	hear := func(text string) {
		m := markedNote.FindStringSubmatch(strings.TrimSpace(text))
		if m == nil || len(strings.Fields(m[4])) < 2 {
			return
		}
		mark := m[1] + m[2] + m[3]
		before, twice := sure[mark]
		sure[mark] = !UnsureNote(m[4]) && (before || !twice)
	}
	for _, g := range grids {
		for _, row := range g.Rows {
			if first := firstWritten(row); first >= 0 {
				hear(row[first].Text)
			}
		}
		for _, c := range g.Comments {
			hear(c.Text)
		}
	}
	return sure
}
