package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A key may say what short names stand for, one in a row, on the same sheet or
// on one of its own: "Gh | Hull girth", and over the numbers "Gh [in]".

var (
	symbolName  = regexp.MustCompile(`^\pL{1,3}\d?$`)
	symbolShown = regexp.MustCompile(`^(\pL{1,3}\d?)\s*([\[(][^\])]*[\])])?$`)
)

// fewSymbols is how many names a key has at least, and oftenSymbol how many
// times one stands outside it at most: a letter that is there more often is a
// tick.
const (
	fewSymbols  = 3
	oftenSymbol = 4
)

// spot is the place of a cell in the grids of a file.
type spot struct{ grid, row, col int }

// spelledOut puts what a key says in place of the short names it explains.
func spelledOut(grids []Grid) []Grid {
	says, keys := symbolsOf(grids)
	if len(says) == 0 {
		return grids
	}
	shown := map[string][]spot{}
	for i, g := range grids {
		for r, row := range g.Rows {
			for c, cell := range row {
				m := symbolShown.FindStringSubmatch(strings.TrimSpace(cell.Text))
				if m != nil && says[m[1]] != "" && !keys[spot{i, r, c}] {
					shown[m[1]] = append(shown[m[1]], spot{i, r, c})
				}
			}
		}
	}
	out := slices.Clone(grids)
	for i := range out {
		out[i].Rows = slices.Clone(out[i].Rows)
		for r := range out[i].Rows {
			out[i].Rows[r] = slices.Clone(out[i].Rows[r])
		}
	}
	for name, spots := range shown {
		if len(spots) > oftenSymbol {
			continue
		}
		for _, at := range spots {
			cell := &out[at.grid].Rows[at.row][at.col]
			cell.Raw = cell.Text
			cell.Text = strings.TrimSpace(says[name] + " " + symbolShown.FindStringSubmatch(strings.TrimSpace(cell.Text))[2])
		}
	}
	return out
}

// symbolsOf finds the keys of a file: what each name stands for, and the cells
// of the names. A name with two meanings has none.
func symbolsOf(grids []Grid) (says map[string]string, keys map[spot]bool) {
	says, keys = map[string]string{}, map[spot]bool{}
	for i, g := range grids {
		for c := 0; c < width(g); c++ {
			found := map[spot]string{}
			for r, row := range g.Rows {
				if c < len(row) && symbolName.MatchString(strings.TrimSpace(row[c].Text)) && !unitOnly.MatchString(parse.Fold(row[c].Text)) {
					if text := describes(row[c+1:]); text != "" {
						found[spot{i, r, c}] = text
					}
				}
			}
			if len(found) < fewSymbols {
				continue
			}
			for at, text := range found {
				name := strings.TrimSpace(g.Rows[at.row][at.col].Text)
				if before, twice := says[name]; twice && before != text {
					text = ""
				}
				says[name] = text
				keys[at] = true
			}
		}
	}
	return says, keys
}

// describes returns the first text of a row that names a measure; "" when a
// number or other words come first.
func describes(row []Cell) string {
	for _, cell := range row {
		s := parse.Fold(cell.Text)
		if s == "" {
			continue
		}
		r := roleOf(s)
		if firstDigit(s) >= 0 || labelOf(s).measure == "" && !r.girth() && r != roleStation {
			return ""
		}
		return strings.TrimSpace(cell.Text)
	}
	return ""
}
