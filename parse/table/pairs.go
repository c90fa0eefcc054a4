package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// Both girths of a station may stand in one cell: "38 / 52 1/2", "38 & 52",
// "hull 38, full 52".

var (
	// pairSign may part two numbers. Some of these signs also stand within one
	// length, so a cell is a pair only where one of them leaves a length on
	// either side and the cell as a whole is none.
	pairSign = regexp.MustCompile(`\s*(?:/|&|;|\||\+|,\s|\n|\(|\sx\s|\b(?:and|then|et|puis)\b)\s*`)
	// rangeSign parts the ends of a range, and a pair only where the heading
	// names both girths.
	rangeSign = regexp.MustCompile(`\s*(?:-|\.\.+|…|\bto\b)\s*`)
	// labelSign is the space between a number with its words and the next.
	labelSign = regexp.MustCompile(`[\d"'\pL)] (\pL)|\pL (\d)`)
)

// splitPair parts a text that holds two lengths and nothing else.
func splitPair(text string) (first, second string, ok bool) {
	p, ok := pairIn(text, pairSign)
	return p.first, p.second, ok && p.words == [2]string{}
}

// pair is what a cell with both girths says: two lengths, each with the words
// that stand with it.
type pair struct {
	first, second string
	words         [2]string
}

func pairIn(text string, signs ...*regexp.Regexp) (pair, bool) {
	var lines []string
	for _, line := range strings.Split(text, "\n") {
		lines = append(lines, parse.Plain(line))
	}
	text = strings.Join(lines, "\n")
	if _, f := parse.ParseLength(text); !f.Some() || len(text) > longestLabel {
		return pair{}, false
	}
	var found []pair
	for _, sign := range signs {
		for _, at := range sign.FindAllStringSubmatchIndex(text, -1) {
			left, right := text[:at[0]], text[at[1]:]
			for group := 2; group < len(at); group += 2 {
				if i := at[group]; i >= 0 {
					left, right = text[:i], text[i:]
				}
			}
			if strings.Contains(text[at[0]:at[1]], "(") {
				right = strings.TrimSuffix(right, ")")
			}
			p, ok := pair{}, false
			if p.words[0], p.first, ok = wordsAndLength(left); !ok {
				continue
			}
			if p.words[1], p.second, ok = wordsAndLength(right); ok && !slices.Contains(found, p) {
				found = append(found, p)
			}
		}
	}
	if len(found) != 1 {
		return pair{}, false
	}
	return found[0], true
}

// wordsAndLength parts "hull 38" or "38 (hull)" into the words and the length.
func wordsAndLength(text string) (words, length string, ok bool) {
	text = strings.Trim(text, " ,;:")
	start := firstDigit(text)
	if start < 0 {
		return "", "", false
	}
	before := strings.Trim(parse.Fold(text[:start]), " :=.(")
	for end := len(text); end > start; end = strings.LastIndexAny(text[:end], " (") {
		length, after := strings.TrimRight(text[start:end], " ,;:-"), strings.Trim(parse.Fold(text[end:]), " :=.()")
		if _, f := parse.ParseLength(length); f.Some() {
			continue
		}
		switch {
		case firstDigit(after) >= 0 || before != "" && after != "" || unitOnly.MatchString(before):
			return "", "", false
		}
		return before + after, length, true
	}
	return "", "", false
}

// splitPairs gives each girth a column of its own where the cells of a column,
// or of a row, hold both.
func splitPairs(g Grid) Grid {
	for _, turn := range []func(Grid) Grid{func(g Grid) Grid { return g }, turned} {
		g = turn(g)
		for c := 0; c < width(g); c++ {
			if run, ok := pairColumn(g, c); ok {
				g = run.split(g)
				c++
			}
		}
		g = turn(g)
	}
	return g
}

func width(g Grid) int {
	w := 0
	for _, row := range g.Rows {
		w = max(w, len(row))
	}
	return w
}

// turned lays a grid on its side.
func turned(g Grid) Grid {
	rows := make([][]Cell, width(g))
	for c := range rows {
		rows[c] = make([]Cell, len(g.Rows))
		for r, row := range g.Rows {
			if c < len(row) {
				rows[c][r] = row[c]
				rows[c][r].Across, rows[c][r].Down = row[c].Down, row[c].Across
			}
		}
	}
	g.Rows = rows
	return g
}

// pairRun is a column of pairs, or the part of one that is.
type pairRun struct {
	heading, column int // row of the heading, -1 when there is none
	pairs           map[int]pair
	first, last     int // rows
	heads           [2]string
}

