package table

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
)

var (
	numberEnds     = regexp.MustCompile(`\d\s*$`)
	fractionBegins = regexp.MustCompile(`^\s*\d{1,2}\s*/\s*(?:2|4|8|16)\b["”″]?,?`)
)

// sentenceWords is how many words a cell of running text has at least. Labels
// and stations have fewer, and a row that begins with a fraction under one of
// them is a row.
const sentenceWords = 5

// unwrapped puts a number together again that a line of running text broke
// before its fraction: "... full girth 97" over `1/2", opening 40"`. Read by the
// line it would be 97.
func unwrapped(g Grid) Grid {
	rows := slices.Clone(g.Rows)
	for i := 0; i+1 < len(rows); i++ {
		above, below := lastWritten(rows[i]), firstWritten(rows[i+1])
		if above < 0 || below < 0 || !numberEnds.MatchString(rows[i][above].Text) || len(strings.Fields(rowText(rows[i]))) < sentenceWords {
			continue
		}
		fraction := fractionBegins.FindString(rows[i+1][below].Text)
		if fraction == "" {
			continue
		}
		rows[i], rows[i+1] = slices.Clone(rows[i]), slices.Clone(rows[i+1])
		rows[i][above].Text = strings.TrimSpace(rows[i][above].Text) + " " + strings.TrimSpace(fraction)
		rows[i+1][below].Text = strings.TrimSpace(rows[i+1][below].Text[len(fraction):])
	}
	g.Rows = rows
	return g
}

func rowText(row []Cell) string {
	var words []string
	for _, c := range row {
		if strings.ContainsFunc(c.Text, unicode.IsLetter) {
			words = append(words, c.Text)
		}
	}
	return strings.Join(words, " ")
}

func firstWritten(row []Cell) int {
	return slices.IndexFunc(row, func(c Cell) bool { return strings.TrimSpace(c.Text) != "" })
}

func lastWritten(row []Cell) int {
	for i := len(row) - 1; i >= 0; i-- {
		if strings.TrimSpace(row[i].Text) != "" {
			return i
		}
	}
	return -1
}
