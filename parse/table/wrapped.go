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
// line it would be 97. So it does with a list of numbers whose last words stand
// on the next line: "... 220 cm au" over "complet, 65 cm en travers."
func unwrapped(g Grid) Grid {
	rows := slices.Clone(g.Rows)
	for i := 0; i+1 < len(rows); i++ {
		above, below := lastWritten(rows[i]), firstWritten(rows[i+1])
		if above < 0 || below < 0 || len(strings.Fields(rowText(rows[i]))) < sentenceWords {
			continue
		}
		goesOn := rows[i+1][below].Text
		if numberEnds.MatchString(rows[i][above].Text) {
			goesOn = fractionBegins.FindString(goesOn)
		} else if !alone(rows[i], above) || !alone(rows[i+1], below) || !listBroken(rows[i][above].Text, goesOn) {
			continue
		}
		if goesOn == "" {
			continue
		}
		rows[i], rows[i+1] = slices.Clone(rows[i]), slices.Clone(rows[i+1])
		rows[i][above].Text = strings.TrimSpace(rows[i][above].Text) + " " + strings.TrimSpace(goesOn)
		rows[i+1][below].Text = strings.TrimSpace(rows[i+1][below].Text[len(goesOn):])
	}
	g.Rows = rows
	return g
}

var (
	listBegins = regexp.MustCompile(`\d.*,.*\d.*\pL$`)
	wordBegins = regexp.MustCompile(`^\p{Ll}+[,;.]? `)
)

// listBroken reports a line with several numbers that ends in a word, and one
// that begins with the end of what is said there.
func listBroken(above, below string) bool {
	head := labelHead(below)
	return listBegins.MatchString(above) && wordBegins.MatchString(below) && labelOf(head).none() && labelOf(labelHead(above)).group == groupGreatest
}

func alone(row []Cell, c int) bool { return firstWritten(row) == c && lastWritten(row) == c }

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
