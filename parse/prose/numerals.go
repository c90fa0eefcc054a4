package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// numeral is one number of a body with the words before it.
type numeral struct {
	item
	line  int    // index
	part  int    // index of the item in its line
	words string // letters only, without those that join numbers
	first bool   // of its line
}

// numerals lists the numbers of a body, and the items of each line.
func numerals(lines []line) (items [][]item, all []numeral) {
	words := ""
	for i, l := range lines {
		if rule.MatchString(strings.TrimSpace(l.text)) {
			items = append(items, []item{{text: l.text}})
			continue
		}
		items = append(items, scan(l.text))
		first := true
		for k, it := range items[i] {
			if !it.number {
				words += " " + it.text
				continue
			}
			it.where = l.place()
			all = append(all, numeral{item: it, line: i, part: k, words: joinless(words), first: first})
			words, first = "", false
		}
	}
	return items, all
}

var (
	notWord  = regexp.MustCompile(`[^\pL]+`)
	joinWord = regexp.MustCompile(`\b(?:and|then|et|puis|at|a|the|is|was)\b`)
)

// joinless keeps of words what can tell one number from another.
func joinless(words string) string {
	s := joinWord.ReplaceAllString(parse.Fold(graveA.Replace(words)), " ")
	return strings.Join(strings.Fields(notWord.ReplaceAllString(s, " ")), " ")
}

func (n numeral) cell() table.Cell {
	return table.Cell{Text: strings.TrimSpace(n.text), Place: n.where}
}

// counts reports a place that the word before it counts: "St. 3", "S3".
func (n numeral) counts() bool {
	return n.amount.Scale == parse.Bare && countsWord.MatchString(n.words)
}

var countsWord = regexp.MustCompile(`(?:^|\s)(?:station|stn|sta|st|s|no|nr|section|frame|row|line|ligne|repere|poste|position|mark)$`)
