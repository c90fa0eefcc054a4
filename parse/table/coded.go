package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// Short names may be made of a letter for the girth and the number of the
// station, "H3" and "F3", with a sentence that says so or without.

var (
	codeName  = regexp.MustCompile(`^(\pL{1,2}) ?(\d{1,3})(\s*[:=].*)?$`)
	codeSaid  = regexp.MustCompile(`\b(\pL{1,2}) ?(?:\d{1,3})?\b[ ,]*(?:=|:|-|\bis\b|\bare\b|\bmeans\b|\bfor\b|\best\b)? ?([^,.;=]+)`)
	codePlace = regexp.MustCompile(`\d ?(ft|feet|foot|'|in|inch(?:es)?|"|cm|mm|pi|pieds?|po|pouces?)(?:[^\pL]|$)`)
)

// codes are the letters of such names: which girth each stands for, and the unit
// of the stations where it is said.
type codes struct {
	girth map[string]role
	unit  string
}

// codesNamed writes such names out: "hull girth at 3 ft", "hull girth at station 3".
func codesNamed(grids []Grid) []Grid {
	numbers := map[string][]string{} // by letters, in the order of the file
	for _, g := range grids {
		for _, row := range g.Rows {
			for _, c := range row {
				if m := codeName.FindStringSubmatch(parse.Fold(c.Text)); m != nil {
					numbers[m[1]] = append(numbers[m[1]], m[2])
				}
			}
		}
	}
	said := codesOf(grids, numbers)
	if len(said.girth) == 0 {
		return grids
	}
	out := slices.Clone(grids)
	for i := range out {
		out[i].Rows = slices.Clone(out[i].Rows)
		for r, row := range out[i].Rows {
			out[i].Rows[r] = slices.Clone(row)
			for c := range row {
				cell := &out[i].Rows[r][c]
				if m := codeName.FindStringSubmatch(parse.Fold(cell.Text)); m != nil && said.girth[m[1]] != noRole {
					cell.Raw, cell.Text = cell.Text, said.name(m[1], m[2])+m[3]
				}
			}
		}
	}
	return out
}

func (c codes) name(letters, number string) string {
	girth := "hull girth"
	if c.girth[letters] == roleFull {
		girth = "full girth"
	}
	if c.unit == "" {
		return girth + " at station " + number
	}
	return girth + " at " + number + " " + c.unit
}

// codesOf finds the two letters that stand before the same numbers, and what
// they mean: by what is said of them, else by their English names.
func codesOf(grids []Grid, numbers map[string][]string) codes {
	said := codes{girth: map[string]role{}}
	for letters, of := range numbers {
		if len(of) < fewRows {
			continue
		}
		slices.Sort(of)
		said.girth[letters] = map[string]role{"h": roleHull, "f": roleFull}[letters]
	}
	for _, g := range grids {
		for _, row := range g.Rows {
			for _, c := range row {
				said.hear(parse.Fold(c.Text))
			}
		}
	}
	var hull, full []string
	for letters, r := range said.girth {
		switch r {
		case roleHull:
			hull = append(hull, letters)
		case roleFull:
			full = append(full, letters)
		}
	}
	if len(hull) != 1 || len(full) != 1 || !slices.Equal(numbers[hull[0]], numbers[full[0]]) || len(slices.Compact(slices.Clone(numbers[hull[0]]))) != len(numbers[hull[0]]) {
		return codes{}
	}
	return said
}

// hear takes from a sentence what the letters stand for.
func (c *codes) hear(text string) {
	if len(strings.Fields(text)) < 3 {
		return
	}
	for _, m := range codeSaid.FindAllStringSubmatch(text, -1) {
		r := roleOf(strings.TrimSpace(m[2]))
		if _, code := c.girth[m[1]]; !code || r != roleHull && r != roleFull {
			continue
		}
		c.girth[m[1]] = r
		if unit := codePlace.FindStringSubmatch(m[2]); unit != nil {
			c.unit = unit[1]
		}
	}
}
