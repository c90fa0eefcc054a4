package prose

import "regexp"

// Places may stand beside each other with the girths of each below it: cards in
// rows, a table on its side in several bands.

// band is a line of places and the lines of numbers below it.
type band struct {
	places []numeral
	lines  [][]numeral
}

// bandsBelow puts the numbers of bands into the order of their places, each
// followed by the two girths that stand below it; nil where there are no bands.
// What heads the girths of the first band heads those of the others.
func bandsBelow(all []numeral) (out []numeral) {
	var heads [2]string
	for _, b := range bandsOf(byLine(all)) {
		girths, ok := b.girths(&heads)
		if !ok {
			return nil
		}
		for i, place := range b.places {
			place.words, place.first = "", true
			out = append(append(out, place), girths[i]...)
		}
	}
	return out
}

func byLine(all []numeral) (lines [][]numeral) {
	for i, n := range all {
		if i == 0 || n.line != all[i-1].line {
			lines = append(lines, nil)
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], n)
	}
	return lines
}

// bandsOf finds bands whose places go on from each other.
func bandsOf(lines [][]numeral) (bands []band) {
	for _, line := range lines {
		n := len(bands)
		switch {
		case n == 0 && len(line) > 1 && inSteps(line, line[0]):
			bands = append(bands, band{places: line})
		case n > 0 && line[0].risesFrom(bands[n-1].last(), bands[0].places[0]) && inSteps(line, bands[0].places[0]):
			bands = append(bands, band{places: line})
		case n > 0:
			bands[n-1].lines = append(bands[n-1].lines, line)
		}
	}
	return bands
}

func (b band) last() numeral { return b.places[len(b.places)-1] }

// inSteps reports places that rise by one step.
func inSteps(places []numeral, first numeral) bool {
	for i := 1; i < len(places); i++ {
		if !places[i].risesFrom(places[i-1], first) {
			return false
		}
	}
	return true
}

// girths are the two numbers below each place: side by side on one line, or on a
// line for each girth.
func (b band) girths(heads *[2]string) (below [][]numeral, ok bool) {
	n := len(b.places)
	below = make([][]numeral, n)
	switch {
	case len(b.lines) > 0 && len(b.lines[0]) == 2*n:
		line := b.lines[0]
		if first, second := inTurn(line[0].words); first != "" {
			*heads = [2]string{first, second}
		}
		for i := range below {
			a, c := line[2*i], line[2*i+1]
			if heads[0] != "" {
				a.words, c.words = heads[0], heads[1]
			}
			below[i] = []numeral{a, c}
		}
	case len(b.lines) > 1 && len(b.lines[0]) == n && len(b.lines[1]) == n:
		for i := range below {
			a, c := b.lines[0][i], b.lines[1][i]
			a.words, c.words = b.lines[0][0].words, b.lines[1][0].words
			below[i] = []numeral{a, c}
		}
	default:
		return nil, false
	}
	return below, true
}

// girthNames are the names of the girths in the words over a list.
var girthNames = regexp.MustCompile(`\b(?:hull|coque|full|complet)\b`)
