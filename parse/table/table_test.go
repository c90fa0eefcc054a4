package table

import (
	"fmt"
	"slices"
	"strings"

	"fairtape/parse"
)

// grid makes a grid of lines whose cells are divided by bars.
func grid(text string) Grid {
	var g Grid
	for r, line := range strings.Split(strings.Trim(text, "\n"), "\n") {
		var row []Cell
		for c, cell := range strings.Split(line, "|") {
			row = append(row, Cell{Text: strings.TrimSpace(cell), Place: fmt.Sprintf("%c%d", 'A'+c, r+1)})
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// brief writes a survey in one line, doubtful readings with a question mark.
func brief(s parse.Survey) string {
	one := func(r parse.Reading) string {
		switch {
		case r.Absent():
			return "-"
		case !r.Known:
			return "?"
		case !r.Certain():
			return fmt.Sprintf("%g?", r.Value.In(s.Unit))
		}
		return fmt.Sprintf("%g", r.Value.In(s.Unit))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s loa=%s bow=%s stern=%s carry=%s greatest=%s,%s,%s,%s", s.Unit, one(s.LengthOverall), one(s.BowHeight),
		one(s.SternHeight), one(s.CarryPoint), one(s.Greatest.At), one(s.Greatest.HullGirth), one(s.Greatest.FullGirth), one(s.Greatest.Opening))
	if !s.Transom.HullGirth.Absent() || !s.Transom.FullGirth.Absent() {
		fmt.Fprintf(&b, " transom=%s,%s", one(s.Transom.HullGirth), one(s.Transom.FullGirth))
	}
	if s.Decked {
		b.WriteString(" decked")
	}
	if s.Stern == parse.Square {
		b.WriteString(" square")
	}
	for _, st := range s.Stations {
		fmt.Fprintf(&b, " %g:%s,%s", st.At.In(s.Unit), one(st.HullGirth), one(st.FullGirth))
	}
	return b.String()
}

func sortWords(words []string) string {
	words = slices.Clone(words)
	slices.Sort(words)
	return strings.Join(words, " ")
}