// pairColumn finds the pairs of a column, and which girth comes first: by the
// heading, by the words in the cells, or by the numbers where they leave no
// choice.
func pairColumn(g Grid, c int) (pairRun, bool) {
	run := pairRun{heading: -1, column: c, pairs: map[int]pair{}}
	named := false // the heading names both girths
	for r, row := range g.Rows {
		if c >= len(row) || row[c].Text == "" {
			continue
		}
		if first, second, ok := bothHeadings(row[c].Text); ok && len(run.pairs) == 0 {
			run.heading, run.heads, named = r, [2]string{first, second}, true
			continue
		}
		signs := []*regexp.Regexp{pairSign}
		if named {
			signs = append(signs, rangeSign)
		}
		p, ok := pairIn(row[c].Text, signs...)
		if !ok {
			p, ok = pairIn(row[c].Text, labelSign)
			ok = ok && p.words[0] != "" && p.words[1] != ""
		}
		switch {
		case ok && row[c].Code == "":
			if len(run.pairs) == 0 {
				run.first = r
			}
			run.pairs[r], run.last = p, r
		case len(run.pairs) == 0 && firstDigit(row[c].Text) < 0:
			run.heading, named = r, false
		}
	}
	if len(run.pairs) < fewRows {
		return run, false
	}
	return run, named || run.sort(g)
}

// sort finds the order of pairs whose heading does not tell.
func (run *pairRun) sort(g Grid) bool {
	var x, y []float64
	words := [2]string{}
	for r := run.first; r <= run.last; r++ {
		p, ok := run.pairs[r]
		if !ok {
			continue
		}
		if roleOf(p.words[0]) == roleFull && roleOf(p.words[1]) == roleHull {
			p.first, p.second = p.second, p.first
			p.words = [2]string{p.words[1], p.words[0]}
			run.pairs[r] = p
		}
		if len(x) > 0 && words != p.words {
			return false
		}
		words = p.words
		a, _ := parse.ParseLength(p.first)
		b, _ := parse.ParseLength(p.second)
		x, y = append(x, a.Number), append(y, b.Number)
	}
	unit := ""
	if run.heading >= 0 {
		unit = unitText(parse.Fold(g.Rows[run.heading][run.column].Text))
	}
	run.heads = [2]string{"hull girth" + unit, "full girth" + unit}
	switch {
	case roleOf(words[0]) == roleHull && roleOf(words[1]) == roleFull:
		return true
	case run.heading >= 0 && !opensPair(parse.Fold(g.Rows[run.heading][run.column].Text)):
		return false
	case len(words[0]) > 1 || len(words[1]) > 1: // a letter may stand for anything
		return false
	case hullThenFull(y, x):
		run.heads[0], run.heads[1] = run.heads[1], run.heads[0]
		return true
	}
	return hullThenFull(x, y)
}

// opensPair reports a heading that leaves it open which girth it speaks of, and
// so may speak of both.
func opensPair(heading string) bool {
	r := roleOf(heading)
	return (r == roleGirth || r == noRole) && labelOf(heading).none()
}

// bothHeadings parts a heading that names both girths, in its order; the unit
// counts for both.
func bothHeadings(text string) (first, second string, ok bool) {
	s := parse.Fold(text)
	h, f := hullWords.FindStringIndex(s), fullWords.FindStringIndex(s)
	if h == nil || f == nil || len(s) > longestLabel || strings.ContainsAny(s, "0123456789") || !labelOf(s).none() {
		return "", "", false
	}
	if h[0] < f[0] {
		return "hull girth" + unitText(s), "full girth" + unitText(s), true
	}
	return "full girth" + unitText(s), "hull girth" + unitText(s), true
}

func unitText(heading string) string {
	if scale := headingScale(heading); scale != parse.Bare {
		return " (" + string(scale) + ")"
	}
	return ""
}

// split makes two columns of the one. A lone number among the pairs may be
// either girth.
func (run pairRun) split(g Grid) Grid {
	rows := make([][]Cell, len(g.Rows))
	for r, row := range g.Rows {
		rows[r] = slices.Clone(row)
		if run.column >= len(row) {
			continue
		}
		left, right := row[run.column], Cell{Place: row[run.column].Place}
		p, ok := run.pairs[r]
		switch {
		case r == run.heading:
			left.Text, right.Text = run.heads[0], run.heads[1]
		case ok:
			left.Text, right.Text = p.first, p.second
		case r > run.first && r < run.last && firstDigit(left.Text) >= 0 && left.Code == "":
			left.Code = parse.CodeColumnsUnclear
		}
		rows[r][run.column] = left
		rows[r] = slices.Insert(rows[r], run.column+1, right)
	}
	g.Rows = rows
	return g
}
